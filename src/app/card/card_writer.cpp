#include "app/card/card_writer.hpp"

#include <utility>

namespace battwright::app {

CardWriter::CardWriter(std::function<void()> ready) : ready_(std::move(ready)) {}

CardWriter::~CardWriter() = default;  // the jthread asks to stop and joins

void CardWriter::write(std::shared_ptr<const forecast::Forecast> forecast, const CardChoice& choice,
                       const std::filesystem::path& path) {
    Writing start;
    if (!begin(start)) return;
    thread_ = std::jthread([this, forecast = std::move(forecast), choice, path] {
        auto written = write_page(*forecast, choice, path);
        tell([&written](Writing& state) {
            if (written)
                state.files = std::move(*written);
            else
                state.result.failed = {written.error()};
            state.busy = false;
        });
    });
}

void CardWriter::write_all(Batch batch) {
    Writing start;
    start.batch = true;
    start.folder = batch.to;
    if (!begin(start)) return;
    thread_ = std::jthread([this, batch = std::move(batch)](const std::stop_token& stop) {
        const auto keep = [this](const BatchResult& result) {
            tell([&result](Writing& state) { state.result = result; });
        };
        const BatchResult result = write_batch(batch, stop, keep);
        tell([&result](Writing& state) {
            state.result = result;
            state.busy = false;
        });
    });
}

Writing CardWriter::state() const {
    const std::lock_guard lock(mutex_);
    return state_;
}

bool CardWriter::begin(const Writing& start) {
    const std::lock_guard lock(mutex_);
    if (state_.busy) return false;
    const unsigned long stage = state_.stage + 1;
    state_ = start;
    state_.busy = true;
    state_.stage = stage;
    return true;
}

void CardWriter::tell(const std::function<void(Writing&)>& change) {
    {
        const std::lock_guard lock(mutex_);
        change(state_);
        ++state_.stage;
    }
    if (ready_) ready_();
}

}  // namespace battwright::app
