#include "app/record/record_book.hpp"

#include <algorithm>
#include <cmath>

#include "app/expected.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/yarn/yarn_words.hpp"
#include "text/words.hpp"
#include "yarn/habit_words.hpp"

namespace battwright::app {
namespace {

template <class T>
const T* by_id(const std::vector<T>& all, std::int64_t id) {
    const auto found = std::ranges::find_if(all, [id](const T& one) { return one.id == id; });
    return found == all.end() ? nullptr : &*found;
}

template <class Line>
measure::Expected<void> take_costs(const measure::Expected<std::vector<Line>>& lines, std::int64_t Line::*id,
                                   std::map<std::int64_t, stash::Cost>& costs) {
    if (!lines) return tl::make_unexpected(lines.error());
    for (const Line& line : *lines) costs[line.*id] = line.cost;
    return {};
}

}  // namespace

const stash::Batt* RecordBook::batt(std::int64_t id) const {
    return by_id(batts, id);
}
const stash::Skein* RecordBook::skein(std::int64_t id) const {
    return by_id(skeins, id);
}

const stash::AskedSkein* RecordBook::question(std::int64_t skein) const {
    const auto found =
        std::ranges::find_if(questions, [skein](const auto& one) { return one.skein == skein; });
    return found == questions.end() ? nullptr : &*found;
}

std::vector<const stash::BattPhoto*> RecordBook::photos_of(std::int64_t batt) const {
    std::vector<const stash::BattPhoto*> found;
    for (const stash::BattPhoto& photo : photos)
        if (photo.batt == batt) found.push_back(&photo);
    return found;
}

std::vector<const stash::Skein*> RecordBook::spun_from(std::int64_t batt) const {
    std::vector<const stash::Skein*> found;
    for (const stash::Skein& skein : skeins) {
        if (std::ranges::any_of(skein.from, [batt](const auto& part) { return part.batt == batt; }))
            found.push_back(&skein);
    }
    return found;
}

std::vector<const stash::Allocation*> RecordBook::promised_of(std::int64_t skein) const {
    std::vector<const stash::Allocation*> found;
    for (const stash::Allocation& one : allocations)
        if (one.skein == skein) found.push_back(&one);
    return found;
}

double RecordBook::promised_metres(std::int64_t skein) const {
    double metres = 0.0;
    for (const auto* one : promised_of(skein)) metres += one->metres;
    return metres;
}

measure::Expected<RecordBook> read_record(const stash::Stash& stash) {
    RecordBook book;
    auto done = take(stash.batts(), book.batts);
    if (done) done = take(stash.skeins(), book.skeins);
    if (done) done = take(stash.allocations(), book.allocations);
    if (done) done = take(stash.questions(), book.questions);
    if (done) done = take(stash.photos(), book.photos);
    if (done) done = take(stash.hands(), book.hands);
    if (done) done = take_costs(stash.batt_costs(), &stash::BattCost::batt, book.batt_costs);
    if (done) done = take_costs(stash.skein_costs(), &stash::SkeinCost::skein, book.skein_costs);
    if (!done) return tl::make_unexpected(done.error());
    return book;
}

stash::Skein answered(stash::Skein skein, yarn::Question question, bool yes) {
    if (question == yarn::Question::changed_her_mind) (yes ? skein.changed_plan : skein.confirmed) = true;
    if (question == yarn::Question::is_it_right && yes) skein.confirmed = true;
    return skein;
}

std::vector<std::string> habits_in_words(const yarn::Calibration& calibration,
                                         recipe::Preparation preparation, double wanted_wpi) {
    std::vector<std::string> lines;
    const auto add = [&lines](std::string line) {
        if (line.empty()) return;
        lines.push_back(text::capitalised(std::move(line)) + ".");
    };
    if (wanted_wpi > 0.0)
        add(yarn::aim_words(calibration.aim(preparation), wanted_wpi,
                            calibration.aim_is_borrowed(preparation)));
    add(yarn::loft_words(calibration.loft(preparation), calibration.loft_is_borrowed(preparation)));
    return lines;
}

std::string name_of(const stash::Batt& batt) {
    return batt.carding.name.empty() ? "Batt " + std::to_string(batt.id) : batt.carding.name;
}
std::string name_of(const stash::Skein& skein) {
    return skein.name.empty() ? "Skein " + std::to_string(skein.id) : skein.name;
}

std::string batt_in_short(const stash::Batt& batt, const Settings& settings) {
    const auto mass = [&](double grams) { return measure::print_mass(grams, settings.mass); };
    std::string line = batt.carding.date;
    if (batt.carding.batts > 1) append(line, std::to_string(batt.carding.batts) + " batts");
    if (!batt.taken_back_on.empty())
        append(line, "taken back on " + batt.taken_back_on);
    else if (batt.off_drum_grams)
        append(line, mass(batt.fed_grams) + " fed, " + mass(*batt.off_drum_grams) + " off the drum");
    else
        append(line, mass(batt.fed_grams) + " fed");
    return line;
}

std::string skein_in_short(const stash::Skein& skein, const Settings& settings) {
    std::string line = skein.date;
    if (skein.grams > 0.0) append(line, measure::print_mass(skein.grams, settings.mass));
    if (skein.metres > 0.0) append(line, print_metres(skein.metres, settings));
    if (skein.wpi > 0.0) append(line, print_wraps(skein.wpi));
    return line;
}

std::string cost_in_words(const stash::Cost& cost, const Settings& settings) {
    std::string words;
    for (const stash::Money& money : cost.sums) words += (words.empty() ? "" : " + ") + print_money(money);
    if (words.empty()) return "no price known";
    // Sums of millionths: what is no weight on any scale is none.
    if (cost.unpriced_grams > 0.005)
        words += ", and " + measure::print_mass(cost.unpriced_grams, settings.mass) + " without a price";
    return words;
}

std::string loss_in_words(const stash::Batt& batt, const Settings& settings) {
    if (!batt.off_drum_grams || !(batt.fed_grams > 0.0)) return {};
    const double lost = batt.fed_grams - *batt.off_drum_grams;
    const double percent = std::round(1000.0 * std::abs(lost) / batt.fed_grams) / 10.0;
    const std::string words =
        measure::print_mass(std::abs(lost), settings.mass) + ", " + measure::print_percent(percent);
    return lost >= 0.0 ? words : words + " more than was fed";
}

std::string fit_in_words(const stash::Suspect& suspect) {
    if (suspect.deviations < 0.75) return "fits well";
    if (suspect.deviations < 1.5) return "fits";
    if (suspect.deviations < 2.5) return "could be";
    return "hardly";
}

std::string reason_in_words(const std::string& reason, const Settings& settings) {
    constexpr std::string_view weight = "weight ", length = "length ";
    if (reason.starts_with(weight)) {
        const auto mass = measure::parse_mass(std::string_view(reason).substr(weight.size()));
        if (mass) return std::string(weight) + measure::print_mass(mass->grams, settings.mass);
    }
    if (reason.starts_with(length)) {
        const auto metres = measure::parse_yarn_length_metres(std::string_view(reason).substr(length.size()));
        if (metres) return std::string(length) + print_metres(*metres, settings);
    }
    return reason;
}

}  // namespace battwright::app
