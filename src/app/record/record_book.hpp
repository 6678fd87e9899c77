// What the record says, read from the file when it has changed. No display.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "app/settings.hpp"
#include "fibre/catalogue.hpp"
#include "stash/stash.hpp"

namespace battwright::app {

struct RecordBook {
    std::vector<stash::Batt> batts;    // oldest first, those taken back too
    std::vector<stash::Skein> skeins;  // by date
    std::vector<stash::Allocation> allocations;
    std::map<std::int64_t, stash::Cost> batt_costs, skein_costs;
    std::vector<stash::AskedSkein> questions;  // skeins with something to be asked about, by date
    std::vector<stash::BattPhoto> photos;      // by date
    stash::HandsLearnt hands;                  // from these

    const stash::Batt* batt(std::int64_t id) const;
    const stash::Skein* skein(std::int64_t id) const;
    const stash::AskedSkein* question(std::int64_t skein) const;  // nullptr: nothing to ask
    std::vector<const stash::BattPhoto*> photos_of(std::int64_t batt) const;
    std::vector<const stash::Skein*> spun_from(std::int64_t batt) const;
    std::vector<const stash::Allocation*> promised_of(std::int64_t skein) const;
    double promised_metres(std::int64_t skein) const;
};
measure::Expected<RecordBook> read_record(const stash::Stash& stash);

// The skein with the question answered so that it is not asked again: "yes" she changed her mind, or it is
// right; "no" the plan stood. A skein that is not right has to be put right, so there "no" changes nothing.
stash::Skein answered(stash::Skein skein, yarn::Question question, bool yes);
// What her skeins of this way of spinning have taught, a line each for aim and loft: none before the first.
// `wanted_wpi` 0: the plan named no wraps, and nothing is said of the aim.
std::vector<std::string> habits_in_words(const yarn::Calibration& calibration,
                                         recipe::Preparation preparation, double wanted_wpi);

// A name, or words in its place.
std::string name_of(const stash::Batt& batt);
std::string name_of(const stash::Skein& skein);
// "2024-05-17 · 2 batts · 120 g fed, 113 g off the drum"
std::string batt_in_short(const stash::Batt& batt, const Settings& settings);
// "2024-06-02 · 48 g · 171 m · 12 wpi"; what was not measured is left out.
std::string skein_in_short(const stash::Skein& skein, const Settings& settings);
// "12.40 EUR, and 30 g without a price"
std::string cost_in_words(const stash::Cost& cost, const Settings& settings);
// Lost between the scale and the drum: "7.3 g, 6.1 %"; empty until it is weighed.
std::string loss_in_words(const stash::Batt& batt, const Settings& settings);

// How well a suspect of "what was this?" fits, in a word.
std::string fit_in_words(const stash::Suspect& suspect);
// One of its reasons with weights and lengths in the user's units, which the stash does not know.
std::string reason_in_words(const std::string& reason, const Settings& settings);

// A report as a table of words; the first column is text, the others are figures and stand to the right.
struct ReportTable {
    std::vector<std::string> heads;
    std::vector<std::vector<std::string>> rows;
    std::string total;  // one line below it
};
enum class Report { kinds, ages, batt_costs, skein_costs, used };
// `on_day` ISO: the ages are counted to it. `year`: of what was used.
measure::Expected<ReportTable> read_report(const stash::Stash& stash, Report report,
                                           const std::string& on_day, int year,
                                           const fibre::Catalogue& catalogue, const Settings& settings);

}  // namespace battwright::app
