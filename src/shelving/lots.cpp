#include "shelving/lots.hpp"

#include <algorithm>

#include "colour/spaces.hpp"
#include "measure/nearest.hpp"
#include "recipe/limits.hpp"
#include "text/words.hpp"

namespace battwright::shelving {
namespace {

// Entries that name the same thing become one, the smallest go when there are too many, and shares sum to
// 100.
template <class Entry, class Same>
std::vector<Entry> merged(const std::vector<Entry>& entries, std::size_t most, const Same& same) {
    std::vector<Entry> result;
    for (const Entry& entry : entries) {
        const auto known = std::find_if(result.begin(), result.end(),
                                        [&](const Entry& other) { return same(other, entry); });
        if (known == result.end())
            result.push_back(entry);
        else
            known->share_pct += entry.share_pct;
    }
    while (result.size() > most)
        result.erase(std::min_element(result.begin(), result.end(), [](const Entry& a, const Entry& b) {
            return a.share_pct < b.share_pct;
        }));
    if (result.size() == entries.size()) return result;
    double sum = 0.0;
    for (const Entry& entry : result) sum += entry.share_pct;
    for (Entry& entry : result) entry.share_pct *= 100.0 / sum;
    return result;
}

// Files hold eight bits a channel, so that is what is solved with too.
std::vector<recipe::Tint> whole_colours(std::vector<recipe::Tint> palette) {
    for (recipe::Tint& tint : palette) {
        if (const auto whole = colour::parse_hex(colour::hex(tint.colour))) tint.colour = *whole;
    }
    return palette;
}

const stash::Shelved* lot_by(const std::string& written, const stash::Shelf& shelf) {
    const auto mark = stash::parse_mark(written);
    return mark ? shelf.find(*mark) : nullptr;
}

staple::Finding unknown_lots(const std::vector<std::string>& unknown, std::vector<std::size_t> components,
                             const stash::Shelf& shelf) {
    std::vector<std::string> known;
    for (const auto& lot : shelf.lots) known.push_back(lot->lot.mark);
    const std::string question = measure::did_you_mean(unknown.front(), known);
    staple::Finding finding;
    finding.code = "lot-unknown";
    finding.text =
        "The shelf has no lot with the mark " + text::listed(unknown, "or") +
        ": nothing is known of it but what the recipe says, and it cannot be carded from the shelf.";
    finding.remedy = unknown.size() > 1 || question.empty()
                         ? "Write the mark as it stands on the bag, or put the lot on the shelf."
                         : text::capitalised(question);
    finding.components = std::move(components);
    return finding;
}

staple::Finding raw_lots(const std::vector<const stash::Shelved*>& lots,
                         std::vector<std::size_t> components) {
    std::vector<std::string> names;
    names.reserve(lots.size());
    for (const stash::Shelved* lot : lots) names.push_back(lot->lot.name);
    const bool one = lots.size() == 1;
    staple::Finding finding;
    finding.code = "lot-raw";
    finding.severity = staple::Severity::warning;
    finding.text = text::listed(names, "and") + (one ? " is" : " are") +
                   " raw on the shelf. Grease and dirt clog the teeth and hold the fibres together, and the "
                   "weights here are of clean fibre.";
    finding.remedy = std::string("Scour ") + (one ? "it" : "them") +
                     " and let it dry before it is weighed out, and write down on the shelf what is left.";
    finding.components = std::move(components);
    return finding;
}

}  // namespace

recipe::Component component_of(const stash::Lot& lot) {
    recipe::Component component;
    component.lot = lot.mark;
    component.name = text::cut(lot.name, recipe::longest_name);
    component.content = merged(lot.content, recipe::most_kinds,
                               [](const auto& a, const auto& b) { return a.fibre == b.fibre; });
    component.palette = merged(whole_colours(lot.palette), recipe::most_tints,
                               [](const auto& a, const auto& b) { return a.colour == b.colour; });
    // A lot with a photo has its colours from it, as far as anyone can tell.
    if (!lot.photo.empty() && !component.palette.empty()) component.colour_from = recipe::ColourFrom::photo;
    if (lot.staple_mm && recipe::staple_millimetres.holds(*lot.staple_mm))
        component.staple = measure::Length{*lot.staple_mm, measure::LengthUnit::millimetre};
    if (lot.diameter_um && recipe::diameter_micrometres.holds(*lot.diameter_um))
        component.diameter_um = lot.diameter_um;
    return component;
}

recipe::LotOf lots_of(std::shared_ptr<const stash::Shelf> shelf) {
    if (!shelf) return {};
    return [shelf = std::move(shelf)](std::string_view written) -> std::optional<recipe::Component> {
        const stash::Shelved* shelved = lot_by(std::string(written), *shelf);
        return shelved == nullptr ? std::nullopt : std::optional(component_of(shelved->lot));
    };
}

void add_lot_findings(forecast::Forecast& forecast, const stash::Shelf& shelf) {
    if (shelf.lots.empty()) return;
    std::vector<std::string> unknown;
    std::vector<std::size_t> without, greasy;
    std::vector<const stash::Shelved*> raw;
    const auto& components = forecast.recipe.components;
    for (std::size_t i = 0; i < components.size(); ++i) {
        const std::string& mark = components[i].lot;
        if (mark.empty()) continue;
        const stash::Shelved* lot = lot_by(mark, shelf);
        if (lot == nullptr) {
            unknown.push_back(mark);
            without.push_back(i);
        } else if (lot->lot.raw) {
            greasy.push_back(i);
            if (std::find(raw.begin(), raw.end(), lot) == raw.end()) raw.push_back(lot);
        }
    }
    if (!without.empty()) forecast.findings.push_back(unknown_lots(unknown, std::move(without), shelf));
    if (!raw.empty()) forecast.findings.push_back(raw_lots(raw, std::move(greasy)));
    for (staple::Finding& finding : forecast.findings)
        if (finding.text_with_quantities.empty()) staple::settle_words(finding);
    staple::sort_findings(forecast.findings);
}

}  // namespace battwright::shelving
