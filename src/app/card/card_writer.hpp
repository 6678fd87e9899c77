// Writes pages to files beside the window: a batch of cards takes longer than a person waits for a frame.
#pragma once

#include <functional>
#include <memory>
#include <mutex>
#include <thread>
#include <vector>

#include "app/card/card_choice.hpp"

namespace battwright::app {

// How far the writing has got. `stage` counts up with every change.
struct Writing {
    bool busy = false;
    bool batch = false;                        // of several recipes; else of the one on the bench
    std::vector<std::filesystem::path> files;  // of a single page that was written
    std::filesystem::path folder;              // where a batch goes
    BatchResult result;                        // of a batch; for a single page only `failed`
    unsigned long stage = 0;
};

class CardWriter {
  public:
    // `ready` is called on the writing thread after every step.
    explicit CardWriter(std::function<void()> ready = {});
    // Waits for the page being written; the rest of a batch is left.
    ~CardWriter();
    CardWriter(const CardWriter&) = delete;
    CardWriter& operator=(const CardWriter&) = delete;

    // Both do nothing while busy.
    void write(std::shared_ptr<const forecast::Forecast> forecast, const CardChoice& choice,
               const std::filesystem::path& path);
    void write_all(Batch batch);
    Writing state() const;

  private:
    bool begin(const Writing& start);
    void tell(const std::function<void(Writing&)>& change);

    std::function<void()> ready_;
    mutable std::mutex mutex_;
    Writing state_;
    std::jthread thread_;  // last: it uses all of the above
};

}  // namespace battwright::app
