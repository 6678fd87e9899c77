#include "carding/laid_words.hpp"

#include <algorithm>
#include <cmath>

#include "carding/words.hpp"
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

// For staple::words_in.
std::string whole_mm(double mm) {
    return "{mm " + std::to_string(std::lround(mm)) + "}";
}

std::string whole_pct(double share) {
    return std::to_string(std::lround(100.0 * share));
}

std::string one_place(const Lay& lay, double width_mm) {
    std::string text;
    if (!lay.across.whole()) {
        const Span& across = lay.across;
        text += "from " + whole_mm(width_mm * std::clamp(across.from - across.over_from, 0.0, 1.0)) + " to " +
                whole_mm(width_mm * std::clamp(across.to + across.over_to, 0.0, 1.0)) + " across the drum";
    }
    if (!lay.round.whole())
        text += (text.empty() ? "between " : ", between ") + whole_pct(lay.round.from) + " % and " +
                whole_pct(std::min(1.0, lay.round.to)) + " % of the way round";
    return text.empty() ? "over the full width" : text;
}

// Each place with its weight, unless they are all of one.
std::string several_places(const LaidWords& words) {
    std::vector<Lay> all{words.turn.lay};
    all.insert(all.end(), words.turn.elsewhere.begin(), words.turn.elsewhere.end());
    const auto weight = [&](const Lay& lay) { return staple::weighed(lay.grams * words.batt_share); };
    const bool alike = std::all_of(all.begin(), all.end(),
                                   [&](const Lay& lay) { return weight(lay) == weight(all.front()); });
    std::string text = " at " + std::to_string(all.size()) + " places" +
                       (alike ? ", " + weight(all.front()) + " at each" : "") + ": ";
    for (std::size_t i = 0; i < all.size(); ++i)
        text += (i > 0 ? "; " : "") + (alike ? "" : weight(all[i]) + " ") + one_place(all[i], words.width_mm);
    return text;
}

std::string place_words(const LaidWords& words) {
    const bool round = !words.turn.lay.round.whole();
    const std::string text = words.turn.elsewhere.empty() ? " " + one_place(words.turn.lay, words.width_mm)
                                                          : several_places(words);
    return text + (round ? ", counted from the seam" : "");
}

std::string depth_words(const Step& step, const Lay& lay) {
    if (step.pass < 2) return "";
    if (lay.lies == recipe::Lies::under) return ", on the bare drum before the batt goes back";
    return lay.lies == recipe::Lies::over ? ", on top of the batt when all of it is in" : "";
}

}  // namespace

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
                if (laying != no_laying && std::ranges::find(turn.layings, laying) == turn.layings.end())
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
    text += place_words(words);
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
