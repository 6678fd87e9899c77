#include "app/shelf/stash_requests.hpp"

#include <utility>

#include "app/expected.hpp"
#include "stash/csv.hpp"
#include "stash/stash.hpp"

namespace battwright::app {
namespace {

using measure::Expected;

template <class T>
Expected<void> with_id(const Expected<T>& given, StashAnswer& answer) {
    if (given) answer.id = given->id;
    return without_value(given);
}

// One overload an action.
struct StashApplier final : StashAction::Visitor {
    stash::Stash& stash;
    StashAnswer& answer;

    StashApplier(stash::Stash& s, StashAnswer& a) : stash(s), answer(a) {}

    Expected<void> operator()(const AddLot& add) const override {
        auto lot = stash.add(add.lot, add.grams, add.note);
        if (lot) answer.mark = lot->mark;
        return with_id(lot, answer);
    }
    Expected<void> operator()(const ChangeLot& change) const override { return stash.change(change.lot); }
    Expected<void> operator()(const MoveFibre& move) const override {
        return without_value(stash.move(move.move));
    }
    Expected<void> operator()(const WeighAgain& weigh) const override {
        return without_value(stash.weigh_again(weigh.mark, weigh.grams, weigh.note));
    }
    Expected<void> operator()(const ScourLot& scour) const override {
        return without_value(stash.scour(scour.mark, scour.grams, scour.note));
    }
    Expected<void> operator()(const CorrectMovement& correct) const override {
        return without_value(stash.correct(correct.movement, correct.grams, correct.note));
    }
    Expected<void> operator()(const SetCurrency& set) const override {
        return stash.set_currency(set.currency);
    }
    Expected<void> operator()(const CardIt& card) const override {
        auto batt = stash.card_it(card.carding);
        if (!batt) {
            answer.short_lines = std::move(batt.error().short_lines);
            return tl::make_unexpected(std::move(batt.error().complaint));
        }
        answer.id = batt->id;
        return {};
    }
    Expected<void> operator()(const TakeBack& take) const override {
        return stash.take_back(take.batt, take.note);
    }
    Expected<void> operator()(const OffTheDrum& weighed) const override {
        return stash.off_the_drum(weighed.batt, weighed.grams);
    }
    Expected<void> operator()(const LogSkein& log) const override {
        return with_id(stash.log(log.skein), answer);
    }
    Expected<void> operator()(const ChangeSkein& change) const override { return stash.change(change.skein); }
    Expected<void> operator()(const RemoveSkein& remove) const override {
        return stash.remove_skein(remove.skein);
    }
    Expected<void> operator()(const Allocate& promise) const override {
        return with_id(stash.allocate(promise.allocation), answer);
    }
    Expected<void> operator()(const Release& release) const override {
        return stash.release(release.allocation);
    }
    Expected<void> operator()(const LogBattPhoto& log) const override {
        return with_id(stash.log(log.photo), answer);
    }
    Expected<void> operator()(const ChangeBattPhoto& change) const override {
        return stash.change(change.photo);
    }
    Expected<void> operator()(const RemoveBattPhoto& remove) const override {
        return stash.remove_photo(remove.photo);
    }
    Expected<void> operator()(const TakeInRows& table) const override {
        return without_value(stash::take_in(stash, table.rows));
    }
    Expected<void> operator()(const BackupTo& backup) const override {
        return stash.backup(backup.path, measure::Replace::yes);
    }
    Expected<void> operator()(const RestoreFrom& backup) const override {
        return without_value(stash.restore(backup.path));
    }
};

}  // namespace

Expected<void> perform(stash::Stash& stash, const StashAction& action, StashAnswer& answer) {
    return action.visit(StashApplier(stash, answer));
}

}  // namespace battwright::app
