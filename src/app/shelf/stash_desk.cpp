#include "app/shelf/stash_desk.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <utility>

#include "app/record/record_deeds.hpp"

namespace battwright::app {
namespace {

template <class... Fs>
struct Overloaded : Fs... {
    using Fs::operator()...;
};
template <class... Fs>
Overloaded(Fs...) -> Overloaded<Fs...>;

bool same(const yarn::Belief& a, const yarn::Belief& b) {
    return a.mean == b.mean && a.skeins == b.skeins && a.freedom == b.freedom && a.squares == b.squares &&
           a.count == b.count;
}

bool there(const std::filesystem::path& path) {
    std::error_code error;
    return std::filesystem::exists(path, error);
}

// What a call gave, unless it failed.
template <class T>
measure::Expected<void> take(measure::Expected<T> given, T& into) {
    if (!given) return tl::make_unexpected(std::move(given.error()));
    into = std::move(*given);
    return {};
}
template <class T>
measure::Expected<void> without_value(const measure::Expected<T>& given) {
    if (!given) return tl::make_unexpected(given.error());
    return {};
}

}  // namespace

bool same(const yarn::Calibration& first, const yarn::Calibration& second) {
    using enum recipe::Preparation;
    return std::ranges::all_of(std::array{woollen, semi_woollen, worsted}, [&](recipe::Preparation way) {
        return same(first.of(way), second.of(way)) && first.carded_share(way) == second.carded_share(way);
    });
}

StashDesk::StashDesk(std::filesystem::path path, const fibre::Catalogue* catalogue)
    : path_(std::move(path)), catalogue_(catalogue) {}

measure::Expected<void> StashDesk::open(Make make) {
    if (stash_) return {};
    if (path_.empty())
        return tl::make_unexpected(
            measure::Complaint{"there is no stash here", "start the window with a file for it"});
    stash::How how;
    how.create = make == Make::yes;
    how.catalogue = catalogue_;
    auto opened = stash::Stash::open(path_, how);
    if (!opened) return tl::make_unexpected(std::move(opened.error()));
    stash_.emplace(std::move(*opened));
    return {};
}

measure::Expected<void> StashDesk::read() {
    auto shelf = stash_->shelf();
    if (!shelf) return tl::make_unexpected(std::move(shelf.error()));
    if (*shelf == shelf_) return {};
    yarn::Calibration calibration;
    if (auto taken = take(stash_->calibration(), calibration); !taken) return taken;
    if (auto taken = take(stash_->carding_habit(), habit_); !taken) return taken;
    if (auto taken = take(stash_->currency(), currency_); !taken) return taken;
    shelf_ = std::move(*shelf);
    ++version_;
    learn(calibration);
    movements_ = movements_of(watched_);
    filter();
    return {};
}

void StashDesk::learn(const yarn::Calibration& calibration) {
    if (same(calibration, calibration_)) return;
    calibration_ = calibration;
    ++calibration_version_;
}

std::optional<measure::Complaint> StashDesk::refresh() {
    if (broken_ || path_.empty() || (!stash_ && !there(path_))) return std::nullopt;
    auto done = open(Make::no);
    if (done) done = read();
    if (done) return std::nullopt;
    broken_ = true;
    return done.error();
}

bool StashDesk::has_news() {
    if (broken_ || path_.empty()) return false;
    if (!stash_) return there(path_);
    const auto shelf = stash_->shelf();
    return !shelf || *shelf != shelf_;
}

void StashDesk::choose(ShelfChoice choice) {
    choice_ = std::move(choice);
    filter();
}

void StashDesk::filter() {
    whole_ = stash::filtered(*shelf_, choice_.filter, choice_.order);
    scraps_.clear();
    shown_grams_ = 0.0;
    for (const auto& lot : whole_) shown_grams_ += lot->grams;
    const auto is_scrap = [this](const ShelvedPtr& lot) {
        return stash::is_scrap(*lot, choice_.filter.scrap_grams);
    };
    const auto first_scrap = std::stable_partition(whole_.begin(), whole_.end(), std::not_fn(is_scrap));
    scraps_.assign(first_scrap, whole_.end());
    whole_.erase(first_scrap, whole_.end());
}

void StashDesk::watch(const std::string& mark) {
    if (mark == watched_) return;
    watched_ = mark;
    movements_ = movements_of(mark);
}

std::vector<stash::Movement> StashDesk::movements_of(const std::string& mark) {
    if (!stash_ || mark.empty()) return {};
    return stash_->movements(mark).value_or(std::vector<stash::Movement>{});
}

measure::Expected<void> StashDesk::do_deed(const StashDeed& deed, StashAnswer& answer) {
    return std::visit(
        Overloaded{
            [&](const AddLot& add) {
                auto lot = stash_->add(add.lot, add.grams, add.note);
                if (lot) answer.id = lot->id, answer.mark = lot->mark;
                return without_value(lot);
            },
            [&](const ChangeLot& change) { return stash_->change(change.lot); },
            [&](const MoveFibre& move) { return without_value(stash_->move(move.move)); },
            [&](const WeighAgain& weigh) {
                return without_value(stash_->weigh_again(weigh.mark, weigh.grams, weigh.note));
            },
            [&](const ScourLot& scour) {
                return without_value(stash_->scour(scour.mark, scour.grams, scour.note));
            },
            [&](const CorrectMovement& correct) {
                return without_value(stash_->correct(correct.movement, correct.grams, correct.note));
            },
            [&](const SetCurrency& set) { return stash_->set_currency(set.currency); },
            [&](const RecordDeed& of_record) { return do_record_deed(*stash_, of_record, answer); },
        },
        deed);
}

StashAnswer StashDesk::answer(const StashRequest& request) {
    StashAnswer answer;
    answer.from = request.from;
    auto done = open(Make::yes);
    if (done) {
        done = do_deed(request.deed, answer);
    } else if (const RestoreFrom* backup = restore_in(request.deed); backup != nullptr && !path_.empty()) {
        // The one deed that mends a file which does not open.
        stash::How how;
        how.catalogue = catalogue_;
        done = without_value(stash::restore(backup->path, path_, how));
        if (done) done = open(Make::no);
    }
    if (done) done = read();
    if (done)
        broken_ = false;
    else
        answer.complaint = done.error();
    return answer;
}

std::vector<measure::Complaint> StashDesk::carry_out(const std::vector<StashRequest>& requests) {
    answers_.clear();
    std::vector<measure::Complaint> complaints;
    for (const auto& request : requests) {
        auto given = answer(request);
        if (given.complaint && request.from == 0) complaints.push_back(*given.complaint);
        answers_.push_back(std::move(given));
    }
    return complaints;
}

const StashAnswer* StashDesk::answer_to(std::uint64_t from) const {
    const auto found = std::find_if(answers_.begin(), answers_.end(),
                                    [from](const StashAnswer& answer) { return answer.from == from; });
    return from == 0 || found == answers_.end() ? nullptr : &*found;
}

}  // namespace battwright::app
