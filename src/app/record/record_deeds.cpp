#include "app/record/record_deeds.hpp"

#include <utility>

#include "stash/csv.hpp"

namespace battwright::app {
namespace {

using measure::Expected;

template <class T>
Expected<void> without_value(const Expected<T>& given) {
    if (!given) return tl::make_unexpected(given.error());
    return {};
}
template <class T>
Expected<void> with_id(const Expected<T>& given, StashAnswer& answer) {
    if (given) answer.id = given->id;
    return without_value(given);
}

// One overload a deed.
struct Doing {
    stash::Stash& stash;
    StashAnswer& answer;

    Expected<void> operator()(const CardIt& deed) const {
        auto batt = stash.card_it(deed.carding);
        if (!batt) {
            answer.short_lines = std::move(batt.error().short_lines);
            return tl::make_unexpected(std::move(batt.error().complaint));
        }
        answer.id = batt->id;
        return {};
    }
    Expected<void> operator()(const TakeBack& deed) const { return stash.take_back(deed.batt, deed.note); }
    Expected<void> operator()(const OffTheDrum& deed) const {
        return stash.off_the_drum(deed.batt, deed.grams);
    }
    Expected<void> operator()(const LogSkein& deed) const { return with_id(stash.log(deed.skein), answer); }
    Expected<void> operator()(const ChangeSkein& deed) const { return stash.change(deed.skein); }
    Expected<void> operator()(const RemoveSkein& deed) const { return stash.remove_skein(deed.skein); }
    Expected<void> operator()(const Allocate& deed) const {
        return with_id(stash.allocate(deed.allocation), answer);
    }
    Expected<void> operator()(const Release& deed) const { return stash.release(deed.allocation); }
    Expected<void> operator()(const TakeInRows& deed) const {
        return without_value(stash::take_in(stash, deed.rows));
    }
    Expected<void> operator()(const BackupTo& deed) const {
        return stash.backup(deed.path, measure::Replace::yes);
    }
    Expected<void> operator()(const RestoreFrom& deed) const {
        return without_value(stash.restore(deed.path));
    }
};

}  // namespace

Expected<void> do_record_deed(stash::Stash& stash, const RecordDeed& deed, StashAnswer& answer) {
    return std::visit(Doing{stash, answer}, deed);
}

const RestoreFrom* restore_in(const StashDeed& deed) {
    const auto* of_record = std::get_if<RecordDeed>(&deed);
    return of_record == nullptr ? nullptr : std::get_if<RestoreFrom>(of_record);
}

}  // namespace battwright::app
