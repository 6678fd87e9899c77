// Reports as tables of words.
#include <algorithm>

#include "app/record/record_book.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/yarn/yarn_words.hpp"

namespace battwright::app {
namespace {

using measure::Expected;
using stash::Stash;

struct Words {
    const fibre::Catalogue& catalogue;
    const Settings& settings;
    std::string mass(double grams) const { return measure::print_mass(grams, settings.mass); }
    std::string metres(double metres) const { return print_metres(metres, settings); }
    std::string cost(const stash::Cost& cost) const { return cost_in_words(cost, settings); }
};

ReportTable table_of(const std::vector<stash::KindLine>& lines, const Words& words) {
    ReportTable table{{"Kind", "Lots", "On the shelf", "When scoured"}, {}, {}};
    double grams = 0.0;
    for (const auto& line : lines) {
        table.rows.push_back({kind_name(line.kind, words.catalogue), std::to_string(line.lots),
                              words.mass(line.grams), words.mass(line.clean_grams)});
        grams += line.grams;
    }
    table.total = words.mass(grams) + " in all";
    return table;
}

ReportTable table_of(const std::vector<stash::AgeLine>& lines, const Words& words) {
    ReportTable table{{"On the shelf for", "Lots", "Weight", "Worth"}, {}, {}};
    stash::Cost worth;
    for (const auto& line : lines) {
        table.rows.push_back(
            {line.word, std::to_string(line.lots), words.mass(line.grams), words.cost(line.worth)});
        worth.add(line.worth, 1.0);
    }
    table.total = words.cost(worth) + " in all";
    return table;
}

ReportTable table_of(const std::vector<stash::BattCost>& lines, const Words& words) {
    ReportTable table{{"Batt", "Carded", "Fed", "Cost"}, {}, {}};
    stash::Cost sum;
    for (const auto& line : lines) {
        const std::string name = line.name.empty() ? "Batt " + std::to_string(line.batt) : line.name;
        table.rows.push_back({name, line.date, words.mass(line.fed_grams), words.cost(line.cost)});
        sum.add(line.cost, 1.0);
    }
    std::ranges::reverse(table.rows);
    table.total = words.cost(sum) + " in all";
    return table;
}

ReportTable table_of(const std::vector<stash::SkeinCost>& lines, const Words& words) {
    ReportTable table{{"Skein", "Spun", "Weight", "Length", "Cost"}, {}, {}};
    stash::Cost sum;
    for (const auto& line : lines) {
        const std::string name = line.name.empty() ? "Skein " + std::to_string(line.skein) : line.name;
        table.rows.push_back({name, line.date, line.grams > 0.0 ? words.mass(line.grams) : "",
                              line.metres > 0.0 ? words.metres(line.metres) : "", words.cost(line.cost)});
        sum.add(line.cost, 1.0);
    }
    std::ranges::reverse(table.rows);
    table.total = words.cost(sum) + " in all";
    return table;
}

ReportTable table_of(const stash::Used& used, const Words& words) {
    ReportTable table{{"In " + std::to_string(used.year), ""}, {}, {}};
    const auto line = [&](const std::string& what, const std::string& figure) {
        table.rows.push_back({what, figure});
    };
    for (const auto& kind : used.kinds)
        line(kind_name(kind.kind, words.catalogue) + " carded", words.mass(kind.carded_grams));
    line("All that was carded", words.mass(used.carded_grams));
    line("Cost of what was carded", words.cost(used.carded_cost));
    line("Bought", words.mass(used.bought_grams));
    line("Given away", words.mass(used.given_grams));
    line("Wasted", words.mass(used.wasted_grams));
    line("Batts", std::to_string(used.batts));
    line("Skeins", std::to_string(used.skeins));
    line("Spun", words.mass(used.spun_grams) + ", " + words.metres(used.spun_metres));
    return table;
}

template <class T>
Expected<ReportTable> in_words(const Expected<T>& given, const Words& words) {
    if (!given) return tl::make_unexpected(given.error());
    return table_of(*given, words);
}

}  // namespace

Expected<ReportTable> read_report(const Stash& stash, Report report, const std::string& on_day, int year,
                                  const fibre::Catalogue& catalogue, const Settings& settings) {
    const Words words{catalogue, settings};
    switch (report) {
        case Report::kinds:
            return in_words(stash.by_kind(), words);
        case Report::ages:
            return in_words(stash.by_age(on_day), words);
        case Report::batt_costs:
            return in_words(stash.batt_costs(), words);
        case Report::skein_costs:
            return in_words(stash.skein_costs(), words);
        case Report::used:
            break;
    }
    return in_words(stash.used_in(year), words);
}

}  // namespace battwright::app
