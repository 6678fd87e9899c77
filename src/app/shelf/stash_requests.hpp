// What can be asked of the stash: one value an action, carried out by the session after the frame.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/action.hpp"
#include "measure/units.hpp"
#include "stash/batt_photo.hpp"
#include "stash/csv.hpp"
#include "stash/making.hpp"
#include "stash/movement.hpp"
#include "stash/shelf.hpp"

namespace battwright::stash {
class Stash;
}

namespace battwright::app {

// Of the shelf.
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

// Of the record: what was carded and spun.
struct CardIt {
    stash::Carding carding;
};
struct TakeBack {
    std::int64_t batt = 0;
    std::string note;
};
struct OffTheDrum {
    std::int64_t batt = 0;
    double grams = 0.0;  // all batts of the carding together
};
struct LogSkein {
    stash::Skein skein;
};
struct ChangeSkein {
    stash::Skein skein;  // by its id
};
struct RemoveSkein {
    std::int64_t skein = 0;
};
struct Allocate {
    stash::Allocation allocation;
};
struct Release {
    std::int64_t allocation = 0;
};

// A photo of a batt that was held against the forecast of its recipe (BattPhotoReader).
struct LogBattPhoto {
    stash::BattPhoto photo;
};
struct ChangeBattPhoto {
    stash::BattPhoto photo;  // by its id
};
struct RemoveBattPhoto {
    std::int64_t photo = 0;
};

// Of the file as a whole.
struct TakeInRows {
    std::vector<stash::LotRow> rows;  // all of them or none
};
struct BackupTo {
    std::filesystem::path path;
};
struct RestoreFrom {
    std::filesystem::path path;
};

struct StashAnswer {
    std::uint64_t from = 0;
    std::optional<measure::Complaint> complaint;
    std::int64_t id = 0;                        // of what was made
    std::string mark;                           // of a lot that was added
    std::vector<stash::Shortfall> short_lines;  // of a weigh-out that was refused
};

// Does the action. The number and mark of what was made go into the answer, and the short lines of a refused
// weigh-out.
measure::Expected<void> perform(stash::Stash& stash, const StashAction& action, StashAnswer& answer);

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

// The shelf.
struct AskStash {
    std::vector<StashRequest> requests;  // all of one frame
};
struct ChooseShelf {
    ShelfChoice choice;
};
// Follows the movements of one lot.
struct WatchLot {
    std::string mark;
};

}  // namespace battwright::app
