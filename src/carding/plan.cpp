#include "carding/plan.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "carding/cautions.hpp"
#include "carding/habits.hpp"
#include "carding/laid_words.hpp"
#include "carding/layings.hpp"
#include "carding/loss.hpp"
#include "carding/plan_flat.hpp"
#include "carding/refold.hpp"
#include "carding/words.hpp"
#include "colour/spaces.hpp"
#include "measure/choices.hpp"
#include "measure/units.hpp"
#include "text/words.hpp"

namespace battwright::carding {
namespace {

using staple::weighed;

struct Planner {
    const recipe::Recipe& recipe;
    const recipe::Carder& carder;
    std::vector<Portion> portions;
    Plan plan;
    std::vector<std::string> names;
    Layings layings;

    double share() const { return 1.0 / static_cast<double>(plan.batts); }

    Step& add(int pass, StepKind kind, double minutes, std::string text) {
        Step step;
        step.order = static_cast<int>(plan.steps.size()) + 1;
        step.pass = pass;
        step.kind = kind;
        step.minutes = minutes;
        step.text = std::move(text);
        return plan.steps.emplace_back(step);
    }

    FeedThickness thickness_of(const Portion& portion) const {
        if (portion.diameter_um < habits::very_fine_um) return FeedThickness::gauze;
        const bool slick_or_fine =
            portion.diameter_um < habits::fine_um || portion.slipperiness >= habits::slick_from;
        return slick_or_fine ? FeedThickness::thin : FeedThickness::plain;
    }

    Across full_width() const { return {0.0, carder.width_mm}; }

    // Lays `amount` grams of a portion over a width of the drum.
    void feed(int pass, std::size_t index, double amount, const Across& reach, FeedManner manner) {
        const Portion& portion = portions[index];
        const FeedThickness thickness = thickness_of(portion);
        const double rate =
            thickness == FeedThickness::plain ? habits::grams_per_minute : habits::grams_per_minute_fine;
        Step& step = add(pass, StepKind::feed, amount / rate * slowness(), "");
        step.component = portion.component;
        step.portion = index;
        step.grams = amount;
        step.width_from_mm = reach.from;
        step.width_to_mm = reach.to;
        step.thickness = thickness;
        step.tray_g_m2 = thickness == FeedThickness::gauze  ? habits::gauze_g_m2
                         : thickness == FeedThickness::thin ? habits::thin_g_m2
                                                            : habits::plain_g_m2;
        const double area_m2 = carder.drum_circumference_mm * std::max(1.0, reach.to - reach.from) * 1e-6;
        step.layer_g_m2 = amount / area_m2;
        step.layer_mm = loft_mm(step.layer_g_m2);
        step.manner = manner;
        step.text = feed_text(step, portion);
    }

    std::string how_it_goes_in(const Step& step) const {
        if (keeps_to_licker_in(portions[step.portion]))
            return ", straight onto the drum, between layers of wool: the licker-in would keep it";
        return "; spread it on the tray " + std::string(word_for(step.thickness));
    }

    std::string feed_text(const Step& step, const Portion& portion) const {
        const std::string what = weighed(step.grams) + " of " + names[step.portion];
        const std::string verb = keeps_to_licker_in(portion) ? "Lay " : "Feed ";
        const std::string how = how_it_goes_in(step);
        const std::string range = " from " + whole_mm(step.width_from_mm) + " to " +
                                  whole_mm(step.width_to_mm) + " across the drum";
        switch (step.manner) {
            case FeedManner::dab:
                return "Lay " + what + " straight onto the drum in dabs about " + whole_mm(habits::dab_mm) +
                       " wide, here and there";
            case FeedManner::stripe:
                return verb + what + range + how;
            case FeedManner::gradient:
                return verb + what + range + ", thinning towards its neighbours" + how;
            case FeedManner::sandwiched:
                if (portion.lump_grams > 0.0)
                    return "Scatter " + what +
                           " evenly over the batt so far, by hand, the drum turning slowly";
                return verb + what + " over the full width, with fibre under and over it" + how;
            case FeedManner::layer:
                break;
        }
        return verb + what + " as a layer over the full width" + how;
    }

    FeedManner manner_for(std::size_t place, const std::vector<Lay>& lays) const {
        const Lay& lay = lays[place];
        if (lay.dab_mm > 0.0) return FeedManner::dab;
        if (lay.across.soft > 0.0 || lay.round.soft > 0.0) return FeedManner::gradient;
        if (!lay.across.whole() || plan.feed.manner == Manner::stripes_across) return FeedManner::stripe;
        const Portion& portion = portions[lay.portion];
        const bool inside = place > 0 && place + 1 < lays.size();
        const bool kept_in = portion.slipperiness >= habits::slick_from || portion.lump_grams > 0.0 ||
                             plan.feed.manner == Manner::sandwich;
        return inside && kept_in ? FeedManner::sandwiched : FeedManner::layer;
    }

    // What goes onto the drum on one pass by a list of layings; lays alike that come round in turn are one
    // step.
    void lay_by_hand(int pass, std::optional<recipe::Lies> lies) {
        for (const Turn& turn : turns_of(layings.lays, pass, lies)) add_turn(pass, turn);
    }

    void add_turn(int pass, const Turn& turn) {
        const Lay& lay = turn.lay;
        const std::size_t chief = chief_of(lay, layings);
        feed(pass, chief, turn.grams() * share(), full_width(), FeedManner::layer);
        Step& step = plan.steps.back();
        set_place(step, turn, carder);
        if (step.manner == FeedManner::layer && pass > 1 && lay.lies == recipe::Lies::between)
            step.manner = FeedManner::sandwiched;
        step.on_drum = lay.on_drum || keeps_to_licker_in(portions[chief]);
        if (lay.blend != no_blend) step.blend = layings.blends[lay.blend].name;
        step.text =
            laid_text(step, {weighed(step.grams) + " of " + name_of(lay, names, layings), turn, share(),
                             carder, keeps_to_licker_in(portions[chief]), portions[chief].lump_grams > 0.0});
    }

    // Small blends are carded first, each by itself.
    void card_small_blends() {
        for (const Small& small : layings.blends) {
            const auto parts = parts_of(small, share(), names, layings);
            const double grams = small.grams * share();
            Step& step =
                add(1, StepKind::blend,
                    small.passes * (grams / habits::grams_per_minute * slowness() + habits::doff_minutes),
                    small_blend_text(small, parts, ToolKind::drum));
            step.grams = grams;
            step.blend = small.name;
            step.width_to_mm = carder.width_mm;
        }
    }

    void first_pass() {
        if (plan.feed.by_hand) return lay_by_hand(1, {});
        const auto lays = lays_of(portions, plan.feed);
        if (plan.feed.manner == Manner::alternating) return feed_in_turn(lays);
        for (std::size_t i = 0; i < lays.size(); ++i) {
            const Lay& lay = lays[i];
            feed(1, lay.portion, lay.grams * share(), across_mm(lay, carder), manner_for(i, lays));
            if (!lay.round.whole()) plan.steps.back().text = round_text(plan.steps.back(), lay.round);
        }
    }

    // One step a portion, for all of its thin layers.
    void feed_in_turn(const std::vector<Lay>& lays) {
        const auto turns = static_cast<std::size_t>(std::max(1, plan.feed.repeats));
        const std::size_t in_one = lays.size() / turns;
        for (std::size_t i = 0; i < in_one; ++i) {
            const double each = lays[i].grams * share();
            feed(1, lays[i].portion, each * static_cast<double>(turns), full_width(), FeedManner::layer);
            Step& step = plan.steps.back();
            step.text = "Feed " + weighed(step.grams) + " of " + names[step.portion] + " in " +
                        std::to_string(turns) + " thin layers of " + weighed(each) + " over the full width" +
                        (in_one > 1 ? ", in turn with the others" : "") + how_it_goes_in(step);
        }
    }

    std::string round_text(const Step& step, const Span& round) const {
        return "Lay " + weighed(step.grams) + " of " + names[step.portion] +
               " straight onto the drum between " + whole_pct(round.from) + " % and " + whole_pct(round.to) +
               " % of the way round, counted from the seam" +
               (round.soft > 0.0 ? ", thinning at the ends" : "");
    }

    // A licker-in that turns slowly for its drum takes the fibre in slowly.
    double slowness() const { return carder.licker_in_ratio / recipe::usual_licker_in_ratio; }

    // Whether a strip of every batt goes into each batt of this pass.
    bool pooled_on(int pass) const {
        int first = plan.passes + 1;
        for (const Lay& lay : layings.lays)
            if (lay.grams > 0.0) first = std::min(first, lay.pass);
        for (const Portion& portion : portions)
            if (!plan.feed.by_hand && portion.grams > 0.0) first = std::min(first, portion.pass);
        return shares_out(plan.feed, plan.batts, pass, first);
    }

    std::string shared_out_text(int pass) const {
        const std::string all = std::to_string(plan.batts);
        return "When all " + all + " batts have been through once, split each lengthwise into " + all +
               " strips as alike as you can, and lay one strip of each batt together for every batt of "
               "pass " +
               std::to_string(pass);
    }

    std::vector<Fed> pieces(int pass) const {
        double staple = 0.0, all = 0.0;
        for (const Portion& portion : portions) {
            staple += portion.grams * portion.staple_mm;
            all += portion.grams;
        }
        if (pooled_on(pass))
            return fed_pieces(Refeed::strips, static_cast<int>(plan.batts), carder.drum_circumference_mm,
                              0.0);
        return fed_pieces(plan.feed.refeed_on(pass), plan.strips, carder.drum_circumference_mm,
                          all > 0.0 ? staple / all : 0.0);
    }

    // How the pieces go back in, as a person does it.
    std::string feed_again_text(int pass, std::size_t from, std::size_t to, std::size_t count) const {
        const bool one = to - from == 1;
        const std::string which = one ? "piece " + std::to_string(to)
                                      : "pieces " + std::to_string(from + 1) + " to " + std::to_string(to);
        switch (pooled_on(pass) ? Refeed::strips : plan.feed.refeed_on(pass)) {
            case Refeed::halves:
            case Refeed::tear_and_fold:
                return "Draft the stack out thin, spread it to the full width and feed it end first";
            case Refeed::sideways:
                return "Turn " + which + " a quarter so that the fibres lie across the tray, spread " +
                       (one ? "it" : "each") + " to the full width, feed one after another";
            case Refeed::quarter_turn:
                return "Draft the batt out to the width of the tray and feed it side first";
            case Refeed::own_places:
                return "Draft each strip out to about " + std::to_string(plan.strips) +
                       " times the length and feed it end first at its own place across the drum";
            case Refeed::on_edge:
                return "Feed the strips end first, still on edge, each over its own part of the width";
            case Refeed::strips:
                break;
        }
        return "Draft " + which + " out to about " + std::to_string(count) +
               " times the length, spread to the full width, feed end first, one after another";
    }

    // The share of the batt that goes in with pieces `from` to before `to`; a stack goes in as a whole.
    void feed_pieces(int pass, std::size_t from, std::size_t to, std::size_t count, double part) {
        if (from >= to) return;
        const double rate = plan_is_fine() ? habits::grams_per_minute_fine : habits::grams_per_minute;
        const double amount = grams_before(pass) * share() * part;
        Step& step = add(pass, StepKind::feed_again,
                         amount / rate * slowness() + habits::strip_minutes * static_cast<double>(to - from),
                         feed_again_text(pass, from, to, count));
        step.grams = amount;
        step.width_to_mm = carder.width_mm;
    }

    bool plan_is_fine() const {
        double grams = 0.0, diameter = 0.0;
        for (const Portion& portion : portions) {
            grams += portion.grams;
            diameter += portion.grams * portion.diameter_um;
        }
        return diameter < habits::fine_um * grams;
    }

    double grams_before(int pass) const {
        double sum = 0.0;
        if (plan.feed.by_hand) {
            for (const Lay& lay : layings.lays) sum += lay.pass < pass ? lay.grams : 0.0;
            return sum;
        }
        for (const Portion& portion : portions) sum += portion.pass < pass ? portion.grams : 0.0;
        return sum;
    }

    bool any_laid(int pass, recipe::Lies lies) const {
        return std::any_of(layings.lays.begin(), layings.lays.end(), [&](const Lay& lay) {
            return lay.pass == pass && lay.lies == lies && lay.grams > 0.0;
        });
    }

    void later_pass_by_hand(int pass, const std::vector<Fed>& fed_back) {
        using recipe::Lies;
        lay_by_hand(pass, Lies::under);
        if (!any_laid(pass, Lies::between)) {
            feed_pieces(pass, 0, fed_back.size(), fed_back.size(), 1.0);
        } else {
            feed_around(pass, fed_back, [&] { lay_by_hand(pass, Lies::between); });
        }
        lay_by_hand(pass, Lies::over);
    }

    // The pieces in two parts with something laid in between: pieces that go in one after another leave a gap
    // between two; a stack is stopped half way.
    template <class LayBetween>
    void feed_around(int pass, const std::vector<Fed>& fed_back, LayBetween lay_between) {
        const std::size_t count = fed_back.size(), half = count / 2;
        const bool in_turn = half > 0 && fed_back[half].bottom > 0.0;
        const double part = in_turn ? static_cast<double>(half) / static_cast<double>(count) : 0.5;
        feed_pieces(pass, 0, in_turn ? half : count, count, part);
        if (!in_turn) plan.steps.back().text += ", and stop when half of it is in";
        lay_between();
        feed_pieces(pass, in_turn ? half : 0, count, count, 1.0 - part);
        if (!in_turn) plan.steps.back().text = "Feed the rest of it";
    }

    void later_pass(int pass) {
        const auto fed_back = pieces(pass);
        add(pass, StepKind::split, habits::strip_minutes,
            pooled_on(pass) ? shared_out_text(pass)
                            : text::capitalised(split_words(plan.feed, plan.strips, pass)));
        if (plan.feed.by_hand) return later_pass_by_hand(pass, fed_back);
        std::vector<std::size_t> fresh;
        for (std::size_t i = 0; i < portions.size(); ++i) {
            if (portions[i].pass == pass && portions[i].grams > 0.0) fresh.push_back(i);
        }
        if (fresh.empty()) return feed_pieces(pass, 0, fed_back.size(), fed_back.size(), 1.0);
        feed_around(pass, fed_back, [&] {
            for (const std::size_t i : fresh)
                feed(pass, i, portions[i].grams * share(), full_width(), FeedManner::sandwiched);
        });
    }

    void make() {
        add(1, StepKind::weigh, habits::weigh_minutes_per_component * static_cast<double>(portions.size()),
            "Weigh everything out for this batt and open the fibre by hand");
        card_small_blends();
        for (int pass = 1; pass <= plan.passes; ++pass) {
            if (pass == 1) {
                first_pass();
            } else {
                later_pass(pass);
            }
            add(pass, StepKind::doff, habits::doff_minutes,
                pass == plan.passes ? "Lift the finished batt off along the seam and roll it up"
                                    : "Lift the batt off along the seam");
        }
    }
};

std::vector<std::string> names_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
                                  std::span<const Portion> portions) {
    std::vector<std::string> names;
    for (const Portion& portion : portions) {
        const recipe::Component& component = recipe.components[portion.component];
        std::string name = component.name;
        for (const std::size_t s : portion.strands) {
            const std::string& kind = strands[s].kind->name;
            const bool new_kind = component.name.empty() && name.find(kind) == std::string::npos;
            if (new_kind) name += (name.empty() ? "" : " and ") + kind;
        }
        const bool several = component.palette.size() > 1;
        if (several) name += ", " + colour::hex(strands[portion.strands.front()].colour);
        names.push_back(name);
    }
    return names;
}

}  // namespace

Plan plan_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
             const recipe::Carder& carder, const Feed& feed, std::size_t batts) {
    Planner planner{recipe, carder, portions_of(recipe, strands), {}, {}, {}};
    planner.layings = layings_of(recipe, strands, planner.portions, carder);
    Plan& plan = planner.plan;
    plan.feed = feed;
    plan.passes = std::max(1, recipe.carding.passes);
    plan.strips = std::max(1, recipe.carding.strips);
    plan.batts = std::max<std::size_t>(1, batts);
    planner.names = names_of(recipe, strands, planner.portions);
    for (const Portion& portion : planner.portions) plan.batt_grams += portion.grams * planner.share();
    if (recipe::is_flat(carder)) {
        plan.steps = flat_steps({carder, planner.portions, planner.names, planner.layings, plan});
    } else {
        planner.make();
    }
    plan.cautions = cautions_of(planner.portions, strands, carder, plan.batt_grams);
    for (Step& step : plan.steps) {
        step.text_with_quantities = std::move(step.text);
        step.text = staple::words_in(step.text_with_quantities, {});
    }
    for (Caution& caution : plan.cautions) {
        caution.text_with_quantities = std::move(caution.text);
        caution.text = staple::words_in(caution.text_with_quantities, {});
    }
    for (const Step& step : plan.steps) plan.minutes_per_batt += step.minutes;
    plan.minutes_total = plan.minutes_per_batt * static_cast<double>(plan.batts);
    return std::move(planner.plan);
}

}  // namespace battwright::carding
