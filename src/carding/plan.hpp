// What to do at the carder, step by step.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "carding/feed.hpp"
#include "carding/load.hpp"
#include "recipe/composition.hpp"
#include "staple/findings.hpp"

namespace battwright::carding {

// The last three are of a board and of hand cards.
enum class StepKind { weigh, feed, doff, split, feed_again, blend, brush, transfer, roll };
// "weigh", "feed", "doff", "split", "feed again", "small blend", "brush in", "transfer", "roll off"
std::string_view word_for(StepKind kind);
// How thickly fibre lies on the tray: read print through it; see the tray through it; neither.
enum class FeedThickness { gauze, thin, plain };
std::string_view word_for(FeedThickness thickness);
enum class FeedManner { layer, dab, stripe, gradient, sandwiched };
std::string_view word_for(FeedManner manner);

// One step of one batt. Widths run across the drum from its left edge. Fields that a kind of step has no use
// for are zero.
struct Step {
    int order = 1;  // 1, 2, ... through the plan
    int pass = 1;
    StepKind kind = StepKind::feed;
    std::size_t component = 0;  // for `feed`
    std::size_t portion = 0;    // index into portions_of()
    double grams = 0.0;         // on this step
    std::string blend;          // the small blend that is carded or fed on this step; else empty
    double width_from_mm = 0.0, width_to_mm = 0.0;
    double round_from = 0.0, round_to = 1.0;  // of the way round the drum, for what lies straight on it
    bool on_drum = false;
    FeedThickness thickness = FeedThickness::thin;
    double tray_g_m2 = 0.0;   // how thickly it lies on the tray
    double layer_g_m2 = 0.0;  // what it adds to the batt where it lies
    double layer_mm = 0.0;    // the same as loft of the batt
    FeedManner manner = FeedManner::layer;
    std::vector<std::size_t> layings{};  // of the recipe's list, that this step carries out
    double minutes = 0.0;
    std::string text;                    // a sentence for a person, in g and mm
    std::string text_with_quantities{};  // the same for staple::words_in
};

struct Caution {
    std::string code;  // "teeth", "dust", "wraps", "slick", "lumps", "over-full"
    std::string text;
    std::string text_with_quantities{};  // the same for staple::words_in
};

struct Plan {
    Feed feed;
    int passes = 1, strips = 1;
    std::size_t batts = 1;
    double batt_grams = 0.0;
    std::vector<Step> steps;  // for one batt; do the same for each
    std::vector<Caution> cautions;
    double minutes_per_batt = 0.0;  // common practice: a practised hand
    double minutes_total = 0.0;
};

// From the recipe's components and strands, for one of `batts` equal batts. Rates, thicknesses and
// times are common practice.
Plan plan_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
             const recipe::Carder& carder, const Feed& feed = {}, std::size_t batts = 1);

}  // namespace battwright::carding
