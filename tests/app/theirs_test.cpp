// One recipe in two windows, or in a window and an editor: nobody's work is saved over unasked.
#include <doctest/doctest.h>

#include <fstream>
#include <iterator>

#include "app/state.hpp"
#include "folder.hpp"
#include "recipe/file.hpp"

using namespace battwright;
namespace fs = std::filesystem;
using Theirs = app::AnswerTheirs::Choice;

namespace {

constexpr const char* ebb_text =
    "format = 1\nname = \"Ebb\"\ntotal = \"40 g\"\n[[component]]\nfibre = \"corriedale\"\nparts = 1\n";

std::string recipe_bytes(const fs::path& path) {
    std::ifstream file(path);
    return {std::istreambuf_iterator<char>(file), {}};
}

app::State window_on(const fs::path& path) {
    app::State state;
    state.catalogue = &fibre::Catalogue::builtin();
    state.recovery = std::make_unique<app::Recovery>(fs::path());
    app::apply(state, app::OpenRecipe{path});
    return state;
}

void write_note(app::State& state, const std::string& notes) {
    app::Sheet sheet = state.document.sheet();
    sheet.recipe.notes = notes;
    app::apply(state, app::Edit{std::move(sheet), "write a note"});
}

struct TwoWindows {
    testing::Folder folder{"theirs"};
    fs::path path = folder.path / "ebb.toml";
    app::State mine, theirs;

    TwoWindows() {
        std::ofstream(path) << ebb_text;
        mine = window_on(path);
        theirs = window_on(path);
        write_note(theirs, "theirs, at high water");
        write_note(mine, "mine, at low water");
        app::apply(theirs, app::Save{});
    }
    // In the file afterwards.
    bool holds(const std::string& words) const { return recipe_bytes(path).find(words) != std::string::npos; }
};

}  // namespace

TEST_CASE("the second window to save is asked first, and staying leaves both works as they are") {
    TwoWindows two;
    CHECK_FALSE(two.theirs.theirs_question);
    REQUIRE(two.holds("theirs"));
    app::apply(two.mine, app::Save{});
    REQUIRE(two.mine.theirs_question);
    CHECK(two.holds("theirs"));
    CHECK_FALSE(two.holds("mine"));
    app::apply(two.mine, app::AnswerTheirs{Theirs::stay});
    CHECK_FALSE(two.mine.theirs_question);
    CHECK(two.holds("theirs"));
    CHECK(two.mine.document.unsaved());
    CHECK(two.mine.document.sheet().recipe.notes == "mine, at low water");
    app::apply(two.mine, app::Save{});
    CHECK(two.mine.theirs_question);  // asked again, not taken for answered
}

TEST_CASE("keep mine: the file holds mine, and the other window is the one that is asked next") {
    TwoWindows two;
    app::apply(two.mine, app::Save{});
    app::apply(two.mine, app::AnswerTheirs{Theirs::keep_mine});
    CHECK(two.holds("mine"));
    CHECK_FALSE(two.mine.document.unsaved());
    write_note(two.mine, "mine, once more");
    app::apply(two.mine, app::Save{});
    CHECK_FALSE(two.mine.theirs_question);
    CHECK(two.holds("once more"));
    write_note(two.theirs, "theirs, late");
    app::apply(two.theirs, app::Save{});
    CHECK(two.theirs.theirs_question);
}

TEST_CASE("a second foreign save while the question stands: keep mine is asked about once more") {
    TwoWindows two;
    app::apply(two.mine, app::Save{});
    REQUIRE(two.mine.theirs_question);
    write_note(two.theirs, "theirs, on second thoughts");
    app::apply(two.theirs, app::Save{});
    app::apply(two.mine, app::AnswerTheirs{Theirs::keep_mine});
    REQUIRE(two.mine.theirs_question);
    CHECK(two.holds("on second thoughts"));
    CHECK(two.mine.document.unsaved());
    // Nobody came in between this time.
    app::apply(two.mine, app::AnswerTheirs{Theirs::keep_mine});
    CHECK_FALSE(two.mine.theirs_question);
    CHECK(two.holds("mine"));
    CHECK_FALSE(two.mine.document.unsaved());
}

TEST_CASE("on the way out, keep mine over a second foreign save does not close the window") {
    TwoWindows two;
    app::apply(two.mine, app::Leave{});
    app::apply(two.mine, app::AnswerUnsaved{app::AnswerUnsaved::Choice::save});
    REQUIRE(two.mine.theirs_question);
    std::ofstream(two.path) << ebb_text << "# an editor's\n";
    app::apply(two.mine, app::AnswerTheirs{Theirs::keep_mine});
    CHECK(two.mine.theirs_question);
    CHECK_FALSE(two.mine.leave);
    CHECK(two.holds("an editor's"));
    app::apply(two.mine, app::AnswerTheirs{Theirs::keep_mine});
    CHECK(two.mine.leave);
    CHECK(two.holds("mine"));
}

TEST_CASE("take theirs: it is on the bench and saved, and one undo brings mine back") {
    TwoWindows two;
    app::apply(two.mine, app::Save{});
    app::apply(two.mine, app::AnswerTheirs{Theirs::take_theirs});
    CHECK(two.mine.document.sheet().recipe.notes == "theirs, at high water");
    CHECK_FALSE(two.mine.document.unsaved());
    app::apply(two.mine, app::Undo{});
    CHECK(two.mine.document.sheet().recipe.notes == "mine, at low water");
    CHECK(two.mine.document.unsaved());
    app::apply(two.mine, app::Save{});
    CHECK_FALSE(two.mine.theirs_question);  // it was seen
    CHECK(two.holds("mine"));
}

TEST_CASE("under another name: both files are there, and what was to come after the save comes") {
    TwoWindows two;
    app::apply(two.mine, app::Leave{});
    app::apply(two.mine, app::AnswerUnsaved{app::AnswerUnsaved::Choice::save});
    REQUIRE(two.mine.theirs_question);
    CHECK_FALSE(two.mine.leave);
    CHECK(app::apply(two.mine, app::AnswerTheirs{Theirs::elsewhere}).ask_for_file);
    app::apply(two.mine, app::SaveAs{two.folder.path / "mine.toml"});
    CHECK(two.mine.leave);
    CHECK(two.holds("theirs"));
    CHECK(recipe_bytes(two.folder.path / "mine.toml").find("mine") != std::string::npos);
}

TEST_CASE("taking theirs on the way out does not close the window over mine") {
    TwoWindows two;
    app::apply(two.mine, app::Leave{});
    app::apply(two.mine, app::AnswerUnsaved{app::AnswerUnsaved::Choice::save});
    app::apply(two.mine, app::AnswerTheirs{Theirs::take_theirs});
    CHECK_FALSE(two.mine.leave);
    CHECK(two.mine.document.history().can_undo());
}

TEST_CASE("the panel of files asks as well, by whatever name it is the same file") {
    TwoWindows two;
    fs::create_symlink(two.path, two.folder.path / "link.toml");
    app::apply(two.mine, app::SaveAs{two.folder.path / "link.toml"});
    CHECK(two.mine.theirs_question);
    CHECK(two.holds("theirs"));
}

TEST_CASE("the same bytes laid down anew and a file that is gone are nothing to ask about") {
    TwoWindows two;
    write_note(two.theirs, "theirs, again");
    const std::string bytes = recipe_bytes(two.path);
    fs::remove(two.path);
    std::ofstream(two.path) << bytes;  // as a sync tool does
    app::apply(two.theirs, app::Save{});
    CHECK_FALSE(two.theirs.theirs_question);
    fs::remove(two.path);
    app::apply(two.mine, app::Save{});
    CHECK_FALSE(two.mine.theirs_question);
    CHECK(two.holds("mine"));
}

TEST_CASE("an editor that breaks the file: theirs cannot be taken, and mine stays on the bench") {
    TwoWindows two;
    std::ofstream(two.path) << "format = ";
    app::apply(two.mine, app::Save{});
    REQUIRE(two.mine.theirs_question);
    app::apply(two.mine, app::AnswerTheirs{Theirs::take_theirs});
    CHECK(two.mine.messages.size() == 1);
    CHECK(two.mine.document.sheet().recipe.notes == "mine, at low water");
    CHECK(two.mine.document.unsaved());
    CHECK(recipe_bytes(two.path) == "format = ");
}

TEST_CASE("work brought back after a crash asks too when the file was changed since, and only then") {
    for (const bool changed : {false, true}) {
        CAPTURE(changed);
        const testing::Folder folder("theirs-crash");
        const fs::path path = folder.path / "ebb.toml", copies = folder.path / "state";
        std::ofstream(path) << ebb_text;
        {
            auto crashed = window_on(path);
            crashed.recovery = std::make_unique<app::Recovery>(copies);
            write_note(crashed, "before the crash");
            app::keep_copy(crashed);
        }
        if (changed) std::ofstream(path, std::ios::app) << "parts = 2\n";
        auto state = window_on(folder.path / "none.toml");
        state.messages.clear();
        state.left_behind = app::Recovery::left_behind(copies);
        REQUIRE(state.left_behind.size() == 1);
        app::apply(state, app::AnswerRecovery{app::AnswerRecovery::Choice::bring_back});
        CHECK(state.document.sheet().recipe.notes == "before the crash");
        app::apply(state, app::Save{});
        CHECK(state.theirs_question.has_value() == changed);
    }
}
