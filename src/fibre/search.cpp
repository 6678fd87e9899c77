// Finding kinds by what a person types, declared in fibre/catalogue.hpp.
#include <algorithm>
#include <cctype>
#include <utility>

#include "fibre/catalogue.hpp"
#include "measure/nearest.hpp"
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

// Longer ones are no word for a fibre, and not worth looking through the catalogue for.
constexpr std::size_t longest_word = 200;

using Words = std::vector<std::string>;

std::string run_together(const Words& words) {
    std::string all;
    for (const std::string& word : words) all += word;
    return all;
}

// In any order, or parted into more: "blue faced leicester" is "bluefaced leicester".
bool says(const Words& words, const Words& sought) {
    return std::is_permutation(words.begin(), words.end(), sought.begin(), sought.end()) ||
           (sought.size() > words.size() && run_together(words) == run_together(sought));
}

bool says_with_family(Words words, const Words& sought, Family family) {
    if (says(words, sought)) return true;
    words.emplace_back(word_for(family));
    return says(words, sought);
}

bool id_says(const Kind& kind, const Words& sought) {
    return says_with_family(words_of(kind.id), sought, kind.family);
}
bool name_says(const Kind& kind, const Words& sought) {
    return says_with_family(words_of(kind.name), sought, kind.family);
}
bool other_says(const Kind& kind, const Words& sought) {
    return std::any_of(kind.also.begin(), kind.also.end(), [&](const std::string& other) {
        return says_with_family(words_of(other), sought, kind.family);
    });
}
// All but one word of it: "tussah" is tussah silk, "black" is no black Welsh Mountain yet.
bool id_begins(const Kind& kind, const Words& sought) {
    const Words words = words_of(kind.id);
    return sought.size() + 1 == words.size() && std::equal(sought.begin(), sought.end(), words.begin());
}

}  // namespace

const Kind* Catalogue::meant(std::string_view word) const {
    if (const Kind* kind = find(word)) return kind;
    if (word.size() > longest_word) return nullptr;
    const Words sought = words_of(word);
    if (sought.empty()) return nullptr;
    for (const auto fits : {id_says, name_says, other_says, id_begins}) {
        std::vector<const Kind*> found;
        for (const Kind& kind : *kinds_)
            if (fits(kind, sought)) found.push_back(&kind);
        const auto is_lock = [](const Kind* kind) { return kind->form == Form::lock; };
        if (!std::all_of(found.begin(), found.end(), is_lock)) std::erase_if(found, is_lock);
        if (found.size() == 1) return found.front();
        if (!found.empty()) return nullptr;
    }
    return nullptr;
}

// What the catalogue finds for a word is meant, not what is spelt like it: "silk" the silks and no "milk".
std::vector<std::string> Catalogue::near(std::string_view word,
                                         const std::vector<std::string>& others) const {
    constexpr std::size_t most = 3, shortest_word = 3;
    std::vector<std::string> words;
    if (word.size() >= shortest_word && word.size() <= longest_word) {
        for (const Kind* kind : search(word))
            if (words.size() < most) words.push_back(kind->id);
    }
    if (!words.empty()) return words;
    std::vector<std::string> known = ids();
    known.insert(known.end(), others.begin(), others.end());
    return measure::nearest_words(word, known, most);
}

measure::Complaint unknown_kind(std::string_view word, const Catalogue& catalogue) {
    const auto near = catalogue.near(word);
    return {"unknown fibre " + measure::quoted(word),
            near.empty() ? "use an id of the catalogue, or unknown-fibre when the tag is lost"
                         : measure::ask_for(near)};
}

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
