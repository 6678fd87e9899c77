#include "command/json_making.hpp"
#include "command/report.hpp"
#include "forecast/colour_doubt.hpp"
#include "recipe/file_name.hpp"

namespace battwright::command {
namespace {

std::string_view colour_origin(const recipe::Component& component) {
    if (component.palette.empty()) return "catalogue";
    if (!component.colour_from) return "recipe";
    return measure::row_of(recipe::colour_origins, *component.colour_from).word;
}

Json components_of(const forecast::Forecast& f, const forecast::ColourDoubt& doubt) {
    Json list = Json::array();
    for (std::size_t i = 0; i < f.components.size(); ++i) {
        const auto& line = f.components[i];
        list.push_back({{"fibre", with_plus(line.fibres)},
                        {"name", line.label},
                        {"mass_g", line.grams},
                        {"dry_mass_g", line.dry_grams},
                        {"mass_pct", line.mass_pct},
                        {"count_pct", line.count_pct},
                        {"colour_srgb", colour::hex(line.srgb)},
                        {"colour_from", colour_origin(f.recipe.components[i])},
                        {"colour_doubt_de00", doubt.components_de00[i]}});
    }
    return list;
}

Json kinds_of(const forecast::Forecast& f) {
    Json list = Json::array();
    for (const auto& line : f.kinds)
        list.push_back({{"fibre", line.id},
                        {"mass_pct", line.mass_pct},
                        {"dry_mass_pct", line.dry_mass_pct},
                        {"count_pct", line.count_pct}});
    return list;
}

Json inclusions_json(const forecast::Forecast& f) {
    Json list = Json::array();
    for (const staple::Inclusion& inclusion : f.inclusions)
        list.push_back({{"fibre", inclusion.kind->id},
                        {"mass_pct", inclusion.mass_pct},
                        {"staple_mm", inclusion.staple_mm},
                        {"diameter_um", inclusion.diameter_um},
                        {"over_30um_pct", inclusion.over_30um_pct}});
    return list;
}

Json findings_json(const forecast::Forecast& f) {
    Json list = Json::array();
    for (const auto& finding : f.findings)
        list.push_back({{"code", finding.code},
                        {"severity", staple::word_for(finding.severity)},
                        {"text", finding.text},
                        {"remedy", finding.remedy},
                        {"basis", staple::word_for(finding.basis)},
                        {"source", finding.source},
                        {"components", finding.components}});
    return list;
}

Json colour_json(const forecast::Forecast& f, const forecast::ColourDoubt& doubt) {
    const auto& c = f.colour;
    return {{"srgb", colour::hex(c.srgb)},
            {"lab", {c.lab.l, c.lab.a, c.lab.b}},
            {"xyz", {c.xyz.x, c.xyz.y, c.xyz.z}},
            {"light", colour::word_for(f.light)},
            {"optics", colour::word_for(f.optics.optics)},
            {"m", f.optics.m},
            {"m_doubt_de00", doubt.m_de00},
            {"model_doubt_de00", forecast::model_doubt_de00},
            {"doubt_de00", doubt.blend_de00}};
}

}  // namespace

std::string forecast_json(const forecast::Forecast& f, const forecast::Batt& batt) {
    const forecast::ColourDoubt doubt = forecast::colour_doubt(f);
    Json root;
    root.set("name", recipe::title_of(f.recipe));
    root.set("total_g", f.total_grams);
    root.set("total_dry_g", f.total_dry_grams);
    if (f.cost > 0.0) root.set("cost", {{"amount", f.cost}, {"every_component_priced", f.cost_is_whole}});
    root.set("components", components_of(f, doubt));
    root.set("kinds", kinds_of(f));
    root.set("staple", {{"number_mean_mm", f.length.number_mean_mm},
                        {"length_biased_mean_mm", f.length.length_biased_mean_mm},
                        {"cv_pct", f.length.cv_pct},
                        {"short_share_pct", f.length.short_share_pct},
                        {"p95_mm", f.length.p95_mm},
                        {"number_mean_doubt_mm", f.length.mean_doubt_mm}});
    root.set("diameter", {{"mean_um", f.diameter.mean_um},
                          {"cv_pct", f.diameter.cv_pct},
                          {"over_30um_pct", f.diameter.over_30um_pct},
                          {"over_30um_doubt_pct", f.diameter.over_30um_doubt_pct},
                          {"mean_doubt_um", f.diameter.mean_doubt_um},
                          {"feel", f.feel}});
    root.set("lies_among", inclusions_json(f));
    root.set("fibre_tex", f.fibre_tex);
    root.set("colour", colour_json(f, doubt));
    root.set("findings", findings_json(f));
    root.set("carding", carding_json(f, batt));
    root.set("yarn", yarn_json(f.yarn));
    return printed(root);
}

}  // namespace battwright::command
