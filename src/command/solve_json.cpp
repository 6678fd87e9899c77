#include <cmath>

#include "command/json_value.hpp"
#include "command/solve_report.hpp"

namespace battwright::command {
namespace {

Json lab_json(const colour::Lab& lab) {
    return {lab.l, lab.a, lab.b};
}
Json target_json(const colour::Lab& lab) {
    return {{"srgb", colour::hex(colour::clipped(colour::srgb_from(lab)))}, {"lab", lab_json(lab)}};
}
// Where a search may end to either side of the last digits, on one processor or another, fewer are said; of a
// distance never more than it is.
constexpr double sure_digits = 1e4;
double distance_found(double value) {
    return std::floor(value * sure_digits) / sure_digits;
}
double coordinate_found(double value) {
    return std::round(value * sure_digits) / sure_digits + 0.0;  // never -0
}
Json reach_json(const solve::Reach& reach) {
    const colour::Lab& lab = reach.nearest;
    return {{"delta_e00", distance_found(reach.delta_e)},
            {"difference", distance_found(reach.difference)},
            {"nearest",
             target_json({coordinate_found(lab.l), coordinate_found(lab.a), coordinate_found(lab.b)})}};
}

Json lots_json(const SolveRequest& asked) {
    Json list = Json::array();
    for (const auto& lot : asked.problem.lots)
        list.push_back({{"lot", lot.id},
                        {"name", lot.name},
                        {"on_hand_g", lot.on_hand_grams},
                        {"scrap", lot.scrap},
                        {"age_days", lot.age_days},
                        {"cost_per_g", lot.cost_per_gram}});
    return list;
}

Json short_findings_json(const forecast::Forecast& forecast) {
    Json list = Json::array();
    for (const auto& finding : forecast.findings)
        list.push_back({{"code", finding.code},
                        {"severity", staple::word_for(finding.severity)},
                        {"text", finding.text},
                        {"remedy", finding.remedy}});
    return list;
}

Json weights_json(const SolveRequest& asked, const solve::Proposal& proposal) {
    Json list = Json::array();
    for (std::size_t i = 0; i < proposal.grams.size(); ++i) {
        if (!(proposal.grams[i] > 0.0)) continue;
        list.push_back({{"lot", asked.problem.lots[i].id},
                        {"name", asked.problem.lots[i].name},
                        {"mass_g", proposal.grams[i]},
                        {"batt_mass_g", proposal.batt_grams[i]},
                        {"left_g", proposal.left_grams[i]}});
    }
    return list;
}

Json suggestion_json(const SolveRequest& asked, const shelving::Suggestion& one, std::size_t index) {
    const solve::Proposal& proposal = one.proposal;
    Json used_up = Json::array();
    for (const std::size_t lot : proposal.used_up) used_up.push_back(asked.problem.lots[lot].id);
    Json json{{"number", index + 1},
              {"name", one.recipe().name},
              {"total_g", proposal.total_grams},
              {"batts", proposal.batts},
              {"lots", weights_json(asked, proposal)},
              {"colour", {{"srgb", colour::hex(proposal.srgb)}, {"lab", lab_json(proposal.lab)}}}};
    if (index < asked.targets.size()) json.set("target", target_json(asked.targets[index].lab));
    json.set("delta_e00", proposal.delta_e);
    json.set("difference", proposal.difference);
    json.set("delta_e00_second_light", proposal.delta_e_second);
    json.set("used_share_pct", 100.0 * proposal.used_share);
    json.set("used_up", used_up);
    json.set("cost", proposal.cost);
    json.set("findings", short_findings_json(one.forecast));
    return json;
}

Json proposals_json(const SolveRequest& asked, const SolveResult& found) {
    Json list = Json::array();
    for (std::size_t i = 0; i < found.suggestions.size(); ++i)
        list.push_back(suggestion_json(asked, found.suggestions[i], i));
    return list;
}

Json left_json(const SolveRequest& asked, const SolveResult& found) {
    Json list = Json::array();
    for (std::size_t i = 0; i < found.left_grams.size(); ++i)
        list.push_back({{"lot", asked.problem.lots[i].id}, {"left_g", found.left_grams[i]}});
    return list;
}

Json conflict_json(const SolveResult& found, bool gradient) {
    if (!found.conflict) return nullptr;
    const solve::Conflict& conflict = *found.conflict;
    Json bounds = Json::array(), changes = Json::array();
    for (const auto& bound : conflict.bounds) bounds.push_back(bound.words);
    for (const auto& change : conflict.least_change)
        changes.push_back({{"bound", change.bound.words},
                           {"to", change.drop ? Json(nullptr) : Json(change.to)},
                           {"drop", change.drop},
                           {"text", change.words}});
    Json json{{"text", conflict.words},
              {"bounds", bounds},
              {"least_change", changes},
              {"smallest", conflict.smallest},
              {"proved", conflict.proved}};
    if (gradient) json.set("batt", found.conflict_at + 1);
    return json;
}

}  // namespace

std::string found_json(const SolveRequest& asked, const SolveResult& found) {
    const bool gradient = !asked.targets.empty();
    Json root;
    root.set("name", asked.title);
    if (!asked.currency.empty()) root.set("currency", asked.currency);
    root.set("second_light", colour::word_for(asked.problem.goal.second_light));
    const auto& target = asked.problem.goal.target;
    root.set("target", target && !gradient ? target_json(target->lab) : Json(nullptr));
    if (found.reach) root.set("reach", reach_json(*found.reach));
    root.set("lots", lots_json(asked));
    root.set("proposals", proposals_json(asked, found));
    if (gradient) root.set("left", left_json(asked, found));
    root.set("conflict", conflict_json(found, gradient));
    return printed(root);
}

}  // namespace battwright::command
