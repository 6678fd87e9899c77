// Undo and redo of everything on the sheet.
#pragma once

#include <deque>
#include <memory>
#include <string>
#include <vector>

#include "app/bench/sheet.hpp"

namespace battwright::app {

// Every state the sheet has been in, oldest first. States share the components and layings they have in
// common, so a step costs about as much as the one it changed; the oldest go when there are more than
// `most_steps`.
class History {
  public:
    static constexpr std::size_t most_steps = 10000;

    explicit History(const Sheet& start);

    // Adds a state after the present one and drops what had been undone. Steps with the same `gesture` (not
    // 0) that follow each other are one step: a whole drag is undone at once. A sheet equal to the present
    // one adds nothing.
    void push(const Sheet& sheet, std::string what, std::uint64_t gesture = 0);

    bool can_undo() const { return present_ > 0; }
    bool can_redo() const { return present_ + 1 < states_.size(); }
    // What the next undo or redo is about ("remove a component"); empty when there is none.
    std::string undo_name() const;
    std::string redo_name() const;
    // The state one step back or on. Precondition: can_undo(), can_redo().
    Sheet undo();
    Sheet redo();
    std::size_t steps_back() const { return present_; }
    std::size_t steps_on() const { return states_.size() - 1 - present_; }

  private:
    struct State {
        std::shared_ptr<const recipe::Recipe> head;  // without its components and layings
        std::vector<std::shared_ptr<const recipe::Component>> components;
        std::vector<std::shared_ptr<const recipe::Laying>> layings;
        std::vector<Mark> marks;
        bool total_held = false;
        std::string what;
        std::uint64_t gesture = 0;
    };
    static State packed(const Sheet& sheet, const State* before);
    static Sheet unpacked(const State& state);

    std::deque<State> states_;
    std::size_t present_ = 0;
};

}  // namespace battwright::app
