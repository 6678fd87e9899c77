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

std::string place_words(const Step& step, const Lay& lay) {
    std::string text;
    if (!lay.across.whole())
        text += " from " + whole_mm(step.width_from_mm) + " to " + whole_mm(step.width_to_mm) +
                " across the drum";
    if (!lay.round.whole())
        text += (text.empty() ? " between " : ", between ") + whole_pct(lay.round.from) + " % and " +
                whole_pct(std::min(1.0, lay.round.to)) + " % of the way round, counted from the seam";
    return text.empty() ? " over the full width" : text;
}

std::string depth_words(const Step& step, const Lay& lay) {
    if (step.pass < 2) return "";
    if (lay.lies == recipe::Lies::under) return ", on the bare drum before the batt goes back";
    return lay.lies == recipe::Lies::over ? ", on top of the batt when all of it is in" : "";
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
        for (std::size_t i = 0; i < length; ++i)
            turns.push_back({meant[at + i], times, length > 1 && times > 1});
        at += length * static_cast<std::size_t>(times);
    }
    return turns;
}

std::string laid_text(const Step& step, const LaidWords& words) {
    const Lay& lay = words.lay;
    std::string text = step.on_drum ? "Lay " : "Feed ";
    if (words.is_lumps && step.on_drum) text = "Scatter ";
    text += words.what;
    if (step.on_drum) text += " straight onto the drum";
    text += place_words(step, lay);
    if (lay.dab_mm > 0.0) {
        text += (text.ends_with("width") ? " " : ", ") +
                std::string(measure::row_of(recipe::spreadings, lay.how).word) + " about " +
                whole_mm(lay.dab_mm) + " wide";
    }
    const bool thins = lay.across.soft > 0.0 || lay.round.soft > 0.0;
    if (thins) text += ", thinning towards the ends";
    if (words.times > 1)
        text += ", in " + std::to_string(words.times) + " parts" +
                (words.with_others ? " in turn with those beside it in this list" : "");
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
