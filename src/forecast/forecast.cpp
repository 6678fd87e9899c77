#include "forecast/forecast.hpp"

#include <algorithm>
#include <map>

#include "carding/findings.hpp"
#include "colour/reflectance.hpp"
#include "forecast/colour_findings.hpp"
#include "forecast/without_drum.hpp"
#include "forecast/yarn_findings.hpp"
#include "recipe/file.hpp"
#include "yarn/finish.hpp"

namespace battwright::forecast {
namespace {

using recipe::Strand;

// Reflectances of the strands, each colour solved once: a palette is often shared by several kinds.
std::vector<colour::Spectrum> reflectances_of(const std::vector<Strand>& strands) {
    std::map<std::string, colour::Spectrum> known;
    std::vector<colour::Spectrum> result;
    result.reserve(strands.size());
    for (const Strand& strand : strands) {
        const std::string key = colour::hex(strand.colour);
        auto found = known.find(key);
        if (found == known.end()) found = known.emplace(key, colour::reflectance_of(strand.colour)).first;
        result.push_back(found->second);
    }
    return result;
}

ComponentLine component_line(std::size_t index, const recipe::Component& component, const Forecast& f,
                             const std::vector<colour::Spectrum>& reflectances,
                             const fibre::Catalogue& catalogue) {
    ComponentLine line;
    line.label = label_of(component, catalogue);
    for (const auto& content : component.content) line.fibres.push_back(content.fibre);
    std::vector<colour::Portion> portions;
    for (std::size_t i = 0; i < f.strands.size(); ++i) {
        const Strand& strand = f.strands[i];
        if (strand.component != index) continue;
        line.grams += strand.grams;
        line.dry_grams += strand.dry_grams;
        line.mass_pct += 100.0 * strand.mass_share;
        line.count_pct += 100.0 * strand.count_share;
        portions.push_back({strand.mass_share, reflectances[i]});
    }
    if (component.price) line.cost = component.price->of_grams(line.grams);
    line.reflectance = colour::blend(portions, f.optics);
    line.srgb = colour::clipped(colour::encoded(seen(line.reflectance, f.light)));
    return line;
}

std::vector<KindLine> kind_lines(const Forecast& f) {
    std::map<std::string, KindLine> by_id;
    for (const Strand& strand : f.strands) {
        KindLine& line = by_id[strand.kind->id];
        line.id = strand.kind->id;
        line.name = strand.kind->name;
        line.grams += strand.grams;
        line.mass_pct += 100.0 * strand.mass_share;
        line.dry_mass_pct += 100.0 * strand.dry_grams / f.total_dry_grams;
        line.count_pct += 100.0 * strand.count_share;
    }
    std::vector<KindLine> lines;
    lines.reserve(by_id.size());
    for (auto& [id, line] : by_id) lines.push_back(std::move(line));
    std::stable_sort(lines.begin(), lines.end(),
                     [](const auto& a, const auto& b) { return a.grams > b.grams; });
    return lines;
}

std::vector<LabelLine> label_lines(const std::vector<Strand>& strands) {
    std::map<std::string, double> by_name;
    for (const Strand& strand : strands) by_name[strand.kind->label_eu] += 100.0 * strand.mass_share;
    std::vector<LabelLine> lines;
    lines.reserve(by_name.size());
    for (const auto& [name, pct] : by_name) lines.push_back({name, pct});
    std::stable_sort(lines.begin(), lines.end(),
                     [](const auto& a, const auto& b) { return a.mass_pct > b.mass_pct; });
    return lines;
}

BlendColour blend_colour(const std::vector<Strand>& strands,
                         const std::vector<colour::Spectrum>& reflectances, const colour::OpticsModel& optics,
                         colour::Light light) {
    std::vector<colour::Portion> portions;
    portions.reserve(strands.size());
    for (std::size_t i = 0; i < strands.size(); ++i)
        portions.push_back({strands[i].mass_share, reflectances[i]});
    BlendColour result;
    result.reflectance = colour::blend(portions, optics);
    result.xyz = colour::xyz(result.reflectance, light);
    result.lab = colour::lab(result.xyz, colour::white(light));
    result.srgb = colour::clipped(colour::encoded(seen(result.reflectance, light)));
    return result;
}

std::vector<std::string> left_out_of(const std::vector<Strand>& strands) {
    bool film = false, lustrous = false, lumps = false;
    for (const Strand& strand : strands) {
        film = film || strand.kind->form == fibre::Form::film;
        lustrous = lustrous || strand.kind->lustre >= 0.6;
        lumps = lumps || strand.kind->form == fibre::Form::nep || strand.kind->form == fibre::Form::lock;
    }
    std::vector<std::string> notes{"dyes that glow under daylight or ultraviolet are not modelled"};
    if (film) notes.emplace_back("sparkle is coloured as a plain fibre: its flashes are not in the colour");
    if (lustrous)
        notes.emplace_back("sheen is not in the colour: lustrous fibre looks lighter where it catches light");
    if (lumps)
        notes.emplace_back(
            "neps and locks stay visible as spots: the one blend colour counts them as mixed in");
    return notes;
}

void fill_strands(Forecast& f, const std::vector<colour::Spectrum>& reflectances) {
    for (const Strand& strand : f.strands) f.total_dry_grams += strand.dry_grams;
    f.strand_reflectances = reflectances;
    f.strand_colours.reserve(f.strands.size());
    for (const auto& reflectance : reflectances) f.strand_colours.push_back(seen(reflectance, f.light));
}

// In the carder's own words.
std::vector<staple::Finding> mixture_findings(const Forecast& f) {
    auto findings = staple::findings_of(f.recipe, f.strands, f.carder);
    if (!recipe::is_flat(f.carder)) return findings;
    std::vector<std::string> names;
    for (const KindLine& kind : f.kinds) names.push_back(kind.name);
    for (staple::Finding& finding : findings) say_without_drum(finding, names, f.carder);
    return findings;
}

// Those about feeding join those about the mixture, gravest first.
void add_feeding_findings(Forecast& f) {
    const auto more = carding::feeding_findings(f.recipe, f.strands, f.carder,
                                                f.total_grams / static_cast<double>(f.weigh_out.batts));
    f.findings.insert(f.findings.end(), more.begin(), more.end());
    std::stable_sort(f.findings.begin(), f.findings.end(),
                     [](const auto& a, const auto& b) { return a.severity > b.severity; });
}

measure::Expected<void> plan_carding(Forecast& f, const std::vector<double>& grams, const Bench& bench) {
    carding::Allowance allowance;
    allowance.scale_step_grams = bench.scale_step_grams;
    auto weigh_out = carding::weigh_out(grams, carding::tool_of(f.carder), allowance);
    if (!weigh_out) return tl::unexpected(weigh_out.error());
    f.weigh_out = std::move(*weigh_out);
    add_feeding_findings(f);
    f.wear = carding::wear_of(carding::portions_of(f.recipe, f.strands), f.strands, f.recipe.carding.passes,
                              f.carder.kind);
    f.plan = carding::plan_of(f.recipe, f.strands, f.carder, carding::feed_of(f.recipe.carding),
                              f.weigh_out.batts);
    return {};
}

std::vector<OtherTool> other_tools(const Forecast& f, const std::vector<double>& grams, const Bench& bench) {
    std::vector<OtherTool> tools;
    for (const carding::Tool& tool : carding::hand_tools()) {
        if (tool.kind == f.carder.kind) continue;
        carding::Allowance allowance;
        allowance.scale_step_grams = bench.scale_step_grams;
        const auto weigh_out = carding::weigh_out(grams, tool, allowance);
        if (weigh_out && !weigh_out->batt_grams.empty())
            tools.push_back({tool, weigh_out->batts, weigh_out->batt_grams.front()});
    }
    return tools;
}

std::vector<ThreadFibre> thread_fibres(const recipe::Spinning& spinning, const fibre::Catalogue& catalogue) {
    std::vector<ThreadFibre> fibres;
    if (spinning.plying != recipe::Plying::with_thread || !spinning.thread) return fibres;
    for (const recipe::Content& content : spinning.thread->content)
        fibres.push_back({catalogue.share(content.fibre), content.share_pct / 100.0});
    return fibres;
}

yarn::YarnForecast yarn_forecast(const Forecast& f, const Bench& bench) {
    recipe::Spinning spinning = f.recipe.spinning;
    spinning.preparation = recipe::preparation_of(f.recipe);
    const double spun = 1.0 - yarn::spinning_loss_pct(spinning.preparation).middle() / 100.0;
    const double batt_grams = bench.yarn_grams ? *bench.yarn_grams / spun : f.total_grams * f.batt_share;
    return yarn::yarn_of(spinning, f.strands, batt_grams, bench.calibration);
}

}  // namespace

std::string label_of(const recipe::Component& component, const fibre::Catalogue& catalogue) {
    if (!component.name.empty()) return component.name;
    std::string label;
    for (const auto& content : component.content) {
        const fibre::Kind* kind = catalogue.find(content.fibre);
        if (!label.empty()) label += " / ";
        label += kind != nullptr ? kind->name : content.fibre;
    }
    return label;
}

colour::LinearRgb seen(const colour::Spectrum& reflectance, colour::Light light) {
    return colour::linear(colour::clipped(colour::srgb_under(reflectance, light)));
}

measure::Expected<Forecast> forecast(const recipe::Recipe& recipe, const Bench& bench) {
    const fibre::Catalogue& catalogue = *bench.catalogue;
    if (auto checked = recipe::check(recipe, catalogue); !checked) return tl::unexpected(checked.error());
    auto masses = recipe::masses_of(recipe);
    if (!masses) return tl::unexpected(masses.error());

    Forecast f;
    f.recipe = recipe;
    f.carder = carder_of(recipe.carding);
    f.light = bench.light;
    f.optics = bench.optics;
    f.mixing = bench.mixing;
    f.total_grams = masses->total_grams;
    f.strands = recipe::strands_of(recipe, *masses, catalogue);
    const auto reflectances = reflectances_of(f.strands);
    fill_strands(f, reflectances);
    for (std::size_t i = 0; i < recipe.components.size(); ++i)
        f.components.push_back(component_line(i, recipe.components[i], f, reflectances, catalogue));
    f.cost_is_whole = true;
    for (const ComponentLine& line : f.components) {
        f.cost += line.cost.value_or(0.0);
        f.cost_is_whole = f.cost_is_whole && line.cost.has_value();
    }
    f.kinds = kind_lines(f);
    f.labels = label_lines(f.strands);
    f.length = staple::summarise_lengths(f.strands);
    f.diameter = staple::summarise_diameters(f.strands);
    f.drafting = staple::drafting_of(f.strands);
    f.fibre_tex = staple::mean_fibre_tex(f.strands);
    f.colour = blend_colour(f.strands, reflectances, f.optics, f.light);
    f.findings = mixture_findings(f);
    f.left_out = left_out_of(f.strands);
    if (auto planned = plan_carding(f, masses->grams, bench); !planned)
        return tl::unexpected(planned.error());
    f.other_tools = other_tools(f, masses->grams, bench);
    f.batt_share = yarn::retained_share(f.strands) * f.wear.kept_share *
                   bench.calibration.carded_share(recipe::preparation_of(recipe));
    f.yarn = yarn_forecast(f, bench);
    f.thread = thread_fibres(recipe.spinning, catalogue);
    f.inclusions = staple::inclusions_of(f.strands);
    f.feel = staple::feel_of(f.diameter, f.inclusions);
    for (staple::Finding& finding : colour_findings(f)) f.findings.push_back(std::move(finding));
    if (auto finding = too_few_fibres(f.yarn)) f.findings.push_back(std::move(*finding));
    for (staple::Finding& finding : f.findings) {
        if (finding.text_with_quantities.empty()) staple::settle_words(finding);
    }
    staple::sort_findings(f.findings);
    const recipe::Purpose& purpose = recipe.purpose;
    if (const yarn::Project* project = yarn::project_named(purpose.thing, purpose.size))
        f.enough = yarn::enough_for(*project, f.yarn);
    return f;
}

}  // namespace battwright::forecast
