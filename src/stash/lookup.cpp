#include "stash/lookup.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "colour/spaces.hpp"
#include "measure/units.hpp"
#include "stash/core.hpp"
#include "stash/date.hpp"
#include "stash/makings.hpp"
#include "stash/skein_colour.hpp"
#include "yarn/calibration.hpp"

namespace battwright::stash {
namespace {

// What the record knows of one thing. Several weights: as bought, as it lies now.
struct Known {
    Suspect suspect;
    std::optional<colour::Lab> colour;
    std::vector<double> grams;
    std::vector<double> metres;
};

// Adds clues up as squares of standard deviations.
class MatchScore {
  public:
    explicit MatchScore(Suspect& suspect) : suspect_(suspect) {}

    void hear(double deviations, std::string reason) {
        sum_ += deviations * deviations;
        ++clues_;
        suspect_.reasons.push_back(std::move(reason));
    }
    void hear_nothing(const char* of_what) {
        hear(unknown_deviations, std::string("no ") + of_what + " on record");
    }
    void settle() { suspect_.deviations = clues_ > 0 ? std::sqrt(sum_ / clues_) : 0.0; }

  private:
    Suspect& suspect_;
    double sum_ = 0.0;
    int clues_ = 0;
};

void judge_colour(MatchScore& score, const Known& known, const colour::Lab& wanted) {
    if (!known.colour) return score.hear_nothing("colour");
    const double away = colour::ciede2000(wanted, *known.colour);
    score.hear(away / clue_de00, "colour " + measure::print_number(away, 1) + " away (CIEDE2000)");
}

// The one of the amounts that fits best, by ratio.
void judge_amount(MatchScore& score, const std::vector<double>& amounts, double wanted, double log_sd,
                  const char* noun, std::string (*print)(double)) {
    double least = HUGE_VAL, best = 0.0;
    for (const double amount : amounts) {
        if (!(amount > 0.0)) continue;
        const double away = std::abs(std::log(wanted / amount));
        if (away < least) {
            least = away;
            best = amount;
        }
    }
    if (!std::isfinite(least)) return score.hear_nothing(noun);
    score.hear(least / log_sd, std::string(noun) + " " + print(best));
}

void judge_date(MatchScore& score, const Known& known, std::chrono::sys_days wanted) {
    const auto date = parse_date(known.suspect.date);
    if (!date) return score.hear_nothing("date");
    const double days = std::abs(static_cast<double>((*date - wanted).count()));
    score.hear(days / clue_days,
               "dated " + known.suspect.date + ", " + measure::print_number(days, 1) + " days away");
}

// The clue's length washed and dry, and how far off (ln) it is taken to be.
struct WantedLength {
    double metres = 0.0, log_sd = clue_log_metres;
};
WantedLength washed(double metres, const std::optional<yarn::Spread>& shrink_pct) {
    if (!shrink_pct) return {metres};
    const double most = yarn::length_after_wash_m(metres, shrink_pct->low);
    const double least = yarn::length_after_wash_m(metres, shrink_pct->high);
    return {yarn::length_after_wash_m(metres, shrink_pct->middle()),
            std::hypot(clue_log_metres, 0.5 * std::log(most / least) / yarn::z_of_80_percent)};
}

void judge_length(MatchScore& score, const Known& known, const Clue& clue) {
    const WantedLength wanted = washed(*clue.metres, clue.shrink_pct);
    judge_amount(score, known.metres, wanted.metres, wanted.log_sd, "length", [](double metres) {
        return measure::print_yarn_length(metres, measure::YarnLengthUnit::metre);
    });
}

void judge_all(Known& known, const Clue& clue) {
    MatchScore score(known.suspect);
    if (clue.colour) judge_colour(score, known, *clue.colour);
    if (clue.grams)
        judge_amount(score, known.grams, *clue.grams, clue_log_grams, "weight",
                     [](double grams) { return measure::print_mass(grams, measure::MassUnit::gram); });
    if (clue.metres) judge_length(score, known, clue);
    if (!clue.date.empty()) judge_date(score, known, value_of(parse_date(clue.date)));
    score.settle();
}

void add_lots(std::vector<Known>& all, const Database& database, const Shelf& shelf) {
    std::map<std::int64_t, double> first_bought;
    Statement rows =
        database.prepare("SELECT lot, micrograms / 1e6 FROM movement WHERE reason = 'bought' ORDER BY id");
    while (rows.step()) first_bought.emplace(rows.whole(0), rows.real(1));
    for (const auto& lot : shelf.lots) {
        Known known{{Thing::lot, lot->lot.id, lot->lot.mark, lot->lot.name, lot->lot.got_on, 0.0, {}},
                    lot->colour,
                    {lot->grams},
                    {}};
        if (const auto bought = first_bought.find(lot->lot.id); bought != first_bought.end())
            known.grams.push_back(bought->second);
        all.push_back(std::move(known));
    }
}

void add_batts(std::vector<Known>& all, const std::vector<Batt>& batts) {
    for (const Batt& batt : batts) {
        if (!batt.taken_back_on.empty()) continue;
        const double whole = batt.off_drum_grams.value_or(batt.fed_grams);
        all.push_back({{Thing::batt, batt.id, {}, batt.carding.name, batt.carding.date, 0.0, {}},
                       batt.carding.colour,
                       {whole, whole / batt.carding.batts},
                       {}});
    }
}

void add_skeins(std::vector<Known>& all, const Database& database, const std::vector<Batt>& batts) {
    for (const Skein& skein : read_skeins(database)) {
        const auto seen = seen_colour(skein);  // goes before what was foretold
        all.push_back({{Thing::skein, skein.id, {}, skein.name, skein.date, 0.0, {}},
                       seen ? seen : foretold_colour(skein, batts),
                       {skein.grams},
                       {skein.metres}});
    }
}

void check_clue(const Clue& clue) {
    if (!clue.colour && !clue.grams && !clue.metres && clue.date.empty())
        fail("there is nothing to go by", "give a colour, a weight, a length or a date", "clue");
    for (const auto& [amount, noun] : {std::pair(clue.grams, "weight"), {clue.metres, "length"}}) {
        if (amount && !(*amount > 0.0 && std::isfinite(*amount)))
            fail(std::string("a ") + noun + " of nothing tells nothing", "give it above zero", noun);
    }
    if (!clue.date.empty()) value_of(parse_date(clue.date));
}

}  // namespace

Expected<std::vector<Suspect>> Stash::look_up(const Clue& clue, std::size_t most) const {
    return reading(core_->database, [&] {
        check_clue(clue);
        std::vector<Known> all;
        const std::vector<Batt> batts = read_batts(core_->database);
        add_lots(all, core_->database, *core_->present_shelf());
        add_batts(all, batts);
        add_skeins(all, core_->database, batts);
        for (Known& known : all) judge_all(known, clue);
        std::stable_sort(all.begin(), all.end(), [](const Known& a, const Known& b) {
            return a.suspect.deviations < b.suspect.deviations;
        });
        std::vector<Suspect> suspects;
        for (std::size_t i = 0; i < std::min(most, all.size()); ++i)
            suspects.push_back(std::move(all[i].suspect));
        return suspects;
    });
}

}  // namespace battwright::stash
