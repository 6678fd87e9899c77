// The nearest of a set of known words, for "did you mean".
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace battwright::measure {

// The words of `known` nearest to `word` by Damerau-Levenshtein distance (optimal string alignment, case
// ignored), best first, at most `most`: those it begins, or no farther than a third of the longer word.
std::vector<std::string> nearest_words(std::string_view word, const std::vector<std::string>& known,
                                       std::size_t most = 3);

// "did you mean a, b or c?", or "" when nothing is near.
std::string did_you_mean(std::string_view word, const std::vector<std::string>& known);
// The same question about words already chosen.
std::string ask_for(const std::vector<std::string>& words);

}  // namespace battwright::measure
