#include "measure/nearest.hpp"

#include <algorithm>
#include <utility>

#include "measure/choices.hpp"
#include "text/words.hpp"

namespace battwright::measure {
namespace {

// So many letters are the beginning of a word, and not any word's.
constexpr std::size_t least_begun = 3;

// Optimal string alignment distance: insertions, deletions, substitutions and swaps of neighbours, each 1.
std::size_t distance(const std::string& a, const std::string& b) {
    std::vector<std::size_t> before_last(b.size() + 1);
    std::vector<std::size_t> last(b.size() + 1);
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t changed = a[i - 1] == b[j - 1] ? 0 : 1;
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + changed});
            const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
        }
        std::swap(before_last, last);
        std::swap(last, row);
    }
    return last[b.size()];
}

}  // namespace

std::vector<std::string> nearest_words(std::string_view word, const std::vector<std::string>& known,
                                       std::size_t most) {
    const std::string sought = text::lower(word);
    std::vector<std::pair<std::size_t, const std::string*>> near;
    for (const std::string& candidate : known) {
        const std::size_t shorter = std::min(sought.size(), candidate.size());
        const std::size_t longer = std::max(sought.size(), candidate.size());
        const std::size_t limit = std::max<std::size_t>(1, longer / 3);
        const std::string plain = text::lower(candidate);
        const bool begun = sought.size() >= least_begun && plain.starts_with(sought);
        // Told by length first, so a word of a megabyte costs nothing.
        if (!begun && longer - shorter > limit) continue;
        const std::size_t found = distance(sought, plain);
        if (begun || found <= limit) near.emplace_back(found, &candidate);
    }
    std::stable_sort(near.begin(), near.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    if (near.size() > most) near.resize(most);
    std::vector<std::string> words;
    words.reserve(near.size());
    for (const auto& entry : near) words.push_back(*entry.second);
    return words;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known) {
    return ask_for(nearest_words(word, known));
}

Complaint unknown_word(std::string_view text, std::string_view noun, const std::vector<std::string>& known) {
    std::string mend = did_you_mean(text, known);
    if (mend.empty()) mend = "write " + text::listed(known, "or");
    return {"unknown " + std::string(noun) + " " + quoted(text), mend};
}

std::string ask_for(const std::vector<std::string>& words) {
    if (words.empty()) return {};
    return "did you mean " + text::listed(words, "or") + "?";
}

}  // namespace battwright::measure
