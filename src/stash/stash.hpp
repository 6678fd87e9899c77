// The file that remembers: lots and their movements, batts, skeins, and what they teach.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"
#include "measure/replace.hpp"
#include "stash/batt_photo.hpp"
#include "stash/habit.hpp"
#include "stash/hands.hpp"
#include "stash/lookup.hpp"
#include "stash/lot.hpp"
#include "stash/making.hpp"
#include "stash/movement.hpp"
#include "stash/report.hpp"
#include "stash/shelf.hpp"
#include "yarn/calibration.hpp"

namespace battwright::stash {

template <class T>
using Expected = measure::Expected<T>;

// $XDG_DATA_HOME/battwright/stash.db, else that under ~/.local/share (XDG Base Directory Specification 0.8).
std::filesystem::path default_path();

struct OpenOptions {
    bool create = true;  // a file that is not there, and its folder, is made
    // Nothing is written, a file of an older version is not carried over. Works on a full disk and on media
    // that cannot be written.
    bool read_only = false;
    int patience_ms = 2000;                       // how long to wait for another program that is writing
    const fibre::Catalogue* catalogue = nullptr;  // outlives the stash; nullptr: the built-in one
};

struct Health {
    std::vector<std::string> problems;  // empty: all is well
    std::vector<std::string> remarks;   // what does no harm: a table of another's, a kind not known here
    std::int64_t lots = 0, movements = 0, batts = 0, skeins = 0;
};

// Is the file that is open still the one at its path? A sync tool, a file manager or another program may have
// deleted, moved or replaced it; then nothing is written any more, and it has to be opened again, after this
// one was closed. Until then backup() still has all that was in it.
enum class Standing { in_place, gone, replaced };

// One open file. Every call that writes is one transaction: all of it or none, on disk when it returns.
// Weights and lengths are kept as whole millionths (micrograms, micrometres): sums are exact in any order,
// and no scale and no ounce is finer. Movable; use from one thread at a time. Other processes may have the
// same file open.
class Stash {
  public:
    static Expected<Stash> open(const std::filesystem::path& path, const OpenOptions& how = {});
    Stash(Stash&&) noexcept;
    Stash& operator=(Stash&&) noexcept;
    ~Stash();
    const std::filesystem::path& path() const;
    // Looked up at each call; every call that writes looks too, and is a complaint when it is not in place.
    Standing standing() const;

    // Runs the work as one transaction: what it wrote stays only if it returns no complaint. May be nested.
    Expected<void> all_or_nothing(const std::function<Expected<void>()>& work);

    // Lots. `bought_grams` as it lies, dated `lot.got_on` (else today). A mark given in `lot` is kept when it
    // is free, else a complaint; an empty one is made. The answer has id and mark.
    Expected<Lot> add(const Lot& lot, double bought_grams, std::string_view note = {});
    // The words only, by id. The mark and the weight stay.
    Expected<void> change(const Lot& lot);
    Expected<Shelved> lot(std::string_view mark) const;
    Expected<std::vector<Movement>> movements(std::string_view mark) const;  // oldest first

    // What leaves or comes. More than is there is a complaint that says how much is.
    Expected<Movement> move(const Move& move);
    // The scale says so much now; the difference is written as a movement, none when there is none (id 0).
    Expected<Movement> weigh_again(std::string_view mark, double grams, std::string_view note = {},
                                   std::string_view date = {});
    // A raw lot comes out of the bath at so many grams, dry: no longer raw, and its yield 100.
    Expected<Movement> scour(std::string_view mark, double grams, std::string_view note = {},
                             std::string_view date = {});
    // A movement (bought, wasted, given or weighed) should have been `grams`, signed as it was. Can be done
    // again; what was carded is put right by take_back().
    Expected<Movement> correct(std::int64_t movement, double grams, std::string_view note = {},
                               std::string_view date = {});

    // All lots now. Read anew only when the file has changed, here or in another process.
    Expected<std::shared_ptr<const Shelf>> shelf() const;
    Expected<std::vector<std::shared_ptr<const Shelved>>> shelf(const Filter& filter,
                                                                Order order = Order::as_added) const;

    // Batts. Nothing is taken unless every line can be served.
    tl::expected<Batt, Refusal> card_it(const Carding& carding);
    // Puts the fibre back. Refused when it was done before or a skein was spun from it.
    Expected<void> take_back(std::int64_t batt, std::string_view note = {}, std::string_view date = {});
    // All batts of the carding on the scale; the last weighing counts.
    Expected<void> off_the_drum(std::int64_t batt, double grams, std::string_view note = {},
                                std::string_view date = {});
    Expected<Batt> batt(std::int64_t id) const;
    Expected<std::vector<Batt>> batts() const;  // oldest first, those taken back too

    // Skeins. The answer has its id.
    Expected<Skein> log(const Skein& skein);
    Expected<void> change(const Skein& skein);
    Expected<void> remove_skein(std::int64_t id);  // and its allocations
    Expected<Skein> skein(std::int64_t id) const;
    Expected<std::vector<Skein>> skeins() const;  // by date

    // Photos of batts and of samples. The answer has its id.
    Expected<BattPhoto> log(const BattPhoto& photo);
    Expected<void> change(const BattPhoto& photo);
    Expected<void> remove_photo(std::int64_t id);
    Expected<BattPhoto> photo(std::int64_t id) const;
    Expected<std::vector<BattPhoto>> photos() const;  // by date, those of batts taken back too

    // Projects: no more than the skein has left.
    Expected<Allocation> allocate(const Allocation& allocation);
    Expected<void> release(std::int64_t allocation);
    Expected<std::vector<Allocation>> allocations() const;
    Expected<double> metres_left(std::int64_t skein) const;

    // Learnt from the skeins by date (those with a foretold length, a measured one, and `counts`); a skein
    // too far off to be believed is passed over. `until` (ISO, inclusive; "": all) shows what was known then.
    Expected<yarn::Calibration> calibration(std::string_view until = {}) const;
    // Skeins that should be asked about, by date, each judged by what the earlier ones taught.
    Expected<std::vector<AskedSkein>> questions() const;
    Expected<CardingHabit> carding_habit(std::string_view until = {}) const;
    // Learnt from the photos of batts that were not taken back.
    Expected<HandsLearnt> hands(std::string_view until = {}) const;

    Expected<std::vector<KindLine>> by_kind() const;                       // heaviest first
    Expected<std::vector<AgeLine>> by_age(std::string_view on_day) const;  // ISO; youngest first
    Expected<std::vector<BattCost>> batt_costs() const;                    // by date, not those taken back
    Expected<std::vector<SkeinCost>> skein_costs() const;                  // by date
    Expected<Used> used_in(int year) const;
    Expected<std::vector<Suspect>> look_up(const Clue& clue, std::size_t most) const;  // likeliest first

    // The user's currency, for new costs; "" until it is set.
    Expected<std::string> currency() const;
    Expected<void> set_currency(std::string_view currency);

    // A copy of the whole, consistent while others write, put there at once or not at all. A stash that is
    // there is replaced only when `replace` says so, a file of another kind never.
    Expected<void> backup(const std::filesystem::path& to,
                          measure::Replace replace = measure::Replace::no) const;
    // The same under the first of `first`, FIRST-2, FIRST-3 and so on that is free; gives that name. When the
    // last one there holds the same bytes, it stands for the new one.
    Expected<std::filesystem::path> keep_copy(const std::filesystem::path& first) const;
    // Everything in this file becomes what is in the backup, as restore() below; other programs that have the
    // file open see it too.
    Expected<std::filesystem::path> restore(const std::filesystem::path& from);
    // SQLite's own checks, foreign keys, our sums against the movements, the schema against ours, and every
    // row against what could have been entered.
    Expected<Health> integrity() const;

    struct Core;  // inside this room

  private:
    explicit Stash(std::unique_ptr<Core> core);
    std::unique_ptr<Core> core_;
};

// The same for a file that may not open any more. The backup is checked first, and carried over from an older
// version in a copy; it stays as it is. What was at `path` goes into `path`.before, or .before-2 and so on
// when there is one: the answer names it, and is empty when there was nothing. From the copy into it until
// the backup is in place nobody else can write: whatever another program was told is written is in one of the
// two.
Expected<std::filesystem::path> restore(const std::filesystem::path& from, const std::filesystem::path& path,
                                        const OpenOptions& how = {});

}  // namespace battwright::stash
