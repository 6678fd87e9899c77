#include "app/record/skein_form.hpp"

#include <algorithm>
#include <cmath>

#include "app/half_typed.hpp"
#include "app/record/learning.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/yarn/yarn_words.hpp"
#include "recipe/file.hpp"
#include "shelving/foretell.hpp"
#include "stash/date.hpp"
#include "stash/mixture_words.hpp"
#include "stash/more_yarn.hpp"
#include "stash/skein_colour.hpp"
#include "text/believe.hpp"
#include "text/words.hpp"

namespace battwright::app {
namespace {

using measure::Complaint;
using measure::Expected;

constexpr double most_turns = 1e6;

// 0 for an empty field; a complaint names the field.
template <class Parse>
Expected<double> figure(const std::string& typed, const char* name, const Parse& parse) {
    if (text::is_blank(typed)) return 0.0;
    auto value = parse(typed);
    if (value) return *value;
    value.error().where = name;
    return value;
}

Expected<double> wraps_in(const std::string& typed) {
    auto quantity = measure::parse_quantity(typed, "thickness", "12 wpi");
    if (!quantity) return tl::make_unexpected(quantity.error());
    if (quantity->unit.empty() || quantity->unit == "wpi") return quantity->value;
    return tl::make_unexpected(Complaint{"the thickness is in " + measure::quoted(quantity->unit),
                                         "write wraps per inch, as in 12 wpi"});
}

Expected<double> metres_in(const SkeinForm& form, const Settings& settings) {
    if (!form.by_turns)
        return figure(form.length, "length", [&](const std::string& typed) {
            return parse_yarn_metres(typed, yarn_length_unit(settings));
        });
    if (text::is_blank(form.turns)) return 0.0;
    auto turns = measure::parse_quantity(form.turns, "number of turns", "84");
    if (turns && !turns->unit.empty())
        turns = tl::make_unexpected(
            Complaint{"the turns are " + measure::quoted(form.turns), "write a number alone, as in 84"});
    if (turns && !(turns->value <= most_turns))
        turns = tl::make_unexpected(Complaint{"nobody turns that often", "count the turns again"});
    auto round = parse_round_metres(form.round);
    if (!turns) return tl::make_unexpected(Complaint{turns.error().what, turns.error().mend, "turns"});
    if (!round) return tl::make_unexpected(Complaint{round.error().what, round.error().mend, "once round"});
    return wound_metres(turns->value, *round);
}

// A skein's figures as they stand in the form.
struct Figures {
    std::string weight, length, wraps;
};
Figures figures_of(const stash::Skein& skein, const Settings& settings) {
    Figures figures;
    if (skein.grams > 0.0) figures.weight = measure::print_mass(skein.grams, settings.mass);
    if (skein.metres > 0.0) figures.length = print_metres(skein.metres, settings);
    if (skein.wpi > 0.0) figures.wraps = print_wraps(skein.wpi);
    return figures;
}

// What is only looked at must not be rounded when it is saved again.
void keep_exact(stash::Skein& skein, const SkeinForm& form, const Settings& settings) {
    if (!form.logged) return;
    const Figures figures = figures_of(*form.logged, settings);
    if (form.weight == figures.weight) skein.grams = form.logged->grams;
    if (!form.by_turns && !form.before_wash && form.length == figures.length)
        skein.metres = form.logged->metres;
    if (form.wraps == figures.wraps) skein.wpi = form.logged->wpi;
}

// The batts it was spun from that are in the record.
std::vector<shelving::SpunFrom> spun_from(const SkeinForm& form, const RecordBook& book) {
    std::vector<shelving::SpunFrom> from;
    for (const auto& part : form.from)
        if (const auto* batt = book.batt(part.batt)) from.push_back({*batt, part.share_pct});
    return from;
}

void wash(stash::Skein& skein, const SkeinForm& form, const Settings& settings) {
    if (!form.before_wash || !(skein.metres > 0.0)) return;
    skein.note +=
        (skein.note.empty() ? "" : "\n") + print_metres(skein.metres, settings) + " before the wash";
    skein.metres = yarn::length_after_wash_m(skein.metres, form.shrink_pct.middle());
}

}  // namespace

SkeinForm form_of(const stash::Skein& skein, const Settings& settings) {
    SkeinForm form = new_skein_form(settings);
    form.id = skein.id;
    form.name = skein.name;
    form.date = skein.date;
    form.from = skein.from;
    const Figures figures = figures_of(skein, settings);
    form.weight = figures.weight;
    form.length = figures.length;
    form.wraps = figures.wraps;
    form.logged = skein;
    form.plies = skein.plies;
    form.preparation = skein.preparation;
    form.photo = skein.photo;
    form.palette = skein.palette;
    form.note = skein.note;
    form.became = skein.became;
    form.counts = skein.counts;
    form.foretold = skein.foretold;
    return form;
}

SkeinForm new_skein_form(const Settings& settings) {
    SkeinForm form;
    form.date = stash::today();
    form.round = settings.winder;
    return form;
}

Expected<stash::Skein> skein_of(const SkeinForm& form, const Settings& settings) {
    const auto grams = figure(form.weight, "weight", [&](const std::string& typed) -> Expected<double> {
        auto mass = parse_weight(typed, settings.mass);
        if (!mass) return tl::make_unexpected(mass.error());
        return mass->grams;
    });
    if (!grams) return tl::make_unexpected(grams.error());
    const auto metres = metres_in(form, settings);
    if (!metres) return tl::make_unexpected(metres.error());
    const auto wraps = figure(form.wraps, "wraps", wraps_in);
    if (!wraps) return tl::make_unexpected(wraps.error());
    stash::Skein skein;
    skein.id = form.id;
    skein.name = form.name;
    skein.from = form.from;
    skein.date = form.date;
    skein.grams = *grams;
    skein.metres = *metres;
    skein.wpi = *wraps;
    skein.plies = form.plies;
    skein.preparation = form.preparation;
    skein.foretold = form.foretold;
    skein.counts = form.counts;
    skein.photo = form.photo;
    skein.palette = form.palette;
    skein.note = form.note;
    skein.became = form.became;
    keep_exact(skein, form, settings);
    wash(skein, form, settings);
    return skein;
}

yarn::Spread shrink_of_unknown() {
    return yarn::wash_of(std::span<const recipe::Strand>()).shrink_pct;
}

void measure_before_wash(SkeinForm& form, bool before, const RecordBook& book,
                         const fibre::Catalogue& catalogue) {
    if (form.before_wash == before) return;
    form.before_wash = before;
    form.counts = !before;
    form.shrink_pct = shelving::wash_shrink_pct(spun_from(form, book), catalogue);
}

std::string length_in_words(const stash::Skein& skein, const SkeinForm& form, const Settings& settings) {
    if (!(skein.metres > 0.0)) return {};
    std::string line = print_metres(skein.metres, settings);
    if (form.before_wash)
        line = washed_in_words(yarn::length_before_wash_m(skein.metres, form.shrink_pct.middle()),
                               form.shrink_pct, settings);
    if (skein.grams > 0.0) line += ", " + print_grist(1000.0 * skein.grams / skein.metres, settings);
    return line;
}

std::string foretold_in_words(const stash::Skein& skein, const Settings& settings) {
    BATTWRIGHT_BELIEVE(skein.foretold);
    const auto& told = *skein.foretold;
    const double scale = told.nominal_length_m > 0.0 ? nominal_of(skein) / told.nominal_length_m : 1.0;
    return print_metres(told.low_m * scale, settings) + " to " + print_metres(told.high_m * scale, settings);
}

std::string washed_in_words(double metres_before, const yarn::Spread& shrink_pct, const Settings& settings) {
    const auto after = [&](double pct) { return yarn::length_after_wash_m(metres_before, pct); };
    return "washed about " + print_metres(after(shrink_pct.middle()), settings) + " (" +
           print_span(after(shrink_pct.high), after(shrink_pct.low), settings) + ")";
}

double wound_metres(double turns, double round_metres) {
    return turns * round_metres;
}

Expected<double> parse_round_metres(std::string_view typed) {
    if (text::is_blank(typed))
        return tl::make_unexpected(
            Complaint{"it is not said how long one turn of the winder is", "measure it once, as in 1.5 m"});
    auto metres = measure::parse_yarn_length_metres(typed);
    if (!metres) {
        if (const auto length = measure::parse_length(typed)) metres = length->millimetres / 1000.0;
    }
    if (metres && !(*metres > 0.0))
        return tl::make_unexpected(Complaint{"a winder that goes round nothing", "write it as in 1.5 m"});
    if (metres) return metres;
    return tl::make_unexpected(Complaint{"one turn of the winder cannot be " + measure::quoted(typed),
                                         "write it with its unit, as in 1.5 m, 150 cm or 2 yd"});
}

std::string typed_in(const SkeinForm& form, const Settings& settings) {
    const auto all_of = [](const SkeinForm& of) {
        return typed_in({of.weight, of.length, of.turns, of.wraps, of.photo, stash::write_palette(of.palette),
                         of.note, of.became});
    };
    if (!form.logged) return all_of(form) + (form.from.empty() ? typed_in({form.name}) : "");
    const auto words_of = [&](const SkeinForm& of) {
        std::string words = all_of(of) + of.name + of.date + std::to_string(of.plies) +
                            std::string(recipe::word_for(of.preparation)) + (of.counts ? "+" : "-");
        for (const auto& part : of.from)
            words += std::to_string(part.batt) + ":" + measure::print_percent(part.share_pct) + " ";
        return words;
    };
    const std::string now = words_of(form);
    return now == words_of(form_of(*form.logged, settings)) ? std::string() : now;
}

std::vector<stash::FromBatt> with_batt(std::vector<stash::FromBatt> from, std::int64_t batt) {
    const auto there = [batt](const stash::FromBatt& part) { return part.batt == batt; };
    if (std::ranges::any_of(from, there)) return from;
    from.push_back({batt, 0.0});
    // Thirds of a hundred: the last one takes what rounding leaves.
    const double each = std::round(1000.0 / static_cast<double>(from.size())) / 10.0;
    double left = 100.0;
    for (auto& part : from) {
        part.share_pct = &part == &from.back() ? left : each;
        left -= each;
    }
    return from;
}

std::vector<stash::FromBatt> without_batt(std::vector<stash::FromBatt> from, std::size_t index) {
    if (index >= from.size()) return from;
    const double freed = from[index].share_pct;
    from.erase(from.begin() + static_cast<std::ptrdiff_t>(index));
    if (!from.empty()) from.back().share_pct += freed;
    return from;
}

std::vector<stash::FromBatt> with_batt_share(std::vector<stash::FromBatt> from, std::size_t index,
                                             double percent) {
    if (index >= from.size() || from.size() < 2) return from;
    const std::size_t other = index + 1 == from.size() ? index - 1 : from.size() - 1;
    const double both = from[index].share_pct + from[other].share_pct;
    from[index].share_pct = percent;
    if (percent < both) from[other].share_pct = both - percent;
    return from;
}

std::optional<SideBySide> skein_beside(const SkeinForm& form, const RecordBook& book, colour::Light light) {
    stash::Skein skein;
    skein.from = form.from;
    skein.palette = form.palette;
    const auto seen = stash::seen_colour(skein), foretold = stash::foretold_colour(skein, book.batts);
    if (!seen || !foretold) return std::nullopt;
    return side_by_side(*seen, *foretold, light);
}

std::string more_yarn_in_words(const stash::Skein& skein, const RecordBook& book, const Settings& settings) {
    const auto more = stash::more_yarn_than_fibre(skein, book.batts, book.skeins);
    if (!more) return {};
    const std::string fibre = more->name.empty() ? "batt " + std::to_string(more->batt) : more->name;
    return "that makes " + measure::print_mass(more->yarn_grams, settings.mass) + " of yarn from " +
           measure::print_mass(more->fibre_grams, settings.mass) + " of " + fibre +
           ": is the weight right, or was something plied in?";
}

std::string foretell(SkeinForm& form, const RecordBook& book, const yarn::Calibration& calibration,
                     const fibre::Catalogue& catalogue) {
    form.shrink_pct = shelving::wash_shrink_pct(spun_from(form, book), catalogue);
    form.foretold.reset();
    std::vector<shelving::SpunFrom> from;
    for (const auto& part : form.from) {
        if (const auto* batt = book.batt(part.batt)) from.push_back({*batt, part.share_pct});
    }
    if (from.empty()) return {};
    const auto told = shelving::foretold_of(from, calibration, catalogue);
    if (!told) return measure::to_line(told.error());
    form.foretold = told->foretold;
    if (form.id != 0) return {};
    form.preparation = told->preparation;
    form.plies = told->plies;
    return {};
}

}  // namespace battwright::app
