// Sums over the record, a thing without a tag, and what the record has taught.
#include <cmath>

#include "colour/names.hpp"
#include "colour/spaces.hpp"
#include "command/layout.hpp"
#include "command/stash_common.hpp"
#include "command/stash_hands.hpp"
#include "command/stash_json.hpp"
#include "command/stash_parts.hpp"
#include "measure/nearest.hpp"
#include "recipe/thickness.hpp"
#include "shelving/photo.hpp"
#include "stash/date.hpp"
#include "yarn/habit_words.hpp"

namespace battwright::command {
namespace {

struct ReportOptions : Common {
    std::string what, on;
    int year = 0;
};
struct WhatOptions : Common {
    std::string colour, weight, length, date;
    int most = 10;
    bool before_wash = false;
};
struct CalibrationOptions : Common {
    std::string until;
};

struct ReportContext {
    const stash::Stash& stash;
    const ReportOptions& o;
};

Answer by_kind(const ReportContext& r) {
    const auto lines = value_of(r.stash.by_kind());
    if (r.o.json)
        return Answer{printed({{"kinds", list_json(lines, [](const stash::KindLine& line) {
                                    return Json{{"fibre", line.kind},
                                                {"lots", line.lots},
                                                {"mass_g", line.grams},
                                                {"clean_mass_g", line.clean_grams}};
                                })}})};
    std::string text =
        "  " + left("fibre", 28) + right("lots", 6) + right("weight", 12) + right("clean", 12) + "\n";
    for (const stash::KindLine& line : lines)
        text += "  " + left(line.kind, 28) + right(std::to_string(line.lots), 6) +
                right(r.o.mass(line.grams), 12) + right(r.o.mass(line.clean_grams), 12) + "\n";
    return Answer{text};
}

Answer by_age(const ReportContext& r) {
    const std::string day = r.o.on.empty() ? stash::today() : r.o.on;
    const auto lines = value_of(r.stash.by_age(day));
    if (r.o.json)
        return Answer{printed({{"on", day}, {"ages", list_json(lines, [](const stash::AgeLine& line) {
                                                 return Json{{"age", line.word},
                                                             {"lots", line.lots},
                                                             {"mass_g", line.grams},
                                                             {"worth", cost_json(line.worth)}};
                                             })}})};
    std::string text = "  " + left("age", 20) + right("lots", 6) + right("weight", 12) + "  worth\n";
    for (const stash::AgeLine& line : lines)
        text += "  " + left(line.word, 20) + right(std::to_string(line.lots), 6) +
                right(r.o.mass(line.grams), 12) + "  " + (line.lots > 0 ? cost_text(line.worth, r.o) : "-") +
                "\n";
    return Answer{text};
}

Json batt_cost_json(const stash::BattCost& line) {
    return {{"batt", line.batt},
            {"name", line.name},
            {"date", line.date},
            {"fed_g", line.fed_grams},
            {"cost", cost_json(line.cost)}};
}
Json skein_cost_json(const stash::SkeinCost& line) {
    return {{"skein", line.skein},  {"name", line.name},       {"date", line.date},
            {"mass_g", line.grams}, {"length_m", line.metres}, {"cost", cost_json(line.cost)}};
}

Answer costs(const ReportContext& r) {
    const auto batts = value_of(r.stash.batt_costs());
    const auto skeins = value_of(r.stash.skein_costs());
    if (r.o.json)
        return Answer{printed(
            {{"batts", list_json(batts, batt_cost_json)}, {"skeins", list_json(skeins, skein_cost_json)}})};
    std::string text = "  batts (the fibre fed, at the average of what was paid for it)\n";
    for (const stash::BattCost& line : batts)
        text += right(std::to_string(line.batt), 7) + "  " + left(line.date, 12) +
                right(r.o.mass(line.fed_grams), 10) + "  " + left(cost_text(line.cost, r.o), 24) + line.name +
                "\n";
    text += "  skeins (their part of the batts)\n";
    for (const stash::SkeinCost& line : skeins)
        text += right(std::to_string(line.skein), 7) + "  " + left(line.date, 12) +
                right(line.grams > 0.0 ? r.o.mass(line.grams) : "-", 10) + "  " +
                left(cost_text(line.cost, r.o), 24) + line.name + "\n";
    return Answer{text};
}

Json used_json(const stash::Used& used) {
    return {{"year", used.year},
            {"kinds", list_json(used.kinds,
                                [](const stash::UsedKind& kind) {
                                    return Json{{"fibre", kind.kind}, {"carded_g", kind.carded_grams}};
                                })},
            {"bought_g", used.bought_grams},
            {"carded_g", used.carded_grams},
            {"wasted_g", used.wasted_grams},
            {"given_g", used.given_grams},
            {"batts", used.batts},
            {"skeins", used.skeins},
            {"spun_g", used.spun_grams},
            {"spun_m", used.spun_metres},
            {"carded_cost", cost_json(used.carded_cost)}};
}

Answer year(const ReportContext& r) {
    const int wanted = r.o.given("--year") ? r.o.year : std::stoi(stash::today().substr(0, 4));
    if (wanted < 1000 || wanted > 9999)
        fail("the year " + std::to_string(wanted) + " is none", "give it in four digits", "--year");
    const auto used = value_of(r.stash.used_in(wanted));
    if (r.o.json) return Answer{printed(used_json(used))};
    std::string text =
        std::to_string(wanted) + "\n" +
        wrapped("bought " + r.o.mass(used.bought_grams) + ", carded " + r.o.mass(used.carded_grams) + " (" +
                    cost_text(used.carded_cost, r.o) + "), wasted " + r.o.mass(used.wasted_grams) +
                    ", given away " + r.o.mass(used.given_grams),
                2) +
        wrapped(counted(used.batts, "carding", "cardings") + ", " + counted(used.skeins, "skein", "skeins") +
                    ": " + r.o.mass(used.spun_grams) + ", " + r.o.yarn(used.spun_metres),
                2);
    for (const stash::UsedKind& kind : used.kinds)
        text += "    " + left(kind.kind, 28) + right(r.o.mass(kind.carded_grams), 12) + "\n";
    return Answer{text};
}

Answer report(const Context& context, const ReportOptions& o) {
    struct Known {
        const char* word;
        Answer (*make)(const ReportContext&);
    };
    constexpr Known known[] = {{"kinds", by_kind}, {"age", by_age}, {"costs", costs}, {"year", year}};
    std::vector<std::string> words;
    for (const Known& one : known) {
        words.emplace_back(one.word);
        if (o.what != one.word) continue;
        const auto stash = open_stash(o, context, Opening::reading);
        return one.make({stash, o});
    }
    const std::string question = measure::did_you_mean(o.what, words);
    fail("no report " + measure::quoted(o.what),
         question.empty() ? "ask for kinds, age, costs or year" : question, "WHAT");
}

stash::Clue clue_of(const WhatOptions& o) {
    stash::Clue clue;
    if (const auto colour = given(o.colour, "--colour", colour::parse_colour))
        clue.colour = colour::lab(*colour);
    clue.grams = given(o.weight, "--weight", grams_of);
    clue.metres = given(o.length, "--length", measure::parse_yarn_length_metres);
    if (o.before_wash) clue.shrink_pct = yarn::wash_of(std::span<const recipe::Strand>()).shrink_pct;
    clue.date = o.date;
    if (!clue.colour && !clue.grams && !clue.metres && clue.date.empty())
        fail("there is nothing to go by", "give one or more of --colour, --weight, --length and --date",
             "what");
    return clue;
}

std::string suspects_text(const std::vector<stash::Suspect>& suspects) {
    if (suspects.empty()) return "Nothing in the record is like that.\n";
    std::string text;
    for (const stash::Suspect& suspect : suspects) {
        std::string reasons;
        for (const std::string& reason : suspect.reasons) reasons += (reasons.empty() ? "" : "; ") + reason;
        text += std::string(stash::word_for(suspect.thing)) + " " +
                (suspect.mark.empty() ? std::to_string(suspect.id) : suspect.mark) + "  " + suspect.name +
                (suspect.date.empty() ? "" : ", " + suspect.date) + "\n" + wrapped(reasons, 2);
    }
    return text;
}

Answer what(const Context& context, const WhatOptions& o) {
    const auto clue = clue_of(o);
    if (o.most < 1) fail("no answers at all", "give 1 or more", "--most");
    const auto stash = open_stash(o, context, Opening::reading);
    const auto suspects = value_of(stash.look_up(clue, static_cast<std::size_t>(o.most)));
    if (!o.json) return Answer{suspects_text(suspects)};
    return Answer{printed({{"suspects", list_json(suspects, [](const stash::Suspect& suspect) {
                                return Json{{"thing", stash::word_for(suspect.thing)},
                                            {"id", suspect.id},
                                            {"mark", suspect.mark},
                                            {"name", suspect.name},
                                            {"date", suspect.date},
                                            {"deviations", suspect.deviations},
                                            {"reasons", suspect.reasons}};
                            })}})};
}

// Real length over the forecast's: the middle, and where four skeins in five fall.
struct Factor {
    double middle = 1.0;
    yarn::Range range;
};
Factor factor_of(const yarn::Belief& belief) {
    const double middle = std::exp(belief.mean);
    return {middle, yarn::range_80_percent(middle, yarn::half_width_80_percent(belief))};
}
Json factor_json(const Factor& factor) {
    return {{"factor", factor.middle}, {"low", factor.range.low}, {"high", factor.range.high}};
}
std::string factor_text(const Factor& factor) {
    return number(factor.middle, 2) + " (" + number(factor.range.low, 2) + " to " +
           number(factor.range.high, 2) + ")";
}
Factor share_of(const stash::CardingHabit& habit, recipe::Preparation preparation) {
    return {habit.share(preparation), habit.share_80_percent(preparation)};
}

struct Learnt {
    yarn::Calibration yardage;
    stash::CardingHabit carding;
    std::vector<stash::AskedSkein> questions;
    stash::HandsLearnt hands;
    std::optional<colour::Calibration> fitted;  // m by least squares alone
};

Json habit_json(const yarn::Belief& belief) {
    Json json = factor_json(factor_of(belief));
    json.set("skeins", belief.count);
    return json;
}

Json habits_json(const yarn::Calibration& calibration) {
    Json habits = Json::array();
    for (const auto& [preparation, word, help] : recipe::preparations)
        habits.push_back({{"preparation", recipe::word_for(preparation)},
                          {"aim", habit_json(calibration.aim(preparation))},
                          {"loft", habit_json(calibration.loft(preparation))}});
    return habits;
}

Json question_json(const stash::AskedSkein& asked) {
    const bool changed = asked.question == yarn::Question::changed_her_mind;
    return {{"skein", asked.skein},
            {"name", asked.name},
            {"question", changed ? "changed-plan" : "confirmed"},
            {"text", yarn::question_words(asked.question, asked.lesson)}};
}

Json fitted_json(const std::optional<colour::Calibration>& fitted) {
    if (!fitted) return nullptr;
    return {
        {"m", fitted->m}, {"rms_de00", fitted->rms_ciede2000}, {"rms_usual_de00", fitted->rms_at_default}};
}

Json blending_json(const Learnt& now) {
    return {{"before", hands_json({})},
            {"now", hands_json(now.hands.hands)},
            {"least_squares", fitted_json(now.fitted)},
            {"questions", list_json(now.hands.questions, asked_photo_json)}};
}

std::string blending_text(const Learnt& now) {
    std::string text =
        "how your fibre blends and your hands mix, from photos of batts\n" + hands_text({}, now.hands.hands);
    if (now.fitted)
        text += wrapped("by least squares alone m would be " + number(now.fitted->m, 3) + ", which leaves " +
                            number(now.fitted->rms_ciede2000, 1) + " CIEDE2000 where the usual leaves " +
                            number(now.fitted->rms_at_default, 1),
                        2);
    for (const stash::AskedPhoto& asked : now.hands.questions)
        text += wrapped(
            "photo " + std::to_string(asked.photo) + ", " + asked.name + ": " + stash::question_words(asked),
            2);
    return text;
}

Json learnt_json(const Learnt& now) {
    const Learnt before;
    Json yardage = Json::array(), carding = Json::array();
    for (const auto& [preparation, word, help] : recipe::preparations) {
        yardage.push_back({{"preparation", recipe::word_for(preparation)},
                           {"skeins", now.yardage.of(preparation).count},
                           {"before", factor_json(factor_of(before.yardage.of(preparation)))},
                           {"now", factor_json(factor_of(now.yardage.of(preparation)))}});
        carding.push_back({{"preparation", recipe::word_for(preparation)},
                           {"batts", now.carding.of(preparation).count},
                           {"before", factor_json(share_of(before.carding, preparation))},
                           {"now", factor_json(share_of(now.carding, preparation))}});
    }
    return {{"yardage", yardage},
            {"habits", habits_json(now.yardage)},
            {"off_drum", carding},
            {"questions", list_json(now.questions, question_json)},
            {"blending", blending_json(now)}};
}

// Said of a plan for 12 wraps, as an example.
constexpr double example_wpi = 12.0;

// Each way of spinning that has skeins enough, then the others together: they have one figure.
std::string habits_text(const Learnt& now) {
    std::string text;
    const auto add = [&](const std::string& ways, const std::string& words) {
        if (!words.empty()) text += wrapped(ways + ", " + words, 2);
    };
    std::string aim_of, loft_of, aim, loft;
    const auto borrow = [](std::string& ways, recipe::Preparation preparation) {
        ways += (ways.empty() ? "" : ", ") + std::string(recipe::word_for(preparation));
    };
    for (const auto& row : recipe::preparations) {
        const recipe::Preparation preparation = row.value;
        const bool borrowed_aim = now.yardage.aim_is_borrowed(preparation);
        const bool borrowed_loft = now.yardage.loft_is_borrowed(preparation);
        const std::string aims = yarn::aim_words(now.yardage.aim(preparation), example_wpi, borrowed_aim);
        const std::string lofts = yarn::loft_words(now.yardage.loft(preparation), borrowed_loft);
        const std::string way(recipe::word_for(preparation));
        if (borrowed_aim) borrow(aim_of, preparation);
        if (borrowed_loft) borrow(loft_of, preparation);
        if (borrowed_aim)
            aim = aims;
        else
            add(way, aims);
        if (borrowed_loft)
            loft = lofts;
        else
            add(way, lofts);
    }
    add(aim_of, aim);
    add(loft_of, loft);
    for (const stash::AskedSkein& asked : now.questions)
        text += wrapped("skein " + std::to_string(asked.skein) + ", " + asked.name + ": " +
                            yarn::question_words(asked.question, asked.lesson),
                        2);
    return text.empty() ? text : "what your hands do, and what is still to be asked\n" + text;
}

std::string learnt_text(const Learnt& now) {
    const Learnt before;
    std::string text = "length against the forecast, and where four skeins in five fall\n  " + left("", 14) +
                       right("skeins", 7) + right("before", 22) + right("now", 22) + "\n";
    for (const auto& [preparation, word, help] : recipe::preparations)
        text += "  " + left(std::string(recipe::word_for(preparation)), 14) +
                right(std::to_string(now.yardage.of(preparation).count), 7) +
                right(factor_text(factor_of(before.yardage.of(preparation))), 22) +
                right(factor_text(factor_of(now.yardage.of(preparation))), 22) + "\n";
    text += habits_text(now);
    text += "part of the fibre fed that comes off the drum, and where four batts in five fall\n  " +
            left("", 14) + right("batts", 7) + right("before", 22) + right("now", 22) + "\n";
    for (const auto& [preparation, word, help] : recipe::preparations)
        text += "  " + left(std::string(recipe::word_for(preparation)), 14) +
                right(std::to_string(now.carding.of(preparation).count), 7) +
                right(factor_text(share_of(before.carding, preparation)), 22) +
                right(factor_text(share_of(now.carding, preparation)), 22) + "\n";
    return text + blending_text(now);
}

Answer calibration(const Context& context, const CalibrationOptions& o) {
    const auto stash = open_stash(o, context, Opening::reading);
    const auto yardage = value_of(stash.calibration(o.until));
    const auto carding = value_of(stash.carding_habit(o.until));
    const auto questions = value_of(stash.questions());
    const auto hands = value_of(stash.hands(o.until));
    Learnt now{yardage, carding, questions, hands, {}};
    // Of all photos, so not of what was known on a day.
    if (o.until.empty())
        if (const auto fitted = shelving::fitted_m(stash, context.catalogue)) now.fitted = *fitted;
    return Answer{o.json ? printed(learnt_json(now)) : learnt_text(now)};
}

}  // namespace

void add_report_verbs(StashCommands& commands) {
    add_verb<ReportOptions>(
        commands, "report", "sums: kinds, age, costs or year",
        [](Command& app, ReportOptions& o) {
            app.add_option("WHAT", o.what, "kinds, age, costs or year").required();
            app.add_option("--year", o.year, "of the report on a year; this one unless given");
            app.add_option("--on", o.on, "the day ages are counted on; today unless given");
        },
        report);
    add_verb<WhatOptions>(
        commands, "what", "what was this? Finds a lot, batt or skein without a tag",
        [](Command& app, WhatOptions& o) {
            app.add_option("--colour", o.colour, "as in \"#2f5d50\"");
            app.add_option("--weight", o.weight, "as in \"52 g\"");
            app.add_option("--length", o.length, "as in \"180 m\"");
            app.add_option("--date", o.date, "about when it was bought, carded or spun");
            app.add_flag("--before-wash", o.before_wash, "the length was measured before the wash");
            app.add_option("--most", o.most, "at most so many answers");
        },
        what);
    add_verb<CalibrationOptions>(
        commands, "calibration", "what your skeins and batts have taught the forecast",
        [](Command& app, CalibrationOptions& o) {
            app.add_option("--until", o.until, "as it was known on this day");
        },
        calibration);
}

}  // namespace battwright::command
