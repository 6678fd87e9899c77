#include "recipe/price.hpp"

namespace battwright::recipe {

measure::Expected<Price> parse_price(std::string_view text) {
    const auto quantity = measure::parse_quantity(text, "price", "6.50 per 100 g");
    if (!quantity) return tl::make_unexpected(quantity.error());
    constexpr std::string_view word = "per ";
    const measure::Complaint complaint{
        "the price " + measure::quoted(text) + " does not say for how much fibre",
        "write it with its weight and no currency, as in price = \"6.50 per 100 g\""};
    if (!std::string_view(quantity->unit).starts_with(word)) return tl::make_unexpected(complaint);
    std::string weight = quantity->unit.substr(word.size());
    if (weight.find_first_of("0123456789") == std::string::npos) weight = "1 " + weight;
    const auto per = measure::parse_mass(weight);
    if (!per || per->grams <= 0.0) return tl::make_unexpected(complaint);
    return Price{quantity->value, *per};
}

std::string write_price(const Price& price) {
    return measure::write_number(price.amount) + " per " + measure::write_mass(price.per);
}

}  // namespace battwright::recipe
