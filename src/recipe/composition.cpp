#include "recipe/composition.hpp"

#include <algorithm>
#include <cmath>

#include "colour/spaces.hpp"
#include "fibre/lengths.hpp"
#include "recipe/checking.hpp"
#include "recipe/fault.hpp"
#include "recipe/layout.hpp"
#include "text/believe.hpp"

namespace battwright::recipe {
namespace {

// The amounts of a recipe, by how they are written.
struct Sums {
    double grams = 0.0;
    double percent = 0.0;
    double parts = 0.0;
    std::vector<std::string> fixed_fields;  // of weights and percentages
    std::vector<std::string> part_fields;
};

double value_of(const Amount& amount) {
    if (const auto* mass = std::get_if<measure::Mass>(&amount)) return mass->grams;
    if (const auto* percent = std::get_if<Percent>(&amount)) return percent->value;
    return std::get<Parts>(amount).value;
}

tl::expected<Sums, Fault> sums_of(const Recipe& recipe) {
    Sums sums;
    for (std::size_t i = 0; i < recipe.components.size(); ++i) {
        const Amount& amount = recipe.components[i].amount;
        const double value = value_of(amount);
        const std::string field = component_field(i, key_of(amount));
        if (!std::isfinite(value) || value < 0.0) {
            return tl::make_unexpected(
                Fault{"the amount is negative or not a number", "write it above zero", {field}});
        }
        if (std::holds_alternative<measure::Mass>(amount)) sums.grams += value;
        if (std::holds_alternative<Percent>(amount)) sums.percent += value;
        if (std::holds_alternative<Parts>(amount)) sums.parts += value;
        (std::holds_alternative<Parts>(amount) ? sums.part_fields : sums.fixed_fields).push_back(field);
    }
    return sums;
}

std::vector<std::string> both(std::vector<std::string> first, const std::vector<std::string>& second) {
    first.insert(first.end(), second.begin(), second.end());
    return first;
}

std::string in_total_unit(double grams, const Recipe& recipe) {
    return measure::print_mass(grams, recipe.total ? recipe.total->unit : measure::MassUnit::gram);
}

// The total the recipe must have when it does not say.
tl::expected<double, Fault> implied_total(const Sums& sums) {
    if (!sums.part_fields.empty()) {
        return tl::make_unexpected(Fault{"parts share what is left of a total, and the recipe has no total",
                                         "add a total, as in total = \"100 g\", or write weights",
                                         sums.part_fields});
    }
    if (sums.grams <= 0.0) {
        return tl::make_unexpected(Fault{"nothing here has a weight, so the total cannot be found",
                                         "add a total, as in total = \"100 g\", or give a component a weight",
                                         sums.fixed_fields});
    }
    if (sums.percent >= 100.0) {
        return tl::make_unexpected(Fault{"the percentages come to " + measure::print_percent(sums.percent) +
                                             " and leave nothing for the weights",
                                         "lower a percentage, or write all of them as weights",
                                         sums.fixed_fields});
    }
    return sums.grams / (1.0 - sums.percent / 100.0);
}

std::string noun_for(const Sums& sums) {
    if (sums.percent <= 0.0) return "weights";
    return sums.grams <= 0.0 ? "percentages" : "weights and percentages";
}

// What weights and percentages leave of the total, checked against what must be left.
tl::expected<double, Fault> rest_of(const Sums& sums, double total, const Recipe& recipe) {
    const double taken = sums.grams + sums.percent / 100.0 * total;
    const double rest = total - taken;
    const double slack = std::max(closing_grams, closing_share * total);
    const std::string sum = "the " + noun_for(sums) + " come to " + in_total_unit(taken, recipe);
    const std::string whole = in_total_unit(total, recipe);
    if (sums.percent > 100.0 * (1.0 + closing_share)) {
        return tl::make_unexpected(
            Fault{"the percentages come to " + measure::print_percent(sums.percent) + ", more than the whole",
                  "lower them to 100 % together", sums.fixed_fields});
    }
    if (rest < -slack) {
        return tl::make_unexpected(Fault{sum + " but the total is " + whole,
                                         "lower a component or raise the total",
                                         both({"total"}, sums.fixed_fields)});
    }
    if (sums.part_fields.empty() && rest > slack) {
        const std::string short_of =
            sums.grams > 0.0
                ? sum + " but the total is " + whole
                : "the percentages come to " + measure::print_percent(sums.percent) + ", not 100 %";
        return tl::make_unexpected(
            Fault{short_of, "raise a component, lower the total, or write one component as parts",
                  both({"total"}, sums.fixed_fields)});
    }
    if (!sums.part_fields.empty() && (rest < closing_grams || sums.parts <= 0.0)) {
        return tl::make_unexpected(Fault{sum + " of " + whole + " and leave nothing for the parts",
                                         "raise the total, or lower a weight or percentage",
                                         sums.part_fields});
    }
    return rest;
}

Masses shared_out(const Recipe& recipe, const Sums& sums, double total, double rest) {
    // Percentages that nearly close are scaled to close exactly, so that the masses sum to the total. Where
    // they are too small to carry the difference, all stands as written and the total is its sum.
    const double by_percent = sums.percent / 100.0 * total;
    const bool closes = sums.part_fields.empty() && std::abs(rest) < 0.01 * by_percent;
    const double stretch = closes ? (by_percent + rest) / by_percent : 1.0;
    Masses masses;
    for (const Component& component : recipe.components) {
        double grams = 0.0;
        if (const auto* mass = std::get_if<measure::Mass>(&component.amount)) grams = mass->grams;
        if (const auto* percent = std::get_if<Percent>(&component.amount)) {
            grams = percent->value / 100.0 * total * stretch;
        }
        if (const auto* parts = std::get_if<Parts>(&component.amount))
            grams = rest * parts->value / sums.parts;
        masses.grams.push_back(grams);
        masses.total_grams += grams;
    }
    return masses;
}

// Neps and locks in a bought blend keep their own size: the tag speaks of the fibre they ride in.
bool rides_along(const fibre::Kind& kind) {
    return kind.family == fibre::Family::inclusion || kind.form == fibre::Form::nep ||
           kind.form == fibre::Form::lock;
}

Strand strand_of_kind(const Component& component, std::shared_ptr<const fibre::Kind> shared) {
    const fibre::Kind& kind = *shared;
    Strand strand;
    strand.kind = std::move(shared);
    strand.staple_mm = kind.staple_mm;
    strand.staple_cv = kind.staple_cv;
    strand.diameter_um = kind.diameter_um;
    strand.diameter_cv = kind.diameter_cv;
    const bool tagged = component.content.size() == 1 || !rides_along(kind);
    if (tagged && component.staple) strand.staple_mm = component.staple->millimetres;
    if (tagged && component.diameter_um) strand.diameter_um = *component.diameter_um;
    strand.fibre_mm = fibre::mean_fibre_mm(kind, strand.staple_mm, strand.diameter_um);
    strand.past = component.reclaimed.value_or(kind.past);
    strand.tex = fibre::fibre_tex(strand.diameter_um, strand.diameter_cv, kind.density_g_cm3);
    return strand;
}

// The component's palette, or the kind's first natural colour.
std::vector<Tint> tints_of(const Component& component, const fibre::Kind& kind) {
    if (!component.palette.empty()) return component.palette;
    Tint natural;
    if (!kind.natural_colours.empty()) {
        natural.colour = colour::parse_hex(kind.natural_colours.front()).value_or(colour::Srgb{});
    }
    return {natural};
}

template <class Shared>
double total_share(const std::vector<Shared>& shared) {
    double sum = 0.0;
    for (const Shared& one : shared) sum += one.share_pct;
    return sum;
}

void add_strands(std::vector<Strand>& strands, const Component& component, std::size_t index, double grams,
                 int first_pass, int passes, const fibre::Catalogue& catalogue) {
    const double content_sum = total_share(component.content);
    for (const Content& content : component.content) {
        const auto kind = catalogue.share(content.fibre);
        BATTWRIGHT_BELIEVE(kind != nullptr);
        if (kind == nullptr) continue;
        Strand strand = strand_of_kind(component, kind);
        strand.component = index;
        strand.opened = kind->form == fibre::Form::lock && first_pass < passes;
        const std::vector<Tint> tints = tints_of(component, *kind);
        const double tint_sum = total_share(tints);
        for (const Tint& tint : tints) {
            strand.grams = grams * (content.share_pct / content_sum) * (tint.share_pct / tint_sum);
            strand.dry_grams = strand.grams / (1.0 + kind->allowance_pct / 100.0);
            strand.colour = tint.colour;
            strands.push_back(strand);
        }
    }
}

}  // namespace

bool lies_among(const Strand& strand) {
    if (strand.kind == nullptr) return false;
    const fibre::Form form = strand.kind->form;
    return form == fibre::Form::nep || form == fibre::Form::film ||
           (form == fibre::Form::lock && !strand.opened);
}

tl::expected<Masses, Fault> weigh(const Recipe& recipe) {
    if (recipe.components.empty()) {
        return tl::make_unexpected(
            Fault{"the recipe has no components", "add a [[component]]", {"component"}});
    }
    const auto sums = sums_of(recipe);
    if (!sums) return tl::make_unexpected(sums.error());
    const auto total = recipe.total ? tl::expected<double, Fault>(recipe.total->grams) : implied_total(*sums);
    if (!total) return tl::make_unexpected(total.error());
    if (!std::isfinite(*total) || *total <= 0.0) {
        return tl::make_unexpected(
            Fault{"the total is not above zero", "write a total above zero", {"total"}});
    }
    const auto rest = rest_of(*sums, *total, recipe);
    if (!rest) return tl::make_unexpected(rest.error());
    return shared_out(recipe, *sums, *total, *rest);
}

measure::Expected<Masses> masses_of(const Recipe& recipe) {
    auto masses = weigh(recipe);
    if (!masses) return tl::make_unexpected(without_lines(masses.error()));
    return std::move(*masses);
}

std::vector<Strand> strands_of(const Recipe& recipe, const Masses& masses,
                               const fibre::Catalogue& catalogue) {
    BATTWRIGHT_BELIEVE(masses.grams.size() == recipe.components.size());
    std::vector<Strand> strands;
    for (std::size_t i = 0; i < recipe.components.size(); ++i) {
        add_strands(strands, recipe.components[i], i, masses.grams[i], first_pass_of(recipe, i),
                    recipe.carding.passes, catalogue);
    }
    double grams = 0.0;
    double count = 0.0;
    for (const Strand& strand : strands) {
        grams += strand.grams;
        count += strand.grams / (strand.tex * strand.fibre_mm);
    }
    for (Strand& strand : strands) {
        strand.mass_share = strand.grams / grams;
        strand.count_share = strand.grams / (strand.tex * strand.fibre_mm) / count;
    }
    return strands;
}

}  // namespace battwright::recipe
