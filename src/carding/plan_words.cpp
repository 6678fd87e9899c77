// The words of a plan's steps, as JSON has them.
#include "carding/plan.hpp"
#include "measure/choices.hpp"

namespace battwright::carding {

std::string_view word_for(StepKind kind) {
    constexpr std::array<measure::Word<StepKind>, 9> kinds{{{StepKind::weigh, "weigh"},
                                                            {StepKind::feed, "feed"},
                                                            {StepKind::doff, "doff"},
                                                            {StepKind::split, "split"},
                                                            {StepKind::feed_again, "feed again"},
                                                            {StepKind::blend, "small blend"},
                                                            {StepKind::brush, "brush in"},
                                                            {StepKind::transfer, "transfer"},
                                                            {StepKind::roll, "roll off"}}};
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

}  // namespace battwright::carding
