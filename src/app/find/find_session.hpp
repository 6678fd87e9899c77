// The search for blends while the window is open: what is asked for, the lots there are, and what was found.
// No display.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/bench/outcome.hpp"
#include "app/derived.hpp"
#include "app/find/find_choice.hpp"
#include "app/find/find_worker.hpp"
#include "app/settings.hpp"
#include "app/shelf/stash_session.hpp"

namespace battwright::app {

class FindSession {
  public:
    // Before the card opens. The first time it aims at the batt's own colour; with nothing on the shelf it
    // looks among the batt's fibres. `wake` is called on the worker's thread.
    void open(const Sheet& sheet, const Outcome& outcome, bool shelf_is_empty, std::function<void()> wake);
    // Each frame the card is open: brings the lots up to date and asks the worker what has changed. True
    // while a long shelf is being priced, a part of it each frame.
    bool follow(const Sheet& sheet, StashSession& stash, const fibre::Catalogue& catalogue,
                const Settings& settings);
    // A search nobody waits for is stopped.
    void close();
    // By hand; and once more from the start.
    void stop();
    void look_again() { asked_.forget(); }

    FindChoice choice;

    // The lots there are; null while they are being priced.
    const std::shared_ptr<const shelving::Stock>& stock() const { return made_.stock; }
    // Indices of the lots on show, and what a bound may be about.
    const std::vector<std::size_t>& rows() const { return rows_.value(); }
    const std::vector<std::string>& bound_words() const { return made_.bound_words; }
    const FindWorker::State& shown() const { return shown_; }
    // About the choice as it stands.
    const std::optional<measure::Complaint>& complaint() const { return complaint_; }
    bool stopped() const { return stopped_; }
    // The thread has something to show that is not on show yet.
    bool has_news() const;
    // The last choice is answered and nothing is under way.
    bool settled() const { return !shown_.busy && !has_news() && asked_.key().has_value(); }

  private:
    struct StockMade {
        std::vector<shelving::PricedLot> priced;  // so far
        std::shared_ptr<const shelving::Stock> stock;
        std::vector<std::string> bound_words;
    };
    struct StockInputs {
        FindFrom from = FindFrom::shelf;
        unsigned long shelf_version = 0;  // of the shelf
        double scrap_grams = 0.0;
        recipe::Recipe recipe;  // of the batt, when the lots are its fibres
        bool operator==(const StockInputs&) const = default;
    };
    struct RowsInputs {
        std::shared_ptr<const shelving::Stock> stock;
        std::string words;
        bool scraps_only = false;
        bool operator==(const RowsInputs&) const = default;
    };
    struct AskedInputs {
        std::shared_ptr<const shelving::Stock> stock;
        FindChoice choice;
        stash::Hands hands;
        bool operator==(const AskedInputs&) const = default;
    };
    void ask(const Sheet& sheet, const StashSession& stash, const fibre::Catalogue& catalogue,
             const Settings& settings);

    static void price_some(StockMade& made, StashSession& stash);
    static void finish(StockMade& made, shelving::Stock stock, const fibre::Catalogue& catalogue);

    Derived<StockInputs, bool> of_;  // what `made_` is, or is being, made of
    StockMade made_;
    Derived<RowsInputs, std::vector<std::size_t>> rows_;
    std::unique_ptr<FindWorker> worker_;  // made when the card first opens
    Derived<AskedInputs, unsigned long> asked_;
    std::optional<measure::Complaint> complaint_;
    bool stopped_ = false;
    FindWorker::State shown_;
};

}  // namespace battwright::app
