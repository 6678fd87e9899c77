// Every change a person can make to the spinning plan, as a pure function of the sheet. No display, no files.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/bench/sheet.hpp"
#include "fibre/catalogue.hpp"
#include "measure/complaint.hpp"
#include "measure/units.hpp"

namespace battwright::app {

// What "with a thread" starts from until she says what is on her cone: 30 tex, 1,000 m, undyed. About a
// two-fold lace thread; common practice, no source.
inline constexpr double starting_thread_tex = 30.0, starting_thread_m = 1000.0;
recipe::Thread starting_thread();

Sheet set_preparation(Sheet sheet, recipe::Preparation preparation);
Sheet set_thickness(Sheet sheet, recipe::Thickness thickness);
// The same in wraps per inch.
Sheet set_wraps(Sheet sheet, double wpi);
// Plain plying with 1 to 12 strands; 1 is the single as it is.
Sheet set_plies(Sheet sheet, int plies);
// Ways other than `plied` have their own number of strands, so the plan's goes back to the usual one. A
// thread comes in when the way needs one and leaves again if it was never changed.
Sheet set_plying(Sheet sheet, recipe::Plying plying);
Sheet set_twist(Sheet sheet, recipe::Twist twist);
// Without a thread, a yarn plied with one is plain again.
Sheet set_thread(Sheet sheet, std::optional<recipe::Thread> thread);
Sheet set_wheel_ratio(Sheet sheet, std::optional<double> ratio);

// What the yarn is for: a thing of recipe::purpose_things() or "", of one of its sizes or "" (a size the
// thing does not come in is dropped), and whether it is worn next to the skin, or nobody said.
Sheet set_purpose_thing(Sheet sheet, std::string_view thing);
Sheet set_purpose_size(Sheet sheet, std::string_view size);
Sheet set_next_to_skin(Sheet sheet, std::optional<bool> next_to_skin);
// The sizes the thing comes in.
std::vector<std::string> sizes_of(std::string_view thing);
// Fibre of the thread, as a table of lots writes it; empty: nobody knows. A plan without a thread gets the
// starting one.
measure::Expected<Sheet> type_thread_content(const Sheet& sheet, std::string_view text,
                                             const fibre::Catalogue& catalogue);

// The plan as a recipe would judge it: out of range, a thread missing.
measure::Expected<void> check_plan(const recipe::Spinning& spinning);

// What was typed into a field, read and judged; a complaint changes nothing.
// "12 wpi", "200 tex", "fine"; a bare number is wraps per inch.
measure::Expected<Sheet> type_thickness(const Sheet& sheet, std::string_view text);
// "8.5:1", "8.5"; empty: no wheel.
measure::Expected<Sheet> type_wheel_ratio(const Sheet& sheet, std::string_view text);
// Finished yarn, "92 g"; a bare number in `unit`. Grams, above zero and at most a tonne.
measure::Expected<double> type_yarn_weight(std::string_view text, measure::MassUnit unit);
// "2/28 Nm", "60 tex"; "400 m", "437 yd", and a bare number in `unit`. A plan without a thread gets the
// starting one with this changed.
measure::Expected<Sheet> type_thread_count(const Sheet& sheet, std::string_view text);
measure::Expected<Sheet> type_thread_length(const Sheet& sheet, std::string_view text,
                                            measure::YarnLengthUnit unit);

}  // namespace battwright::app
