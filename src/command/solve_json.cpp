#include <nlohmann/json.hpp>

#include "command/solve_report.hpp"

namespace battwright::command {
namespace {

using nlohmann::ordered_json;

ordered_json lab_json(const colour::Lab& lab) {
    return {lab.l, lab.a, lab.b};
}
ordered_json colour_json(const colour::Lab& lab) {
    return {{"srgb", colour::hex(colour::clipped(colour::srgb_from(lab)))}, {"lab", lab_json(lab)}};
}
template <class T>
ordered_json or_null(const std::optional<T>& value) {
    return value ? ordered_json(*value) : ordered_json(nullptr);
}

ordered_json lots_json(const Asked& asked) {
    ordered_json list = ordered_json::array();
    for (const auto& lot : asked.problem.lots)
        list.push_back({{"lot", lot.id},
                        {"name", lot.name},
                        {"on_hand_g", lot.on_hand_grams},
                        {"scrap", lot.scrap},
                        {"age_days", lot.age_days},
                        {"cost_per_g", or_null(lot.cost_per_gram)}});
    return list;
}

ordered_json findings_json(const forecast::Forecast& forecast) {
    ordered_json list = ordered_json::array();
    for (const auto& finding : forecast.findings)
        list.push_back({{"code", finding.code},
                        {"severity", staple::word_for(finding.severity)},
                        {"text", finding.text},
                        {"remedy", finding.remedy}});
    return list;
}

ordered_json weights_json(const Asked& asked, const solve::Proposal& proposal) {
    ordered_json list = ordered_json::array();
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

ordered_json suggestion_json(const Asked& asked, const shelving::Suggestion& one, std::size_t index) {
    const solve::Proposal& proposal = one.proposal;
    ordered_json used_up = ordered_json::array();
    for (const std::size_t lot : proposal.used_up) used_up.push_back(asked.problem.lots[lot].id);
    ordered_json json{{"number", index + 1},
                      {"name", one.recipe().name},
                      {"total_g", proposal.total_grams},
                      {"batts", proposal.batts},
                      {"lots", weights_json(asked, proposal)},
                      {"colour", {{"srgb", colour::hex(proposal.srgb)}, {"lab", lab_json(proposal.lab)}}}};
    if (index < asked.targets.size()) json["target"] = colour_json(asked.targets[index].lab);
    json["delta_e00"] = or_null(proposal.delta_e);
    json["delta_e00_second_light"] = or_null(proposal.delta_e_second);
    json["used_share_pct"] = 100.0 * proposal.used_share;
    json["used_up"] = used_up;
    json["cost"] = or_null(proposal.cost);
    json["findings"] = findings_json(one.forecast);
    return json;
}

ordered_json conflict_json(const Found& found, bool gradient) {
    if (!found.conflict) return nullptr;
    const solve::Conflict& conflict = *found.conflict;
    ordered_json bounds = ordered_json::array(), changes = ordered_json::array();
    for (const auto& bound : conflict.bounds) bounds.push_back(bound.words);
    for (const auto& change : conflict.least_change)
        changes.push_back({{"bound", change.bound.words},
                           {"to", change.drop ? ordered_json(nullptr) : ordered_json(change.to)},
                           {"drop", change.drop},
                           {"text", change.words}});
    ordered_json json{{"text", conflict.words},
                      {"bounds", bounds},
                      {"least_change", changes},
                      {"smallest", conflict.smallest},
                      {"proved", conflict.proved}};
    if (gradient) json["batt"] = found.conflict_at + 1;
    return json;
}

}  // namespace

std::string found_json(const Asked& asked, const Found& found) {
    const bool gradient = !asked.targets.empty();
    ordered_json root;
    root["name"] = asked.title;
    if (!asked.currency.empty()) root["currency"] = asked.currency;
    root["second_light"] = colour::word_for(asked.problem.goal.second_light);
    const auto& target = asked.problem.goal.target;
    root["target"] = target && !gradient ? colour_json(target->lab) : ordered_json(nullptr);
    if (found.reach)
        root["reach"] = {{"delta_e00", found.reach->delta_e}, {"nearest", colour_json(found.reach->nearest)}};
    root["lots"] = lots_json(asked);
    root["proposals"] = ordered_json::array();
    for (std::size_t i = 0; i < found.suggestions.size(); ++i)
        root["proposals"].push_back(suggestion_json(asked, found.suggestions[i], i));
    if (gradient) {
        root["left"] = ordered_json::array();
        for (std::size_t i = 0; i < found.left_grams.size(); ++i)
            root["left"].push_back({{"lot", asked.problem.lots[i].id}, {"left_g", found.left_grams[i]}});
    }
    root["conflict"] = conflict_json(found, gradient);
    return root.dump(2) + "\n";
}

}  // namespace battwright::command
