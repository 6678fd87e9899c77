#include "carding/plan_flat.hpp"

#include "carding/flat.hpp"
#include "carding/habits.hpp"
#include "carding/laid_words.hpp"
#include "carding/words.hpp"
#include "text/words.hpp"

namespace battwright::carding {
namespace {

struct FlatPlanner {
    const FlatWork& work;
    std::vector<Step> steps{};

    bool board() const { return work.carder.kind == ToolKind::board; }
    double share() const { return 1.0 / static_cast<double>(work.plan.batts); }

    Step& add(int pass, StepKind kind, double minutes, std::string text) {
        Step step;
        step.order = static_cast<int>(steps.size()) + 1;
        step.pass = pass;
        step.kind = kind;
        step.minutes = minutes;
        step.on_drum = true;
        step.width_to_mm = work.carder.width_mm;
        step.text = std::move(text);
        return steps.emplace_back(step);
    }

    std::string depth_of(int pass, const Lay& lay) const {
        if (pass < 2) return "";
        if (board() && lay.lies == recipe::Lies::under)
            return ", on the bare board before the rest goes back";
        if (board() && lay.lies == recipe::Lies::between) return ", when half of it is back";
        return lay.lies == recipe::Lies::under ? ", on the empty card first" : ", on top of what is there";
    }

    void lay_down(int pass, const Turn& turn) {
        const Lay& lay = turn.lay;
        const std::size_t chief = chief_of(lay, work.layings);
        const double grams = turn.grams() * share();
        const Portion& portion = work.portions[chief];
        const bool lumps = portion.lump_grams > 0.0;
        std::string text = (lumps ? "Scatter " : "Lay ") + staple::weighed(grams) + " of " +
                           name_of(lay, work.names, work.layings) + " " +
                           place_words(turn, share(), work.carder);
        if (lay.dab_mm > 0.0)
            text += ", " + std::string(measure::row_of(recipe::spreadings, lay.how).word) + " about " +
                    whole_mm(lay.dab_mm) + " wide";
        if (lay.across.soft > 0.0 || lay.round.soft > 0.0) text += ", thinning towards the ends";
        if (turn.times > 1)
            text += ", in " + std::to_string(turn.times) + " thin layers of " +
                    staple::weighed(lay.grams * share()) +
                    (turn.with_others ? ", in turn with the others" : "");
        text += depth_of(pass, lay);
        if (!lumps && !(lay.dab_mm > 0.0)) text += ": draw it over the teeth, a veil at a time";
        Step& step = add(pass, StepKind::feed, grams / habits::grams_per_minute_by_hand, std::move(text));
        step.component = portion.component;
        step.portion = chief;
        step.grams = grams;
        if (lay.blend != no_blend) step.blend = work.layings.blends[lay.blend].name;
        set_place(step, turn, work.carder);
    }

    // All lays of the making, of all passes.
    std::vector<Lay> lays() const {
        if (work.plan.feed.by_hand) return work.layings.lays;
        auto all = lays_of(work.portions, work.plan.feed);
        for (std::size_t p = 0; p < work.portions.size(); ++p) {
            if (work.portions[p].pass < 2 || !(work.portions[p].grams > 0.0)) continue;
            Lay lay{p, work.portions[p].grams};
            lay.pass = work.portions[p].pass;
            all.push_back(lay);
        }
        return all;
    }

    void lay_all(int pass, const std::vector<Lay>& all, std::optional<recipe::Lies> lies) {
        for (const Turn& turn : turns_of(all, pass, lies)) lay_down(pass, turn);
    }

    void card_small_blends() {
        for (const Small& small : work.layings.blends) {
            const auto parts = parts_of(small, share(), work.names, work.layings);
            const double grams = small.grams * share();
            Step& step =
                add(1, StepKind::blend,
                    small.passes * (grams / habits::grams_per_minute_by_hand + habits::brush_minutes),
                    small_blend_text(small, parts, work.carder.kind));
            step.grams = grams;
            step.blend = small.name;
        }
    }

    void on_board(const std::vector<Lay>& all) {
        const Plan& plan = work.plan;
        for (int pass = 1; pass <= plan.passes; ++pass) {
            if (pass > 1)
                add(pass, StepKind::split, habits::strip_minutes * pieces_of(plan.feed, plan.strips, pass),
                    text::capitalised(split_words(plan.feed, plan.strips, pass)));
            lay_all(pass, all, {});
            add(pass, StepKind::brush, habits::brush_minutes,
                "Brush it in with long light strokes along the board, from the edge near you up");
        }
        if (plan.feed.rolags < 1) {
            add(plan.passes, StepKind::doff, habits::doff_minutes, "Lift the finished batt off whole");
            return;
        }
        const double each = work.carder.drum_circumference_mm / plan.feed.rolags;
        add(plan.passes, StepKind::roll, habits::roll_minutes * plan.feed.rolags,
            plan.feed.rolags == 1
                ? "Roll all of it off round two dowels as one rolag, from the edge near you up; spin it from "
                  "its end"
                : "Roll it off round two dowels in " + std::to_string(plan.feed.rolags) +
                      " rolags, from the edge near you up: turn, draw until the fibre parts, about " +
                      whole_mm(each) + " of the length for each. Spin each from its end, in order");
    }

    void on_cards(const std::vector<Lay>& all) {
        const Plan& plan = work.plan;
        const int strokes =
            transfer_of(coarse_grid.depth, reach_of_strokes(work.carder, plan.batt_grams)).strokes;
        for (int pass = 1; pass <= plan.passes;) {
            lay_all(pass, all, {});
            int times = 1;  // until fibre is added again
            while (pass + times <= plan.passes && turns_of(all, pass + times, {}).empty()) ++times;
            std::string text = "Stroke it over to the other card, lightly and without the teeth meshing: " +
                               std::to_string(strokes) +
                               " strokes or so until little is left, and take the rest over in one";
            if (times > 1)
                text += "; then back again, " + text::counted(times, "transfer", "transfers") + " in all";
            add(pass, StepKind::transfer, times * strokes * habits::stroke_minutes, std::move(text));
            pass += times;
        }
        add(plan.passes, StepKind::roll, habits::roll_minutes,
            "Loosen the web off the card and roll it up from the card's edge, so that the fibres lie round "
            "the rolag; spin it from its end");
    }

    void make() {
        add(1, StepKind::weigh,
            habits::weigh_minutes_per_component * static_cast<double>(work.portions.size()) *
                (board() ? 1.0 : habits::rolag_weighs),
            std::string("Weigh everything out for ") + (board() ? "this board" : "one rolag") +
                " and open the fibre by hand");
        card_small_blends();
        const auto all = lays();
        if (board()) {
            on_board(all);
        } else {
            on_cards(all);
        }
    }
};

}  // namespace

std::vector<Step> flat_steps(const FlatWork& work) {
    FlatPlanner planner{work};
    planner.make();
    return std::move(planner.steps);
}

}  // namespace battwright::carding
