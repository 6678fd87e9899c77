#include "app/bench/history.hpp"

#include <algorithm>

#include "text/believe.hpp"

namespace battwright::app {
namespace {

// Each as it was kept before, where it is the same.
template <class Value>
std::vector<std::shared_ptr<const Value>> shared_with(const std::vector<std::shared_ptr<const Value>>* before,
                                                      const std::vector<Value>& values) {
    std::vector<std::shared_ptr<const Value>> kept;
    for (const Value& value : values) {
        std::shared_ptr<const Value> shared;
        if (before != nullptr) {
            const auto found = std::ranges::find_if(*before, [&](const auto& old) { return *old == value; });
            if (found != before->end()) shared = *found;
        }
        kept.push_back(shared ? shared : std::make_shared<const Value>(value));
    }
    return kept;
}

}  // namespace

History::History(const Sheet& start) {
    states_.push_back(packed(start, nullptr));
}

History::State History::packed(const Sheet& sheet, const State* before) {
    State state;
    recipe::Recipe head = sheet.recipe;
    head.components.clear();
    head.carding.layings.clear();
    const bool keep_head = before != nullptr && *before->head == head;
    state.head = keep_head ? before->head : std::make_shared<const recipe::Recipe>(std::move(head));
    state.marks = sheet.marks;
    state.total_held = sheet.total_held;
    state.components =
        shared_with(before != nullptr ? &before->components : nullptr, sheet.recipe.components);
    state.layings = shared_with(before != nullptr ? &before->layings : nullptr, sheet.recipe.carding.layings);
    return state;
}

Sheet History::unpacked(const State& state) {
    Sheet sheet{*state.head, state.marks, state.total_held};
    for (const auto& component : state.components) sheet.recipe.components.push_back(*component);
    for (const auto& laying : state.layings) sheet.recipe.carding.layings.push_back(*laying);
    return sheet;
}

void History::push(const Sheet& sheet, std::string what, std::uint64_t gesture) {
    if (unpacked(states_[present_]) == sheet) return;
    states_.erase(states_.begin() + static_cast<std::ptrdiff_t>(present_) + 1, states_.end());
    State state = packed(sheet, &states_[present_]);
    state.what = std::move(what);
    state.gesture = gesture;
    if (gesture != 0 && present_ > 0 && states_[present_].gesture == gesture) {
        states_[present_] = std::move(state);
        return;
    }
    states_.push_back(std::move(state));
    if (states_.size() > most_steps + 1) states_.pop_front();
    present_ = states_.size() - 1;
}

std::string History::undo_name() const {
    return can_undo() ? states_[present_].what : std::string();
}

std::string History::redo_name() const {
    return can_redo() ? states_[present_ + 1].what : std::string();
}

Sheet History::undo() {
    BATTWRIGHT_BELIEVE(can_undo());
    return unpacked(states_[--present_]);
}

Sheet History::redo() {
    BATTWRIGHT_BELIEVE(can_redo());
    return unpacked(states_[++present_]);
}

}  // namespace battwright::app
