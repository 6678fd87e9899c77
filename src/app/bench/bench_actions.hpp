// What a view may ask for of the batt on the bench, of its file and of the messages; see action.hpp.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

#include "app/bench/disagreement.hpp"
#include "app/bench/sheet.hpp"
#include "measure/complaint.hpp"

namespace battwright::app {

// The recipe on the bench.
struct Edit {
    Sheet sheet;
    std::string what;           // for undo: "move a border"
    std::uint64_t gesture = 0;  // edits of one gesture are undone together; 0: a step of its own
};
// A change that cannot be carried out: the ways out are asked about.
struct Disagree {
    Disagreement disagreement;
    std::string what;  // for undo
};
struct Undo {};
struct Redo {};

// What takes the place of the recipe on the bench. Unsaved work is asked about first.
struct NewBatt {};
struct StartExample {};
struct OpenRecipe {
    std::filesystem::path path;
};
// Off a photo of a printed card, as its code has it.
struct OpenCard {
    std::filesystem::path photo;
    std::string recipe;  // the text of its file
};
struct Leave {};

// To its own file, when it has one and nothing would be lost; else it is asked about.
struct Save {};
struct SaveAs {
    std::filesystem::path path;
};

// Answers to the questions (see State).
struct AnswerUnsaved {
    enum class Choice { save, let_go, stay } choice;
};
struct AnswerComments {
    enum class Choice { elsewhere, drop, stay } choice;
};
struct AnswerTheirs {
    enum class Choice { elsewhere, keep_mine, take_theirs, stay } choice;
};
struct AnswerRecovery {
    enum class Choice { bring_back, throw_away, later } choice;
};

// The way out; none: all stays as it was.
struct AnswerDisagreement {
    std::optional<std::size_t> way;
};

struct KeepVariant {};
struct TakeVariant {
    std::size_t index = 0;
};
struct DropVariant {
    std::size_t index = 0;
};

// Finished yarn, when that was weighed and not the fibre; none: the fibre. Precondition: above zero.
struct WeighYarn {
    std::optional<double> grams;
};

// Messages, which stay until they are dismissed.
struct Complain {
    measure::Complaint complaint;
};
struct Dismiss {
    std::size_t message = 0;
};

}  // namespace battwright::app
