#include "carding/plan.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "carding/cautions.hpp"
#include "carding/habits.hpp"
#include "carding/words.hpp"
#include "colour/spaces.hpp"
#include "measure/choices.hpp"
#include "measure/units.hpp"
#include "text/words.hpp"

namespace battwright::carding {
namespace {

std::string in_grams(double value) {
    return measure::print_mass(value, measure::MassUnit::gram);
}

struct Planner {
    const recipe::Recipe& recipe;
    const recipe::Carder& carder;
    std::vector<Portion> portions;
    Plan plan;
    std::vector<std::string> names;

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

    // Lays `amount` grams of a portion over a width of the drum.
    void feed(int pass, std::size_t index, double amount, double from, double to, FeedManner manner) {
        const Portion& portion = portions[index];
        const FeedThickness thickness = thickness_of(portion);
        const double rate =
            thickness == FeedThickness::plain ? habits::grams_per_minute : habits::grams_per_minute_fine;
        Step& step = add(pass, StepKind::feed, amount / rate * slowness(), "");
        step.component = portion.component;
        step.portion = index;
        step.grams = amount;
        step.width_from_mm = from;
        step.width_to_mm = to;
        step.thickness = thickness;
        step.tray_g_m2 = thickness == FeedThickness::gauze  ? habits::gauze_g_m2
                         : thickness == FeedThickness::thin ? habits::thin_g_m2
                                                            : habits::plain_g_m2;
        const double area_m2 = carder.drum_circumference_mm * std::max(1.0, to - from) * 1e-6;
        step.layer_g_m2 = amount / area_m2;
        step.layer_mm = step.layer_g_m2 / (habits::wool_density_g_m3 * habits::batt_packing) * 1e3;
        step.manner = manner;
        step.text = feed_text(step, portion);
    }

    std::string feed_text(const Step& step, const Portion& portion) const {
        const std::string what = in_grams(step.grams) + " of " + names[step.portion];
        const std::string how = "; spread it on the tray " + std::string(word_for(step.thickness));
        const auto mm = [](double v) { return std::to_string(std::lround(v)); };
        const std::string range =
            " from " + mm(step.width_from_mm) + " to " + mm(step.width_to_mm) + " mm across the drum";
        switch (step.manner) {
            case FeedManner::dab:
                return "Feed " + what + " in dabs about " + mm(habits::dab_mm) + " mm wide, here and there" +
                       how;
            case FeedManner::stripe:
                return "Feed " + what + range + how;
            case FeedManner::gradient:
                return "Feed " + what + range + ", thinning towards its neighbours" + how;
            case FeedManner::sandwiched:
                if (portion.lump_grams > 0.0)
                    return "Scatter " + what +
                           " evenly over the batt so far, by hand, the drum turning slowly";
                return "Feed " + what + " over the full width, with fibre under and over it" + how;
            case FeedManner::layer:
                break;
        }
        return "Feed " + what + " as a layer over the full width" + how;
    }

    FeedManner manner_for(std::size_t place, const std::vector<Lay>& lays) const {
        const Portion& portion = portions[lays[place].portion];
        const bool inside = place > 0 && place + 1 < lays.size();
        const bool kept_in = portion.slipperiness >= habits::slick_from || portion.lump_grams > 0.0 ||
                             plan.feed.manner == Manner::sandwich;
        return inside && kept_in ? FeedManner::sandwiched : FeedManner::layer;
    }

    void first_pass() {
        const auto lays = first_lays(portions, plan.feed.manner);
        double total = 0.0, reached = 0.0, most = 0.0;
        for (const Lay& lay : lays) {
            total += lay.grams;
            most = std::max(most, lay.grams);
        }
        bool base_laid = false;
        for (std::size_t i = 0; i < lays.size(); ++i) {
            const double from = carder.width_mm * reached / total;
            reached += lays[i].grams;
            const double to = carder.width_mm * reached / total;
            const double amount = lays[i].grams * share();
            const Manner manner = plan.feed.manner;
            if (manner == Manner::stripes_across || manner == Manner::gradient_across) {
                const bool stripe = manner == Manner::stripes_across;
                feed(1, lays[i].portion, amount, from, to,
                     stripe ? FeedManner::stripe : FeedManner::gradient);
            } else if (manner == Manner::gradient_round) {
                feed(1, lays[i].portion, amount, 0.0, carder.width_mm, FeedManner::gradient);
                plan.steps.back().text =
                    round_text(plan.steps.back(), reached - lays[i].grams, reached, total);
            } else if (manner == Manner::dabs && (base_laid || lays[i].grams < most)) {
                feed(1, lays[i].portion, amount, 0.0, carder.width_mm, FeedManner::dab);
            } else {
                base_laid = base_laid || lays[i].grams >= most;
                feed(1, lays[i].portion, amount, 0.0, carder.width_mm, manner_for(i, lays));
            }
        }
    }

    std::string round_text(const Step& step, double from, double to, double total) const {
        const auto pct = [total](double v) { return std::to_string(std::lround(100.0 * v / total)); };
        return "Feed " + in_grams(step.grams) + " of " + names[step.portion] + " only between " + pct(from) +
               " % and " + pct(to) +
               " % of the way round the drum, counted from the seam, thinning at the ends";
    }

    // A licker-in that turns slowly for its drum takes the fibre in slowly.
    double slowness() const { return carder.licker_in_ratio / recipe::usual_licker_in_ratio; }

    int pieces() const { return pieces_of(plan.feed, plan.strips); }

    void feed_pieces(int pass, int from, int to) {
        if (from >= to) return;
        const double fine = plan_is_fine() ? habits::grams_per_minute_fine : habits::grams_per_minute;
        const double amount = grams_before(pass) * share() * (to - from) / pieces();
        const std::string which = to - from == 1
                                      ? "piece " + std::to_string(to)
                                      : "pieces " + std::to_string(from + 1) + " to " + std::to_string(to);
        Step& step =
            add(pass, StepKind::feed_again, amount / fine * slowness() + habits::strip_minutes * (to - from),
                "Draft " + which + " out to about " + std::to_string(pieces()) +
                    " times the length, spread to the full width, feed one after another");
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
        for (const Portion& portion : portions) sum += portion.pass < pass ? portion.grams : 0.0;
        return sum;
    }

    void later_pass(int pass) {
        add(pass, StepKind::split, habits::strip_minutes,
            text::capitalised(split_words(plan.feed, plan.strips)));
        const int half = pieces() / 2;
        std::vector<std::size_t> fresh;
        for (std::size_t i = 0; i < portions.size(); ++i) {
            if (portions[i].pass == pass && portions[i].grams > 0.0) fresh.push_back(i);
        }
        if (fresh.empty()) {
            feed_pieces(pass, 0, pieces());
            return;
        }
        feed_pieces(pass, 0, half);
        for (const std::size_t i : fresh)
            feed(pass, i, portions[i].grams * share(), 0.0, carder.width_mm, FeedManner::sandwiched);
        feed_pieces(pass, half, pieces());
    }

    void make() {
        add(1, StepKind::weigh, habits::weigh_minutes_per_component * static_cast<double>(portions.size()),
            "Weigh everything out for this batt and open the fibre by hand");
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

std::string_view word_for(StepKind kind) {
    constexpr std::array<measure::Word<StepKind>, 5> kinds{{{StepKind::weigh, "weigh"},
                                                            {StepKind::feed, "feed"},
                                                            {StepKind::doff, "doff"},
                                                            {StepKind::split, "split"},
                                                            {StepKind::feed_again, "feed again"}}};
    static_assert(measure::one_row_each(kinds));
    return measure::row_of(kinds, kind).word;
}
std::string_view word_for(FeedThickness thickness) {
    constexpr std::array<measure::Word<FeedThickness>, 3> words{
        {{FeedThickness::gauze, "so thin that print could be read through it"},
         {FeedThickness::thin, "so thin that the tray shows through"},
         {FeedThickness::plain, "in an even layer"}}};
    static_assert(measure::one_row_each(words));
    return measure::row_of(words, thickness).word;
}
std::string_view word_for(FeedManner manner) {
    constexpr std::array<measure::Word<FeedManner>, 5> words{{{FeedManner::layer, "layer"},
                                                              {FeedManner::dab, "dab"},
                                                              {FeedManner::stripe, "stripe"},
                                                              {FeedManner::gradient, "gradient"},
                                                              {FeedManner::sandwiched, "sandwiched"}}};
    static_assert(measure::one_row_each(words));
    return measure::row_of(words, manner).word;
}

Plan plan_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
             const recipe::Carder& carder, const Feed& feed, std::size_t batts,
             std::span<const staple::Finding> findings) {
    Planner planner{recipe, carder, portions_of(recipe, strands), {}, {}};
    Plan& plan = planner.plan;
    plan.feed = feed;
    plan.passes = std::max(1, recipe.carding.passes);
    plan.strips = std::max(1, recipe.carding.strips);
    plan.batts = std::max<std::size_t>(1, batts);
    planner.names = names_of(recipe, strands, planner.portions);
    for (const Portion& portion : planner.portions) plan.batt_grams += portion.grams * planner.share();
    planner.make();
    plan.cautions = cautions_of(planner.portions, strands, carder, plan.batt_grams);
    plan.advice = advice_of(findings);
    for (const Step& step : plan.steps) plan.minutes_per_batt += step.minutes;
    plan.minutes_total = plan.minutes_per_batt * static_cast<double>(plan.batts);
    return std::move(planner.plan);
}

}  // namespace battwright::carding
