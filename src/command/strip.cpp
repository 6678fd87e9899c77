#include "command/strip.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <ostream>

#include "command/complain.hpp"
#include "command/saving.hpp"
#include "command/units.hpp"
#include "recipe/carder.hpp"
#include "strip/simulated.hpp"
#include "text/numbers.hpp"
#include "text/words.hpp"

namespace battwright::command {
namespace {

using carding::Pull;
using forecast::Forecast;
using strip::TableView;

constexpr std::array<measure::Word<Pull>, 3> pulls{{{Pull::long_strip, "long-strip"},
                                                    {Pull::torn_lengthwise, "torn-lengthwise"},
                                                    {Pull::torn_across, "torn-across"}}};
static_assert(measure::one_row_each(pulls));

// The table's picture is as large as a page on a screen.
constexpr int table_width = 1600, table_height = 1000;
// The widest picture at a hand's height; more is drawn for minutes without a word.
constexpr std::int64_t most_pixels = 32'000'000;
constexpr int widest = 16384;

// The value whose word that is.
template <class Row, std::size_t n>
std::optional<decltype(Row::value)> named(const std::array<Row, n>& rows, std::string_view word) {
    const auto found = std::ranges::find(rows, word, &Row::word);
    return found == rows.end() ? std::nullopt : std::optional(found->value);
}

// How the batt is taken to the wheel.
Pull parse_pull(const std::string& text) {
    if (const auto pull = named(pulls, text)) return *pull;
    fail("no way '" + text + "' to take a batt to the wheel",
         "use " + text::listed(measure::words_of(pulls), "or"), "--pull");
}

void take_view(const std::string& text, StripRequest& asked) {
    asked.view = named(strip::table_views, text);
    if (asked.view) return;
    if (const auto pull = named(pulls, text)) {
        asked.pull = *pull;
        return;
    }
    auto known = measure::words_of(strip::table_views);
    for (const std::string& word : measure::words_of(pulls)) known.push_back(word);
    fail("no view '" + text + "'", "use " + text::listed(known, "or"), "--view");
}

void check_side(int pixels, std::string_view noun, const char* option) {
    if (pixels >= 1 && pixels <= widest) return;
    fail("the " + std::string(noun) + " is " + std::to_string(pixels) + " pixels",
         "give 1 to " + std::to_string(widest), option);
}

void check_size(const StripRequest& asked) {
    check_side(asked.width, "width", "--width");
    check_side(asked.height, "height", "--height");
    const auto pixels = static_cast<std::int64_t>(asked.width) * asked.height;
    if (pixels <= most_pixels) return;
    fail("a picture of " + std::to_string(pixels / 1'000'000) + " million pixels would take minutes",
         "make it narrower or lower, at most " + std::to_string(most_pixels / 1'000'000) + " million pixels",
         "--width");
}

// "30,80": percent from the left and from the top.
void take_middle(const std::string& text, strip::TableSettings& ask) {
    const std::size_t comma = text.find(',');
    const auto x = text::read_decimal(text.substr(0, comma));
    const auto y = comma == std::string::npos ? std::nullopt : text::read_decimal(text.substr(comma + 1));
    if (!x || !y || !(*x >= 0.0 && *x <= 100.0) || !(*y >= 0.0 && *y <= 100.0))
        fail("'" + text + "' is no place on the table",
             "give percent from the left and from the top, as in 30,80", "--middle");
    ask.middle_x = 0.01 * *x;
    ask.middle_y = 0.01 * *y;
}

void take_table(const StripArguments& args, StripRequest& asked) {
    asked.table = args.table || args.each_pass || args.zoom != 1.0 || args.middle != "50,50" ||
                  (asked.view && !strip::fills_strip(*asked.view));
    if (asked.table && !asked.view)
        fail("'" + args.view + "' is an order of spinning, nothing on a table",
             "use --view roving, or leave out --table", "--view");
    if (!(args.zoom >= 1.0 && args.zoom <= 1000.0))
        fail("the picture cannot be made that much larger", "give 1 to 1000", "--zoom");
    asked.ask.zoom = args.zoom;
    asked.each_pass = args.each_pass;
    const auto units = parse_units(args.weights, args.lengths);
    asked.unit = units.length;
    asked.mass = units.mass;
    take_middle(args.middle, asked.ask);
}

void check_strip_output(const StripArguments& args) {
    if (std::filesystem::path(args.output).extension() != ".png")
        fail("'" + args.output + "' is no PNG file name", "end the file name in .png", "--output");
    // Before the drawing, which may take long.
    const auto saving = saving_of(args.replace, {args.recipe});
    value_of(measure::may_write(args.output, measure::FileKind::png, saving.replace, saving.inputs));
}

strip::Scene scene_for(const Forecast& forecast, int passes, const StripRequest& asked) {
    if (!asked.view) return strip::pulled_scene(forecast, passes, asked.pull);
    return strip::carded_scene(forecast, passes,
                               *asked.view == TableView::face ? strip::View::face : strip::View::edge);
}

void save(const strip::Image& image, const StripArguments& args) {
    value_of(strip::save_png(image, args.output, saving_of(args.replace, {args.recipe})));
}

[[noreturn]] void fail_without_yarn(const std::string& words, const StripArguments& args) {
    fail(words, "mend the plan under [spinning]: battwright forecast tells what it gives", args.recipe);
}

void write_yarn(const Forecast& forecast, int passes, const StripArguments& args, const StripRequest& asked,
                const Surroundings& s) {
    const auto scene = strip::carded_yarn_scene(
        forecast, passes, asked.pull, strip::yarn_view_of(*asked.view), {0.01 * args.from_pct, 1.0});
    const std::string words = strip::caption(scene, asked.width, strip::yarn_split(asked.height).stretch);
    if (scene.ply_count == 0) fail_without_yarn(words, args);
    save(strip::draw_with_run(scene, asked.width, asked.height, {1.0, 1.0, 1.0}, {0.1, 0.1, 0.12}), args);
    if (!words.empty()) *s.out << words << "\n";
}

void write_table(const Forecast& forecast, int passes, const StripArguments& args, const StripRequest& asked,
                 const Surroundings& s) {
    const forecast::Batt batt = forecast::batt_of(forecast, {passes, false, 0});
    strip::TableSettings ask = asked.ask;
    ask.passes = {passes};
    if (asked.each_pass) {
        ask.passes.clear();
        for (const auto& pass : batt.passes) ask.passes.push_back(pass.number);
    }
    const card::TableSheet sheet =
        card::table_sheet(forecast, batt, ask, {asked.width, asked.height, asked.unit, 0, asked.mass});
    if (!sheet.remark.empty() && strip::is_yarn(ask.view)) fail_without_yarn(sheet.remark, args);
    if (!sheet.remark.empty()) fail(sheet.remark, "add a component to the recipe", args.recipe);
    value_of(card::save_table(sheet, args.output, saving_of(args.replace, {args.recipe})));
    *s.out << sheet.caption << "\n";
}

}  // namespace

void add_strip_options(Command& strip, StripArguments& args) {
    strip.add_option("-o,--output", args.output, "the PNG file to write").required();
    add_replace_option(strip, args.replace);
    strip.add_option("--width", args.width, "pixels");
    strip.add_option("--height", args.height, "pixels");
    strip.add_option("--view", args.view,
                     "edge or face of the batt; rolled, roving or rolags made of it; or the order of "
                     "spinning when it is pulled off as one long-strip, torn-lengthwise or torn-across; or "
                     "the yarn: single, plied, skein or swatch");
    strip.add_option("--pull", args.pull,
                     "of the yarn: the batt pulled off as one long-strip, torn-lengthwise or torn-across");
    strip.add_option("--from", args.from_pct,
                     "of the yarn: where the enlarged stretch begins, percent of the way along");
    strip.add_option("--passes", args.passes,
                     "passes through the carder, 1 to " + std::to_string(recipe::most_passes));
    strip.add_flag("--table", args.table, "all of it as it lies on the table, to scale, with a scale bar");
    strip.add_flag("--each-pass", args.each_pass, "on the table, after each pass side by side");
    strip.add_option("--zoom", args.zoom, "on the table: so many times larger than all of it");
    strip.add_option("--middle", args.middle,
                     "on the table: what is in the picture's middle, percent from the left and from the "
                     "top, as in 30,80");
    strip.add_option("--lengths", args.lengths, "of the scale bar and the words: " + length_units_printed());
    strip.add_option("--weights", args.weights, "of the words: " + mass_units_printed());
}

StripRequest strip_asked(const StripArguments& args) {
    StripRequest asked;
    asked.pull = asked.ask.pull = parse_pull(args.pull);
    take_view(args.view, asked);
    take_table(args, asked);
    if (asked.view) asked.ask.view = *asked.view;
    const auto side = [](int given, int usual) { return given == as_usual ? usual : given; };
    asked.width = side(args.width, asked.table ? table_width : strip::usual_width_px);
    asked.height = side(args.height, asked.table ? table_height : strip::usual_height_px);
    check_size(asked);
    if (args.passes != as_usual && (args.passes < 1 || args.passes > recipe::most_passes))
        fail(std::to_string(args.passes) + " passes", "give 1 to " + std::to_string(recipe::most_passes),
             "--passes");
    if (!(args.from_pct >= 0.0 && args.from_pct <= 100.0))
        fail("the picture cannot begin there", "give 0 to 100 percent", "--from");
    check_strip_output(args);
    return asked;
}

void write_strip(const Forecast& forecast, const StripArguments& args, const StripRequest& asked,
                 const Surroundings& s) {
    const int passes = args.passes == as_usual ? forecast.recipe.carding.passes : args.passes;
    if (asked.table)
        write_table(forecast, passes, args, asked, s);
    else if (asked.view && strip::is_yarn(*asked.view))
        write_yarn(forecast, passes, args, asked, s);
    else
        save(strip::draw(scene_for(forecast, passes, asked), asked.width, asked.height), args);
}

}  // namespace battwright::command
