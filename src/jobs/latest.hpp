// Answers made on a thread of their own, of which only the latest request's are wanted.
#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

namespace battwright::jobs {

// Whether an answer nobody waits for is shown: not at all, while nothing newer was asked for (that is, of a
// request that was cancelled), or always.
enum class Late { dropped, unless_newer, shown };

// One thread. The latest request wins: one not yet begun is dropped for it, one under way is told so. An
// answer may grow: publish() as often as there is more to show.
template <class Request, class Answer>
class Latest {
  public:
    // What the maker of an answer is given; used on the worker's thread only.
    class Turn {
      public:
        // The request's number, as ask() gave it.
        unsigned long number() const { return number_; }
        // A newer request waits, this one was cancelled, or the owner is going: give up soon.
        bool outdated() const { return stop_.stop_requested(); }
        std::stop_token stop_token() const { return stop_; }
        // Waits so long, less when outdated; true when the answer is still wanted.
        bool rest(std::chrono::milliseconds time) const { return owner_.rest(stop_, time); }
        // Shows an answer, an outdated one as `late` says. After the maker returns the request counts as
        // answered.
        void publish(std::shared_ptr<const Answer> answer, Late late = Late::dropped) const {
            owner_.publish(*this, std::move(answer), late);
        }

      private:
        friend Latest;
        Turn(Latest& owner, unsigned long number, std::stop_token stop)
            : owner_(owner), number_(number), stop_(std::move(stop)) {}
        Latest& owner_;
        unsigned long number_;
        std::stop_token stop_;
    };
    using Make = std::function<void(const Request&, const Turn&)>;

    // `make` runs on the worker's thread, one request at a time (what it throws ends the program);
    // `ready` is called there after every publish() and when there is nothing more to answer.
    explicit Latest(Make make, std::function<void()> ready = {})
        : make_(std::move(make)),
          ready_(std::move(ready)),
          thread_([this](const std::stop_token& stop) { work(stop); }) {}
    // Tells the answer under way to give up and waits for it.
    ~Latest() {
        thread_.request_stop();
        cancel();
    }
    Latest(const Latest&) = delete;
    Latest& operator=(const Latest&) = delete;

    // The number by which the request will be known, counted from 1.
    unsigned long ask(Request request) {
        const std::lock_guard lock(mutex_);
        running_.request_stop();
        waiting_ = std::move(request);
        changed_.notify_all();
        return ++asked_;
    }
    // The request that waits is dropped, the one under way told to give up; what it has shown stays.
    void cancel() {
        const std::lock_guard lock(mutex_);
        running_.request_stop();
        waiting_.reset();
        changed_.notify_all();
    }

    struct State {
        std::shared_ptr<const Answer> latest;  // null before the first answer
        unsigned long number = 0;              // of the request it answers
        bool busy = false;  // a request waits or is being answered; a cancelled one does not count
    };
    State state() const {
        const std::lock_guard lock(mutex_);
        return {latest_, number_, (busy_ && !running_.stop_requested()) || waiting_.has_value()};
    }

  private:
    void work(const std::stop_token& stop) {
        while (!stop.stop_requested()) {
            std::unique_lock lock(mutex_);
            if (!changed_.wait(lock, stop, [this] { return waiting_.has_value(); })) return;
            const Request request = std::move(*waiting_);
            waiting_.reset();
            running_ = std::stop_source();
            busy_ = true;
            const Turn turn(*this, asked_, running_.get_token());
            lock.unlock();
            make_(request, turn);
            lock.lock();
            busy_ = false;
            const bool done = !waiting_;
            lock.unlock();
            if (done && ready_) ready_();
        }
    }
    bool rest(const std::stop_token& stop, std::chrono::milliseconds time) {
        std::unique_lock lock(mutex_);
        changed_.wait_for(lock, stop, time, [&stop] { return stop.stop_requested(); });
        return !stop.stop_requested();
    }
    void publish(const Turn& turn, std::shared_ptr<const Answer> answer, Late late) {
        {
            const std::lock_guard lock(mutex_);
            const bool wanted = late == Late::unless_newer && turn.number() == asked_;
            if (turn.outdated() && late != Late::shown && !wanted) return;
            latest_ = std::move(answer);
            number_ = turn.number();
        }
        if (ready_) ready_();
    }

    Make make_;
    std::function<void()> ready_;
    mutable std::mutex mutex_;
    std::condition_variable_any changed_;
    std::optional<Request> waiting_;
    std::stop_source running_;  // of the request under way
    std::shared_ptr<const Answer> latest_;
    unsigned long asked_ = 0, number_ = 0;
    bool busy_ = false;
    std::jthread thread_;  // last: it uses all of the above
};

}  // namespace battwright::jobs
