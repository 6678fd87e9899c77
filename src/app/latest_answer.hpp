// What is read beside the window's thread and handed over once.
#pragma once

#include <functional>
#include <memory>
#include <utility>

#include "jobs/latest.hpp"

namespace battwright::app {

// One thread. What was asked for last wins: an older request is dropped, if it is not answered yet. Used on
// one thread.
template <class Request, class Answer>
class LatestAnswer {
  public:
    using Make = std::function<std::shared_ptr<const Answer>(const Request&)>;
    // `make` runs on the thread of this; `ready` is called there once there is something to take.
    LatestAnswer(Make make, std::function<void()> ready)
        : worker_([make = std::move(make)](const Request& request,
                                           const auto& turn) { turn.publish(make(request)); },
                  std::move(ready)) {}

    void ask(Request request) { asked_ = worker_.ask(std::move(request)); }
    // The answer, once; null while there is nothing new.
    std::shared_ptr<const Answer> take() {
        const auto state = worker_.state();
        if (!state.latest || state.number == taken_) return nullptr;
        taken_ = state.number;
        return state.latest;
    }
    // There is something to take.
    bool has_news() const { return worker_.state().number != taken_; }
    // A request is being answered, or its answer is there and not taken yet.
    bool busy() const { return asked_ != taken_; }

  private:
    unsigned long asked_ = 0, taken_ = 0;
    jobs::Latest<Request, Answer> worker_;
};

}  // namespace battwright::app
