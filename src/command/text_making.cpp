// The parts of the text forecast that are about the carder and the wheel.
#include <algorithm>

#include "carding/words.hpp"
#include "command/layout.hpp"
#include "command/report.hpp"
#include "command/stash.hpp"
#include "forecast/alike.hpp"
#include "measure/unit_tables.hpp"
#include "text/words.hpp"
#include "yarn/finish.hpp"
#include "yarn/habit_words.hpp"
#include "yarn/spin.hpp"

namespace battwright::command {
namespace {

std::string weigh_out_text(const forecast::Forecast& f, const Units& units) {
    const auto& w = f.weigh_out;
    const auto& words = recipe::words_of(f.carder);
    const auto tool_text = [&] {
        if (f.carder.kind == carding::ToolKind::drum) return std::string(" on this carder");
        return f.carder.kind == carding::ToolKind::board ? std::string() : std::string(" off these cards");
    };
    std::string text = wrapped(text::counted(static_cast<std::int64_t>(w.batts), words.load, words.loads) +
                                   tool_text() + "; weigh out for each:",
                               2);
    std::size_t widest = 10;
    for (const auto& line : f.components) widest = std::max(widest, width_of(line.label));
    for (std::size_t i = 0; i < f.components.size(); ++i) {
        text += "    " + left(f.components[i].label, widest + 2);
        for (std::size_t b = 0; b < w.batts && b < 8; ++b)
            text += right(measure::print_mass(w.at(b, i), units.mass), 10);
        text += "\n";
    }
    if (w.batts > 8)
        text +=
            wrapped("and so on, " + std::to_string(w.batts) + " " + std::string(words.loads) + " in all", 4);
    for (const auto& word : w.words_with_quantities)
        text += wrapped(staple::words_in(word, {units.length, units.mass}), 2);
    return text;
}

std::string passes_text(const forecast::Forecast& f, const forecast::Batt& batt) {
    std::string text;
    const std::string pass(recipe::words_of(f.carder).pass);
    for (const auto& m : batt.measures)
        text += wrapped("after " + pass + " " + std::to_string(m.pass) + ": " + carding::described(m) +
                            " (places in the batt are " + number(m.strip_variation_de00, 1) +
                            " from its mean colour; about 1 is just seen)",
                        2);
    return text + wrapped(batt.over_carding.text, 2);
}

std::string looks_text(const forecast::Forecast& f) {
    std::string text = std::string(recipe::words_of(f.carder).passes) + " for a look:";
    for (const auto& [look, answer] : forecast::passes_for_looks(f)) {
        text += std::string(look == carding::Look::striped ? " " : ", ") +
                std::string(carding::word_for(look)) + " or better ";
        text += answer.passes ? std::to_string(*answer.passes) : "not within 12";
        if (answer.passes && answer.nep_risk.risk != carding::Risk::low) text += " (with a risk of neps)";
    }
    if (f.components.size() > 1 && f.plan.feed.manner != carding::Manner::alternating &&
        !f.plan.feed.by_hand) {
        const auto in_turn = forecast::passes_for_in_turn(f, carding::Look::heathered);
        if (in_turn.passes)
            text += "; fed in alternating thin layers heathered after " + std::to_string(*in_turn.passes);
    }
    return wrapped(text, 2);
}

std::string other_tools_text(const forecast::Forecast& f, const Units& units) {
    std::string text;
    for (const auto& other : f.other_tools)
        text += (text.empty()
                     ? (f.carder.kind == carding::ToolKind::drum ? "without a drum: " : "on another tool: ")
                     : "; ") +
                other.tool.name + ", " + std::to_string(other.loads) + " times " +
                measure::print_mass(other.load_grams, units.mass);
    return text.empty() ? text : wrapped(text, 2);
}

std::string plan_text(const carding::Plan& plan, const staple::Units& units) {
    const auto& words = measure::row_of(recipe::tool_rows, plan.feed.tool);
    std::string text = wrapped(carding::carding_words(plan.feed, plan.passes, plan.strips), 2);
    for (const auto& step : plan.steps)
        text += wrapped(
            std::to_string(step.order) + ". " + staple::words_in(step.text_with_quantities, units), 4);
    text += wrapped("about " + number(plan.minutes_per_batt, 0) + " minutes a " + std::string(words.load) +
                        " (common practice)",
                    2);
    for (const auto& caution : plan.cautions)
        text += wrapped("Mind: " + staple::words_in(caution.text_with_quantities, units), 2);
    return text;
}

// Per metre or per yard, as the yarn is measured.
std::string treadles_text(const yarn::YarnForecast& y, measure::YarnLengthUnit unit) {
    if (!(y.treadles_per_m > 0.0)) return {};
    const auto& row = measure::row_of(measure::yarn_length_units, unit);
    const double metres = row.size;
    const std::string each = " a " + std::string(row.name) + " of ";
    std::string text = "; " + number(y.treadles_per_m * metres, 0) + " treadles" + each + "single";
    if (y.ply_treadles_per_m > 0.0) text += ", " + number(y.ply_treadles_per_m * metres, 0) + each + "plying";
    return text;
}

std::string turns_text(const yarn::YarnForecast& y, measure::LengthUnit unit) {
    const bool inches = unit == measure::LengthUnit::inch;
    const std::string single =
        inches ? number(y.twist_per_inch, 1) + " turns an inch" : number(y.twist_per_m, 0) + " turns a metre";
    return single + " in the single, " +
           (inches ? number(y.ply_twist_per_inch, 1) : number(y.ply_twist_per_m, 0)) + " in the ply";
}

std::string twist_text(const yarn::YarnForecast& y, measure::YarnLengthUnit unit) {
    const auto range = yarn::range_of(y.twist_word);
    std::string text = std::string(recipe::word_for(y.twist_word)) + " twist: the surface lies at " +
                       number(y.twist_angle_degrees, 0) + " degrees (" + number(range.from_degrees, 0) +
                       " to " + number(range.to_degrees, 0) + " is called that)";
    text += treadles_text(y, unit);
    return wrapped(text, 2);
}

template <class Length>
std::string wash_text(const yarn::YarnForecast& y, const Length& length) {
    return wrapped(std::string(yarn::measure_when) + ": off the wheel it is about " +
                       length(y.length_before_wash_m) + " and " + number(y.wpi_before_wash, 0) +
                       " wraps, before it shrinks by " + number(y.shrink_pct, 0) + " % (" +
                       number(y.shrink_low_pct, 0) + " to " + number(y.shrink_high_pct, 0) +
                       " % by how it was spun and handled) and blooms by " + number(y.bloom_pct, 0) + " %",
                   2);
}

template <class Length>
std::string thread_text(const yarn::YarnForecast& y, const Length& length) {
    std::string text;
    if (y.thread_needed_m > 0.0) text += wrapped("thread for plying: " + length(y.thread_needed_m), 2);
    if (y.thread_complaint) text += wrapped(measure::to_line(*y.thread_complaint), 2);
    return text;
}

std::string yarn_text(const yarn::YarnForecast& y, const Units& units) {
    if (y.length_m <= 0.0) return wrapped("no yarn can be forecast from this plan", 2);
    const bool metric = units.mass == measure::MassUnit::gram && units.length != measure::LengthUnit::inch;
    const auto unit = metric ? measure::YarnLengthUnit::metre : measure::YarnLengthUnit::yard;
    const auto length = [&](double metres) { return measure::print_yarn_length(metres, unit); };
    std::string text =
        wrapped(text::counted(y.plies, "ply", "plies") + " at " + number(y.wpi, 0) +
                    " wraps per inch: " + y.thickness_words + ", " + number(y.tex, 0) + " tex; about " +
                    length(y.length_m) + "; four skeins in five between " + length(y.length_low_m) + " and " +
                    length(y.length_high_m) + ", washed and dry",
                2);
    if (y.skeins_logged > 0) text += wrapped("the yardage " + skeins_words(y.skeins_logged), 2);
    if (const std::string words = yarn::plan_words(y); !words.empty()) text += wrapped(words, 2);
    text +=
        wrapped("single: " + number(y.fibres_in_section, 0) + " fibres in the section (at least " +
                    number(y.least_fibres, 0) + "); with these plies the finest sensible yarn has about " +
                    number(y.finest_wpi, 0) + " wraps (" + number(y.finest_wpi_low, 0) + " to " +
                    number(y.finest_wpi_high, 0) + "); " + turns_text(y, units.length),
                2);
    text += wrapped(std::string(y.effect.text), 2);
    text += twist_text(y, unit) + wash_text(y, length) + thread_text(y, length);
    if (!y.spinnable) text += wrapped("this is finer than the fibre allows: spin thicker, or ply fewer", 2);
    return text;
}

std::string alike_text(const forecast::Forecast& f, const forecast::Batt& batt) {
    const auto alike = forecast::alike(f, {}, batt.passes.empty() ? nullptr : &batt.passes.front());
    return alike ? wrapped(forecast::alike_words(f, *alike), 2) : std::string();
}

}  // namespace

std::string making_text(const forecast::Forecast& f, const forecast::Batt& batt, const Units& units) {
    return "\nAt the carder\n" + weigh_out_text(f, units) + alike_text(f, batt) + other_tools_text(f, units) +
           passes_text(f, batt) + looks_text(f) + plan_text(f.plan, {units.length, units.mass}) +
           "\nAt the wheel\n" + yarn_text(f.yarn, units);
}

}  // namespace battwright::command
