#include "command/stash_hands.hpp"

#include "colour/spaces.hpp"
#include "command/layout.hpp"
#include "command/stash_json.hpp"

namespace battwright::command {
namespace {

Json belief_json(const stash::LogBelief& belief) {
    const yarn::Range range = belief.range_80_percent();
    return {{"value", belief.factor()},
            {"low", range.low},
            {"high", range.high},
            {"batts", belief.count()},
            {"photos", belief.photos()}};
}

std::string belief_text(const stash::LogBelief& belief, int decimals) {
    const yarn::Range range = belief.range_80_percent();
    return number(belief.factor(), decimals) + " (" + number(range.low, decimals) + " to " +
           number(range.high, decimals) + ")";
}

constexpr std::size_t hands_column = 25;  // "0.150 (0.100 to 0.225)" and two blanks, and one more digit

std::string belief_line(const char* what, const stash::LogBelief& before, const stash::LogBelief& now,
                        int decimals) {
    return "  " + left(what, 34) + right(std::to_string(now.count()), 7) +
           right(belief_text(before, decimals), hands_column) +
           right(belief_text(now, decimals), hands_column) + "\n";
}

Json log_figure_json(const std::optional<stash::LogFigure>& figure) {
    if (!figure) return nullptr;
    return {{"log", figure->at}, {"log_sd", figure->sd}};
}

Json curve_json(const std::optional<colour::CurvedSighting>& curve) {
    if (!curve) return nullptr;
    return {{"log_variation_seen", curve->seen},
            {"level", curve->level},
            {"slope", curve->slope},
            {"bend", curve->bend},
            {"log_sd", curve->sd}};
}

}  // namespace

std::string hands_text(const stash::Hands& before, const stash::Hands& now) {
    return "  " + left("with the range of four in five", 34) + right("batts", 7) +
           right("before", hands_column) + right("now", hands_column) + "\n" +
           belief_line("m of Stearns and Noechel", before.m, now.m, 3) +
           belief_line("left unmixed a pass, of the usual", before.mixing, now.mixing, 2);
}

Json hands_json(const stash::Hands& hands) {
    return {{"m", belief_json(hands.m)}, {"mixing", belief_json(hands.mixing)}};
}

Json photo_json(const stash::BattPhoto& photo) {
    return {{"photo", photo.id},
            {"batt", photo.batt},
            {"name", photo.name},
            {"date", photo.date},
            {"file", photo.photo},
            {"of", colour::word_for(photo.taken)},
            {"mm_per_pixel", photo.mm_per_pixel},
            {"seen_lab", lab_json(photo.seen.mean)},
            {"seen_variation_de00", photo.seen.variation_de00},
            {"streak_mm", photo.seen.streak_mm},
            {"patches", photo.seen.patches},
            {"unfit", colour::row_for(photo.seen.unfit).word},
            {"foretold_lab", lab_json(photo.foretold)},
            {"foretold_variation_de00", photo.foretold_variation_de00},
            {"apart_de00", colour::ciede2000(photo.seen.mean, photo.foretold)},
            {"m", log_figure_json(photo.log_m)},
            {"mixing", curve_json(photo.log_mixing)},
            {"misfit", photo.misfit},
            {"counts", photo.counts},
            {"confirmed", photo.confirmed},
            {"note", photo.note}};
}

Json asked_photo_json(const stash::AskedPhoto& asked) {
    return {{"photo", asked.photo}, {"name", asked.name}, {"text", stash::question_words(asked)}};
}

Json question_of(std::int64_t photo, const stash::HandsLearnt& learnt) {
    for (const stash::AskedPhoto& asked : learnt.questions)
        if (asked.photo == photo) return stash::question_words(asked);
    return nullptr;
}

}  // namespace battwright::command
