#include "command/cards.hpp"

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <optional>
#include <ostream>
#include <set>
#include <string_view>
#include <utility>

#include "card/output.hpp"
#include "card/recipe_card.hpp"
#include "card/tag.hpp"
#include "command/complain.hpp"
#include "command/labels.hpp"
#include "command/saving.hpp"
#include "command/stash.hpp"
#include "command/units.hpp"
#include "measure/replace.hpp"
#include "measure/save_in_pieces.hpp"
#include "measure/unit_tables.hpp"
#include "recipe/file_name.hpp"
#include "stash/date.hpp"

namespace battwright::command {
namespace {

namespace fs = std::filesystem;
using forecast::Forecast;
// The page of one recipe's forecast.
using PageMaker = std::function<card::Page(const Forecast&, const std::string& recipe)>;

std::string date_of(const CardArguments& args) {
    if (args.date == "today") return stash::today();
    return args.date == "none" ? "" : args.date;
}

card::Units units_of(const CardArguments& args) {
    const Units units = parse_units(args.weights, args.lengths);
    return {units.mass, units.length};
}

// Where the pages go: one file for all, or a folder with a file for each.
struct Target {
    card::Paper paper = card::Paper::a6;
    std::optional<card::Paper> sheet;
    bool folder = false;
    bool alone = false;  // one recipe, one file
    fs::path path;
    std::string ending;
    measure::Saving saving;
};

void check_target(const Target& target, const CardArguments& args) {
    if (target.folder && target.sheet)
        fail("a sheet of cards is one file, and '" + args.output + "' is a folder", "name a .pdf file",
             "--output");
    if (!target.folder && (args.recipes.size() > 1 || target.sheet)) {
        if (target.path.extension() != ".pdf" && target.path.extension() != ".png")
            fail("several cards in one file need a PDF or PNG",
                 "end the file name in .pdf or .png, or name a folder that is there", "--output");
        if (!target.sheet && target.path.extension() == ".png")
            fail("several cards do not go into one PNG",
                 "name a folder that is there, a .pdf file, or use --sheet", "--output");
    }
}

Complaint no_folder(const std::string& path) {
    return {"the folder " + measure::quoted(path) + " does not exist",
            "make it first, or name a file that ends in .pdf, .png, .txt or .md", "--output"};
}

Target target_of(const CardArguments& args, card::Paper usual) {
    Target target;
    target.paper = usual;
    target.path = args.output;
    if (!args.page.empty()) target.paper = value_of(card::parse_paper(args.page));
    if (!args.sheet.empty()) target.sheet = value_of(card::parse_paper(args.sheet), "--sheet");
    std::error_code ignored;
    target.folder = fs::is_directory(target.path, ignored);
    target.alone = args.recipes.size() == 1 && !target.sheet && !target.folder;
    target.ending = "." + args.as;
    target.saving = saving_of(args.replace, args.recipes);
    if (target.folder) {
        if (!card::format_of("card" + target.ending))
            fail("no format '" + args.as + "'", "use pdf, png, txt or md", "--as");
    } else if (auto format = card::format_of(target.path); !format) {
        throw Failed{target.path.has_extension() ? format.error() : no_folder(args.output)};
    }
    check_target(target, args);
    return target;
}

// None for text, which has no sides.
std::optional<card::Paper> paper_of(const Target& target) {
    const auto format = card::format_of(target.folder ? fs::path("card" + target.ending) : target.path);
    if (format && (*format == card::Format::text || *format == card::Format::markdown)) return std::nullopt;
    return target.paper;
}

void warn_of_boxes(int missing, const std::string& name, const Surroundings& s) {
    if (missing > 0)
        *s.err << name << ": " << missing
               << " characters have no font on this machine and are drawn as boxes; install a font for their "
                  "script\n";
}

// What is still to be written when all recipes have been read, and what went wrong so far.
struct Batch {
    std::vector<card::Laid> laid;  // for a sheet
    // For a PDF of a page each, which is written as it grows; once that fails, why. The pages go first.
    std::optional<measure::SaveInPieces> file;
    std::optional<Complaint> unsaved;
    std::optional<card::Pdf> pages;
    std::set<fs::path> written;
    int code = exit_well;
};

// A file of the folder named after the recipe; a second recipe of that name gets a number.
fs::path path_in(const Target& target, const std::string& recipe, const std::string& what, Batch& batch) {
    const std::string stem = recipe::file_stem(recipe) + "-" + what;
    fs::path path = target.path / (stem + target.ending);
    for (int n = 2; !batch.written.insert(path).second; ++n)
        path = target.path / (stem + "-of-" + std::to_string(n) + target.ending);
    return path;
}

void write_one(const card::Page& page, const Target& target, const fs::path& path, const std::string& recipe,
               const Surroundings& s) {
    const auto format = card::format_of(path);
    if (format && (*format == card::Format::text || *format == card::Format::markdown)) {
        value_of(card::write(page, target.paper, path, target.saving));
        return;
    }
    const card::Laid laid = card::lay_out(page, target.paper);
    value_of(card::write(laid, path, target.saving));
    warn_of_boxes(laid.missing_glyphs, recipe, s);
}

void begin_pages(const Target& target, const std::string& title, Batch& batch) {
    if (auto may = measure::may_write(target.path, measure::FileKind::pdf, target.saving.replace,
                                      target.saving.inputs);
        !may)
        batch.unsaved = may.error();
    else if (auto begun = measure::SaveInPieces::begin(target.path); !begun)
        batch.unsaved = begun.error();
    else
        batch.file.emplace(std::move(*begun));
    batch.pages.emplace(title, [&batch](std::string_view bytes) {
        if (batch.unsaved) return false;
        if (auto added = batch.file->add(bytes); !added) batch.unsaved = added.error();
        return !batch.unsaved;
    });
}

void save_pages(Batch& batch, const fs::path& path) {
    const bool whole = batch.pages->finish();
    if (batch.unsaved) throw Failed{*batch.unsaved};
    if (!whole) fail("cannot be made: there is not enough memory", "make fewer cards at once", path.string());
    value_of(batch.file->finish());
}

void take(const std::string& recipe, const card::Page& page, const Target& target, const std::string& what,
          Batch& batch, const Surroundings& s) {
    if (target.folder || target.alone) {
        const fs::path path = target.folder ? path_in(target, recipe, what, batch) : target.path;
        write_one(page, target, path, recipe, s);
        return;
    }
    card::Laid laid = card::lay_out(page, target.paper);
    warn_of_boxes(laid.missing_glyphs, recipe, s);
    if (target.sheet) {
        batch.laid.push_back(std::move(laid));
        return;
    }
    if (!batch.pages) begin_pages(target, laid.name, batch);
    batch.pages->add(laid);
}

void finish_batch(Batch& batch, const Target& target) {
    if (batch.pages)
        save_pages(batch, target.path);
    else if (!batch.laid.empty())
        value_of(
            card::write(value_of(card::sheet_of(batch.laid, *target.sheet)), target.path, target.saving));
}

int run_all(const CardArguments& args, const Target& target, const PageMaker& make, const std::string& what,
            const Context& context) {
    const auto place = place_of(args.foretelling, context);
    Batch batch;
    for (const std::string& recipe : args.recipes) {
        const auto taken = guarded(
            [&] { take(recipe, make(forecast_of(recipe, place), recipe), target, what, batch, context.s); });
        if (!taken) batch.code = complain(taken.error(), context.s);
    }
    finish_batch(batch, target);
    return batch.code;
}

void add_files(Command& app, CardArguments& args, bool must_write) {
    app.add_option("RECIPE", args.recipes, "recipe files (.toml)").required();
    auto output = app.add_option("-o,--output", args.output,
                                 "a .pdf, .png, .txt or .md file, or a folder for a file from each recipe");
    if (must_write) output.required();
    add_replace_option(app, args.replace);
    app.add_option("--as", args.as, "pdf, png, txt or md, for files in a folder");
    app.add_option("--page", args.page, "A6, A5, A4, letter, index (6 x 4 in) or tag (60 x 100 mm)");
    app.add_option("--sheet", args.sheet, "put several on this paper, with marks to cut along");
}

void add_figures(Command& app, CardArguments& args) {
    app.add_option("--weights", args.weights, mass_units_printed());
    app.add_option("--lengths", args.lengths, length_units_printed());
    app.add_option("--date", args.date, "the date to print; none for none");
}

void declare_card(Command& app, CardArguments& args) {
    add_files(app, args, true);
    add_figures(app, args);
    app.add_option("--parts", args.parts,
                   "what to print, as in strip,weights,code; plan has the steps at the carder");
    add_stash_option(app, args.foretelling);
}

void declare_tag(Command& app, CardArguments& args) {
    add_files(app, args, true);
    add_figures(app, args);
    add_label_options(app, args);
    app.add_option("--maker", args.maker, "the maker's name");
    app.add_option("--lot", args.lot, "the lot number");
    app.add_option("--length", args.length, "how long the yarn is, as in \"380 m\"");
    app.add_option("--weight", args.weight, "what the skein or batt weighs, as in \"52 g\"");
    app.add_flag("--skein", args.skein, "of the yarn: what is left of each fibre, with plies and thickness");
    app.add_flag("--no-draft", args.no_draft,
                 "leave out that the content is a draft: you have checked the rules where you sell");
    app.add_flag("--no-care", args.no_care, "leave the care words out");
    app.add_flag("--no-picture", args.no_picture, "leave the picture of the fibre out");
    add_stash_option(app, args.foretelling);
}

void declare_label(Command& app, CardArguments& args) {
    add_files(app, args, false);
    app.add_option("--of", args.of, "batt or yarn; both when left out, and in a file the batt");
    add_label_options(app, args);
    add_stash_option(app, args.foretelling);
}

// Each goes through all the recipes: one that fails is named on `err` and the others are made all the same;
// the exit code then says bad input.
int run_cards(const CardArguments& args, const Context& context) {
    const Surroundings& s = context.s;
    card::CardOptions options;
    options.date = date_of(args);
    options.units = units_of(args);
    options.yarn_length = measure::yarn_unit_beside(options.units.length);
    if (!args.parts.empty()) options.parts = value_of(card::parse_parts(args.parts));
    const Target target = target_of(args, card::Paper::a6);
    int skeins = 0;
    const auto card = [&](const Forecast& f, const std::string&) {
        skeins = std::max(skeins, f.yarn.skeins_logged);
        card::CardOptions own = options;
        if (args.parts.empty()) own.parts = card::usual_parts(f, options, paper_of(target));
        return card::recipe_card(f, own);
    };
    const int code = run_all(args, target, card, "card", context);
    if (code == exit_well && skeins > 0) *s.out << "The yardage " << skeins_words(skeins) << ".\n";
    return code;
}

int run_tags(const CardArguments& args, const Context& context) {
    const Surroundings& s = context.s;
    card::TagOptions options;
    options.units = units_of(args);
    options.market = market_of(args, card::Market::eu_uk);
    options.label = label_options(args);
    if (!args.weight.empty()) options.grams = value_of(measure::parse_mass(args.weight), "--weight").grams;
    options.maker = args.maker;
    options.lot = args.lot;
    options.length = args.length;
    options.date = date_of(args);
    options.skein = args.skein;
    options.care = !args.no_care;
    options.picture = !args.no_picture;
    options.draft = !args.no_draft;
    const Target target = target_of(args, card::Paper::tag);
    std::set<std::string> told;
    const auto tag = [&](const Forecast& f, const std::string& recipe) {
        const card::Label content = card::label_of(f, options);
        fail_if_refused(content, recipe);
        write_notes(content, told, *s.out);
        return card::tag(f, options);
    };
    const int code = run_all(args, target, tag, "tag", context);
    if (code == exit_well)
        *s.out << "The content is of the " << (args.skein ? "yarn" : "batt") << ", for the "
               << card::word_for(options.market) << ". " << card::label_draft << "\n";
    return code;
}

// Drawn, of one product for one market.
int draw_labels(const CardArguments& args, const Context& context) {
    const card::Market market = market_of(args, card::Market::eu_uk);
    const card::LabelOptions options = label_options(args);
    const card::Product product = products_of(args.of).front();
    const Target target = target_of(args, card::Paper::tag);
    const auto page = [&](const Forecast& f, const std::string& recipe) {
        const card::Label content = card::label(card::shares_of(f, market, product), market, options);
        fail_if_refused(content, recipe);
        return card::label_page(recipe::title_of(f.recipe), content, product);
    };
    return run_all(args, target, page, "label", context);
}

int draw_or_print_labels(const CardArguments& args, const Context& context) {
    return args.output.empty() ? run_labels(args, context) : draw_labels(args, context);
}

}  // namespace

void add_card_commands(Commands& commands) {
    commands.add<CardArguments>("card", "make the recipe card", declare_card, run_cards);
    commands.add<CardArguments>("tag", "make a tag for a skein or a batt", declare_tag, run_tags);
    commands.add<CardArguments>("label", "the fibre content as a label states it, printed or drawn",
                                declare_label, draw_or_print_labels);
}

void write_usual_card(const Forecast& forecast, const std::string& path, const measure::Saving& saving) {
    card::CardOptions options;
    options.date = stash::today();
    value_of(card::write(card::recipe_card(forecast, options), card::Paper::a6, path, saving));
}

}  // namespace battwright::command
