#include "stash/report.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "stash/core.hpp"
#include "stash/date.hpp"
#include "stash/makings.hpp"
#include "stash/millionths.hpp"
#include "stash/prices.hpp"

namespace battwright::stash {
namespace {

struct Age {
    const char* word = "";
    int under_years = 0;  // 0: older than all of these, or of no date
};
constexpr std::array<Age, 6> ages{{{"under a year", 1},
                                   {"one to two years", 2},
                                   {"two to five years", 5},
                                   {"five to ten years", 10},
                                   {"over ten years"},
                                   {"of no date"}}};

// The day so many years before; 29 February becomes the 28th.
std::string years_before(std::chrono::sys_days day, int years) {
    std::chrono::year_month_day date(day);
    date = std::chrono::year_month_day(date.year() - std::chrono::years(years), date.month(), date.day());
    if (!date.ok()) date = date.year() / date.month() / std::chrono::last;
    return print_date(std::chrono::sys_days(date));
}

std::size_t age_of(const std::string& got_on, std::chrono::sys_days day) {
    if (got_on.empty()) return ages.size() - 1;
    std::size_t at = 0;
    while (at + 2 < ages.size() && got_on <= years_before(day, ages[at].under_years)) ++at;
    return at;
}

Cost cost_of(const Prices& prices, std::int64_t batt) {
    Cost cost;
    if (const auto found = prices.of_batt.find(batt); found != prices.of_batt.end())
        for (const Money& money : found->second) cost.add(money);
    if (const auto found = prices.unpriced_of_batt.find(batt); found != prices.unpriced_of_batt.end())
        cost.unpriced_grams = found->second;
    return cost;
}

std::map<std::int64_t, Batt> batts_by_id(const Database& database) {
    std::map<std::int64_t, Batt> batts;
    for (Batt& batt : read_batts(database)) {
        const std::int64_t id = batt.id;
        batts.emplace(id, std::move(batt));
    }
    return batts;
}

// Which part of a batt went into this skein: by weight, against the weight off the drum where it is known,
// else against what was fed. A skein that was not weighed is taken for an equal part among the skeins of the
// batt.
double part_of_batt(const Skein& skein, const FromBatt& from, const Batt& batt, int skeins_of_batt) {
    if (!(skein.grams > 0.0)) return 1.0 / std::max(1, skeins_of_batt);
    const double whole = batt.off_drum_grams.value_or(batt.fed_grams);
    return whole > 0.0 ? std::min(1.0, skein.grams * from.share_pct / 100.0 / whole) : 0.0;
}

SkeinCost cost_of(const Skein& skein, const std::map<std::int64_t, Batt>& batts,
                  const std::map<std::int64_t, int>& skeins_of, const Prices& prices) {
    SkeinCost line{skein.id, skein.name, skein.date, skein.grams, skein.metres, {}};
    for (const FromBatt& from : skein.from) {
        const auto batt = batts.find(from.batt);
        if (batt == batts.end()) continue;
        line.cost.add(cost_of(prices, from.batt),
                      part_of_batt(skein, from, batt->second, skeins_of.at(from.batt)));
    }
    return line;
}

// [first, last] day of a year, as text.
struct Span {
    std::string first, last;
    bool holds(const std::string& date) const { return date >= first && date <= last; }
};

double moved_grams(const Database& database, const Span& span, const char* reason) {
    // Corrections count where the movement they name counts; what was taken back, against what was carded.
    Statement row = database.prepare(
        "SELECT coalesce(sum(m.micrograms), 0) FROM movement m LEFT JOIN movement o ON o.id = m.of_movement "
        "WHERE coalesce(o.reason, m.reason) = ?1 AND coalesce(o.made_on, m.made_on) BETWEEN ?2 AND ?3");
    row.bind(reason, span.first, span.last).step();
    return from_millionths(std::abs(row.whole(0)));
}

void add_kinds(Used& used, const Batt& batt, const Shelf& shelf, std::map<std::string, double>& kinds) {
    for (const Line& line : batt.carding.lines) {
        const Shelved* lot = shelf.find(line.mark);
        if (lot == nullptr) continue;
        for (const recipe::Content& content : lot->lot.content)
            kinds[content.fibre] += line.grams * content.share_pct / 100.0;
    }
    ++used.batts;
}

}  // namespace

Expected<std::vector<KindLine>> Stash::by_kind() const {
    return guarded([&] {
        std::map<std::string, KindLine> kinds;
        for (const auto& lot : core_->present_shelf()->lots) {
            if (lot->grams <= 0.0) continue;
            for (const recipe::Content& content : lot->lot.content) {
                KindLine& line = kinds[content.fibre];
                line.kind = content.fibre;
                ++line.lots;
                line.grams += lot->grams * content.share_pct / 100.0;
                line.clean_grams += lot->clean_grams() * content.share_pct / 100.0;
            }
        }
        std::vector<KindLine> lines;
        lines.reserve(kinds.size());
        for (auto& [kind, line] : kinds) lines.push_back(std::move(line));
        std::stable_sort(lines.begin(), lines.end(),
                         [](const KindLine& a, const KindLine& b) { return a.grams > b.grams; });
        return lines;
    });
}

Expected<std::vector<AgeLine>> Stash::by_age(std::string_view on_day) const {
    return guarded([&] {
        const std::chrono::sys_days day = value_of(parse_date(on_day.empty() ? today() : on_day));
        const auto shelf = core_->present_shelf();
        const Prices prices =
            value_of(reading(core_->database, [&] { return read_prices(core_->database); }));
        std::vector<AgeLine> lines(ages.size());
        for (std::size_t i = 0; i < ages.size(); ++i) lines[i].word = ages[i].word;
        for (const auto& lot : shelf->lots) {
            if (lot->grams <= 0.0) continue;
            AgeLine& line = lines[age_of(lot->lot.got_on, day)];
            ++line.lots;
            line.grams += lot->grams;
            const auto price = prices.now.find(lot->lot.id);
            if (price == prices.now.end()) {
                line.worth.unpriced_grams += lot->grams;
            } else {
                line.worth.add({price->second.amount * lot->grams, price->second.currency});
            }
        }
        return lines;
    });
}

Expected<std::vector<BattCost>> Stash::batt_costs() const {
    return reading(core_->database, [&] {
        const Prices prices = read_prices(core_->database);
        std::vector<BattCost> lines;
        for (const Batt& batt : read_batts(core_->database)) {
            if (!batt.taken_back_on.empty()) continue;
            lines.push_back(
                {batt.id, batt.carding.name, batt.carding.date, batt.fed_grams, cost_of(prices, batt.id)});
        }
        return lines;
    });
}

Expected<std::vector<SkeinCost>> Stash::skein_costs() const {
    return reading(core_->database, [&] {
        const Prices prices = read_prices(core_->database);
        const auto batts = batts_by_id(core_->database);
        const std::vector<Skein> skeins = read_skeins(core_->database);
        std::map<std::int64_t, int> skeins_of;
        for (const Skein& skein : skeins)
            for (const FromBatt& from : skein.from) ++skeins_of[from.batt];
        std::vector<SkeinCost> lines;
        lines.reserve(skeins.size());
        for (const Skein& skein : skeins) lines.push_back(cost_of(skein, batts, skeins_of, prices));
        return lines;
    });
}

Expected<Used> Stash::used_in(int year) const {
    return reading(core_->database, [&] {
        const Database& database = core_->database;
        const std::string digits = std::to_string(year);
        const Span span{digits + "-01-01", digits + "-12-31"};
        value_of(parse_date(span.first));
        Used used;
        used.year = year;
        const Prices prices = read_prices(database);
        const auto shelf = core_->present_shelf();
        std::map<std::string, double> kinds;
        for (const Batt& batt : read_batts(database)) {
            if (!batt.taken_back_on.empty() || !span.holds(batt.carding.date)) continue;
            add_kinds(used, batt, *shelf, kinds);
            used.carded_cost.add(cost_of(prices, batt.id), 1.0);
        }
        for (const Skein& skein : read_skeins(database)) {
            if (!span.holds(skein.date)) continue;
            ++used.skeins;
            used.spun_grams += skein.grams;
            used.spun_metres += skein.metres;
        }
        used.bought_grams = moved_grams(database, span, "bought");
        used.carded_grams = moved_grams(database, span, "carded");
        used.wasted_grams = moved_grams(database, span, "wasted");
        used.given_grams = moved_grams(database, span, "given");
        for (const auto& [kind, grams] : kinds) used.kinds.push_back({kind, grams});
        std::stable_sort(used.kinds.begin(), used.kinds.end(), [](const UsedKind& a, const UsedKind& b) {
            return a.carded_grams > b.carded_grams;
        });
        return used;
    });
}

}  // namespace battwright::stash
