// Everything a view may ask for, by name; each is a value, defined in the header named above it. apply() is
// the only place where any of it happens.
#pragma once

#include <cstdint>

#include "app/any_of.hpp"
#include "measure/complaint.hpp"

namespace battwright::app {

using Action =
    AnyOf<void,
          // bench/bench_actions.hpp
          struct Edit, struct Disagree, struct Undo, struct Redo, struct NewBatt, struct StartExample,
          struct OpenRecipe, struct OpenCard, struct Leave, struct Save, struct SaveAs, struct AnswerUnsaved,
          struct AnswerComments, struct AnswerTheirs, struct AnswerRecovery, struct AnswerDisagreement,
          struct KeepVariant, struct TakeVariant, struct DropVariant, struct WeighYarn, struct Complain,
          struct Dismiss,
          // look.hpp, lay/canvas.hpp, settings.hpp
          struct LookAt, struct ChangeCanvas, struct ChangeSettings,
          // shelf/stash_requests.hpp, shelf/shelf_weigh_out.hpp
          struct AskStash, struct ChooseShelf, struct TakeFromShelf, struct WatchLot, struct LotToBench,
          // browse/browser.hpp
          struct BrowseFiles, struct LeaveFiles, struct OrderFiles, struct LookAtFiles, struct EnterFolder,
          struct NameFile, struct FinishFile, struct GiveFile,
          // record/record_session.hpp
          struct LookUp, struct ShowReport, struct ChangeRecordFiles, struct WriteTables, struct ReadTable,
          struct ForgetTable, struct CheckStash, struct BackUp, struct Restore,
          // card/card_session.hpp
          struct ChangeCard, struct WriteCard, struct WriteAllCards,
          // table/table_session.hpp
          struct ChangeTable, struct SaveTable,
          // find/find_choice.hpp
          struct ChangeFind, struct StopFind, struct FindAgain>;

using StashAction =
    AnyOf<measure::Expected<void>,
          // shelf/stash_requests.hpp
          struct AddLot, struct ChangeLot, struct MoveFibre, struct WeighAgain, struct ScourLot,
          struct CorrectMovement, struct SetCurrency, struct CardIt, struct TakeBack, struct OffTheDrum,
          struct LogSkein, struct ChangeSkein, struct RemoveSkein, struct Allocate, struct Release,
          struct LogBattPhoto, struct ChangeBattPhoto, struct RemoveBattPhoto, struct TakeInRows,
          struct BackupTo, struct RestoreFrom>;

// `from`: who asks and reads the answer in the next frame, any number of its own; 0: nobody does, and a
// complaint goes to the messages.
struct StashRequest {
    StashAction action;
    std::uint64_t from = 0;
};

}  // namespace battwright::app
