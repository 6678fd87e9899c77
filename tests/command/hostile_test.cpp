// Recipes broken at random, through the whole program: each is answered, or refused in one clear line, in
// bounded time. Each run prints its seed; BATTWRIGHT_SEED and BATTWRIGHT_STEPS repeat or lengthen it.
#include <doctest/doctest.h>

#include <iterator>
#include <random>
#include <sstream>
#include <vector>

#include "program.hpp"

using namespace program;

namespace {

unsigned hostile_setting(const char* name, unsigned otherwise) {
    const char* given = std::getenv(name);
    return given != nullptr ? static_cast<unsigned>(std::atoi(given)) : otherwise;
}

// The lines of all examples, and the examples themselves.
struct Examples {
    std::vector<std::string> texts, lines;
    Examples() {
        for (const auto& entry : fs::directory_iterator(blends)) {
            if (entry.path().extension() != ".toml") continue;
            texts.push_back(slurp(entry.path()));
            std::string line;
            for (std::istringstream in(texts.back()); std::getline(in, line);) lines.push_back(line);
        }
    }
};

class Breaker {
  public:
    explicit Breaker(unsigned seed) : random_(seed) {}

    std::string broken() {
        std::string text = any(examples_.texts);
        // A third with no more than another figure in it, so that what computes is tried and not the reader
        // alone.
        if (below(3) == 0) {
            swap_figure(text, std::to_string(1 + below(60)));
            return text;
        }
        for (std::size_t i = 0, n = 1 + below(4); i < n; ++i) break_once(text);
        return text;
    }
    std::size_t below(std::size_t most) { return random_() % most; }

  private:
    const std::string& any(const std::vector<std::string>& of) { return of[below(of.size())]; }

    void break_once(std::string& text) {
        static const std::vector<std::string> figures{
            "0",   "-1",  "1e308",  "1e-308",     "nan", "inf",        "-0",  "99999999999999999999",
            "0.5", "1,5", "\u0663", "2147483648", "1e9", "0x7fffffff", "100", "1/0"};
        static const std::vector<std::string> words{
            "lot",
            "\"\"",
            "true",
            "[]",
            "{}",
            "[[component]]",
            "parts = 1e300",
            "share = \"100 %\"",
            "colours = []",
            "blend = [ { fibre = \"merino-fine\", share = \"1e-9 %\" } ]",
            "[carding]\npasses = 9",
            "[spinning]\nthickness = \"120 wpi\"",
            "[spinning]\nplies = 12",
            "staple = \"0.01 mm\"",
            "diameter = \"1000 um\"",
            "add_on_pass = \"last\"",
            "feed = \"alternating\"\nrepeats = 1000000",
            "strips = 1000000000"};
        switch (below(9)) {
            case 0:
                return swap_figure(text, any(figures));
            case 1:
                return insert_line(text, any(words));
            case 2:
                return insert_line(text, any(examples_.lines));
            case 3:
                return drop_line(text);
            case 4:
                text.resize(below(text.size() + 1));
                return;
            case 5:
                text.insert(below(text.size() + 1), 1, static_cast<char>(random_()));
                return;
            case 6:
                return crowd(text);
            case 7:
                text.insert(below(text.size() + 1), std::string(1 + below(5000), "x[\"9 \n"[below(6)]));
                return;
            default:
                return swap_figure(text, std::to_string(static_cast<double>(random_()) / 1e4));
        }
    }
    void swap_figure(std::string& text, const std::string& figure) {
        std::size_t at = text.find_first_of("0123456789", below(text.size() + 1));
        if (at == std::string::npos) return;
        const std::size_t end = text.find_first_not_of("0123456789.", at);
        text.replace(at, (end == std::string::npos ? text.size() : end) - at, figure);
    }
    void insert_line(std::string& text, const std::string& line) {
        const std::size_t at = text.find('\n', below(text.size() + 1));
        text.insert(at == std::string::npos ? text.size() : at + 1, line + "\n");
    }
    void drop_line(std::string& text) {
        const std::size_t at = text.find('\n', below(text.size() + 1));
        if (at == std::string::npos) return;
        const std::size_t end = text.find('\n', at + 1);
        text.erase(at, end == std::string::npos ? std::string::npos : end - at);
    }
    void crowd(std::string& text) {
        const std::string crowd = "[[component]]\nfibre = \"shetland\"\nweight = \"0.1 g\"\n";
        for (std::size_t i = 0, n = 1 + below(80); i < n; ++i) text += crowd;
    }

    Examples examples_;
    std::mt19937 random_;
};

void check_refusal(const std::string& told) {
    check_one_line(told);
    CHECK(told.size() < 4000);
    for (const char c : told.substr(0, told.size() - 1)) CHECK(static_cast<unsigned char>(c) >= 0x20);
}

}  // namespace

TEST_CASE("recipes broken at random: an answer, or one clear line and 2, in bounded time") {
    const unsigned seed = hostile_setting("BATTWRIGHT_SEED", 1);
    const unsigned steps = hostile_setting("BATTWRIGHT_STEPS", 120);
    MESSAGE("seed ", seed, ", ", steps, " recipes");
    CAPTURE(seed);
    const Scratch scratch;
    Breaker breaker(seed);
    unsigned answered = 0;
    const char* commands[]{
        "forecast --json hostile.toml", "forecast hostile.toml",
        "check hostile.toml",           "strip hostile.toml -o s.png --width 160 --height 32",
        "label hostile.toml",           "card hostile.toml -o c.txt",
        "project hostile.toml"};
    for (unsigned step = 0; step < steps; ++step) {
        CAPTURE(step);
        const std::string text = breaker.broken();
        CAPTURE(text);
        std::ofstream(scratch.folder / "hostile.toml", std::ios::binary) << text;
        const std::string words = commands[breaker.below(std::size(commands))];
        CAPTURE(words);
        const auto [code, out, told] = run_within(scratch, 60, words);
        CHECK((code == 0 || code == 2 ||
               (code == 1 && (words.starts_with("check") || words.starts_with("label")))));
        const fs::path made = scratch.folder / (words.starts_with("strip") ? "s.png" : "c.txt");
        if (code == 2) {
            check_refusal(told);
            CHECK(out.empty());
            CHECK_FALSE(fs::exists(made));
        } else {
            CHECK(told.empty());
            ++answered;
        }
        fs::remove(made);
    }
    // Else it would only be the reader that is tried.
    CHECK(answered > steps / 20);
}
