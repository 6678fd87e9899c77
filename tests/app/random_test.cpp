// Hands that press anything, with all the worker threads at work, and other programs at the same files. Each
// run prints its seed; BATTWRIGHT_SEED and BATTWRIGHT_STEPS repeat or lengthen it.
#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <random>
#include <set>

#include "app/bench/edits.hpp"
#include "app/photo_loader.hpp"
#include "app/state.hpp"
#include "colour/spaces.hpp"
#include "folder.hpp"
#include "recipe/file.hpp"
#include "strip/picture.hpp"

using namespace battwright;
namespace fs = std::filesystem;

namespace {

int from_environment(const char* name, int otherwise) {
    const char* given = std::getenv(name);
    return given != nullptr ? std::atoi(given) : otherwise;
}

std::string whole_text(const fs::path& path) {
    std::ifstream file(path);
    return {std::istreambuf_iterator<char>(file), {}};
}

class Hands {
  public:
    explicit Hands(unsigned seed) : random_(seed) {
        state_.catalogue = &fibre::Catalogue::builtin();
        state_.recovery = std::make_unique<app::Recovery>(folder_.path / "state");
        state_.stash = app::StashSession(stash_path_, state_.catalogue);
        state_.worker = std::make_unique<app::CardingWorker>();
        const strip::Image image{8, 8, std::vector<std::uint8_t>(8 * 8 * 3, 77)};
        REQUIRE(strip::save_png(image, (folder_.path / "kelp.png").string()));
        app::apply(state_, app::StartExample{});
        app::apply(state_, app::SaveAs{recipe_path_});
        app::follow(state_);
        state_.find.open(state_.document.sheet(), state_.outcome(), true, [] {});
        state_.card.open(folder_.path, [] {});
    }

    void press() {
        switch (below(20)) {
            case 0:
            case 1:
            case 2:
                return edit();
            case 3:
                return act(app::Undo{});
            case 4:
                return act(app::Redo{});
            case 5:
                return look();
            case 6:
            case 7:
                return act(app::Save{});
            case 8:
                return answer();
            case 9:
                return act(app::Leave{});
            case 10:
            case 11:
                return put_on_shelf();
            case 12:
                return others_save();
            case 13:
                return others_move_stash();
            case 14:
                return photos_.load(folder_.path / (below(2) == 0 ? "kelp.png" : "none.png"), 1);
            case 15:
                return find();
            case 16:
                return act(app::KeepVariant{});
            case 17:
                return act(app::TakeVariant{below(4)});
            case 18:
                return state_.card.follow(app::card_subject(state_));
            default:
                if (below(3) == 0) return act(app::StartExample{});
                return act(app::OpenRecipe{recipe_path_});
        }
    }

    // What must hold after any press.
    void check() {
        // Nobody's file was saved over unasked.
        if (!theirs_.empty()) CHECK(whole_text(recipe_path_).find(theirs_) != std::string::npos);
        // An undo and a redo lead back to where they began.
        if (!state_.document.history().can_undo()) return;
        const app::Sheet before = state_.document.sheet();
        act(app::Undo{});
        act(app::Redo{});
        CHECK(before == state_.document.sheet());
    }

    // Every lot that was said to be on the shelf is in the stash, or in a copy of one that was taken away.
    void check_lots() {
        std::set<std::string> found;
        for (const auto& entry : fs::directory_iterator(folder_.path)) {
            const std::string name = entry.path().filename().string();
            const bool helper = name.ends_with("-wal") || name.ends_with("-shm");
            if (!name.starts_with("stash.db") || helper) continue;
            stash::OpenOptions how;
            how.create = false;
            const auto file = stash::Stash::open(entry.path(), how);
            REQUIRE(file);
            for (const auto& lot : file->shelf().value()->lots) found.insert(lot->lot.name);
        }
        for (const auto& name : acknowledged_) {
            CAPTURE(name);
            CHECK(found.contains(name));
        }
    }
    std::size_t lots() const { return acknowledged_.size(); }

  private:
    std::size_t below(std::size_t most) { return random_() % most; }

    void act(const app::Action& action) {
        const bool unsaved = state_.document.unsaved(),
                   asked = app::waits(state_.unsaved_question) || app::waits(state_.after_save);
        const app::Effects effects = app::apply(state_, action);
        // Unsaved work goes off the bench after a question only.
        if (effects.new_document) CHECK((!unsaved || asked));
        if (effects.new_document) theirs_.clear();  // it was read, or is no longer the file of what is here
        state_.leave = false;
        frame();
    }
    void frame() {
        app::follow(state_);
        state_.find.follow(state_.document.sheet(), state_.stash, *state_.catalogue, state_.settings);
        photos_.take();
        state_.messages.clear();
    }
    void edit() {
        app::Sheet sheet = state_.document.sheet();
        const std::size_t components = sheet.recipe.components.size();
        if (components == 0 || below(6) == 0) {
            const auto& kinds = state_.catalogue->kinds();
            sheet = app::add(std::move(sheet),
                             *std::next(kinds.begin(), static_cast<std::ptrdiff_t>(below(kinds.size()))))
                        .sheet;
        } else if (components > 5) {
            sheet = app::remove(std::move(sheet), below(components)).sheet;
        } else if (below(2) == 0) {
            sheet =
                app::set_percent(std::move(sheet), below(components), static_cast<double>(below(100))).sheet;
        } else {
            sheet.recipe.notes = "note " + std::to_string(++notes_);
        }
        act(app::Edit{std::move(sheet), "edit", below(3)});
    }
    void look() {
        app::Look look = state_.look;
        look.view = static_cast<app::StripView>(below(9));
        look.light = static_cast<colour::Light>(below(3));
        look.distance = static_cast<int>(below(3));
        act(app::LookAt{look});
    }
    void answer() {
        if (state_.theirs_question) {
            const auto choice = static_cast<app::AnswerTheirs::Choice>(below(4));
            if (choice == app::AnswerTheirs::Choice::keep_mine ||
                choice == app::AnswerTheirs::Choice::take_theirs)
                theirs_.clear();
            return act(app::AnswerTheirs{choice});
        }
        act(app::AnswerUnsaved{static_cast<app::AnswerUnsaved::Choice>(below(3))});
    }
    void put_on_shelf() {
        stash::Lot lot;
        lot.name = "Lot " + std::to_string(++tried_);
        lot.content = {{"corriedale", 100.0}};
        act(app::AskStash{{{app::AddLot{lot, 30.0, ""}, 5}}});
        const auto* answer = state_.stash.answer_to(5);
        REQUIRE(answer != nullptr);
        if (!answer->complaint) acknowledged_.push_back(lot.name);
    }
    // An editor saves the recipe. It holds to the end unless somebody says "keep mine", or it was taken.
    void others_save() {
        theirs_ = "editor " + std::to_string(++notes_);
        std::ofstream(recipe_path_) << "format = 1\nname = \"Ebb\"\ntotal = \"40 g\"\nnotes = \"" << theirs_
                                    << "\"\n[[component]]\nfibre = \"polwarth\"\nparts = 1\n";
        act(app::Save{});
        CHECK((state_.theirs_question || state_.comment_question || !state_.document.path()));
        CHECK(whole_text(recipe_path_).find(theirs_) != std::string::npos);
        if (!state_.theirs_question) return theirs_.clear();
        if (below(2) == 0) {
            act(app::AnswerTheirs{app::AnswerTheirs::Choice::take_theirs});
            theirs_.clear();  // from here on it is ours to change
        }
    }
    void others_move_stash() {
        if (!fs::exists(stash_path_)) return;
        if (below(2) == 0) {
            fs::remove(stash_path_);
            frame();
            CHECK(fs::exists(folder_.path / "stash.db.kept"));
            // The last copy made.
            int n = 1;
            const auto copy = [this](int k) {
                return folder_.path / ("stash.db.kept" + (k == 1 ? "" : "-" + std::to_string(k)));
            };
            while (fs::exists(copy(n + 1))) ++n;
            act(app::AskStash{{{app::RestoreFrom{copy(n)}, 5}}});
        } else {
            const fs::path other = folder_.path / "other.db";
            CHECK(stash::Stash::open(other));
            fs::rename(other, stash_path_);
            frame();
        }
    }
    void find() {
        app::FindChoice choice = state_.find.choice;
        choice.from = static_cast<app::FindFrom>(below(2));
        choice.steps = 2 + static_cast<int>(below(4));
        choice.batts = 1 + static_cast<int>(below(2));
        act(app::ChangeFind{choice});
    }

    testing::Folder folder_{"random"};
    fs::path stash_path_ = folder_.path / "stash.db", recipe_path_ = folder_.path / "ebb.toml";
    std::mt19937 random_;
    app::State state_;
    app::PhotoLoader photos_;
    std::string theirs_;  // in the recipe's file until somebody agrees to another
    std::vector<std::string> acknowledged_;
    int notes_ = 0, tried_ = 0;
};

}  // namespace

TEST_CASE("random presses among threads and other programs: nobody's work is lost") {
    const auto first = static_cast<unsigned>(from_environment("BATTWRIGHT_SEED", 1));
    const int steps = from_environment("BATTWRIGHT_STEPS", 120);
    for (unsigned seed = first; seed < first + 3; ++seed) {
        CAPTURE(seed);
        Hands hands(seed);
        for (int step = 0; step < steps; ++step) {
            CAPTURE(step);
            hands.press();
            hands.check();
        }
        hands.check_lots();
        MESSAGE("seed ", seed, ": ", steps, " presses, ", hands.lots(), " lots put on the shelf");
    }
}
