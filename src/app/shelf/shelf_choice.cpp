#include "app/shelf/shelf_choice.hpp"

#include <algorithm>
#include <cmath>

#include "colour/spaces.hpp"
#include "stash/date.hpp"
#include "text/words.hpp"

namespace battwright::app {
namespace {

constexpr std::size_t most_words = 400;

std::chrono::sys_days years_before(std::chrono::sys_days day, int years) {
    const std::chrono::year_month_day then = std::chrono::year_month_day(day) - std::chrono::years(years);
    // A year before 29 February is 28 February.
    return then.ok() ? std::chrono::sys_days(then)
                     : std::chrono::sys_days(then.year() / then.month() / std::chrono::last);
}

std::string date_words(const stash::Filter& filter) {
    if (filter.got_from.empty() && filter.got_to.empty()) return {};
    if (filter.got_to.empty()) return "got since " + filter.got_from;
    if (filter.got_from.empty()) return "got until " + filter.got_to;
    return "got " + filter.got_from + " to " + filter.got_to;
}

std::string weight_words(const stash::Filter& filter, measure::MassUnit unit) {
    const auto print = [unit](double grams) { return measure::print_mass(grams, unit); };
    if (filter.at_least_grams && filter.at_most_grams)
        return print(*filter.at_least_grams) + " to " + print(*filter.at_most_grams);
    if (filter.at_least_grams) return "from " + print(*filter.at_least_grams);
    if (filter.at_most_grams) return "up to " + print(*filter.at_most_grams);
    return {};
}

}  // namespace

std::string kind_name(const std::string& id, const fibre::Catalogue& catalogue) {
    const fibre::Kind* kind = catalogue.find(id);
    return kind != nullptr ? kind->name : id;
}

stash::Filter with_age(stash::Filter filter, Age age, std::chrono::sys_days day) {
    const auto before = [day](int years) { return stash::print_date(years_before(day, years)); };
    const auto eve_of = [day](int years) {
        return stash::print_date(years_before(day, years) - std::chrono::days(1));
    };
    filter.got_from = age == Age::under_one ? before(1) : age == Age::one_to_three ? before(3) : "";
    filter.got_to = age == Age::one_to_three ? eve_of(1) : age == Age::over_three ? eve_of(3) : "";
    return filter;
}

std::optional<Age> age_of(const stash::Filter& filter, std::chrono::sys_days day) {
    for (const Age age : {Age::any, Age::under_one, Age::one_to_three, Age::over_three}) {
        const auto dated = with_age(filter, age, day);
        if (dated.got_from == filter.got_from && dated.got_to == filter.got_to) return age;
    }
    return std::nullopt;
}

std::string conditions(const ShelfChoice& choice, const fibre::Catalogue& catalogue, measure::MassUnit unit) {
    const stash::Filter& filter = choice.filter;
    std::string line;
    if (!filter.kind.empty()) append(line, kind_name(filter.kind, catalogue));
    if (filter.form) append(line, std::string(stash::word_for(*filter.form)));
    append(line, weight_words(filter, unit));
    append(line, date_words(filter));
    if (filter.near)
        append(line, "within " + measure::write_number(filter.near->most_de00) + " of " +
                         colour::hex(colour::clipped(colour::srgb_from(filter.near->colour))));
    if (filter.empties) append(line, "used up too");
    return line;
}

ShelfChoice without_conditions(ShelfChoice choice) {
    choice = near_nothing(std::move(choice));
    stash::Filter plain;
    plain.text = choice.filter.text;
    plain.scrap_grams = choice.filter.scrap_grams;
    choice.filter = std::move(plain);
    return choice;
}

ShelfChoice near_to(ShelfChoice choice, const colour::Srgb& colour) {
    if (!choice.filter.near) choice.filter.near = stash::NearColour{};
    choice.filter.near->colour = colour::lab(colour);
    choice.order = stash::Order::nearest;
    return choice;
}

ShelfChoice near_nothing(ShelfChoice choice) {
    choice.filter.near.reset();
    if (choice.order == stash::Order::nearest) choice.order = stash::Order::as_added;
    return choice;
}

measure::Expected<measure::Mass> parse_weight(std::string_view typed, measure::MassUnit unit) {
    auto mass = measure::parse_mass(typed);
    if (mass) return mass;
    auto bare = measure::parse_mass(std::string(typed).append(" ").append(measure::word_for(unit)));
    return bare ? bare : mass;
}

measure::Expected<double> parse_share(std::string_view typed) {
    auto percent = measure::parse_percent(typed);
    if (percent) return percent;
    auto bare = measure::parse_percent(std::string(typed) + " %");
    return bare ? bare : percent;
}

measure::Expected<stash::Money> parse_money(std::string_view typed, std::string_view currency) {
    auto quantity = measure::parse_quantity(typed, "cost", "24.50");
    if (!quantity) return tl::make_unexpected(std::move(quantity.error()));
    return stash::Money{quantity->value, quantity->unit.empty() ? std::string(currency) : quantity->unit};
}

std::string print_money(const stash::Money& money) {
    std::string words = measure::print_number(money.amount, 2);
    const auto point = words.find('.');
    if (point != std::string::npos && words.size() - point == 2) words += '0';
    return money.currency.empty() ? words : words + " " + money.currency;
}

std::string kinds_of(const stash::Lot& lot, const fibre::Catalogue& catalogue) {
    std::string words;
    for (const auto& content : lot.content) {
        if (!words.empty()) words += ", ";
        words += kind_name(content.fibre, catalogue);
        if (lot.content.size() > 1) words.append(" ").append(measure::print_percent(content.share_pct));
    }
    return words;
}

std::string shortened(std::string_view text, std::size_t most_bytes) {
    if (text.size() <= most_bytes) return std::string(text);
    return std::string(text::cut(text, most_bytes)) + "\u2026";
}

std::string lot_in_words(const stash::Shelved& shelved, const fibre::Catalogue& catalogue,
                         measure::MassUnit unit) {
    const stash::Lot& lot = shelved.lot;
    std::string words = shortened(lot.name, most_words) + "\n";
    words += measure::print_mass(shelved.grams, unit) + " of " +
             shortened(kinds_of(lot, catalogue), most_words) + ", " + std::string(stash::word_for(lot.form));
    if (lot.raw) words += "\nraw: " + measure::print_mass(shelved.clean_grams(), unit) + " when scoured";
    std::string from = lot.got_on.empty() ? "" : "got " + lot.got_on;
    if (!lot.maker.empty()) append(from, shortened(lot.maker, most_words));
    if (!lot.place.empty()) append(from, shortened(lot.place, most_words));
    if (!from.empty()) words += "\n" + from;
    return words + "\n" + lot.mark;
}

}  // namespace battwright::app
