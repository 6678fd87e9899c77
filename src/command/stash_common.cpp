#include "command/stash_common.hpp"

#include <charconv>
#include <utility>

#include "command/layout.hpp"
#include "command/units.hpp"
#include "measure/own_units.hpp"
#include "measure/unit_tables.hpp"

namespace battwright::command {

std::string Common::mass_as(const std::string& typed, double grams) const {
    const auto read = measure::parse_mass(typed);
    return measure::print_mass(grams, read && !given("--weights") ? read->unit : units.mass);
}

void add_unit_options(Command& app, Common& common) {
    app.add_option("--weights", common.weights, mass_units_printed());
    app.add_option("--lengths", common.lengths, "of staples and streaks: " + length_units_printed());
    app.add_option("--yarn-lengths", common.yarn_lengths, "of yarn: " + yarn_length_units_printed());
}

Answer in_own_units(Common& common, const std::function<Answer()>& work) {
    // Where a unit of yarn is named, its length is meant.
    for (const auto& row : measure::yarn_length_units)
        if (common.lengths == row.word) common.yarn_lengths = std::exchange(common.lengths, "mm");
    const Units units = parse_units(common.weights, common.lengths);
    common.units = {units.mass, units.length, yarn_length_unit(common.yarn_lengths)};
    try {
        return work();
    } catch (Failed& failed) {
        failed.complaint =
            measure::in_units(std::move(failed.complaint), {common.units.mass, common.units.yarn});
        throw;
    }
}

std::filesystem::path stash_path(const Common& common) {
    return common.file.empty() ? stash::default_path() : std::filesystem::path(common.file);
}

stash::Stash open_stash(const Common& common, const Context& context, Opening opening) {
    stash::OpenOptions how;
    how.create = opening == Opening::creating;
    how.read_only = opening == Opening::reading;
    how.catalogue = &context.catalogue;
    return value_of(stash::Stash::open(stash_path(common), how));
}

Expected<double> grams_of(const std::string& text) {
    return measure::parse_mass(text).map([](const measure::Mass& mass) { return mass.grams; });
}

Expected<double> millimetres_of(const std::string& text) {
    return measure::parse_length(text).map([](const measure::Length& length) { return length.millimetres; });
}

double weight_of(const std::string& text, const char* option) {
    if (const auto grams = given(text, option, grams_of)) return *grams;
    fail("there is no weight", "give one, as in \"25 g\"", option);
}

std::optional<std::int64_t> whole_above_zero(const std::string& text) {
    std::int64_t whole = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), whole);
    const bool read = error == std::errc{} && end == text.data() + text.size() && whole > 0;
    return read ? std::optional(whole) : std::nullopt;
}

std::int64_t id_of(const std::string& text, const char* option) {
    if (const auto id = whole_above_zero(text)) return *id;
    fail(measure::quoted(text) + " is no number of the record", "give the number from the list, as in 4",
         option);
}

stash::Money money_of(const std::string& text, stash::Stash& stash) {
    const auto quantity = value_of(measure::parse_quantity(text, "cost", "12.50 EUR"), "--cost");
    const auto currency = value_of(stash.currency());
    if (quantity.unit.empty() && currency.empty())
        fail("the cost " + measure::quoted(text) + " has no currency", "name yours once, as in \"12.50 EUR\"",
             "--cost");
    if (currency.empty()) value_of(stash.set_currency(quantity.unit));
    return {quantity.value, quantity.unit.empty() ? currency : quantity.unit};
}

const fibre::Kind& kind_named(const std::string& word, const fibre::Catalogue& catalogue,
                              const char* option) {
    if (const fibre::Kind* kind = catalogue.meant(word)) return *kind;
    Complaint unknown = fibre::unknown_kind(word, catalogue);
    unknown.where = option;
    throw Failed{std::move(unknown)};
}

std::optional<recipe::Preparation> preparation_given(const std::string& word) {
    if (word.empty()) return {};
    for (const auto& row : recipe::preparations)
        if (word == row.word) return row.value;
    fail("no preparation " + measure::quoted(word),
         "use " + text::listed(measure::words_of(recipe::preparations), "or"), "--preparation");
}

std::string with_semicolons(const std::vector<std::string>& parts) {
    std::string text;
    for (const std::string& part : parts) text += (text.empty() ? "" : ";") + part;
    return text;
}

std::string palette_text(const std::vector<recipe::Tint>& palette) {
    std::string text;
    for (const recipe::Tint& tint : palette)
        text += (text.empty() ? "" : ", ") + colour::hex(tint.colour) + " " +
                measure::print_percent(tint.share_pct);
    return text;
}

std::string money_text(const stash::Money& money) {
    return number(money.amount, 2) + (money.currency.empty() ? "" : " " + money.currency);
}

std::string cost_text(const stash::Cost& cost, const Common& common) {
    std::string text;
    for (const stash::Money& sum : cost.sums) text += (text.empty() ? "" : " + ") + money_text(sum);
    if (text.empty()) text = "no price known";
    if (cost.unpriced_grams > 0.0 && !cost.sums.empty())
        text += " and " + common.mass(cost.unpriced_grams) + " of no price";
    return text;
}

}  // namespace battwright::command
