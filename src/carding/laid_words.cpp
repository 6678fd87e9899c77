#include "carding/laid_words.hpp"

#include <algorithm>
#include <cmath>

#include "carding/habits.hpp"
#include "carding/words.hpp"
#include "text/believe.hpp"
#include "text/words.hpp"

namespace battwright::carding {
namespace {

// How many lays make up the turn that begins at `at`, and how often it comes.
std::pair<std::size_t, int> turn_at(const std::vector<Lay>& lays, std::size_t at) {
    const std::size_t left = lays.size() - at;
    for (std::size_t length = 1; 2 * length <= left; ++length) {
        int times = 1;
        const auto begin = lays.begin() + static_cast<std::ptrdiff_t>(at);
        while ((static_cast<std::size_t>(times) + 1) * length <= left &&
               std::equal(begin, begin + static_cast<std::ptrdiff_t>(length),
                          begin + static_cast<std::ptrdiff_t>(static_cast<std::size_t>(times) * length)))
            ++times;
        if (times > 1) return {length, times};
    }
    return {1, 1};
}

// One hand card is spoken of where the tool is "cards".
std::string surface_of(const recipe::Carder& carder) {
    return carder.kind == ToolKind::hand_cards ? "card" : std::string(recipe::words_of(carder).surface);
}

std::string one_place(const Lay& lay, const recipe::Carder& carder) {
    std::string text;
    if (!lay.across.whole()) {
        const auto [from, to] = across_mm(lay, carder);
        text += "from " + whole_mm(from) + " to " + whole_mm(to) + " across the " + surface_of(carder);
    }
    if (!lay.round.whole())
        text += (text.empty() ? "between " : ", between ") + whole_pct(lay.round.from) + " % and " +
                whole_pct(lay.round.to) +
                (recipe::is_flat(carder) ? " % of its length" : " % of the way round");
    if (!text.empty()) return text;
    return recipe::is_flat(carder) ? "over the whole " + surface_of(carder) : "over the full width";
}

// Each place with its weight, unless they are all of one.
std::string several_places(const Turn& turn, double batt_share, const recipe::Carder& carder) {
    std::vector<Lay> all{turn.lay};
    all.insert(all.end(), turn.elsewhere.begin(), turn.elsewhere.end());
    const auto weight = [&](const Lay& lay) { return staple::weighed(lay.grams * batt_share); };
    const bool alike = std::all_of(all.begin(), all.end(),
                                   [&](const Lay& lay) { return weight(lay) == weight(all.front()); });
    std::string text = "at " + std::to_string(all.size()) + " places" +
                       (alike ? ", " + weight(all.front()) + " at each" : "") + ": ";
    for (std::size_t i = 0; i < all.size(); ++i)
        text += (i > 0 ? "; " : "") + (alike ? "" : weight(all[i]) + " ") + one_place(all[i], carder);
    return text;
}

std::string depth_words(const Step& step, const Lay& lay) {
    if (step.pass < 2) return "";
    if (lay.lies == recipe::Lies::under) return ", on the bare drum before the batt goes back";
    return lay.lies == recipe::Lies::over ? ", on top of the batt when all of it is in" : "";
}

}  // namespace

std::size_t chief_of(const Lay& lay, const Layings& layings) {
    if (lay.blend == no_blend) return lay.portion;
    const auto& lays = layings.blends[lay.blend].lays;
    const auto most = std::max_element(lays.begin(), lays.end(),
                                       [](const Lay& a, const Lay& b) { return a.grams < b.grams; });
    return chief_of(*most, layings);
}

std::string whole_pct(double share) {
    return std::to_string(std::lround(100.0 * std::clamp(share, 0.0, 1.0)));
}

std::string whole_mm(double mm) {
    return "{mm " + std::to_string(std::lround(mm)) + "}";
}

Across across_mm(const Lay& lay, const recipe::Carder& carder) {
    return {carder.width_mm * std::clamp(lay.across.from - lay.across.over_from, 0.0, 1.0),
            carder.width_mm * std::clamp(lay.across.to + lay.across.over_to, 0.0, 1.0)};
}

void set_place(Step& step, const Turn& turn, const recipe::Carder& carder) {
    BATTWRIGHT_BELIEVE(step.grams > 0.0);
    const Lay& lay = turn.lay;
    Across reach = across_mm(lay, carder);
    Span round = lay.round;
    double wide = reach.to - reach.from;
    for (const Lay& other : turn.elsewhere) {
        const Across there = across_mm(other, carder);
        wide += there.to - there.from;
        reach = {std::min(reach.from, there.from), std::max(reach.to, there.to)};
        round = {std::min(round.from, other.round.from), std::max(round.to, other.round.to)};
    }
    step.width_from_mm = reach.from;
    step.width_to_mm = reach.to;
    step.round_from = std::max(0.0, round.from);
    step.round_to = std::min(1.0, round.to);
    step.layer_g_m2 = step.grams / (carder.drum_circumference_mm * std::max(1.0, wide) * 1e-6);
    step.layer_mm = loft_mm(step.layer_g_m2);
    step.layings = turn.layings;
    const bool thins = lay.across.soft > 0.0 || lay.round.soft > 0.0;
    step.manner = lay.dab_mm > 0.0 ? FeedManner::dab
                  : thins          ? FeedManner::gradient
                  : lay.all_over() ? FeedManner::layer
                                   : FeedManner::stripe;
}

std::string place_words(const Turn& turn, double batt_share, const recipe::Carder& carder) {
    std::string text =
        turn.elsewhere.empty() ? one_place(turn.lay, carder) : several_places(turn, batt_share, carder);
    if (turn.lay.round.whole()) return text;
    return text + (recipe::is_flat(carder) ? ", counted from the edge near you" : ", counted from the seam");
}

double Turn::grams() const {
    double sum = lay.grams * times;
    for (const Lay& other : elsewhere) sum += other.grams;
    return sum;
}

namespace {

bool differ_in_place_alone(const Turn& first, const Turn& second) {
    if (first.times > 1 || second.times > 1 || first.lay.all_over() || second.lay.all_over()) return false;
    Lay moved = second.lay;
    moved.grams = first.lay.grams;
    for (const auto span : {&Lay::across, &Lay::round}) {
        (moved.*span).from = (first.lay.*span).from;
        (moved.*span).to = (first.lay.*span).to;
        if ((first.lay.*span).whole() != (second.lay.*span).whole()) return false;
    }
    return moved == first.lay;
}

std::vector<Turn> joined(std::vector<Turn> turns) {
    std::vector<Turn> result;
    for (Turn& turn : turns) {
        if (result.empty() || !differ_in_place_alone(result.back(), turn)) {
            result.push_back(std::move(turn));
            continue;
        }
        Turn& last = result.back();
        last.elsewhere.push_back(turn.lay);
        last.layings.insert(last.layings.end(), turn.layings.begin(), turn.layings.end());
    }
    return result;
}

}  // namespace

std::vector<Turn> turns_of(const std::vector<Lay>& lays, int pass, std::optional<recipe::Lies> lies) {
    std::vector<Lay> meant;
    for (const Lay& lay : lays)
        if (lay.grams > 0.0 && (pass == 0 || lay.pass == pass) && (!lies || lay.lies == *lies))
            meant.push_back(lay);
    std::vector<Turn> turns;
    for (std::size_t at = 0; at < meant.size();) {
        const auto [length, times] = turn_at(meant, at);
        const std::size_t end = at + length * static_cast<std::size_t>(times);
        for (std::size_t i = 0; i < length; ++i) {
            Turn turn{meant[at + i], times, length > 1 && times > 1, {}, {}};
            for (std::size_t j = at + i; j < end; j += length) {
                const std::size_t laying = meant[j].source.laying;
                if (laying != no_laying &&
                    std::find(turn.layings.begin(), turn.layings.end(), laying) == turn.layings.end())
                    turn.layings.push_back(laying);
            }
            turns.push_back(std::move(turn));
        }
        at = end;
    }
    return joined(std::move(turns));
}

std::string laid_text(const Step& step, const LaidWords& words) {
    const Lay& lay = words.turn.lay;
    std::string text = step.on_drum ? "Lay " : "Feed ";
    if (words.is_lumps && step.on_drum) text = "Scatter ";
    text += words.what;
    if (step.on_drum) text += " straight onto the drum";
    text += " " + place_words(words.turn, words.batt_share, words.carder);
    if (lay.dab_mm > 0.0) {
        text += (text.ends_with("width") ? " " : ", ") +
                std::string(measure::row_of(recipe::spreadings, lay.how).word) + " about " +
                whole_mm(lay.dab_mm) + " wide";
    }
    const bool thins = lay.across.soft > 0.0 || lay.round.soft > 0.0;
    if (thins) text += ", thinning towards the ends";
    if (words.turn.times > 1)
        text += ", in " + std::to_string(words.turn.times) + " parts" +
                (words.turn.with_others ? " in turn with those beside it in this list" : "");
    text += depth_words(step, lay);
    if (words.licker_in_keeps_it && !lay.on_drum)
        text += ", between layers of wool: the licker-in would keep it";
    if (step.on_drum) return text + ", by hand, the drum turning slowly";
    if (lay.dab_mm > 0.0) return text + ", by way of the tray";
    return text + "; spread it on the tray " + std::string(word_for(step.thickness));
}

std::string name_of(const Lay& lay, const std::vector<std::string>& names, const Layings& layings) {
    return lay.blend == no_blend ? names[lay.portion] : "the small blend " + layings.blends[lay.blend].name;
}

std::vector<std::string> parts_of(const Small& small, double batt_share,
                                  const std::vector<std::string>& names, const Layings& layings) {
    std::vector<std::string> parts;
    for (const Turn& turn : turns_of(small.lays, 0, {}))
        parts.push_back(staple::weighed(turn.grams() * batt_share) + " of " +
                        name_of(turn.lay, names, layings));
    return parts;
}

std::string small_blend_text(const Small& small, const std::vector<std::string>& parts, ToolKind tool) {
    const auto& words = measure::row_of(recipe::tool_rows, tool);
    std::string text = "Card a small blend first, by itself: " + text::listed(parts) + "; " +
                       text::counted(small.passes, words.pass, words.passes);
    if (small.passes > 1 && tool != ToolKind::hand_cards) {
        Feed feed;
        feed.tool = tool;
        feed.refeeds = small.refeeds;
        if (!small.refeeds.empty()) feed.refeed = small.refeeds.back();
        text += ", between them " + split_words(feed, small.strips);
    }
    return text + ". Lift it off and lay it by as \"" + small.name + "\"";
}

}  // namespace battwright::carding
