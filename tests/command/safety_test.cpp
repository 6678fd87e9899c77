// Nothing anyone made is ever lost: what commands write over, what they read, a full disk at the other end of
// a pipe, kills in the middle.
#include <doctest/doctest.h>
#include <sys/stat.h>

#include <map>
#include <random>

#include "stash_bench.hpp"

using namespace program;

namespace {

const std::string kelp_recipe = blends + "kelp-and-brass.toml";

// A run that has to be refused in one line and leave every file as it was.
void refuse(const Scratch& folder, const std::string& words, const std::string& reason) {
    std::map<std::string, std::string> before;
    for (const auto& entry : fs::recursive_directory_iterator(folder.folder))
        if (entry.is_regular_file()) before[entry.path().string()] = slurp(entry.path());
    const Outcome outcome = run(folder, words);
    CAPTURE(words);
    CAPTURE(outcome.err);
    CHECK(outcome.code == 2);
    CHECK(outcome.out.empty());
    CHECK(outcome.err.find(reason) != std::string::npos);
    check_one_line(outcome.err);
    for (const auto& [path, bytes] : before) {
        CAPTURE(path);
        if (path.ends_with("stderr.txt")) continue;
        CHECK(slurp(path) == bytes);
    }
}

// Runs the program through the shell with something before and after, in the folder; gives the exit code.
int shell(const Scratch& folder, const std::string& before, const std::string& words,
          const std::string& after) {
    const std::string line =
        "cd '" + folder.folder.string() +
        "' && env -u DISPLAY -u WAYLAND_DISPLAY XDG_DATA_HOME=" + folder.folder.string() + " " + before +
        " '" + battwright::testing::program() + "' " + words + " " + after;
    return WEXITSTATUS(std::system(line.c_str()));
}

std::size_t parts_in(const fs::path& folder) {
    std::size_t count = 0;
    for (const auto& entry : fs::directory_iterator(folder))
        count += entry.path().string().find(".part") != std::string::npos ? 1u : 0u;
    return count;
}

}  // namespace

TEST_CASE("no command writes onto what it reads, by path, symbolic link or hard link") {
    const Shelf shelf;
    for (const char* name : {"k.toml", "k.md", "k.png", "k.pdf"})
        fs::copy_file(kelp_recipe, shelf.folder / name);
    fs::create_symlink("shelf.db", shelf.folder / "soft.csv");
    fs::create_hard_link(shelf.folder / "shelf.db", shelf.folder / "hard.csv");
    fs::create_hard_link(shelf.folder / "k.toml", shelf.folder / "twin.toml");
    for (const char* flag : {"", " --replace"}) {
        for (const char* output : {"shelf.db", "soft.csv", "hard.csv", "./shelf.db"})
            refuse(shelf, std::string("stash export --stash shelf.db -o ") + output + flag,
                   "read for this too");
        refuse(shelf, std::string("scraps --from k.toml -o k.toml") + flag, "read for this too");
        refuse(shelf, std::string("scraps --from k.toml -o twin.toml") + flag, "read for this too");
        refuse(shelf, std::string("card k.md -o k.md") + flag, "read for this too");
        refuse(shelf, std::string("card k.pdf -o k.pdf") + flag, "read for this too");
        refuse(shelf, std::string("strip k.png -o k.png --width 100 --height 20") + flag,
               "read for this too");
        refuse(shelf, std::string("stash backup shelf.db --stash shelf.db") + flag, "itself");
        refuse(shelf, std::string("stash backup hard.csv --stash shelf.db") + flag, "itself");
        // SQLite takes what lies there for its own, and throws it away or reads it.
        for (const char* ending : {"-wal", "-journal", "-shm"})
            refuse(shelf, std::string("stash export --stash shelf.db -o shelf.db") + ending + flag,
                   "keeps its changes");
    }
    CHECK(run(shelf, "stash check --stash shelf.db").code == 0);
}

TEST_CASE("what a person made is replaced only when she says so, and never by another kind") {
    const Shelf shelf;
    fs::copy_file(kelp_recipe, shelf.folder / "precious.toml");
    fs::copy_file(kelp_recipe, shelf.folder / "precious.md");
    shelf.write("letter.txt", "dear gull\n");
    shelf.write("theirs.png", std::string("\x89PNG\r\n\x1a\n") + "drawn by hand");
    shelf.write("empty.csv", "");
    for (const char* flag : {"", " --replace"}) {
        refuse(shelf, std::string("stash backup precious.toml --stash shelf.db") + flag, "it is a recipe");
        refuse(shelf, std::string("stash export --stash shelf.db -o precious.toml") + flag, "it is a recipe");
        refuse(shelf, "card " + kelp_recipe + " -o precious.md" + flag, "it is a recipe");
        refuse(shelf, "strip " + kelp_recipe + " -o letter.txt" + flag, "no PNG file name");
    }
    refuse(shelf, "stash export --stash shelf.db -o letter.txt", "add --replace");
    refuse(shelf, "strip " + kelp_recipe + " -o theirs.png --width 100 --height 20", "add --replace");
    refuse(shelf, "scraps --stash shelf.db -o precious.toml", "add --replace");
    shelf.must("backup old.db");
    refuse(shelf, "stash backup old.db --stash shelf.db", "add --replace");
    shelf.must("backup old.db --replace");
    shelf.must("export -o empty.csv");
    shelf.must("export -o letter.txt --replace");
    CHECK(slurp(shelf.folder / "letter.txt").starts_with("mark,"));
    // This program's own pictures and papers are made again and again.
    for (int time = 0; time < 2; ++time) {
        CHECK(run(shelf, "strip " + kelp_recipe + " -o s.png --width 100 --height 20").code == 0);
        CHECK(run(shelf, "card " + kelp_recipe + " -o c.pdf").code == 0);
        CHECK(run(shelf, "card " + kelp_recipe + " -o c.png").code == 0);
    }
    refuse(shelf, "card " + kelp_recipe + " -o theirs.png", "add --replace");
    CHECK(run(shelf, "card " + kelp_recipe + " -o theirs.png --replace").code == 0);
}

TEST_CASE("an output that cannot be written is told, not taken for done") {
    if (!fs::exists("/dev/full")) {
        MESSAGE("SKIPPED: there is no /dev/full here");
        return;
    }
    const Shelf shelf;
    for (const std::string& words :
         {std::string("stash export --stash shelf.db"), "forecast --json " + kelp_recipe,
          "check " + kelp_recipe, std::string("stash list --stash shelf.db"), std::string("--help")}) {
        CAPTURE(words);
        CHECK(shell(shelf, "", words, ">/dev/full 2>told.txt") == 2);
        check_one_line(slurp(shelf.folder / "told.txt"));
        CHECK(slurp(shelf.folder / "told.txt").find("cannot be written: No space left") != std::string::npos);
    }
}

TEST_CASE("a limit on a file's size is told, and leaves nothing lying about") {
    const Shelf shelf;
    // Blocks of 1024 bytes.
    CHECK(shell(shelf, "sh -c 'ulimit -f 1; exec \"$@\"' sh", "strip " + kelp_recipe + " -o s.png",
                "2>told.txt") == 2);
    check_one_line(slurp(shelf.folder / "told.txt"));
    CHECK(slurp(shelf.folder / "told.txt").find("File too large") != std::string::npos);
    CHECK(parts_in(shelf.folder) == 0);
    CHECK_FALSE(fs::exists(shelf.folder / "s.png"));
}

TEST_CASE("a backup that finds no room says which file could not be made, not which part of it") {
    const Shelf shelf;
    CHECK(shell(shelf, "sh -c 'ulimit -f 10; exec \"$@\"' sh", "stash backup whole.db --stash shelf.db",
                ">out.txt 2>told.txt") == 2);
    const std::string told = slurp(shelf.folder / "told.txt");
    check_one_line(told);
    CHECK(told.starts_with("whole.db: "));
    CHECK_FALSE(fs::exists(shelf.folder / "whole.db"));
    CHECK(parts_in(shelf.folder) == 0);
}

TEST_CASE("a pipe or a device as input is told at once") {
    const Shelf shelf;
    REQUIRE(::mkfifo((shelf.folder / "pipe").c_str(), 0600) == 0);
    REQUIRE(::mkfifo((shelf.folder / "pipe.toml").c_str(), 0600) == 0);
    for (const char* words :
         {"forecast pipe", "check pipe.toml", "card pipe -o c.pdf", "strip pipe -o s.png",
          "scraps --from pipe.toml", "match pipe.toml --stash shelf.db",
          "match --photo pipe --stash shelf.db", "stash import pipe", "stash list --stash pipe",
          "stash check --stash pipe", "stash restore pipe --stash shelf.db",
          "stash add --name x --fibre shetland --weight '5 g' --stash pipe", "forecast /dev/zero"}) {
        CAPTURE(words);
        CHECK(shell(shelf, "timeout 20", words, ">out.txt 2>told.txt") == 2);
        check_one_line(slurp(shelf.folder / "told.txt"));
    }
}

TEST_CASE("no control character of a recipe reaches the terminal") {
    const Shelf shelf;
    shelf.write(
        "wild.toml",
        "format = 1\nname = \"Fog \\u001b[2J\\u009b31m\\u202e gnp\"\nnotes = \"a\\u0007b\"\n"
        "[[component]]\nname = \"kelp\\u001b]0;x\\u0007\"\nfibre = \"shetland\"\ncolour = \"#2f5d50\"\n"
        "weight = \"25 g\"\n");
    for (const char* words : {"forecast wild.toml", "check wild.toml", "forecast --json wild.toml",
                              "label wild.toml", "scraps --from wild.toml", "card wild.toml -o card.txt"}) {
        CAPTURE(words);
        const Outcome outcome = run(shelf, words);
        std::string all = outcome.out + outcome.err;
        if (fs::exists(shelf.folder / "card.txt")) all += slurp(shelf.folder / "card.txt");
        CHECK_FALSE(all.empty());
        CHECK(all.find_first_of("\x1b\x07") == std::string::npos);
        CHECK(all.find("\u009b") == std::string::npos);
        CHECK(all.find("\u202e") == std::string::npos);
    }
}

TEST_CASE("a picture that would take minutes is refused at once") {
    const Scratch scratch;
    refuse(scratch, "strip " + kelp_recipe + " -o s.png --width 16384 --height 16384",
           "million pixels would take minutes");
}

TEST_CASE(
    "killed in the middle of anything that writes: the old file or the new one, and nothing left behind") {
    const Shelf shelf;
    fs::copy_file(kelp_recipe, shelf.folder / "k.toml");
    shelf.write_recipe("fog.toml", "0.5");
    shelf.write("more.csv", "name,fibre,weight_g\nTar,shetland,20\nRope,hemp,20\n");
    shelf.must("backup safe.db");
    const char* writing[] = {"stash add --stash shelf.db --name Tar --fibre shetland --weight '5 g'",
                             "stash card fog.toml --stash shelf.db",
                             "stash waste CDFGHJ '0.1 g' --stash shelf.db",
                             "stash edit KF7R3X --notes tide --stash shelf.db",
                             "stash import more.csv --write --stash shelf.db",
                             "stash backup safe.db --replace --stash shelf.db",
                             "stash restore safe.db --stash shelf.db",
                             "stash export -o lots.csv --replace --stash shelf.db",
                             "strip k.toml -o s.png --width 300 --height 40",
                             "card k.toml -o c.pdf",
                             "scraps --stash shelf.db -o found.toml --replace"};
    std::mt19937 random(41);
    for (const char* words : writing) {
        CAPTURE(words);
        for (int round = 0; round < 3; ++round) {
            const std::string delay =
                std::to_string(0.004 + 0.05 * static_cast<double>(random() % 1000) / 1000.0);
            shell(shelf, "timeout -s KILL " + delay, words, ">/dev/null 2>/dev/null");
        }
        CHECK(run(shelf, "stash check --stash shelf.db").code == 0);
        CHECK(run(shelf, "stash check --stash safe.db").code == 0);
    }
    // Whatever is there is whole.
    const auto whole = [&](const char* name, const std::string& start, const std::string& end) {
        if (!fs::exists(shelf.folder / name)) return;
        CAPTURE(name);
        const std::string bytes = slurp(shelf.folder / name);
        CHECK(bytes.starts_with(start));
        CHECK(bytes.find(end, bytes.size() > 32 ? bytes.size() - 32 : 0) != std::string::npos);
    };
    whole("s.png", "\x89PNG", "IEND");
    whole("c.pdf", "%PDF", "%%EOF");
    whole("lots.csv", "mark,", "\r\n");
    if (fs::exists(shelf.folder / "found.toml")) CHECK(run(shelf, "check found.toml").code != 2);
    // One more file written there, and what the killed left is gone.
    shelf.must("export -o last.csv");
    CHECK(parts_in(shelf.folder) == 0);
}

TEST_CASE("recipes that ask for the impossible are answered or refused, never suffered") {
    const Shelf shelf;
    const std::string start = "format = 1\nname = \"Tide\"\n[[component]]\nfibre = \"shetland\"\n";
    std::string many = "format = 1\nname = \"Crowd\"\n";
    for (int i = 0; i < 400; ++i)
        many += "[[component]]\nfibre = \"shetland\"\ncolour = \"#2f5d50\"\nweight = \"1 g\"\n";
    const std::string hostile[] = {start + "weight = \"1e300 g\"\n",
                                   start + "weight = \"1e-300 g\"\n",
                                   start + "weight = \"nan g\"\n",
                                   start + "weight = \"25 g\"\ncolour = \"#gggggg\"\n",
                                   start + "weight = \"25 g\"\nweight = \"25 g\"\n",
                                   start + "weight = \"25 g\"\n[carding]\npasses = 2147483647\n",
                                   start + "weight = \"25 g\"\n[spinning]\nplies = -9223372036854775808\n",
                                   start + "weight = \"25 g\"\n[spinning]\nthickness = \"1e9 wpi\"\n",
                                   many,
                                   "format = 1\n" + std::string(20'000, '['),
                                   "format = 1\nname = \"" + std::string(200'000, 'x') + "\"\n",
                                   std::string("format = 1\n\0name", 16),
                                   "\xff\xfe" + start};
    for (std::size_t i = 0; i < std::size(hostile); ++i) {
        CAPTURE(i);
        shelf.write("hostile.toml", hostile[i]);
        const int code = shell(shelf, "timeout 20", "forecast --json hostile.toml", ">out.txt 2>told.txt");
        CHECK((code == 0 || code == 2));
        if (code == 2) {
            CHECK(slurp(shelf.folder / "out.txt").empty());
            check_one_line(slurp(shelf.folder / "told.txt"));
        } else {
            CHECK(nlohmann::json::accept(slurp(shelf.folder / "out.txt")));
        }
    }
}
