// The parts of the JSON that are about the carder and the wheel.
#include "command/json_making.hpp"

#include "forecast/alike.hpp"

#include "recipe/thickness.hpp"

namespace battwright::command {
namespace {

// What goes on batt `batt`, component by component.
Json fed_json(const forecast::Forecast& f, std::size_t batt) {
    Json list = Json::array();
    for (std::size_t i = 0; i < f.components.size(); ++i)
        list.push_back({{"fibre", with_plus(f.components[i].fibres)}, {"mass_g", f.weigh_out.at(batt, i)}});
    return list;
}

Json passes_json(const forecast::Batt& batt) {
    Json list = Json::array();
    for (const auto& m : batt.measures)
        list.push_back({{"pass", m.pass},
                        {"segregation_intensity", m.intensity},
                        {"segregation_scale_mm", m.scale_mm},
                        {"ibi", m.ibi},
                        {"strip_variation_de00", m.strip_variation_de00},
                        {"chance_de00", m.chance_de00},
                        {"fleck_de00", m.fleck_de00},
                        {"word", carding::word_for(m.look)},
                        {"described", carding::described(m)}});
    return list;
}

Json looks_json(const forecast::Forecast& f) {
    Json looks = Json::object();
    for (const auto& [look, answer] : forecast::passes_for_looks(f))
        looks.set(carding::word_for(look), answer.passes);
    return looks;
}

Json other_tools_json(const forecast::Forecast& f) {
    Json list = Json::array();
    for (const auto& other : f.other_tools)
        list.push_back({{"tool", other.tool.id}, {"loads", other.loads}, {"load_g", other.load_grams}});
    return list;
}

// By what way a step's fibre goes on.
std::string way_on(const carding::Plan& plan, const carding::Step& step) {
    if (plan.feed.tool == carding::ToolKind::drum)
        return std::string(recipe::word_for(step.on_drum ? recipe::Way::drum : recipe::Way::tray));
    return "onto the " + std::string(measure::row_of(recipe::tool_rows, plan.feed.tool).surface);
}

Json plan_json(const carding::Plan& plan) {
    Json list = Json::array();
    for (const auto& step : plan.steps)
        list.push_back({{"order", step.order},
                        {"pass", step.pass},
                        {"kind", carding::word_for(step.kind)},
                        {"component", step.component},
                        {"small_blend", step.blend},
                        {"mass_g", step.grams},
                        {"way", way_on(plan, step)},
                        {"round_from_pct", 100.0 * step.round_from},
                        {"round_to_pct", 100.0 * step.round_to},
                        {"from_mm", step.width_from_mm},
                        {"to_mm", step.width_to_mm},
                        {"minutes", step.minutes},
                        {"text", step.text}});
    return list;
}

Json apart_json(const forecast::Apart& apart) {
    return {{"typical_de00", apart.typical_de00},
            {"farthest_de00", apart.farthest_de00},
            {"share_points", apart.share_pct},
            {"component", apart.component}};
}

// How far apart several batts will be; null for one.
Json alike_json(const forecast::Forecast& f, const forecast::Batt& batt) {
    const auto alike = forecast::alike(f, {}, batt.passes.empty() ? nullptr : &batt.passes.front());
    if (!alike) return Json();
    return {{"as_carded", apart_json(alike->as_carded)}, {"recombined", apart_json(alike->recombined)},
            {"by_scale_de00", alike->by_scale_de00},     {"by_handling_de00", alike->by_handling_de00},
            {"by_order_de00", alike->by_order_de00},     {"text", forecast::alike_words(f, *alike)}};
}

// How the batt goes back for a pass; between hand cards there is one way.
std::string_view refeed_word(const forecast::Forecast& f, int pass) {
    if (f.carder.kind == carding::ToolKind::hand_cards) return "transfer";
    return recipe::word_for(f.plan.feed.refeed_on(pass));
}

// One for each pass after the first.
Json refeeds_json(const forecast::Forecast& f) {
    Json list = Json::array();
    for (int pass = 2; pass <= f.plan.passes; ++pass) list.push_back(refeed_word(f, pass));
    return list;
}

}  // namespace

std::string with_plus(const std::vector<std::string>& words) {
    std::string text;
    for (const auto& word : words) text += (text.empty() ? "" : "+") + word;
    return text;
}

Json carding_json(const forecast::Forecast& f, const forecast::Batt& batt) {
    Json all = Json::array();
    for (std::size_t i = 0; i < f.weigh_out.batts; ++i) all.push_back(fed_json(f, i));
    Json cautions = Json::array();
    for (const auto& caution : f.plan.cautions)
        cautions.push_back({{"code", caution.code}, {"text", caution.text}});
    return {{"tool", recipe::words_of(f.carder).word},
            {"rolags", f.plan.feed.rolags},
            {"batts", f.weigh_out.batts},
            {"per_batt", all.empty() ? Json::array() : all.front()},
            {"each_batt", all},
            {"words", f.weigh_out.words},
            {"feed", f.plan.feed.by_hand ? "by hand"
                                         : recipe::word_for(f.plan.feed.manner, recipe::is_flat(f.carder))},
            {"refeed", refeed_word(f, 2)},
            {"refeeds", refeeds_json(f)},
            {"recombine", f.plan.feed.recombine},
            {"alike", alike_json(f, batt)},
            {"mixing", f.mixing},
            {"passes", passes_json(batt)},
            {"passes_for", looks_json(f)},
            {"other_tools", other_tools_json(f)},
            {"nep_risk", {{"safe_passes", batt.over_carding.safe_passes}, {"text", batt.over_carding.text}}},
            {"plan", plan_json(f.plan)},
            {"minutes_per_batt", f.plan.minutes_per_batt},
            {"cautions", cautions}};
}

Json yarn_json(const yarn::YarnForecast& y) {
    Json root{{"preparation", recipe::word_for(y.preparation)},
              {"plying", recipe::file_word(y.plying)},
              {"wpi", y.wpi},
              {"tex", y.tex},
              {"class", y.class_name},
              {"class_words", y.thickness_words},
              {"expected_wpi", y.expected_wpi},
              {"aim_for_wpi", y.aim_for_wpi},
              {"length_m", y.length_m},
              {"length_low_m", y.length_low_m},
              {"length_high_m", y.length_high_m},
              {"length_before_wash_m", y.length_before_wash_m},
              {"length_before_wash_low_m", y.length_before_wash_low_m},
              {"length_before_wash_high_m", y.length_before_wash_high_m},
              {"skeins_logged", y.skeins_logged},
              {"fibres_in_section", y.fibres_in_section},
              {"least_fibres", y.least_fibres},
              {"finest_wpi", y.finest_wpi},
              {"finest_wpi_low", y.finest_wpi_low},
              {"finest_wpi_high", y.finest_wpi_high},
              {"fibres_wanted", y.fibres_wanted},
              {"plies", y.plies},
              {"singles_tex", y.singles_tex},
              {"twist", recipe::word_for(y.twist_word)},
              {"twist_angle_degrees", y.twist_angle_degrees},
              {"twist_per_m", y.twist_per_m},
              {"ply_twist_per_m", y.ply_twist_per_m},
              {"take_up_pct", y.take_up_pct},
              {"evenness_limit_pct", y.evenness_limit_pct}};
    if (y.treadles_per_m > 0.0) {
        root.set("treadles_per_m", y.treadles_per_m);
        root.set("ply_treadles_per_m", y.ply_treadles_per_m);
    }
    if (y.plying == yarn::Plying::with_thread) root.set("thread_needed_m", y.thread_needed_m);
    if (y.thread_complaint) root.set("thread_complaint", measure::to_line(*y.thread_complaint));
    Json curve = Json::array();
    for (const auto& point : y.curve)
        curve.push_back({{"wpi", point.wpi},
                         {"tex", point.tex},
                         {"length_m", point.length_m},
                         {"spinnable", point.spinnable}});
    root.set("curve", std::move(curve));
    return root;
}

}  // namespace battwright::command
