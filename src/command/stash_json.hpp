// Inside this room: the stash's values as JSON.
#pragma once

#include <nlohmann/json.hpp>

#include "stash/stash.hpp"

namespace battwright::command {

nlohmann::ordered_json lot_json(const stash::Shelved& shelved);
nlohmann::ordered_json movement_json(const stash::Movement& movement);
nlohmann::ordered_json batt_json(const stash::Batt& batt);
nlohmann::ordered_json skein_json(const stash::Skein& skein);
nlohmann::ordered_json allocation_json(const stash::Allocation& allocation);
nlohmann::ordered_json cost_json(const stash::Cost& cost);
nlohmann::ordered_json shortfalls_json(const std::vector<stash::Shortfall>& lines);
nlohmann::ordered_json palette_json(const std::vector<recipe::Tint>& palette);
// null where there is none.
nlohmann::ordered_json money_json(const std::optional<stash::Money>& money);
nlohmann::ordered_json lab_json(const std::optional<colour::Lab>& lab);

// With two spaces and a line end; bytes that are not UTF-8 are replaced, so that it never fails.
std::string printed(const nlohmann::ordered_json& json);
template <class Values, class Make>
nlohmann::ordered_json list_json(const Values& values, const Make& make) {
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const auto& value : values) list.push_back(make(value));
    return list;
}

}  // namespace battwright::command
