// Finding kinds by what a person types, declared in fibre/catalogue.hpp.
#include <algorithm>
#include <cctype>
#include <utility>

#include "fibre/catalogue.hpp"
#include "text/words.hpp"

namespace battwright::fibre {
namespace {

// Lower-case runs of letters and digits. Bytes above ASCII belong to the word they stand in.
std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words;
    bool inside = false;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        const bool letter = byte >= 0x80 || std::isalnum(byte) != 0;
        if (letter && !inside) words.emplace_back();
        if (letter) words.back() += text::lower(c);
        inside = letter;
    }
    return words;
}

// How far a match is from the best there can be; a word that is not there has no rank.
enum Rank { same = 0, start = 1, within = 2, absent = 100 };
constexpr int other_words_behind = 3;
constexpr int family_behind = 6;

int rank_in(const std::vector<std::string>& words, const std::string& sought) {
    int best = absent;
    for (const std::string& word : words) {
        const std::size_t at = word.find(sought);
        if (at == std::string::npos) continue;
        best = std::min<int>(best, at != 0 ? within : word.size() == sought.size() ? same : start);
    }
    return best;
}

struct Entry {
    std::vector<std::string> title;  // id and name
    std::vector<std::string> other;
    std::vector<std::string> family;
};

Entry entry_of(const Kind& kind) {
    Entry entry{words_of(kind.id + ' ' + kind.name), {}, words_of(word_for(kind.family))};
    for (const std::string& text : kind.also)
        for (std::string& word : words_of(text)) entry.other.push_back(std::move(word));
    return entry;
}

int rank_of(const Kind& kind, const std::vector<std::string>& sought) {
    const Entry entry = entry_of(kind);
    int sum = 0;
    for (const std::string& word : sought) {
        const int rank =
            std::min({rank_in(entry.title, word), rank_in(entry.other, word) + other_words_behind,
                      rank_in(entry.family, word) + family_behind});
        if (rank >= absent) return absent;
        sum += rank;
    }
    const std::vector<std::string> id = words_of(kind.id);
    const bool same_words =
        id.size() == sought.size() && std::is_permutation(id.begin(), id.end(), sought.begin());
    return same_words ? -1 : std::min<int>(sum, absent - 1);
}

}  // namespace

std::vector<const Kind*> Catalogue::search(std::string_view query) const {
    const std::vector<std::string> sought = words_of(query);
    std::vector<std::pair<int, const Kind*>> ranked;
    for (const Kind& kind : *kinds_) {
        const int rank = sought.empty() ? 0 : rank_of(kind, sought);
        if (rank < absent) ranked.emplace_back(rank, &kind);
    }
    std::stable_sort(ranked.begin(), ranked.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<const Kind*> found;
    found.reserve(ranked.size());
    for (const auto& entry : ranked) found.push_back(entry.second);
    return found;
}

}  // namespace battwright::fibre
