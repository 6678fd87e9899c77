// --version, --example, --manual and --completion, as their users run them.
#include <doctest/doctest.h>

#include "program.hpp"

namespace {

using namespace program;

int entries(const fs::path& folder) {
    return static_cast<int>(std::distance(fs::directory_iterator(folder), {}));
}

}  // namespace

TEST_CASE("the version is one line") {
    const Scratch scratch;
    const Outcome outcome = run(scratch, "--version");
    CHECK(outcome.code == 0);
    CHECK(outcome.out.starts_with("Battwright "));
    check_one_line(outcome.out);
}

TEST_CASE("an example is copied byte for byte and never over a file") {
    const Scratch scratch;
    for (const auto& entry : fs::directory_iterator(blends)) {
        const std::string name = entry.path().stem().string();
        const Outcome outcome = run(scratch, "--example " + name);
        CHECK(outcome.code == 0);
        CHECK(slurp(scratch.folder / (name + ".batt.toml")) == slurp(entry.path()));
        CHECK(outcome.out.find("Copied the example to " + name + ".batt.toml\n") == 0);
    }
    std::ofstream(scratch.folder / "dawn-tide.batt.toml") << "mine";
    const Outcome again = run(scratch, "--example dawn-tide");
    CHECK(again.code == 2);
    check_one_line(again.err);
    CHECK(again.err.find("stays as it is") != std::string::npos);
    CHECK(slurp(scratch.folder / "dawn-tide.batt.toml") == "mine");
}

TEST_CASE("an example nobody has, one too many words, and a folder that takes no file") {
    const Scratch scratch;
    for (const char* words : {"--example no-such-batt", "--example ''", "--example ../blends/dawn-tide"}) {
        const Outcome unknown = run(scratch, words);
        CHECK(unknown.code == 2);
        CHECK(unknown.err.find("kelp-and-brass") != std::string::npos);
        check_one_line(unknown.err);
    }
    const Outcome both = run(scratch, "--example dawn-tide other.toml");
    CHECK(both.code == 2);
    check_one_line(both.err);
    fs::remove(scratch.folder / "stderr.txt");
    CHECK(entries(scratch.folder) == 0);

    // A folder that is a file, to root too.
    const Outcome nowhere = run(scratch, "--version >/dev/null; cd /proc && '" +
                                             battwright::testing::program() + "' --example dawn-tide");
    CHECK(nowhere.code == 2);
    check_one_line(nowhere.err);
}

TEST_CASE("the manual and the completion hold every command and option of the help") {
    const Scratch scratch;
    std::string manual = run(scratch, "--manual").out;
    std::erase(manual, '\\');
    const std::string completion = run(scratch, "--completion").out;
    CHECK(manual.find(".TH BATTWRIGHT 1 ") != std::string::npos);
    int options = 0;
    for (const std::string command :
         {"", "forecast", "strip", "card", "match", "stash", "stash add", "stash skein"}) {
        std::string help = run(scratch, command + " --help").out;
        // A word that begins with two hyphens is an option.
        for (auto at = help.find("--"); at != std::string::npos; at = help.find("--", at + 2)) {
            const std::string option = help.substr(at, help.find_first_of(" ,.;:){\n'", at) - at);
            CAPTURE(command);
            CAPTURE(option);
            CHECK(manual.find(option) != std::string::npos);
            CHECK(completion.find(option) != std::string::npos);
            ++options;
        }
        if (!command.empty()) CHECK(manual.find("battwright " + command) != std::string::npos);
    }
    CHECK(options > 40);
}
