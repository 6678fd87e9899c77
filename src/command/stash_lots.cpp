// Putting a lot on the shelf and changing what is said of it.
#include <filesystem>

#include "colour/spaces.hpp"
#include "command/layout.hpp"
#include "command/stash_json.hpp"
#include "command/stash_parts.hpp"
#include "command/stash_photo.hpp"
#include "recipe/kinds.hpp"
#include "stash/mixture_words.hpp"

namespace battwright::command {
namespace {

struct LotOptions : Common {
    std::string mark, name, weight, form, maker, date, place, cost, yield, staple, diameter, notes, note;
    std::vector<std::string> fibres, colours;
    bool raw = false;
    PhotoOptions photo;
};

void add_lot_options(Command& app, LotOptions& o) {
    app.add_option("--name", o.name, "what you call it");
    app.add_option("--fibre", o.fibres,
                   "a fibre of the catalogue; of a blend each with its share, as in \"polwarth 70 %\"");
    app.add_option("--colour", o.colours, "as in \"dark blue\" or \"#2f5d50\"; several each with its share");
    app.add_option("--photo", o.photo.photo, "a photo of it; the colours are read from it unless given");
    add_photo_options(app, o.photo);
    app.add_option("--form", o.form, "top, roving, sliver, braid, batt, locks, fleece ...");
    app.add_flag("--raw", o.raw, "not yet scoured");
    app.add_option("--yield", o.yield, "what scouring leaves of a raw lot, as in \"65 %\"");
    app.add_option("--cost", o.cost, "of the whole lot, as in \"12.50 EUR\"");
    app.add_option("--maker", o.maker, "who made or grew it");
    app.add_option("--date", o.date, "when you got it, as in 2024-05-17");
    app.add_option("--place", o.place, "where the bag lies");
    app.add_option("--staple", o.staple, "the tag's own figure, as in \"95 mm\"");
    app.add_option("--diameter", o.diameter, "the tag's own figure, as in \"21 um\"");
    app.add_option("--notes", o.notes, "anything else");
}

void take_texts(const LotOptions& o, stash::Lot& lot) {
    o.take("--name", o.name, lot.name);
    o.take("--maker", o.maker, lot.maker);
    o.take("--date", o.date, lot.got_on);
    o.take("--place", o.place, lot.place);
    o.take("--notes", o.notes, lot.notes);
    if (o.given("--photo"))
        lot.photo = o.photo.photo.empty() ? "" : std::filesystem::absolute(o.photo.photo).string();
}

void take_colours(const LotOptions& o, stash::Lot& lot) {
    if (o.given("--colour"))
        return put(given(with_semicolons(o.colours), "--colour", stash::parse_palette), lot.palette);
    if (o.photo.photo.empty()) {
        if (const char* option = photo_option_given(o)) fail_without_photo(option);
        return;
    }
    lot.palette = palette_from(o.photo);
}

void take_figures(const LotOptions& o, stash::Lot& lot, const fibre::Catalogue& catalogue) {
    put(given(with_semicolons(o.fibres), "--fibre", stash::parse_content), lot.content);
    recipe::settle_kinds(lot.content, catalogue);
    put(given(o.form, "--form", stash::parse_form), lot.form);
    put(given(o.staple, "--staple", millimetres_of), lot.staple_mm);
    put(given(o.diameter, "--diameter", measure::parse_diameter_micrometres), lot.diameter_um);
    if (o.raw && !lot.raw) {
        lot.raw = true;
        lot.yield_pct = stash::usual_yield(lot.content, catalogue).middle_pct();
    }
    put(given(o.yield, "--yield", measure::parse_percent), lot.yield_pct);
}

// Everything but the cost, which needs the stash's currency.
void take_all(const LotOptions& o, stash::Lot& lot, const fibre::Catalogue& catalogue) {
    take_texts(o, lot);
    take_figures(o, lot, catalogue);
    take_colours(o, lot);
}

// What a raw lot is taken to give when nobody says.
std::string yield_told(const LotOptions& o, const stash::Lot& lot, const fibre::Catalogue& catalogue) {
    if (!o.raw || o.given("--yield")) return "";
    return "raw: taken to leave " + measure::print_percent(lot.yield_pct) + " clean; " +
           stash::yield_words(stash::usual_yield(lot.content, catalogue)) + " Say yours with --yield.\n";
}

void take_cost(const LotOptions& o, stash::Lot& lot, stash::Stash& stash) {
    if (!o.cost.empty()) lot.cost = money_of(o.cost, stash);
}

Answer add_lot(const Context& context, const LotOptions& o) {
    const auto grams = weight_of(o.weight, "--weight");
    stash::Lot lot;
    lot.mark = o.mark;
    take_all(o, lot, context.catalogue);
    // Looked over first, so that no file is made for a lot that cannot be kept.
    if (auto fault = stash::fault_in(lot, context.catalogue)) throw Failed{std::move(*fault)};
    auto stash = open_stash(o, context, Opening::creating);
    stash::Lot made;
    value_of(stash.all_or_nothing([&] {
        take_cost(o, lot, stash);
        made = value_of(stash.add(lot, grams, o.note));
        return Expected<void>();
    }));
    const auto shelved = value_of(stash.lot(made.mark));
    if (o.json) return Answer{printed(lot_json(shelved))};
    std::string text =
        made.mark + " is on the shelf: " + made.name + ", " + o.mass_as(o.weight, shelved.grams) + "\n";
    if (!o.photo.photo.empty()) text += "colours: " + palette_text(made.palette) + "\n";
    text += yield_told(o, made, context.catalogue);
    return Answer{text + "Write the mark on the bag's tag.\n"};
}

Answer edit_lot(const Context& context, const LotOptions& o) {
    auto stash = open_stash(o, context, Opening::writing);
    stash::Shelved after;
    value_of(stash.all_or_nothing([&] {
        auto shelved = value_of(stash.lot(o.mark));
        take_all(o, shelved.lot, context.catalogue);
        take_cost(o, shelved.lot, stash);
        value_of(stash.change(shelved.lot));
        after = value_of(stash.lot(o.mark));
        return Expected<void>();
    }));
    if (o.json) return Answer{printed(lot_json(after))};
    return Answer{after.lot.mark + " is changed: " + after.lot.name + "\n" +
                  yield_told(o, after.lot, context.catalogue)};
}

Answer show_colours(const Context&, const LotOptions& o) {
    const auto palette = palette_from(o.photo);
    if (o.json) return Answer{printed({{"colours", palette_json(palette)}})};
    std::string text;
    for (const recipe::Tint& tint : palette)
        text += colour::hex(tint.colour) + right(measure::print_percent(tint.share_pct), 10) + "\n";
    return Answer{text};
}

}  // namespace

void add_lot_verbs(StashCommands& commands) {
    add_verb<LotOptions>(
        commands, "add", "put a lot on the shelf",
        [](Command& app, LotOptions& o) {
            app.add_option("--weight", o.weight, "as it lies, as in \"120 g\"");
            app.add_option("--mark", o.mark, "the mark on its tag, if it has one already");
            app.add_option("--note", o.note, "about the purchase");
            add_lot_options(app, o);
        },
        add_lot);
    add_verb<LotOptions>(
        commands, "edit", "change what is said of a lot; its weight has verbs of its own",
        [](Command& app, LotOptions& o) {
            app.add_option("MARK", o.mark, "the mark on its tag").required();
            add_lot_options(app, o);
        },
        edit_lot);
    add_verb<LotOptions>(
        commands, "colours", "read the colours of a photo, and keep nothing",
        [](Command& app, LotOptions& o) {
            app.add_option("PHOTO", o.photo.photo, "a JPEG or PNG").required();
            add_photo_options(app, o.photo);
        },
        show_colours);
}

}  // namespace battwright::command
