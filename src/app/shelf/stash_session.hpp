// The stash while the window is open. No display: the file behind it, a picture of what is in it, and the
// actions the views ask for.
#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "app/shelf/stash_requests.hpp"
#include "fibre/catalogue.hpp"
#include "measure/own_units.hpp"
#include "stash/stash.hpp"

namespace battwright::app {

using ShelvedPtr = std::shared_ptr<const stash::Shelved>;

class StashSession {
  public:
    // With no path there is no stash: nothing is on the shelf, and every action is refused.
    StashSession() = default;
    // The file is opened when it is first looked at, and made by the first action; `catalogue` outlives the
    // session.
    StashSession(std::filesystem::path path, const fibre::Catalogue* catalogue);

    const std::filesystem::path& path() const { return path_; }

    // That complaints about actions are told in.
    void speak_in(const measure::OwnUnits& units) { units_ = units; }

    // Reads anew what has changed in the file, here or in another process; cheap when nothing has. A stash
    // that cannot be opened or read is one complaint, after which the session keeps what it had and tries
    // again with the next action. So is one whose file was deleted, moved away or replaced while it was open:
    // all that was in it is copied beside it first (`path`.kept, .kept-2, ...). A new file is then opened
    // with the next look; while there is none, what was read stays to be seen and nothing is written.
    [[nodiscard]] std::optional<measure::Complaint> refresh();
    // True when refresh() would find something new: for a window that rests.
    bool has_news();
    // Counts up whenever the file was found changed.
    unsigned long version() const { return version_; }

    // All lots, the empty ones too; never null.
    const stash::Shelf& shelf() const { return *shelf_; }
    const std::shared_ptr<const stash::Shelf>& shelf_kept() const { return shelf_; }
    // A lot by its mark, or nullptr.
    const stash::Shelved* find(std::string_view mark) const {
        return mark.empty() ? nullptr : shelf_->find(mark);
    }

    // What the shelf shows: lots that pass the choice, those under the threshold for themselves. Filtered
    // only when the choice or the file changes.
    void choose(ShelfChoice choice);
    const ShelfChoice& choice() const { return choice_; }
    const std::vector<ShelvedPtr>& whole() const { return whole_; }
    const std::vector<ShelvedPtr>& scraps() const { return scraps_; }
    double shown_grams() const { return shown_grams_; }
    // How far the colour of a lot on show is from the one looked for, CIEDE2000; none when none is.
    std::optional<double> away(const stash::Shelved& shelved) const;

    // The movements of one lot, kept up to date while it is watched; "" watches none.
    void watch(const std::string& mark);
    const std::vector<stash::Movement>& movements() const { return movements_; }
    // The same, once, of any lot; empty when they cannot be read.
    std::vector<stash::Movement> movements_of(const std::string& mark);

    // The spinner's own habits; the priors while there is no stash.
    const yarn::Calibration& calibration() const { return calibration_; }
    const stash::CardingHabit& carding_habit() const { return habit_; }
    const stash::HandsLearnt& hands() const { return hands_; }  // from photos of batts
    const std::string& currency() const { return currency_; }

    // Does one action now; its answer is kept beside the others of this frame. The complaint of an action
    // nobody waits for is returned.
    std::optional<measure::Complaint> perform(const StashRequest& request);
    // Once a frame, after the views: forgets the answers of the frame before and does what was asked in this
    // one. The complaints of actions nobody waits for are returned.
    std::vector<measure::Complaint> carry_out(const std::vector<StashRequest>& requests);
    // The answer to whoever asked in the frame before; nullptr when she did not.
    const StashAnswer* answer_to(std::uint64_t from) const;

    // Looks something up in the file: what `query(const stash::Stash&)` gives, an Expected. While there is no
    // file, a complaint. Not const, so that no view can ask; what a view needs is read before it draws.
    template <class Query>
    auto look_up(Query&& query) -> std::invoke_result_t<Query, const stash::Stash&> {
        if (!stash_) return tl::make_unexpected(no_file());
        return std::forward<Query>(query)(std::as_const(*stash_));
    }
    // The file is there and open.
    bool is_open() const { return stash_.has_value(); }

  private:
    enum class Make { no, yes };
    measure::Expected<void> open(Make make);
    measure::Expected<void> read();
    std::optional<measure::Complaint> look_after_file();
    void let_go();
    measure::Expected<void> restore_anew(const std::filesystem::path& from);
    StashAnswer answer(const StashRequest& request);
    measure::Complaint no_file() const;
    void filter();

    std::filesystem::path path_;
    const fibre::Catalogue* catalogue_ = nullptr;
    std::optional<stash::Stash> stash_;
    bool broken_ = false;                                             // has been complained of
    stash::Standing standing_ = stash::Standing::in_place;            // of the open file, as told
    std::optional<measure::Expected<std::filesystem::path>> copied_;  // since it is not in place
    unsigned long version_ = 0;
    std::shared_ptr<const stash::Shelf> shelf_ = std::make_shared<const stash::Shelf>();
    ShelfChoice choice_;
    std::vector<ShelvedPtr> whole_, scraps_;
    double shown_grams_ = 0.0;
    std::map<const stash::Shelved*, double> away_;
    std::string watched_;
    std::vector<stash::Movement> movements_;
    yarn::Calibration calibration_;
    stash::CardingHabit habit_;
    stash::HandsLearnt hands_;
    measure::OwnUnits units_;
    std::string currency_;
    std::vector<StashAnswer> answers_;
};

}  // namespace battwright::app
