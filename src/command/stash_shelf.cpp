// Looking at the shelf: lists, one lot in full, and the tag for its bag.
#include <algorithm>

#include "card/output.hpp"
#include "colour/names.hpp"
#include "colour/spaces.hpp"
#include "command/layout.hpp"
#include "command/saving.hpp"
#include "command/stash_common.hpp"
#include "command/stash_json.hpp"
#include "command/stash_parts.hpp"
#include "measure/nearest.hpp"
#include "stash/date.hpp"
#include "stash/mixture_words.hpp"
#include "text/words.hpp"

namespace battwright::command {
namespace {

struct ListOptions : Common {
    std::string kind, form, at_least, at_most, near, text, from, to, order, scrap_under;
    double within = stash::NearColour{}.most_de00;
    bool any_tint = false, scraps = false, empties = false;
};
struct ShowOptions : Common {
    std::string mark, output, page = "tag";
    bool replace = false;
};

stash::Order order_of(const ListOptions& o) {
    if (o.order.empty()) return o.near.empty() ? stash::Order::as_added : stash::Order::nearest;
    if (o.order == "nearest" && o.near.empty())
        fail("nearest to what?", "add --near with a colour, as in \"dark blue\" or \"#2f5d50\"", "--order");
    for (const auto& row : stash::orders)
        if (o.order == row.word) return row.value;
    const std::vector<std::string> words = measure::words_of(stash::orders);
    const std::string question = measure::did_you_mean(o.order, words);
    fail("no order " + measure::quoted(o.order),
         question.empty() ? "use " + text::listed(words, "or") : question, "--order");
}

void take_weights(const ListOptions& o, stash::Filter& filter) {
    filter.at_least_grams = given(o.at_least, "--at-least", grams_of);
    filter.at_most_grams = given(o.at_most, "--at-most", grams_of);
    const auto scrap = given(o.scrap_under, "--scrap-under", grams_of);
    filter.scraps_only = o.scraps || scrap;
    filter.scrap_grams = scrap.value_or(stash::scrap_grams);
}

void take_dates(const ListOptions& o, stash::Filter& filter) {
    given(o.from, "--from", stash::parse_date);
    given(o.to, "--to", stash::parse_date);
    filter.got_from = o.from;
    filter.got_to = o.to;
}

void take_colour(const ListOptions& o, stash::Filter& filter) {
    const auto near = given(o.near, "--near", colour::parse_colour);
    if (!near && (o.given("--within") || o.any_tint))
        fail("near to what?", "add --near with a colour, as in \"dark blue\" or \"#2f5d50\"",
             o.any_tint ? "--any-tint" : "--within");
    if (!(o.within >= 0.0)) fail("the distance is none", "give CIEDE2000, as in 10", "--within");
    if (near) filter.near = stash::NearColour{colour::lab(*near), o.within, o.any_tint};
}

stash::Filter filter_of(const ListOptions& o, const fibre::Catalogue& catalogue) {
    stash::Filter filter;
    if (!o.kind.empty()) filter.kind = kind_named(o.kind, catalogue, "--kind").id;
    filter.form = given(o.form, "--form", stash::parse_form);
    filter.text = o.text;
    filter.empties = o.empties;
    take_weights(o, filter);
    take_dates(o, filter);
    take_colour(o, filter);
    return filter;
}

std::string first_colour(const stash::Shelved& shelved) {
    return shelved.colour ? colour::hex(colour::clipped(colour::srgb_from(*shelved.colour))) : "";
}

// "polwarth 70 %, bombyx-silk 30 %"; one kind alone without its share.
std::string content_text(const std::vector<recipe::Content>& content) {
    std::string text;
    for (const recipe::Content& part : content)
        text += (text.empty() ? "" : ", ") + part.fibre +
                (content.size() > 1 ? " " + measure::print_percent(part.share_pct) : "");
    return text;
}

std::string rows_text(const std::vector<std::shared_ptr<const stash::Shelved>>& lots,
                      measure::MassUnit unit) {
    std::string text = "  " + left("mark", 8) + right("weight", 9) + "  " + left("colour", 9) +
                       left("form", 9) + "name, fibre\n";
    double grams = 0.0;
    for (const auto& lot : lots) {
        grams += lot->grams;
        text += "  " + left(lot->lot.mark, 8) + right(measure::print_mass(lot->grams, unit), 9) + "  " +
                left(first_colour(*lot), 9) + left(std::string(stash::word_for(lot->lot.form)), 9) +
                lot->lot.name + ", " + content_text(lot->lot.content) +
                (stash::is_scrap(*lot) ? " (scrap)" : "") + "\n";
    }
    return text + "  " + counted(static_cast<std::int64_t>(lots.size()), "lot", "lots") + ", " +
           measure::print_mass(grams, unit) + "\n";
}

Answer list(const Context& context, const ListOptions& o) {
    const auto filter = filter_of(o, context.catalogue);
    const auto order = order_of(o);
    const auto stash = open_stash(o, context, Opening::reading);
    const auto lots = value_of(stash.shelf(filter, order));
    if (!o.json)
        return Answer{lots.empty() ? "No lot on the shelf is like that.\n" : rows_text(lots, o.units.mass)};
    double grams = 0.0;
    for (const auto& lot : lots) grams += lot->grams;
    return Answer{printed({{"lots", list_json(lots,
                                              [&](const auto& lot) {
                                                  auto json = lot_json(*lot);
                                                  if (filter.near)
                                                      json.set("away_de00",
                                                               *stash::distance(*lot, *filter.near));
                                                  return json;
                                              })},
                           {"total_g", grams}})};
}

std::string line(const std::string& what, const std::string& value) {
    return value.empty() ? "" : wrapped(what + ": " + value, 2);
}

std::string lot_text(const stash::Shelved& shelved, const Common& o) {
    const stash::Lot& lot = shelved.lot;
    std::string weight = o.mass(shelved.grams);
    if (lot.raw)
        weight += " raw, " + o.mass(shelved.clean_grams()) + " of it clean fibre (yield " +
                  measure::print_percent(lot.yield_pct) + ")";
    if (stash::is_scrap(shelved)) weight += " (scrap)";
    return lot.mark + " " + lot.name + "\n" + line("weight", weight) +
           line("fibre", content_text(lot.content)) + line("colours", stash::write_palette(lot.palette)) +
           line("form", std::string(stash::word_for(lot.form))) +
           line("cost", lot.cost ? money_text(*lot.cost) : "") + line("maker", lot.maker) +
           line("got on", lot.got_on) + line("place", lot.place) +
           line("staple", lot.staple_mm ? measure::print_length(*lot.staple_mm, o.units.length) : "") +
           line("diameter", lot.diameter_um ? measure::write_diameter(*lot.diameter_um) : "") +
           line("photo", lot.photo) + line("notes", lot.notes);
}

std::string movements_text(const std::vector<stash::Movement>& movements, measure::MassUnit unit) {
    std::string text;
    double grams = 0.0;
    for (const stash::Movement& movement : movements) {
        grams += movement.grams;
        const std::string sign = movement.grams < 0.0 ? "-" : "+";
        text += right(std::to_string(movement.id), 7) + "  " + left(movement.date, 12) +
                left(std::string(stash::word_for(movement.reason)), 12) +
                right(sign + measure::print_mass(std::abs(movement.grams), unit), 11) +
                right(measure::print_mass(std::max(0.0, grams), unit), 11);
        if (movement.batt) text += "  batt " + std::to_string(*movement.batt);
        if (movement.of_movement) text += "  for movement " + std::to_string(*movement.of_movement);
        if (movement.cost) text += "  " + money_text(*movement.cost);
        text += "\n";
        if (!movement.note.empty()) text += wrapped(movement.note, 9);
    }
    return text;
}

Answer show(const Context& context, const ShowOptions& o) {
    const auto stash = open_stash(o, context, Opening::reading);
    const auto shelved = value_of(stash.lot(o.mark));
    const auto movements = value_of(stash.movements(o.mark));
    if (!o.json) return Answer{lot_text(shelved, o) + movements_text(movements, o.units.mass)};
    auto json = lot_json(shelved);
    json.set("movements", list_json(movements, movement_json));
    return Answer{printed(json)};
}

// What hangs on the bag: the mark large enough to read from the floor, and as a code for a phone.
card::Page tag_page(const stash::Shelved& shelved, measure::MassUnit unit,
                    const fibre::Catalogue& catalogue) {
    const stash::Lot& lot = shelved.lot;
    card::Page page;
    page.name = lot.mark;
    page.blocks.emplace_back(card::HoleMark{});
    page.blocks.emplace_back(card::Heading{lot.mark, true});
    page.blocks.emplace_back(card::Heading{lot.name});
    card::Table facts{{{""}, {"", true}}, {}};
    for (const recipe::Content& part : lot.content) {
        const fibre::Kind* kind = catalogue.find(part.fibre);
        facts.rows.push_back(
            {{kind != nullptr ? kind->name : part.fibre, measure::print_percent(part.share_pct)}});
    }
    const auto add = [&](const std::string& what, const std::string& value) {
        if (!value.empty()) facts.rows.push_back({{what, value}});
    };
    for (const recipe::Tint& tint : lot.palette)
        facts.rows.push_back(
            {{colour::hex(tint.colour), measure::print_percent(tint.share_pct)}, tint.colour, false});
    std::string form(lot.form == stash::Form::other ? "" : stash::word_for(lot.form));
    if (lot.raw) form += form.empty() ? "raw" : ", raw";
    add("form", form);
    add("weight when tagged", measure::print_mass(shelved.grams, unit));
    add("from", lot.maker);
    add("got on", lot.got_on);
    add("place", lot.place);
    page.blocks.emplace_back(facts);
    page.blocks.emplace_back(card::Code{lot.mark, "the mark " + lot.mark, ""});
    return page;
}

Answer write_tag(const Context& context, const ShowOptions& o) {
    const auto paper = value_of(card::parse_paper(o.page));
    const auto stash = open_stash(o, context, Opening::reading);
    const auto shelved = value_of(stash.lot(o.mark));
    const auto written = value_of(card::write(tag_page(shelved, o.units.mass, context.catalogue), paper,
                                              o.output, saving_of(o.replace, {stash.path().string()})));
    std::vector<std::string> files;
    files.reserve(written.size());
    for (const auto& path : written) files.push_back(path.string());
    if (o.json) return Answer{printed({{"mark", shelved.lot.mark}, {"files", files}})};
    return Answer{"The tag of " + shelved.lot.mark + " is in " + files.front() + "\n"};
}

void add_list_options(Command& app, ListOptions& o) {
    app.add_option("--kind", o.kind, "holds this fibre of the catalogue");
    app.add_option("--form", o.form, "top, roving, sliver, braid, batt, locks, fleece ...");
    app.add_option("--at-least", o.at_least, "weighs so much or more, as in \"50 g\"");
    app.add_option("--at-most", o.at_most, "weighs so much or less");
    app.add_option("--near", o.near, "near this colour, as in \"dark blue\" or \"#2f5d50\"");
    app.add_option("--within", o.within, "how near, in CIEDE2000; 10 unless given");
    app.add_flag("--any-tint", o.any_tint, "the nearest of a lot's colours counts, not their mean");
    app.add_flag("--scraps", o.scraps, "only what is too little for a batt of its own");
    app.add_option("--scrap-under", o.scrap_under, "what counts as a scrap, as in \"15 g\"");
    app.add_option("--text", o.text, "every word of it in the mark, name, maker, place, notes or fibre");
    app.add_option("--from", o.from, "got on this day or later");
    app.add_option("--to", o.to, "got on this day or earlier");
    app.add_flag("--empty", o.empties, "bags with nothing left in them too");
    app.add_option("--order", o.order, "added, name, lightest, heaviest, oldest, newest or nearest");
}

}  // namespace

void add_shelf_verbs(StashCommands& commands) {
    add_verb<ListOptions>(commands, "list", "what is on the shelf", add_list_options, list);
    add_verb<ShowOptions>(
        commands, "show", "one lot and everything that came to it or left it",
        [](Command& app, ShowOptions& o) {
            app.add_option("MARK", o.mark, "the mark on the bag's tag").required();
        },
        show);
    add_verb<ShowOptions>(
        commands, "tag", "make the tag for a lot's bag, with its mark as a code",
        [](Command& app, ShowOptions& o) {
            app.add_option("MARK", o.mark, "the lot's mark").required();
            app.add_option("-o,--output", o.output, "a .pdf, .png, .txt or .md file").required();
            add_replace_option(app, o.replace);
            app.add_option("--page", o.page, "tag (60 x 100 mm), A6, index ...");
        },
        write_tag);
}

}  // namespace battwright::command
