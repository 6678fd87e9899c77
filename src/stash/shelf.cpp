#include "stash/shelf.hpp"

#include <algorithm>
#include <limits>

#include "colour/spaces.hpp"
#include "text/words.hpp"

namespace battwright::stash {
namespace {

using Found = std::shared_ptr<const Shelved>;

bool before_by_name(const std::string& first, const std::string& second) {
    return std::lexicographical_compare(first.begin(), first.end(), second.begin(), second.end(),
                                        [](char a, char b) { return text::lower(a) < text::lower(b); });
}

bool holds_kind(const Lot& lot, const std::string& kind) {
    return std::any_of(lot.content.begin(), lot.content.end(),
                       [&](const recipe::Content& content) { return content.fibre == kind; });
}

bool passes_weight(const Shelved& shelved, const Filter& filter) {
    if (!filter.empties && shelved.grams <= 0.0) return false;
    if (filter.scraps_only && !is_scrap(shelved, filter.scrap_grams)) return false;
    if (filter.at_least_grams && shelved.grams < *filter.at_least_grams) return false;
    return !filter.at_most_grams || shelved.grams <= *filter.at_most_grams;
}

// ISO dates sort as text.
bool passes_date(const Lot& lot, const Filter& filter) {
    if (filter.got_from.empty() && filter.got_to.empty()) return true;
    if (lot.got_on.empty()) return false;
    return lot.got_on >= filter.got_from && (filter.got_to.empty() || lot.got_on <= filter.got_to);
}

bool passes_words(const Shelved& shelved, const std::vector<std::string>& words) {
    return std::all_of(words.begin(), words.end(), [&](const std::string& word) {
        return shelved.searched.find(word) != std::string::npos;
    });
}

bool passes(const Shelved& shelved, const Filter& filter, const std::vector<std::string>& words) {
    if (!filter.kind.empty() && !holds_kind(shelved.lot, filter.kind)) return false;
    if (filter.form && shelved.lot.form != *filter.form) return false;
    return passes_weight(shelved, filter) && passes_date(shelved.lot, filter) && passes_words(shelved, words);
}

struct Candidate {
    Found found;
    double away = std::numeric_limits<double>::infinity();
};

bool by_date(const Lot& first, const Lot& second, bool oldest) {
    if (first.got_on.empty() || second.got_on.empty()) return !first.got_on.empty() && second.got_on.empty();
    return oldest ? first.got_on < second.got_on : first.got_on > second.got_on;
}

bool before(const Candidate& first, const Candidate& second, Order order) {
    switch (order) {
        case Order::as_added:
            return first.found->lot.id < second.found->lot.id;
        case Order::name:
            return before_by_name(first.found->lot.name, second.found->lot.name);
        case Order::lightest:
            return first.found->grams < second.found->grams;
        case Order::heaviest:
            return first.found->grams > second.found->grams;
        case Order::oldest:
        case Order::newest:
            return by_date(first.found->lot, second.found->lot, order == Order::oldest);
        case Order::nearest:
            return first.away < second.away;
    }
    return false;
}

}  // namespace

void complete(Shelved& shelved) {
    const Lot& lot = shelved.lot;
    shelved.tints.clear();
    for (const recipe::Tint& tint : lot.palette) shelved.tints.push_back(colour::lab(tint.colour));
    std::string text = lot.mark + '\n' + lot.name + '\n' + lot.maker + '\n' + lot.place + '\n' + lot.notes +
                       '\n' + std::string(word_for(lot.form));
    for (const recipe::Content& content : lot.content) text += '\n' + content.fibre;
    shelved.searched = text::lower(text);
}

const Shelved* Shelf::find(std::string_view mark) const {
    const auto found =
        std::find_if(lots.begin(), lots.end(), [&](const Found& lot) { return lot->lot.mark == mark; });
    return found == lots.end() ? nullptr : found->get();
}

std::optional<double> distance(const Shelved& shelved, const NearColour& near) {
    if (!near.any_tint || shelved.tints.empty()) {
        if (!shelved.colour) return std::nullopt;
        return colour::ciede2000(near.colour, *shelved.colour);
    }
    double least = std::numeric_limits<double>::infinity();
    for (const colour::Lab& tint : shelved.tints)
        least = std::min(least, colour::ciede2000(near.colour, tint));
    return least;
}

std::vector<Found> filtered(const Shelf& shelf, const Filter& filter, Order order) {
    const std::vector<std::string> words = text::split(text::lower(filter.text));
    std::vector<Candidate> candidates;
    for (const Found& lot : shelf.lots) {
        if (!passes(*lot, filter, words)) continue;
        Candidate candidate{lot};
        if (filter.near) {
            const auto away = distance(*lot, *filter.near);
            if (!away || *away > filter.near->most_de00) continue;
            candidate.away = *away;
        }
        candidates.push_back(std::move(candidate));
    }
    // The shelf is in the order the lots came, and a stable sort keeps it among equals.
    std::stable_sort(candidates.begin(), candidates.end(),
                     [&](const Candidate& a, const Candidate& b) { return before(a, b, order); });
    std::vector<Found> result;
    result.reserve(candidates.size());
    for (Candidate& candidate : candidates) result.push_back(std::move(candidate.found));
    return result;
}

}  // namespace battwright::stash
