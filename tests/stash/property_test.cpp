// Random days at the shelf against a plain model of it: sums are never below nought and always those of the
// movements, whatever was asked and refused.
#include <cmath>
#include <map>
#include <random>

#include "shelves.hpp"

using namespace shelves;

namespace {

// Whole micrograms, as a spreadsheet would keep them.
using Model = std::map<std::string, std::int64_t>;

std::int64_t micrograms(double grams) {
    return std::llround(grams * 1e6);
}

class Day {
  public:
    Day(stash::Stash& stash, unsigned seed) : stash_(stash), random_(seed) {}

    void live() {
        switch (number(0, 7)) {
            case 0:
                return add();
            case 1:
                return leave(stash::Reason::given);
            case 2:
                return leave(stash::Reason::wasted);
            case 3:
                return weigh();
            case 4:
            case 5:
                return card();
            case 6:
                return take_back();
            default:
                return correct();
        }
    }
    const Model& model() const { return model_; }

  private:
    int number(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
    // With all its decimals, as solvers and percentages make them.
    double grams(double most) { return std::uniform_real_distribution<double>(0.0, most)(random_); }
    std::string any_mark() {
        auto at = model_.begin();
        std::advance(at, number(0, static_cast<int>(model_.size()) - 1));
        return at->first;
    }

    void add() {
        if (model_.size() > 12) return;
        const double weight = grams(150.0) + 0.001;
        model_[got(stash_.add(wool(), weight)).mark] = micrograms(weight);
    }
    void leave(stash::Reason reason) {
        if (model_.empty()) return;
        const std::string mark = any_mark();
        const double weight = grams(60.0) + 1e-5;
        const auto done = stash_.move({mark, reason, weight, "", "", {}});
        CHECK(done.has_value() == (micrograms(weight) <= model_[mark]));
        if (done) model_[mark] -= micrograms(weight);
    }
    void weigh() {
        if (model_.empty()) return;
        const std::string mark = any_mark();
        const double weight = grams(120.0);
        got(stash_.weigh_again(mark, weight));
        model_[mark] = micrograms(weight);
    }
    void card() {
        if (model_.empty()) return;
        std::vector<stash::Line> lines;
        Model wanted;
        for (int i = number(1, 5); i > 0; --i) {
            lines.push_back({any_mark(), grams(30.0) + 1e-5});
            wanted[lines.back().mark] += micrograms(lines.back().grams);
        }
        bool enough = true;
        for (const auto& [mark, weight] : wanted) enough = enough && weight <= model_[mark];
        const auto done = stash_.card_it(carding(lines));
        CHECK(done.has_value() == enough);
        if (!done) return;
        for (const auto& [mark, weight] : wanted) model_[mark] -= weight;
        standing_[done->id] = wanted;
    }
    void take_back() {
        if (standing_.empty()) return;
        const auto batt = standing_.begin();
        got(stash_.take_back(batt->first));
        CHECK_FALSE(stash_.take_back(batt->first));
        for (const auto& [mark, weight] : batt->second) model_[mark] += weight;
        standing_.erase(batt);
    }
    void correct() {
        if (model_.empty()) return;
        const std::string mark = any_mark();
        const auto movements = got(stash_.movements(mark));
        const auto& old =
            movements[static_cast<std::size_t>(number(0, static_cast<int>(movements.size()) - 1))];
        const auto done = stash_.correct(old.id, old.grams > 0.0 ? grams(120.0) : -grams(60.0));
        if (done) model_[mark] += micrograms(done->grams);
        CHECK(model_[mark] >= 0);
    }

    stash::Stash& stash_;
    std::mt19937 random_;
    Model model_;
    std::map<std::int64_t, Model> standing_;
};

}  // namespace

TEST_CASE("random days at the shelf keep its sums") {
    for (const unsigned seed : {1u, 2u, 3u}) {
        CAPTURE(seed);
        const Folder folder;
        stash::Stash stash = opened(folder / "stash.db");
        Day day(stash, seed);
        for (int i = 0; i < 400; ++i) {
            day.live();
            if (i % 40 != 0) continue;
            const auto shelf = got(stash.shelf());
            CHECK(shelf->lots.size() == day.model().size());
            for (const auto& [mark, weight] : day.model()) {
                CHECK(micrograms(shelf->find(mark)->grams) == weight);
                std::int64_t sum = 0;
                for (const auto& movement : got(stash.movements(mark))) {
                    sum += micrograms(movement.grams);
                    CHECK(sum >= 0);
                }
                CHECK(sum == weight);
            }
        }
        check_sound(stash);
    }
}
