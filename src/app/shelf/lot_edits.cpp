#include "app/shelf/lot_edits.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <string>
#include <utility>

#include "app/bench/edits.hpp"
#include "app/bench/give_way.hpp"
#include "app/half_typed.hpp"
#include "recipe/composition.hpp"
#include "shelving/stock.hpp"
#include "text/words.hpp"

namespace battwright::app {
namespace {

// What recipe::check() lets through.
constexpr std::size_t most_kinds = 12;

// Shares to a tenth that sum to 100.
std::vector<recipe::Content> to_hundred(std::vector<recipe::Content> blend) {
    double sum = 0.0;
    for (const auto& entry : blend) sum += entry.share_pct;
    std::vector<double> shares;
    shares.reserve(blend.size());
    for (const auto& entry : blend) shares.push_back(100.0 * entry.share_pct / sum);
    shares = measure::round_to_step(shares, 0.1);
    for (std::size_t i = 0; i < blend.size(); ++i) blend[i].share_pct = std::round(shares[i] * 10.0) / 10.0;
    return blend;
}

}  // namespace

recipe::Component component_of(const stash::Shelved& shelved, const std::vector<stash::Movement>& movements,
                               std::string_view currency) {
    // The lot is only looked at.
    const std::shared_ptr<const stash::Shelved> looked_at(std::shared_ptr<void>(), &shelved);
    auto stock = shelving::stock_of({{looked_at, shelving::cost_per_gram(shelved, movements, currency)}},
                                    std::chrono::sys_days{});
    return stock.components.empty() ? recipe::Component{} : std::move(stock.components.front());
}

std::vector<recipe::Content> with_kind(std::vector<recipe::Content> blend, const std::string& kind) {
    const bool there = std::any_of(blend.begin(), blend.end(),
                                   [&kind](const recipe::Content& entry) { return entry.fibre == kind; });
    if (there || blend.size() >= most_kinds) return blend;
    blend.push_back({kind, 100.0});
    if (blend.size() == 1) return blend;
    const std::size_t last = blend.size() - 1;
    return with_share(std::move(blend), last, 100.0 / static_cast<double>(last + 1));
}

std::vector<recipe::Content> without_kind(std::vector<recipe::Content> blend, std::size_t index) {
    if (blend.size() < 2) return blend;
    blend.erase(blend.begin() + static_cast<std::ptrdiff_t>(index));
    return to_hundred(std::move(blend));
}

std::vector<recipe::Content> with_share(std::vector<recipe::Content> blend, std::size_t index,
                                        double percent) {
    if (blend.size() < 2) return blend;
    percent = std::clamp(percent, 0.1, 99.9);
    double others = 0.0;
    for (std::size_t i = 0; i < blend.size(); ++i) {
        if (i != index) others += blend[i].share_pct;
    }
    for (std::size_t i = 0; i < blend.size(); ++i)
        blend[i].share_pct = i == index     ? percent
                             : others > 0.0 ? blend[i].share_pct * (100.0 - percent) / others
                                            : (100.0 - percent) / static_cast<double>(blend.size() - 1);
    return to_hundred(std::move(blend));
}

bool is_begun(const stash::Lot& lot, std::string_view weight) {
    const std::array<std::string_view, 7> typed{weight,    lot.name,  lot.maker, lot.got_on,
                                                lot.place, lot.photo, lot.notes};
    return !std::ranges::all_of(typed, text::is_blank) || !lot.content.empty() || !lot.palette.empty() ||
           lot.form != stash::Form::other || lot.raw || lot.cost || lot.staple_mm || lot.diameter_um;
}

std::string typed_in(const stash::Lot& lot, std::string_view weight) {
    if (!is_begun(lot, weight)) return {};
    std::string said = typed_in({weight, lot.name, lot.maker, lot.got_on, lot.place, lot.photo, lot.notes});
    for (const auto& part : lot.content) said += part.fibre + measure::write_number(part.share_pct) + " ";
    for (const auto& tint : lot.palette) said += colour::hex(tint.colour) + " ";
    return said + "begun";
}

std::optional<double> wanted_of(const Sheet& sheet, std::string_view mark) {
    if (sheet.recipe.components.empty()) return 0.0;
    const auto masses = recipe::masses_of(sheet.recipe);
    if (!masses) return std::nullopt;
    double grams = 0.0;
    for (std::size_t i = 0; i < sheet.recipe.components.size(); ++i) {
        if (sheet.recipe.components[i].lot == mark) grams += masses->grams[i];
    }
    return grams;
}

double suggested_grams(const Sheet& sheet, const stash::Shelved& shelved, double scrap_grams) {
    const double left = shelved.clean_grams() - wanted_of(sheet, shelved.lot.mark).value_or(0.0);
    if (left <= 0.0) return std::min(shelved.clean_grams(), least_grams);
    if (stash::is_scrap(shelved, scrap_grams)) return left;
    const auto masses = recipe::masses_of(sheet.recipe);
    double usual = 25.0;
    if (masses && !masses->grams.empty()) {
        double sum = 0.0;
        for (const double grams : masses->grams) sum += grams;
        const auto count = static_cast<double>(masses->grams.size());
        usual = sheet.recipe.total ? sum / (count + 1.0) : std::max(1.0, std::round(sum / count));
    }
    return std::min(left, usual);
}

measure::Expected<Change> put_on_bench(const Sheet& sheet, const stash::Shelved& shelved,
                                       measure::Mass weight, const std::vector<stash::Movement>& movements,
                                       std::string_view currency, const fibre::Catalogue& catalogue) {
    const auto refuse = [](std::string what, std::string mend) {
        return tl::make_unexpected(measure::Complaint{std::move(what), std::move(mend)});
    };
    if (!(shelved.clean_grams() > 0.0))
        return refuse("nothing is left of " + measure::quoted(shelved.lot.name),
                      "choose another lot, or weigh this one again");
    for (const auto& content : shelved.lot.content) {
        if (catalogue.find(content.fibre) == nullptr)
            return refuse("the catalogue has no fibre " + measure::quoted(content.fibre),
                          "change the lot's kind on its card");
    }
    recipe::Component component = component_of(shelved, movements, currency);
    if (component.content.empty())
        return refuse("the lot is of no kind of fibre", "name its kind on its card");
    tell_apart(sheet.recipe, component,
               [](const recipe::Component& other, const recipe::Component& newcomer) {
                   return other.lot == newcomer.lot && other.name == newcomer.name;
               });
    if (catalogue.find(component.content.front().fibre)->form != fibre::Form::fibre)
        component.add_on_pass = recipe::last_pass;
    weight.grams = std::max(weight.grams, least_grams);
    return add(sheet, std::move(component), weight);
}

}  // namespace battwright::app
