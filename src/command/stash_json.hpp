// Inside this room: the stash's values as JSON.
#pragma once

#include "command/json_value.hpp"
#include "stash/stash.hpp"

namespace battwright::command {

Json lot_json(const stash::Shelved& shelved);
Json movement_json(const stash::Movement& movement);
Json batt_json(const stash::Batt& batt);
Json skein_json(const stash::Skein& skein);
Json allocation_json(const stash::Allocation& allocation);
Json cost_json(const stash::Cost& cost);
Json shortfalls_json(const std::vector<stash::Shortfall>& lines);
Json palette_json(const std::vector<recipe::Tint>& palette);
// null where there is none.
Json money_json(const std::optional<stash::Money>& money);
Json lab_json(const std::optional<colour::Lab>& lab);

template <class Values, class Make>
Json list_json(const Values& values, const Make& make) {
    Json list = Json::array();
    for (const auto& value : values) list.push_back(make(value));
    return list;
}

}  // namespace battwright::command
