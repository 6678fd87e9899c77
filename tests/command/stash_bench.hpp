// A shelf of its own for a test: three lots in a made-up harbour town, and the program run on it.
#pragma once

#include <nlohmann/json.hpp>

#include "program.hpp"

namespace program {

// Made once: each lot waits for the disk. The last to close a stash leaves it in one file.
inline const fs::path& filled() {
    static const Scratch scratch;
    static const fs::path path = scratch.folder / "shelf.db";
    if (fs::exists(path)) return path;
    for (const char* lot : {"--name 'Harbour fog' --fibre merino-fine --colour '#8a9aa0' --weight '120 g' "
                            "--form top --mark CDFGHJ "
                            "--date 2024-05-17 --cost '12 EUR'",
                            "--name Kelp --fibre 'polwarth 70 %' --fibre 'bombyx-silk 30 %' --colour "
                            "'#2f5d50 60' --colour '#b08d3c 40' "
                            "--weight '3.5 oz' --mark KF7R3X --place 'blue crate'",
                            "--name 'Gull fleece' --fibre shetland --raw --yield '60 %' --weight '1 kg' "
                            "--form fleece --mark 4CDFGH"}) {
        const Outcome outcome = run(scratch, std::string("stash add --stash shelf.db ") + lot);
        INFO(outcome.err);
        REQUIRE(outcome.code == 0);
    }
    return path;
}

struct Shelf : Scratch {
    Shelf() { fs::copy_file(filled(), folder / "shelf.db"); }
    Outcome run(const std::string& words) const {
        return program::run(*this, "stash " + words + " --stash shelf.db");
    }
    // Output of a run that has to go well.
    std::string must(const std::string& words) const {
        const Outcome outcome = run(words);
        INFO(words, ": ", outcome.err);
        REQUIRE(outcome.code == 0);
        return outcome.out;
    }
    nlohmann::json json(const std::string& words) const {
        return nlohmann::json::parse(must(words + " --json"));
    }
    double grams(const std::string& mark) const { return json("show " + mark).at("mass_g").get<double>(); }
    // One line, exit code 2, nothing on the output; the line is handed back.
    std::string refused(const std::string& words) const {
        const Outcome outcome = run(words);
        CAPTURE(words);
        CHECK(outcome.code == 2);
        CHECK(outcome.out.empty());
        CHECK(outcome.err.find("; ") != std::string::npos);
        check_one_line(outcome.err);
        return outcome.err;
    }
    void write(const std::string& name, const std::string& text) const {
        std::ofstream(folder / name, std::ios::binary) << text;
    }
    // Two components from two of the lots; 50 g together.
    void write_recipe(const std::string& name, const std::string& fog_grams,
                      const std::string& kelp = "KF7R3X") const {
        write(name,
              "format = 1\nname = \"Kelp and Fog\"\n"
              "[[component]]\nfibre = \"merino-fine\"\nlot = \"CDFGHJ\"\ncolour = \"#8a9aa0\"\nweight = \"" +
                  fog_grams +
                  " g\"\n"
                  "[[component]]\nblend = [ { fibre = \"polwarth\", share = \"70 %\" }, { fibre = "
                  "\"bombyx-silk\", "
                  "share = \"30 %\" } ]\n" +
                  (kelp.empty() ? "" : "lot = \"" + kelp + "\"\n") +
                  "colour = \"#2f5d50\"\nweight = \"20 g\"\n"
                  "[spinning]\npreparation = \"woollen\"\nplies = 2\nthickness = \"12 wpi\"\n");
    }
};

}  // namespace program
