// Everything a view may ask for, as values. apply() is the only place where any of it happens.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "app/bench/disagreement.hpp"
#include "app/bench/sheet.hpp"
#include "app/browse/browser.hpp"
#include "app/card/card_session.hpp"
#include "app/find/find_choice.hpp"
#include "app/lay/canvas.hpp"
#include "app/look.hpp"
#include "app/record/record_session.hpp"
#include "app/settings.hpp"
#include "app/shelf/shelf_weigh_out.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/table/table_session.hpp"

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
struct LookAt {
    Look look;
};
// How the drum is laid by hand: the brush, what is chosen and hidden.
struct ChangeCanvas {
    Canvas canvas;
};
struct ChangeSettings {
    Settings settings;
};
struct Complain {
    measure::Complaint complaint;
};
struct Dismiss {
    std::size_t message = 0;
};

// The shelf.
struct AskStash {
    std::vector<StashRequest> requests;  // all of one frame
};
struct ChooseShelf {
    ShelfChoice choice;
};
// The weigh-out of the batt on the bench, carded at once or not at all.
struct TakeFromShelf {
    CardingWords words;
    std::uint64_t from = 0;  // as in StashRequest
};
// Follows the movements of one lot.
struct WatchLot {
    std::string mark;
};

// Files: what is asked for, a folder, a name, in which order they lie, which are in sight, done.
struct BrowseFiles {
    FileRequest ask;
};
struct LeaveFiles {};
struct OrderFiles {
    FileOrder order;
};
struct LookAtFiles {
    std::size_t first = 0, end = 0;
};
struct EnterFolder {
    std::filesystem::path folder;
};
struct NameFile {
    std::string name;
};
struct FinishFile {};
// Let fall on the window, or pasted: for that field.
struct GiveFile {
    std::string who;
    std::filesystem::path path;
};

// The record.
struct LookUp {
    LookupChoice lookup;
};
struct ShowReport {
    ReportChoice report;
};
struct ChangeRecordFiles {
    std::string folder;
    std::string table_path, backup_path, restore_path;
};
struct WriteTables {};
struct ReadTable {};
struct ForgetTable {};
struct CheckStash {};
struct BackUp {
    std::uint64_t from = 0;  // as in StashRequest
};
struct Restore {
    std::uint64_t from = 0;
};

// Cards.
struct ChangeCard {
    CardDraft draft;
};
struct WriteCard {};
struct WriteAllCards {};

// The table.
struct ChangeTable {
    TableChoice choice;
};
struct SaveTable {};
// Find.
struct ChangeFind {
    FindChoice choice;
};
struct StopFind {};
struct FindAgain {};

using Action =
    std::variant<Edit, Disagree, AnswerDisagreement, Undo, Redo, NewBatt, StartExample, OpenRecipe, OpenCard,
                 Leave, Save, SaveAs, AnswerUnsaved, AnswerComments, AnswerTheirs, AnswerRecovery,
                 KeepVariant, TakeVariant, DropVariant, WeighYarn, LookAt, ChangeCanvas, ChangeSettings,
                 Complain, Dismiss, AskStash, ChooseShelf, TakeFromShelf, LotToBench, WatchLot, BrowseFiles,
                 LeaveFiles, OrderFiles, LookAtFiles, EnterFolder, NameFile, FinishFile, GiveFile, LookUp,
                 ShowReport, ChangeRecordFiles, WriteTables, ReadTable, ForgetTable, CheckStash, BackUp,
                 Restore, ChangeCard, WriteCard, WriteAllCards, ChangeTable, SaveTable, ChangeFind, StopFind,
                 FindAgain>;

}  // namespace battwright::app
