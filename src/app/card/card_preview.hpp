// The page as pixels, made beside the window so that no frame waits for it.
#pragma once

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "app/card/card_choice.hpp"

namespace battwright::app {

struct PreviewRequest {
    std::shared_ptr<const forecast::Forecast> forecast;
    unsigned long version = 0;  // of the forecast
    CardChoice choice;
    int width = 0, height = 0;  // pixels a side of the page may take
    bool same_as(const PreviewRequest& other) const;
};

struct PagePreview {
    unsigned long version = 0;
    std::vector<strip::Image> sides;  // none for a content label
    std::string text;                 // of a content label
    std::vector<std::string> said;    // beside a tag: what was refused of its content, and notes
    int missing_glyphs = 0;           // see card::Laid
    bool code_left_out = false;
};

// The answer to a request, made here and now.
PagePreview preview_of(const PreviewRequest& request);

// One thread, no OpenGL on it. The latest request wins: one not yet begun when the next comes is dropped. The
// last answer stays until there is a newer one.
class CardPreview {
  public:
    // `ready` is called on the thread after every answer.
    explicit CardPreview(std::function<void()> ready = {});
    // Waits for the page being made.
    ~CardPreview();
    CardPreview(const CardPreview&) = delete;
    CardPreview& operator=(const CardPreview&) = delete;

    void ask(PreviewRequest request);
    struct State {
        std::shared_ptr<const PagePreview> latest;  // null before the first answer
        bool busy = false;                          // the answer to the last request is still to come
    };
    State state() const;

  private:
    void work(const std::stop_token& stop);

    std::function<void()> ready_;
    mutable std::mutex mutex_;
    std::condition_variable_any changed_;
    std::optional<PreviewRequest> request_;  // not yet begun
    State state_;
    std::jthread thread_;  // last: it uses all of the above
};

}  // namespace battwright::app
