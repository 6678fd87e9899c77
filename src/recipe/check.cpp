// What a recipe must be as a whole.
#include <algorithm>
#include <cmath>

#include "measure/nearest.hpp"
#include "recipe/checking.hpp"
#include "recipe/file.hpp"
#include "recipe/laying_fault.hpp"
#include "recipe/thickness.hpp"
#include "text/words.hpp"

namespace battwright::recipe {
namespace {

constexpr Range passes_count{1.0, most_passes};
constexpr Range strips_count{1.0, most_strips};
constexpr Range repeats_count{1.0, 50.0};
constexpr Range overlap_percent{0.0, 100.0};
constexpr Range plies_count{1.0, 12.0};
constexpr Range wraps{2.0, 120.0};
constexpr Range yarn_tex{5.0, 20000.0};
constexpr Range thread_tex{0.1, 20000.0};
constexpr Range thread_metres{0.1, 1e6};
constexpr Range wheel_ratio{0.5, 60.0};
constexpr Range drum_millimetres{100.0, 3000.0};
constexpr Range cloth_millimetres{40.0, 1500.0};
constexpr Range rolags_count{0.0, 24.0};
constexpr Range width_millimetres{20.0, 1500.0};
constexpr Range teeth{10.0, 300.0};
constexpr Range licker_in{1.0, 40.0};

std::string print_wraps(double value) {
    return measure::write_number(value) + " wpi";
}
std::string print_tex(double value) {
    return measure::write_number(value) + " tex";
}

Suspicion bad_head(const Recipe& recipe) {
    if (auto fault = bad_text(recipe.name, false, "name")) return fault;
    if (auto fault = bad_text(recipe.notes, true, "notes")) return fault;
    if (recipe.total) return outside(recipe.total->grams, {"the total", weight_grams, print_weight}, "total");
    return std::nullopt;
}

bool same_but_amount(const Component& a, const Component& b) {
    const auto same_content = [](const Content& x, const Content& y) {
        return x.fibre == y.fibre && x.share_pct == y.share_pct;
    };
    const auto same_tint = [](const Tint& x, const Tint& y) {
        return x.colour == y.colour && x.share_pct == y.share_pct;
    };
    const auto millimetres = [](const Component& c) { return c.staple ? c.staple->millimetres : 0.0; };
    return a.name == b.name && a.lot == b.lot && a.notes == b.notes && a.add_on_pass == b.add_on_pass &&
           a.diameter_um == b.diameter_um && millimetres(a) == millimetres(b) &&
           std::equal(a.content.begin(), a.content.end(), b.content.begin(), b.content.end(), same_content) &&
           std::equal(a.palette.begin(), a.palette.end(), b.palette.begin(), b.palette.end(), same_tint);
}

Suspicion duplicate(const Recipe& recipe) {
    for (std::size_t i = 0; i < recipe.components.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            if (!same_but_amount(recipe.components[i], recipe.components[j])) continue;
            return Fault{"this component is the same as an earlier one in all but its amount",
                         "merge the two into one, or give one a name of its own",
                         {component_field(i), component_field(j)}};
        }
    }
    return std::nullopt;
}

Suspicion bad_components(const Recipe& recipe, const fibre::Catalogue& catalogue) {
    const std::size_t count = recipe.components.size();
    if (count == 0)
        return Fault{"the recipe has no components", "add a [[component]] with a fibre", {"component"}};
    if (count > most_components) {
        return Fault{"the recipe has " + std::to_string(count) + " components",
                     "merge some: " + std::to_string(most_components) + " is the most",
                     {component_field(most_components)}};
    }
    for (std::size_t i = 0; i < count; ++i) {
        if (auto fault = bad_component(recipe, i, catalogue)) return fault;
    }
    return duplicate(recipe);
}

Suspicion bad_own_carder(const Carder& own) {
    const std::string at = "carding carder ";
    if (auto fault = bad_text(own.name, false, at + "name")) return fault;
    const Figure drum{"the drum circumference", drum_millimetres, print_millimetres};
    const Figure cloth{"the length", cloth_millimetres, print_millimetres};
    if (auto fault = outside(own.drum_circumference_mm, is_flat(own) ? cloth : drum,
                             at + (is_flat(own) ? "length" : "drum_circumference")))
        return fault;
    const Figure width{"the width", width_millimetres, print_millimetres};
    if (auto fault = outside(own.width_mm, width, at + "width")) return fault;
    const Figure clothing{"the clothing", teeth, print_plain};
    if (auto fault = outside(own.teeth_per_square_inch, clothing, at + "clothing")) return fault;
    if (own.teeth_per_square_inch != std::round(own.teeth_per_square_inch)) {
        return Fault{"the clothing is not a whole number",
                     "write the teeth per square inch, as in clothing = 72",
                     {at + "clothing"}};
    }
    const Figure ratio{"the licker-in's ratio", licker_in, print_plain};
    if (auto fault = outside(own.licker_in_ratio, ratio, at + "licker_in")) return fault;
    const Figure load{"the load", weight_grams, print_weight};
    if (auto fault = outside(own.load_low_grams, load, at + "load")) return fault;
    if (auto fault = outside(own.load_high_grams, load, at + "load")) return fault;
    if (own.load_low_grams <= own.load_high_grams) return std::nullopt;
    return Fault{
        "the load runs backwards", "write the smaller weight first, as in load = \"40-80 g\"", {at + "load"}};
}

Suspicion bad_carder(const Carding& carding) {
    if (carding.own) return bad_own_carder(*carding.own);
    if (find_carder(carding.carder) != nullptr) return std::nullopt;
    std::vector<std::string> ids;
    for (const Carder& preset : carder_presets()) ids.push_back(preset.id);
    std::string mend = measure::did_you_mean(carding.carder, ids);
    if (mend.empty())
        mend =
            "use table-small, table-standard, table-wide, fine-cloth, blending-board or hand-cards, or write "
            "the carder out";
    return Fault{"unknown carder " + measure::quoted(carding.carder), mend, {"carding carder"}};
}

// What only a drum, or only what lies flat, can do.
Suspicion bad_on_tool(const Carding& carding) {
    const Carder carder = carder_of(carding);
    if (carder.kind == ToolKind::board && carding.rolags != 0)
        return outside(carding.rolags, {"the number of rolags", rolags_count, print_plain}, "carding rolags");
    if (carder.kind != ToolKind::hand_cards) return std::nullopt;
    if (!is_fed_so(carding.feed, carder))
        return Fault{"what lies along hand cards is drawn out over their whole length by the first strokes",
                     "write feed = \"gradient-across\", or use a blending board",
                     {"carding feed", "carding carder"}};
    if (carding.refeed != Refeed::strips || !carding.refeeds.empty())
        return Fault{"on hand cards the fibre goes from one card to the other and back",
                     "leave refeed out: passes says how many transfers there are",
                     {"carding refeed", "carding carder"}};
    if (carding.recombine)
        return Fault{"on hand cards nothing is recombined",
                     "leave recombine out, or spin from the rolags in turn",
                     {"carding recombine", "carding carder"}};
    return std::nullopt;
}

Suspicion bad_carding(const Carding& carding) {
    if (auto fault = bad_carder(carding)) return fault;
    if (auto fault = bad_on_tool(carding)) return fault;
    const Figure passes{"the number of passes", passes_count, print_plain};
    if (auto fault = outside(carding.passes, passes, "carding passes")) return fault;
    if (auto fault =
            outside(carding.strips, {"the number of strips", strips_count, print_plain}, "carding strips"))
        return fault;
    if (auto fault = outside(carding.repeats, {"the number of repeats", repeats_count, print_plain},
                             "carding repeats"))
        return fault;
    return outside(carding.overlap_pct, {"the overlap", overlap_percent, measure::print_percent},
                   "carding overlap");
}

std::string print_metres(double value) {
    return measure::write_number(value) + " m";
}

Suspicion bad_thickness(const Thickness& thickness) {
    const std::string field = "spinning thickness";
    if (thickness.in == ThicknessIn::wpi)
        return outside(thickness.value, {"the thickness", wraps, print_wraps}, field);
    if (thickness.in == ThicknessIn::tex)
        return outside(thickness.value, {"the thickness", yarn_tex, print_tex}, field);
    if (thickness_named(thickness.class_name) != nullptr) return std::nullopt;
    return Fault{"the thickness class " + measure::quoted(thickness.class_name) + " is not known",
                 measure::did_you_mean(thickness.class_name, thickness_classes()),
                 {field}};
}

Suspicion bad_thread(const Spinning& spinning, const fibre::Catalogue& catalogue) {
    if (!spinning.thread) {
        if (spinning.plying != Plying::with_thread) return std::nullopt;
        return Fault{"there is no thread to ply with",
                     "add thread = { count = \"2/28 Nm\", length = \"400 m\" }",
                     {"spinning plying"}};
    }
    const std::string at = "spinning thread ";
    if (auto fault =
            outside(spinning.thread->tex, {"the thread's count", thread_tex, print_tex}, at + "count"))
        return fault;
    if (auto fault = outside(spinning.thread->length_m, {"the thread's length", thread_metres, print_metres},
                             at + "length"))
        return fault;
    if (spinning.thread->content.empty()) return std::nullopt;
    return bad_fibres(spinning.thread->content, "spinning thread", false, catalogue);
}

Suspicion bad_spinning(const Spinning& spinning, const fibre::Catalogue& catalogue) {
    const Figure plies{"the number of plies", plies_count, print_plain};
    if (auto fault = outside(spinning.plies, plies, "spinning plies")) return fault;
    if (auto fault = bad_thickness(spinning.thickness)) return fault;
    if (auto fault = bad_thread(spinning, catalogue)) return fault;
    if (!spinning.wheel_ratio) return std::nullopt;
    return outside(*spinning.wheel_ratio, {"the wheel's ratio", wheel_ratio, print_plain},
                   "spinning wheel_ratio");
}

Suspicion bad_purpose(const Purpose& purpose) {
    const auto& things = purpose_things();
    if (!purpose.thing.empty() && std::find(things.begin(), things.end(), purpose.thing) == things.end()) {
        std::string mend = measure::did_you_mean(purpose.thing, things);
        if (mend.empty()) mend = "write " + text::listed(things, "or");
        return Fault{"nothing to make is called " + measure::quoted(purpose.thing), mend, {"purpose thing"}};
    }
    if (purpose.thing.empty() && !purpose.size.empty())
        return Fault{"the purpose has a size and no thing",
                     "write the thing, as in thing = \"hat\"",
                     {"purpose size"}};
    if (auto fault = bad_text(purpose.size, false, "purpose size")) return fault;
    const auto sizes = purpose_sizes(purpose.thing);
    if (purpose.size.empty() || std::find(sizes.begin(), sizes.end(), purpose.size) != sizes.end())
        return std::nullopt;
    std::string mend = measure::did_you_mean(purpose.size, sizes);
    if (mend.empty()) mend = "write " + text::listed(sizes, "or") + ", or leave the size out";
    return Fault{
        "no " + measure::quoted(purpose.thing) + " comes in the size " + measure::quoted(purpose.size),
        mend,
        {"purpose size"}};
}

// A total nobody wrote can still be absurd: 20 g beside 99.9 %.
Suspicion bad_sum(const Recipe& recipe, const Masses& masses) {
    auto fault = outside(masses.total_grams, {"the total they make", weight_grams, print_weight}, "total");
    if (!fault || recipe.total) return fault;
    fault->fields.clear();
    for (std::size_t i = 0; i < recipe.components.size(); ++i) {
        fault->fields.push_back(component_field(i, key_of(recipe.components[i].amount)));
    }
    return fault;
}

}  // namespace

Suspicion first_fault(const Recipe& recipe, const fibre::Catalogue& catalogue) {
    if (auto fault = bad_head(recipe)) return fault;
    if (auto fault = bad_carding(recipe.carding)) return fault;
    if (auto fault = bad_components(recipe, catalogue)) return fault;
    if (auto fault = bad_layings(recipe)) return fault;
    if (auto fault = bad_spinning(recipe.spinning, catalogue)) return fault;
    if (auto fault = bad_purpose(recipe.purpose)) return fault;
    if (auto fault = bad_series(recipe)) return fault;
    const auto masses = weigh(recipe);
    if (!masses) return masses.error();
    if (auto fault = bad_sum(recipe, *masses)) return fault;
    if (recipe.carding.layings.empty()) return std::nullopt;
    const auto layout = lay_out(recipe, *masses);
    return layout ? Suspicion{} : Suspicion{layout.error()};
}

measure::Expected<void> check(const Recipe& recipe, const fibre::Catalogue& catalogue) {
    if (const auto fault = first_fault(recipe, catalogue)) return tl::make_unexpected(without_lines(*fault));
    return {};
}

}  // namespace battwright::recipe
