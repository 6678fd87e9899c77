#include "card/recipe_card.hpp"

#include <algorithm>
#include <array>

#include "card/care.hpp"
#include "card/content.hpp"
#include "card/label_parts.hpp"
#include "card/layout.hpp"
#include "card/strip_picture.hpp"
#include "carding/words.hpp"
#include "forecast/alike.hpp"
#include "measure/choices.hpp"
#include "measure/nearest.hpp"
#include "recipe/file.hpp"
#include "recipe/file_name.hpp"
#include "recipe/layout.hpp"
#include "text/words.hpp"

namespace battwright::card {
namespace {

using forecast::Forecast;
using Blocks = std::vector<Block>;

void add_strip(Blocks& blocks, const Forecast& f, const CardOptions& /*options*/) {
    blocks.emplace_back(strip_picture(f));
}

std::string added_on(const recipe::Recipe& recipe, std::size_t component) {
    if (recipe.carding.layings.empty() && recipe.components[component].add_on_pass == recipe::last_pass)
        return "last";
    return recipe.carding.passes > 1 ? std::to_string(recipe::first_pass_of(recipe, component)) : "1";
}

void add_weights(Blocks& blocks, const Forecast& f, const CardOptions& options) {
    std::vector<double> grams, percents;
    for (const auto& line : f.components) {
        grams.push_back(line.grams);
        percents.push_back(line.mass_pct);
    }
    grams = weighable(grams, options.units.mass);
    percents = tenths(percents);
    double total = 0.0;
    for (const double g : grams) total += g;
    const std::string pass(recipe::words_of(f.carder).pass);
    Table table{{{"weigh out"}, {"on " + pass, true}, {"weight", true}, {"share", true}}, {}};
    for (std::size_t i = 0; i < f.components.size(); ++i)
        table.rows.push_back(
            {{f.components[i].label, added_on(f.recipe, i), measure::print_mass(grams[i], options.units.mass),
              number(percents[i], 1) + " %"},
             f.components[i].srgb});
    table.rows.push_back(
        {{"together", "", measure::print_mass(total, options.units.mass), "100.0 %"}, {}, true});
    blocks.emplace_back(std::move(table));
}

// Where the fibre is more than one batt: what each batt takes of every component.
void add_batts(Blocks& blocks, const Forecast& f, const CardOptions& options) {
    const carding::WeighOut& out = f.weigh_out;
    constexpr std::size_t most_columns = 6;
    if (out.batts < 2) return;
    const std::size_t shown = std::min(out.batts, most_columns);
    const auto& tool = recipe::words_of(f.carder);
    Table table{{{"for " + std::string(tool.load)}}, {}};
    for (std::size_t b = 0; b < shown; ++b) table.columns.push_back({std::to_string(b + 1), true});
    for (std::size_t c = 0; c < out.components; ++c) {
        Row row{{f.components[c].label}};
        for (std::size_t b = 0; b < shown; ++b)
            row.cells.push_back(measure::print_mass(out.at(b, c), options.units.mass));
        table.rows.push_back(std::move(row));
    }
    blocks.emplace_back(std::move(table));
    if (shown < out.batts)
        blocks.emplace_back(
            Paragraph{"and so on to " + std::string(tool.load) + " " + std::to_string(out.batts) + "."});
    if (!f.plan.feed.recombine) return;
    if (const auto alike = forecast::alike(f, {}, nullptr))
        blocks.emplace_back(Paragraph{forecast::alike_words(f, *alike)});
}

// The feed plan, pass by pass.
void add_plan(Blocks& blocks, const Forecast& f, const CardOptions& options) {
    if (f.plan.steps.empty()) return;
    blocks.emplace_back(Heading{recipe::is_flat(f.carder) ? "Steps" : "Feed plan"});
    for (const carding::Step& step : f.plan.steps)
        blocks.emplace_back(Paragraph{
            std::to_string(step.order) + ". " +
            staple::words_in(step.text_with_quantities, {options.units.length, options.units.mass})});
}

void add_yarn(Blocks& blocks, const Forecast& f, const CardOptions& options) {
    const yarn::YarnForecast& y = f.yarn;
    if (!(y.length_m > 0.0)) return;
    const auto length = [&](double metres) {
        return measure::print_yarn_length(metres, options.yarn_length);
    };
    std::string text = (y.plies == 1 ? std::string("Single") : std::to_string(y.plies) + "-ply") + ", " +
                       number(y.wpi, 0) + " wraps per inch: " + y.thickness_words + ", " + number(y.tex, 0) +
                       " tex; about " + length(y.length_m) + ", four skeins in five from " +
                       length(y.length_low_m) + " to " + length(y.length_high_m) +
                       ", washed and dry. Twist " + number(y.twist_per_inch, 1) +
                       " turns per inch in the single. Finest it spins: " + number(y.finest_wpi_low, 0) +
                       " to " + number(y.finest_wpi_high, 0) + " wraps per inch.";
    blocks.emplace_back(Heading{"Yarn"});
    blocks.emplace_back(Paragraph{std::move(text)});
}

void add_content(Blocks& blocks, const Forecast& f, const CardOptions& /*options*/) {
    const auto shares = merged(shares_of(f, Market::eu_uk));
    std::vector<double> percents;
    percents.reserve(shares.size());
    for (const Share& share : shares) percents.push_back(share.percent);
    percents = tenths(percents);
    std::string text = "Of it: ";
    for (std::size_t i = 0; i < shares.size(); ++i)
        text += (i > 0 ? ", " : "") + shares[i].name + " " + number(percents[i], 1) + " %";
    blocks.emplace_back(Paragraph{text + "."});
}

bool is_laid(const Forecast& f) {
    return !f.recipe.carding.layings.empty() && !f.plan.steps.empty();
}

void add_carding(Blocks& blocks, const Forecast& f, const CardOptions& options) {
    const std::string name = f.carder.name.empty() ? "Drum carder" : f.carder.name;
    const auto length = [&](double mm) { return measure::print_length(mm, options.units.length); };
    const bool flat = recipe::is_flat(f.carder);
    std::string text = name + ", " + length(f.carder.width_mm) + " wide" +
                       (flat ? " and " + length(f.carder.drum_circumference_mm) + " long, " : ", ") +
                       number(f.carder.teeth_per_square_inch, 0) + " teeth to the square inch. " +
                       carding::carding_words(f.plan.feed, f.plan.passes, f.plan.strips);
    if (is_laid(f) && !options.parts.contains(Part::plan))
        text += " The steps are the card's part \"plan\", which is left out here.";
    blocks.emplace_back(Heading{"Carding"});
    blocks.emplace_back(Paragraph{std::move(text)});
}

void add_staple(Blocks& blocks, const Forecast& f, const CardOptions& options) {
    const auto length = [&](double mm) { return measure::print_length(mm, options.units.length); };
    blocks.emplace_back(Heading{"Fibre"});
    blocks.emplace_back(Paragraph{
        "Mean staple " + length(f.length.number_mean_mm) + " (CV " + number(f.length.cv_pct, 0) + " %), " +
        number(f.length.short_share_pct, 1) + " % by weight under " + length(25.0) + "; mean diameter " +
        number(f.diameter.mean_um, 1) + " \xC2\xB5m, " + number(f.diameter.over_30um_pct, 1) +
        " % over 30 \xC2\xB5m. Hands about " + length(f.drafting.hands_apart_mm) +
        " apart; start near a twist of " + number(f.drafting.twist_angle_degrees, 0) + "\xC2\xB0."});
}

std::string first_sentence(const std::string& text) {
    const std::size_t end = text.find(". ");
    return end == std::string::npos ? text : text.substr(0, end + 1);
}

void add_findings(Blocks& blocks, const Forecast& f, const CardOptions& options) {
    if (f.findings.empty()) return;
    blocks.emplace_back(Heading{"Mind"});
    for (const staple::Finding& finding : f.findings) {
        std::string subject = finding.code;
        std::replace(subject.begin(), subject.end(), '-', ' ');
        blocks.emplace_back(Paragraph{
            text::capitalised(std::string(staple::word_for(finding.severity))) + ", " + subject + ": " +
            first_sentence(staple::words_in(finding.remedy_with_quantities,
                                            {options.units.length, options.units.mass}))});
    }
}

void add_notes(Blocks& blocks, const Forecast& f, const CardOptions& /*options*/) {
    std::vector<std::string> notes;
    if (!f.recipe.notes.empty()) notes.push_back(f.recipe.notes);
    for (std::size_t i = 0; i < f.recipe.components.size(); ++i)
        if (!f.recipe.components[i].notes.empty())
            notes.push_back(f.components[i].label + ": " + f.recipe.components[i].notes);
    if (notes.empty()) return;
    blocks.emplace_back(Heading{"Notes"});
    for (std::string& note : notes) blocks.emplace_back(Paragraph{std::move(note)});
}

void add_care(Blocks& blocks, const Forecast& f, const CardOptions& /*options*/) {
    blocks.emplace_back(Heading{"Care and cautions"});
    std::string text;
    for (const auto& lines : {care_of(f), cautions_of(f)})
        for (const std::string& line : lines) text += (text.empty() ? "" : " ") + line;
    blocks.emplace_back(Paragraph{text, true});
}

Code recipe_code(const Forecast& f) {
    return {
        recipe::write_text(f.recipe), "the recipe, for a camera",
        "The recipe is too long for a code that can be read at this size: keep its file, or print a larger "
        "page."};
}

void add_outcome(Blocks& blocks, const Forecast& f, const CardOptions& options) {
    blocks.emplace_back(Heading{"What really came out"});
    Blanks blanks{{"carded on", "batt weighed", "yarn, length", "yarn, wpi and plies", "next time"}};
    if (options.parts.contains(Part::code)) blanks.beside = recipe_code(f);
    blocks.emplace_back(std::move(blanks));
}

// Stands beside the blank lines where those are printed.
void add_code(Blocks& blocks, const Forecast& f, const CardOptions& options) {
    if (!options.parts.contains(Part::outcome)) blocks.emplace_back(recipe_code(f));
}

struct PartMaker {
    Part value;
    std::string_view word, label, help;
    void (*add)(Blocks&, const Forecast&, const CardOptions&);
};
constexpr auto makers = std::to_array<PartMaker>({
    {Part::strip, "strip", "strip", "The batt as carded, over the full width", add_strip},
    {Part::weights, "weights", "weights", "What to weigh out, and the shares", add_weights},
    {Part::batts, "batts", "each batt", "Where it takes several batts: what each takes", add_batts},
    {Part::content, "content", "content", "The fibres by their generic names", add_content},
    {Part::carding, "carding", "carding", "Carder, passes, load", add_carding},
    {Part::plan, "plan", "feed plan", "What to do at the carder, pass by pass", add_plan},
    {Part::staple, "staple", "staple", "Fibre lengths and thickness in short", add_staple},
    {Part::yarn, "yarn", "yarn", "What the yarn will be, with its range", add_yarn},
    {Part::findings, "findings", "findings", "What a practised spinner would say", add_findings},
    {Part::notes, "notes", "notes", "Your notes on this batt", add_notes},
    {Part::care, "care", "care", "Washing, felting, pets, dust", add_care},
    {Part::outcome, "outcome", "blanks", "Lines to write down what really came out", add_outcome},
    {Part::code, "code", "QR code", "The recipe itself, to be read back by a telephone", add_code},
});
static_assert(measure::one_row_each(makers));

}  // namespace

std::set<Part> usual_parts(const Forecast& f, const CardOptions& options, std::optional<Paper> paper) {
    CardOptions without = options;
    without.parts = CardOptions{}.parts;
    if (!is_laid(f)) return without.parts;
    CardOptions with = without;
    with.parts.insert(Part::plan);
    if (!paper) return with.parts;
    const auto sides = [&](const CardOptions& one) {
        return lay_out(recipe_card(f, one), *paper).sides.size();
    };
    return sides(with) <= sides(without) ? with.parts : without.parts;
}

Page recipe_card(const Forecast& f, const CardOptions& options) {
    Page page;
    page.name = recipe::title_of(f.recipe);
    page.blocks.emplace_back(Heading{recipe::title_of(f.recipe), true});
    const std::string weight = measure::print_mass(f.total_grams, options.units.mass);
    page.blocks.emplace_back(
        Paragraph{options.date.empty() ? weight + " of fibre" : options.date + ", " + weight + " of fibre"});
    for (const PartMaker& maker : makers)
        if (options.parts.contains(maker.value)) maker.add(page.blocks, f, options);
    return page;
}

const std::vector<Part>& all_parts() {
    static const std::vector<Part> parts = [] {
        std::vector<Part> all;
        all.reserve(makers.size());
        for (const PartMaker& maker : makers) all.push_back(maker.value);
        return all;
    }();
    return parts;
}

std::string_view word_for(Part part) {
    return measure::row_of(makers, part).word;
}
std::string_view label_for(Part part) {
    return measure::row_of(makers, part).label;
}
std::string_view help_for(Part part) {
    return measure::row_of(makers, part).help;
}

measure::Expected<std::set<Part>> parse_parts(std::string_view words) {
    std::set<Part> parts;
    while (!words.empty()) {
        const std::size_t comma = std::min(words.find(','), words.size());
        const std::string_view word = words.substr(0, comma);
        words.remove_prefix(std::min(comma + 1, words.size()));
        const auto part = measure::parse_word(makers, word, "part of a card");
        if (!part) {
            measure::Complaint complaint = part.error();
            complaint.where = "--parts";
            return tl::make_unexpected(std::move(complaint));
        }
        parts.insert(*part);
    }
    return parts;
}

}  // namespace battwright::card
