// What a component must be beyond its spelling: known fibres, sane sizes, shares that close, nothing twice.
#include <algorithm>
#include <cmath>

#include "recipe/checking.hpp"

namespace battwright::recipe {
namespace {

constexpr Range share_percent{0.01, 100.0};
constexpr Range parts_count{0.001, 10000.0};
constexpr Range money{0.0, 1e6};

// Shares of a blend or a palette: each sane, together the whole.
template <class Shared>
Suspicion bad_shares(const std::vector<Shared>& shared, const std::string& noun, const std::string& field) {
    const Figure figure{"the share", share_percent, print_percentage};
    double sum = 0.0;
    for (std::size_t i = 0; i < shared.size(); ++i) {
        if (auto fault =
                outside(shared[i].share_pct, figure, field + ' ' + std::to_string(i + 1) + " share")) {
            return fault;
        }
        sum += shared[i].share_pct;
    }
    if (std::abs(sum - 100.0) > closing_percent) {
        return Fault{"the shares of the " + noun + " come to " + measure::print_percent(sum) + ", not 100 %",
                     "change one so that they make 100 %",
                     {field}};
    }
    return std::nullopt;
}

std::string entry_field(const std::string& list, std::size_t index) {
    return list + ' ' + std::to_string(index + 1);
}

Suspicion bad_kind(const std::string& id, const std::string& field, bool needs_colour,
                   const fibre::Catalogue& catalogue) {
    const fibre::Kind* kind = catalogue.find(id);
    if (kind == nullptr) {
        const measure::Complaint unknown = fibre::unknown_kind(id, catalogue);
        return Fault{unknown.what, unknown.mend, {field}};
    }
    if (needs_colour && kind->natural_colours.empty()) {
        return Fault{"the catalogue has no natural colour for " + id,
                     "add a colour, as in colour = \"#2f5d50\"",
                     {field}};
    }
    return std::nullopt;
}

}  // namespace

Suspicion bad_fibres(const std::vector<Content>& content, const std::string& place, bool needs_colour,
                     const fibre::Catalogue& catalogue) {
    const bool plain = content.size() == 1 && content.front().share_pct == 100.0;
    if (plain) return bad_kind(content.front().fibre, place + " fibre", needs_colour, catalogue);
    const std::string list = place + " blend";
    if (content.size() > most_kinds)
        return Fault{"the blend has more than 12 kinds", "leave the smallest out", {list}};
    for (std::size_t i = 0; i < content.size(); ++i) {
        const std::string field = entry_field(list, i) + " fibre";
        if (auto fault = bad_kind(content[i].fibre, field, needs_colour, catalogue)) return fault;
        for (std::size_t j = 0; j < i; ++j) {
            if (content[j].fibre != content[i].fibre) continue;
            return Fault{"the blend names " + measure::quoted(content[i].fibre) + " twice",
                         "add the two shares together",
                         {field, entry_field(list, j) + " fibre"}};
        }
    }
    return bad_shares(content, "blend", list);
}

namespace {

Suspicion bad_content(const Component& component, std::size_t index, const fibre::Catalogue& catalogue) {
    if (!component.content.empty())
        return bad_fibres(component.content, component_field(index), component.palette.empty(), catalogue);
    if (!component.lot.empty())
        return Fault{"nothing says what fibre the lot " + measure::quoted(component.lot) + " is",
                     "add a fibre, as in fibre = \"corriedale\", or name a lot of the shelf",
                     {component_field(index, "lot")}};
    return Fault{
        "the component has no fibre", "add a fibre, as in fibre = \"corriedale\"", {component_field(index)}};
}

bool in_gamut(const colour::Srgb& c) {
    const auto fits = [](double channel) { return channel >= 0.0 && channel <= 1.0; };
    return fits(c.r) && fits(c.g) && fits(c.b);
}

Suspicion bad_palette(const Component& component, std::size_t index) {
    const auto& palette = component.palette;
    if (palette.empty()) return std::nullopt;
    const std::string list = component_field(index, palette.size() == 1 ? "colour" : "colours");
    if (palette.size() > most_tints)
        return Fault{"there are more than 16 colours", "leave the smallest out", {list}};
    for (std::size_t i = 0; i < palette.size(); ++i) {
        if (!in_gamut(palette[i].colour)) {
            return Fault{"the colour cannot be shown", "keep red, green and blue within 0 and 1", {list}};
        }
        for (std::size_t j = 0; j < i; ++j) {
            if (palette[j].colour != palette[i].colour) continue;
            return Fault{"the same colour is listed twice",
                         "add the two shares together",
                         {entry_field(list, i) + " colour", entry_field(list, j) + " colour"}};
        }
    }
    return bad_shares(palette, "colours", list);
}

Suspicion bad_amount(const Amount& amount, std::size_t index) {
    const std::string field = component_field(index, key_of(amount));
    if (const auto* mass = std::get_if<measure::Mass>(&amount)) {
        return outside(mass->grams, {"the weight", weight_grams, print_weight}, field);
    }
    if (const auto* percent = std::get_if<Percent>(&amount)) {
        return outside(percent->value, {"the share", share_percent, print_percentage}, field);
    }
    return outside(std::get<Parts>(amount).value, {"the number of parts", parts_count, print_plain}, field);
}

Suspicion bad_tag(const Component& component, std::size_t index) {
    if (component.staple) {
        const Figure figure{"the staple", staple_millimetres, print_millimetres};
        if (auto fault = outside(component.staple->millimetres, figure, component_field(index, "staple")))
            return fault;
    }
    if (component.diameter_um) {
        const Figure figure{"the diameter", diameter_micrometres, print_micrometres};
        if (auto fault = outside(*component.diameter_um, figure, component_field(index, "diameter")))
            return fault;
    }
    if (component.price)
        return outside(component.price->amount, {"the price", money, print_plain},
                       component_field(index, "price"));
    return std::nullopt;
}

Suspicion bad_pass(const Component& component, std::size_t index, const Carding& carding) {
    const int pass = component.add_on_pass;
    if (pass == last_pass || (pass >= 1 && pass <= carding.passes)) return std::nullopt;
    const std::string field = component_field(index, "add_on_pass");
    if (pass < 1) {
        return Fault{"pass " + std::to_string(pass) + " does not exist",
                     "write 1 or more, \"first\" or \"last\"",
                     {field}};
    }
    return Fault{
        "pass " + std::to_string(pass) + " does not exist: the batt has " + std::to_string(carding.passes),
        "write a smaller number or \"last\", or card more passes",
        {field, "carding passes"}};
}

}  // namespace

Suspicion bad_component(const Recipe& recipe, std::size_t index, const fibre::Catalogue& catalogue) {
    const Component& component = recipe.components[index];
    if (auto fault = bad_text(component.name, false, component_field(index, "name"))) return fault;
    if (auto fault = bad_text(component.notes, true, component_field(index, "notes"))) return fault;
    if (auto fault = bad_content(component, index, catalogue)) return fault;
    if (auto fault = bad_palette(component, index)) return fault;
    if (auto fault = bad_amount(component.amount, index)) return fault;
    if (auto fault = bad_tag(component, index)) return fault;
    return bad_pass(component, index, recipe.carding);
}

}  // namespace battwright::recipe
