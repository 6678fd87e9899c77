#include "command/stash_desk.hpp"

#include <charconv>

#include "command/layout.hpp"
#include "command/units.hpp"

namespace battwright::command {

void add_weights_option(Command& app, Common& common) {
    app.add_option("--weights", common.weights, "g, oz or lb");
}

Expected<stash::Stash> open_stash(const Common& common, const Desk& desk, Opening opening) {
    stash::How how;
    how.create = opening == Opening::creating;
    how.read_only = opening == Opening::reading;
    how.catalogue = &desk.catalogue;
    return stash::Stash::open(
        common.file.empty() ? stash::default_path() : std::filesystem::path(common.file), how);
}

Expected<double> grams_of(const std::string& text) {
    auto mass = measure::parse_mass(text);
    if (!mass) return tl::unexpected(mass.error());
    return mass->grams;
}

Expected<double> millimetres_of(const std::string& text) {
    auto length = measure::parse_length(text);
    if (!length) return tl::unexpected(length.error());
    return length->millimetres;
}

Expected<double> metres_of(const std::string& text) {
    return measure::parse_yarn_length_metres(text);
}

Expected<double> weight_of(const std::string& text, const char* option) {
    auto grams = given(text, option, grams_of);
    if (!grams) return tl::unexpected(grams.error());
    if (*grams) return **grams;
    return tl::unexpected(Complaint{"there is no weight", "give one, as in \"25 g\"", option});
}

Expected<std::int64_t> id_of(const std::string& text, const char* option) {
    std::int64_t id = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), id);
    if (error == std::errc{} && end == text.data() + text.size() && id > 0) return id;
    return tl::unexpected(Complaint{measure::quoted(text) + " is no number of the record",
                                    "give the number from the list, as in 4", option});
}

Expected<stash::Money> money_of(const std::string& text, stash::Stash& stash) {
    auto quantity = measure::parse_quantity(text, "cost", "12.50 EUR");
    if (!quantity) {
        quantity.error().where = "--cost";
        return tl::unexpected(quantity.error());
    }
    auto currency = stash.currency();
    if (!currency) return tl::unexpected(currency.error());
    if (quantity->unit.empty() && currency->empty())
        return tl::unexpected(Complaint{"the cost " + measure::quoted(text) + " has no currency",
                                        "name yours once, as in \"12.50 EUR\"", "--cost"});
    if (currency->empty())
        if (auto set = stash.set_currency(quantity->unit); !set) return tl::unexpected(set.error());
    return stash::Money{quantity->value, quantity->unit.empty() ? *currency : quantity->unit};
}

Expected<std::string> kind_named(const std::string& word, const fibre::Catalogue& catalogue,
                                 const char* option) {
    if (const fibre::Kind* kind = catalogue.meant(word)) return kind->id;
    Complaint unknown = fibre::unknown_kind(word, catalogue);
    unknown.where = option;
    return tl::unexpected(std::move(unknown));
}

Expected<measure::MassUnit> mass_unit(const std::string& word) {
    auto units = parse_units(word, "mm");
    if (!units) return tl::unexpected(units.error());
    return units->mass;
}

std::string money_text(const stash::Money& money) {
    return number(money.amount, 2) + (money.currency.empty() ? "" : " " + money.currency);
}

std::string metres_text(double metres) {
    return measure::print_yarn_length(metres, measure::YarnLengthUnit::metre);
}

std::string cost_text(const stash::Cost& cost) {
    std::string text;
    for (const stash::Money& sum : cost.sums) text += (text.empty() ? "" : " + ") + money_text(sum);
    if (text.empty()) text = "no price known";
    if (cost.unpriced_grams > 0.0 && !cost.sums.empty())
        text += " and " + measure::print_mass(cost.unpriced_grams, measure::MassUnit::gram) + " of no price";
    return text;
}

}  // namespace battwright::command
