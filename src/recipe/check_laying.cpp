// What a laying must be beyond its spelling: on the drum, on a pass there is, of a weight there can be.
#include <algorithm>
#include <cmath>

#include "recipe/checking.hpp"
#include "recipe/laying_fault.hpp"

namespace battwright::recipe {
namespace {

constexpr std::size_t most_blends = 30;
constexpr Range times_count{1.0, 50.0};
constexpr Range laid_percent{0.01, 100.0};
constexpr Range blend_passes{1.0, most_passes};
constexpr Range blend_strips{1.0, most_strips};
constexpr Range size_millimetres{3.0, 400.0};
constexpr Range fade_share{0.0, 1.0};

// How far a place runs, and what it must stay within.
struct Along {
    const char* name;
    double whole_mm;
    std::string field, surface;
};

Suspicion off_drum(const Stretch& stretch, const Along& along) {
    const auto [from, to] = stretch.shares_of(along.whole_mm);
    const double over = std::max(to - 1.0, -from) * along.whole_mm;
    if (over <= 1e-6) return std::nullopt;
    const double reach = to > 1.0 ? to * along.whole_mm : from * along.whole_mm;
    return Fault{"the laying runs off the " + along.surface + ": to " +
                     measure::print_length(reach, measure::LengthUnit::millimetre) + " of the " +
                     measure::print_length(along.whole_mm, measure::LengthUnit::millimetre) + " " +
                     along.name,
                 "keep it within the " + along.surface + ", or write a share, as in \"75-100 %\"",
                 {along.field, "carding carder"}};
}

Suspicion bad_laid_amount(const Laying& laying, const std::string& field) {
    if (const auto* mass = std::get_if<measure::Mass>(&laying.amount))
        return outside(mass->grams, {"the weight", weight_grams, print_weight}, field + " weight");
    if (const auto* percent = std::get_if<Percent>(&laying.amount))
        return outside(percent->value, {"the share", laid_percent, print_percentage}, field + " share");
    return std::nullopt;
}

Suspicion bad_edge(const std::optional<Extent>& edge, const char* key, const std::string& field,
                   double whole) {
    if (!edge) return std::nullopt;
    return outside(edge->share_of(whole), {std::string("the ") + key, fade_share, print_plain},
                   field + ' ' + key);
}

Suspicion bad_laying_pass(const Laying& laying, const std::string& field, int passes, const std::string& of) {
    if (!laying.pass || *laying.pass == last_pass || (*laying.pass >= 1 && *laying.pass <= passes))
        return std::nullopt;
    return Fault{"pass " + std::to_string(*laying.pass) + " does not exist: the " + of + " has " +
                     std::to_string(passes),
                 "write a smaller number or \"last\", or card more passes",
                 {field + " pass"}};
}

Suspicion bad_laying(const Laying& laying, const std::string& field, const Carder& carder) {
    if (auto fault = bad_text(laying.what, false, field + " what")) return fault;
    if (auto fault = bad_laid_amount(laying, field)) return fault;
    const std::string surface(words_of(carder).surface);
    if (auto fault = off_drum(laying.across, {"width", carder.width_mm, field + " across", surface}))
        return fault;
    if (auto fault = off_drum(laying.round, {is_flat(carder) ? "length" : "way round",
                                             carder.drum_circumference_mm, field + " round", surface}))
        return fault;
    if (is_flat(carder) && laying.way)
        return Fault{"there is no tray: everything is laid straight on",
                     "leave way out",
                     {field + " way", "carding carder"}};
    if (carder.kind == ToolKind::hand_cards && !laying.round.is_whole())
        return Fault{"what lies along hand cards is drawn out over their whole length by the first strokes",
                     "leave along out, or use a blending board",
                     {field + " round", "carding carder"}};
    if (!is_flat(carder) && !laying.round.is_whole() && way_of(laying) == Way::tray)
        return Fault{"what goes through the tray lies all round the drum",
                     "leave round out, or write way = \"onto the drum\"",
                     {field + " round", field + " way"}};
    const double along = edge_length_mm(laying, carder);
    if (auto fault = bad_edge(laying.fade, "fade", field, along)) return fault;
    if (auto fault = bad_edge(laying.overlap, "overlap", field, along)) return fault;
    if (laying.size) {
        const Figure size{"the size", size_millimetres, print_millimetres};
        if (auto fault = outside(laying.size->millimetres, size, field + " how")) return fault;
    }
    return outside(laying.times, {"the number of times", times_count, print_plain}, field + " times");
}

Suspicion bad_list(const std::vector<Laying>& layings, const Recipe& recipe, const std::string& place,
                   int passes, const std::string& of) {
    const Carder carder = carder_of(recipe.carding);
    if (layings.size() > most_layings)
        return Fault{"there are " + std::to_string(layings.size()) + " layings",
                     std::to_string(most_layings) + " is the most; nobody lays so many by hand",
                     {place + " lay " + std::to_string(most_layings + 1)}};
    for (std::size_t i = 0; i < layings.size(); ++i) {
        const std::string field = place + ' ' + laying_field(i, false);
        if (auto fault = bad_laying(layings[i], field, carder)) return fault;
        if (auto fault = bad_laying_pass(layings[i], field, passes, of)) return fault;
    }
    return std::nullopt;
}

Suspicion bad_blend(const Recipe& recipe, std::size_t index) {
    const SmallBlend& blend = recipe.carding.blends[index];
    const std::string field = blend_field(index);
    if (auto fault = bad_text(blend.name, false, field + " name")) return fault;
    if (blend.name.empty())
        return Fault{"the small blend has no name", "add one, as in name = \"first light\"", {field}};
    if (auto fault =
            outside(blend.passes, {"the number of passes", blend_passes, print_plain}, field + " passes"))
        return fault;
    if (auto fault =
            outside(blend.strips, {"the number of strips", blend_strips, print_plain}, field + " strips"))
        return fault;
    if (static_cast<int>(blend.refeeds.size()) > std::max(1, blend.passes - 1))
        return Fault{"there are more ways to feed again than passes",
                     "write one for each pass after the first",
                     {field + " refeed"}};
    if (blend.layings.empty())
        return Fault{"the small blend has nothing in it",
                     "add lay = [ { what = \"...\", weight = \"6 g\" } ]",
                     {field}};
    return bad_list(blend.layings, recipe, field, blend.passes, "small blend");
}

}  // namespace

std::string laying_field(std::size_t index, bool of_batt) {
    return (of_batt ? "carding lay " : "lay ") + std::to_string(index + 1);
}
std::string blend_field(std::size_t index, const std::string& key) {
    return "carding blend " + std::to_string(index + 1) + (key.empty() ? "" : ' ' + key);
}

Suspicion bad_layings(const Recipe& recipe) {
    const Carding& carding = recipe.carding;
    if (static_cast<int>(carding.refeeds.size()) > std::max(1, carding.passes - 1))
        return Fault{"there are " + std::to_string(carding.refeeds.size()) + " ways to feed again, and " +
                         std::to_string(carding.passes) + (carding.passes == 1 ? " pass" : " passes"),
                     "write one for each pass after the first",
                     {"carding refeed", "carding passes"}};
    if (carding.recombine && carding.passes < 2)
        return Fault{"batts are recombined after the first pass, and there is only one",
                     "card at least two passes",
                     {"carding recombine", "carding passes"}};
    if (carding.blends.size() > most_blends)
        return Fault{"there are " + std::to_string(carding.blends.size()) + " small blends",
                     std::to_string(most_blends) + " is the most",
                     {blend_field(most_blends)}};
    if (carding.layings.empty() && !carding.blends.empty())
        return Fault{"there is a small blend, and nothing says where it is laid",
                     "add a [[carding.lay]] of it",
                     {blend_field(0)}};
    for (std::size_t b = 0; b < carding.blends.size(); ++b) {
        if (auto fault = bad_blend(recipe, b)) return fault;
        for (std::size_t a = 0; a < b; ++a)
            if (carding.blends[a].name == carding.blends[b].name)
                return Fault{"two small blends are called " + measure::quoted(carding.blends[b].name),
                             "give each a name of its own",
                             {blend_field(b, "name"), blend_field(a, "name")}};
    }
    return bad_list(carding.layings, recipe, "carding", carding.passes, "batt");
}

}  // namespace battwright::recipe
