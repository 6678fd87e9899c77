// What a view may ask of the stash: one value a deed, carried out by the desk after the frame.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "app/record/record_requests.hpp"
#include "measure/units.hpp"
#include "stash/making.hpp"
#include "stash/movement.hpp"
#include "stash/shelf.hpp"

namespace battwright::app {

struct AddLot {
    stash::Lot lot;
    double grams = 0.0;  // as it lies
    std::string note;
};
struct ChangeLot {
    stash::Lot lot;  // by its id
};
// Wasted, given, or bought in addition.
struct MoveFibre {
    stash::Move move;
};
struct WeighAgain {
    std::string mark;
    double grams = 0.0;
    std::string note;
};
struct ScourLot {
    std::string mark;
    double grams = 0.0;  // dry, out of the bath
    std::string note;
};
struct CorrectMovement {
    std::int64_t movement = 0;
    double grams = 0.0;
    std::string note;
};
struct SetCurrency {
    std::string currency;
};
using StashDeed = std::variant<AddLot, ChangeLot, MoveFibre, WeighAgain, ScourLot, CorrectMovement,
                               SetCurrency, RecordDeed>;

// `from`: who asks and reads the answer from the desk in the next frame, any number of its own; 0: nobody
// does, and a complaint goes to the messages.
struct StashRequest {
    StashDeed deed;
    std::uint64_t from = 0;
};

struct StashAnswer {
    std::uint64_t from = 0;
    std::optional<measure::Complaint> complaint;
    std::int64_t id = 0;                        // of what was made
    std::string mark;                           // of a lot that was added
    std::vector<stash::Shortfall> short_lines;  // of a weigh-out that was refused
};

// A lot put into the recipe; so much clean fibre of it, or as much as suits.
struct LotToBench {
    std::string mark;
    std::optional<measure::Mass> weight;
};

// What of the shelf is on show, and in which order.
struct ShelfChoice {
    stash::Filter filter;
    stash::Order order = stash::Order::as_added;
};

}  // namespace battwright::app
