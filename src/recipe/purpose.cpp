#include "recipe/purpose.hpp"

#include <algorithm>

namespace battwright::recipe {
namespace {

const PurposeRow* row_for(std::string_view thing) {
    const auto* const row = std::find_if(purposes.begin(), purposes.end(),
                                         [&](const PurposeRow& one) { return one.thing == thing; });
    return row == purposes.end() ? nullptr : row;
}

}  // namespace

const std::vector<std::string>& purpose_things() {
    static const std::vector<std::string> things = [] {
        std::vector<std::string> all;
        for (const PurposeRow& row : purposes) all.emplace_back(row.thing);
        return all;
    }();
    return things;
}

std::vector<std::string> purpose_sizes(std::string_view thing) {
    std::vector<std::string> sizes;
    if (const PurposeRow* row = row_for(thing))
        for (const std::string_view size : row->sizes)
            if (!size.empty()) sizes.emplace_back(size);
    return sizes;
}

std::optional<bool> next_to_skin(const Purpose& purpose) {
    if (purpose.next_to_skin || purpose.thing.empty()) return purpose.next_to_skin;
    const PurposeRow* row = row_for(purpose.thing);
    return row != nullptr && row->worn_close;
}

Twist usual_twist(const Purpose& purpose) {
    const PurposeRow* row = row_for(purpose.thing);
    return row != nullptr ? row->twist : Twist::medium;
}

}  // namespace battwright::recipe
