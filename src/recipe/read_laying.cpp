// The layings and small blends of a recipe.
#include "colour/names.hpp"
#include "recipe/laying_fault.hpp"
#include "recipe/load.hpp"
#include "recipe/read.hpp"

namespace battwright::recipe {
namespace {

measure::Expected<LaidAmount> parse_laid_share(std::string_view text) {
    for (const char* word : {"the rest", "rest"})
        if (text::same_word(text, word)) return LaidAmount{Rest{}};
    if (text::same_word(text, "all")) return LaidAmount{Percent{100.0}};
    if (text::same_word(text, "half")) return LaidAmount{Percent{50.0}};
    const auto percent = measure::parse_percent(text);
    if (!percent)
        return tl::make_unexpected(
            measure::Complaint{percent.error().what,
                               "write a percentage, as in \"40 %\", or \"half\", \"all\" or \"the rest\""});
    return LaidAmount{Percent{*percent}};
}

void read_laid_amount(Reader& reader, const toml::Table& table, const std::string& field, Laying& laying) {
    if (table.get("share") != nullptr && table.get("weight") != nullptr)
        reader.complain(*table.get("weight"), "the laying has two amounts", "keep one of share and weight");
    if (const auto mass =
            reader.parsed(table, "weight", field + " weight", "weight = \"6 g\"", measure::parse_mass))
        laying.amount = *mass;
    if (const auto share =
            reader.parsed(table, "share", field + " share", "share = \"the rest\"", parse_laid_share))
        laying.amount = *share;
}

void read_laying_pass(Reader& reader, const toml::Table& table, const std::string& field, Laying& laying) {
    const toml::Node* node = table.get("pass");
    if (node == nullptr) return;
    if (!node->is(toml::Type::text)) {
        laying.pass = reader.whole_number(table, "pass", field + " pass");
        if (laying.pass && *laying.pass < 1)
            reader.complain(*node, "pass " + std::to_string(*laying.pass) + " does not exist",
                            "write 1 or more, \"first\" or \"last\"");
        return;
    }
    const auto word = reader.text(table, "pass", field + " pass");
    if (!word) return;
    if (*word == "first") laying.pass = 1;
    if (*word == "last") laying.pass = last_pass;
    if (!laying.pass)
        reader.complain(*node, "pass is " + measure::quoted(*word),
                        "write \"first\", \"last\" or the number of a pass");
}

// The place along the line that is not across has a key of its own on each kind of tool; and only a drum has
// a tray and a way past it.
void read_along(Reader& reader, const toml::Table& table, const std::string& field, const Carder& carder,
                Laying& laying) {
    const bool flat = is_flat(carder);
    const char *key = flat ? "along" : "round", *other = flat ? "round" : "along";
    const std::string tool(words_of(carder).surface);
    if (table.get(other) != nullptr)
        reader.complain(*table.get(other),
                        std::string(other) + " is given, and nothing lies " + other + " the " + tool,
                        std::string("write ") + key + " = \"first half\"");
    laying.round = reader.parsed(table, key, field + " round", "round = \"first half\"", parse_round)
                       .value_or(laying.round);
    if (flat && table.get("way") != nullptr)
        reader.complain(
            *table.get("way"),
            "way is given, and the " + tool + (flat && tool == "cards" ? " have" : " has") + " no tray",
            "leave way out: everything is laid straight on");
}

Laying read_laying(Reader& reader, const toml::Table& table, const std::string& field, const Carder& carder) {
    Laying laying;
    reader.place(field, table);
    reader.only(table, "a laying",
                {"what", "colour", "weight", "share", "across", "round", "along", "fade", "overlap", "how",
                 "pass", "lies", "way", "times"});
    if (table.get("what") == nullptr)
        reader.missing(table, "the laying does not say what is laid",
                       "add a component or a small blend, as in what = \"harbour wool\"");
    laying.what = reader.text(table, "what", field + " what").value_or("");
    laying.colour =
        reader.parsed(table, "colour", field + " colour", "colour = \"#2f5d50\"", colour::parse_colour);
    read_laid_amount(reader, table, field, laying);
    laying.across = reader.parsed(table, "across", field + " across", "across = \"0-60 mm\"", parse_across)
                        .value_or(laying.across);
    read_along(reader, table, field, carder, laying);
    laying.fade = reader.parsed(table, "fade", field + " fade", "fade = \"20 mm\"", parse_extent);
    laying.overlap = reader.parsed(table, "overlap", field + " overlap", "overlap = \"20 mm\"", parse_extent);
    if (const auto how =
            reader.parsed(table, "how", field + " how", "how = \"in dabs of 40 mm\"", parse_spreading)) {
        laying.how = how->how;
        laying.size = how->size;
    }
    read_laying_pass(reader, table, field, laying);
    laying.lies = reader
                      .parsed(table, "lies", field + " lies", "lies = \"over\"",
                              [](std::string_view text) {
                                  return measure::parse_word(lies_words, text, "place in the depth");
                              })
                      .value_or(laying.lies);
    laying.way = reader.parsed(table, "way", field + " way", "way = \"onto the drum\"",
                               [](std::string_view text) { return measure::parse_word(ways, text, "way"); });
    laying.times = reader.whole_number(table, "times", field + " times").value_or(laying.times);
    return laying;
}

std::vector<Laying> read_list(Reader& reader, const toml::Table& table, const std::string& place,
                              const Carder& carder, const std::string& mend) {
    std::vector<Laying> layings;
    const toml::List* list = reader.tables(table, "lay", place + " lay", mend);
    if (list == nullptr) return layings;
    for (std::size_t i = 0; i < list->size(); ++i) {
        const toml::Table* entry = (*list)[i].table();
        if (entry != nullptr)
            layings.push_back(read_laying(reader, *entry, place + ' ' + laying_field(i, false), carder));
    }
    return layings;
}

SmallBlend read_blend(Reader& reader, const toml::Table& table, std::size_t index, const Carder& carder) {
    SmallBlend blend;
    const std::string field = blend_field(index);
    reader.place(field, table);
    reader.only(table, "a small blend", {"name", "passes", "strips", "refeed", "lay"});
    if (table.get("name") == nullptr)
        reader.missing(table, "the small blend has no name", "add one, as in name = \"first light\"");
    if (table.get("lay") == nullptr)
        reader.missing(table, "the small blend has nothing in it",
                       "add lay = [ { what = \"...\", weight = \"6 g\" } ]");
    for (const char* key : {"strips", "refeed"})
        if (carder.kind == ToolKind::hand_cards && table.get(key) != nullptr)
            reader.complain(
                *table.get(key),
                std::string(key) + " is given, and on hand cards the fibre goes from one card to the other",
                "leave it out");
    blend.name = reader.text(table, "name", field + " name").value_or("");
    blend.passes = reader.whole_number(table, "passes", field + " passes").value_or(blend.passes);
    blend.strips = reader.whole_number(table, "strips", field + " strips").value_or(blend.strips);
    if (const auto refeeds = read_refeeds(reader, table, field + " refeed"); !refeeds.empty())
        blend.refeeds = refeeds;
    blend.layings = read_list(reader, table, field, carder,
                              "write lay = [ { what = \"harbour wool\", weight = \"6 g\" }, ... ]");
    return blend;
}

}  // namespace

std::vector<Refeed> read_refeeds(Reader& reader, const toml::Table& table, const std::string& field) {
    std::vector<Refeed> refeeds;
    const toml::Node* node = table.get("refeed");
    if (node == nullptr) return refeeds;
    const toml::List* list = node->list();
    if (list == nullptr) {
        if (const auto one = reader.parsed(table, "refeed", field, "refeed = \"strips\"", parse_refeed))
            refeeds.push_back(*one);
        return refeeds;
    }
    reader.place(field, *node);
    if (list->empty())
        reader.complain(*node, "refeed is an empty list", "write one way for each pass after the first");
    for (const toml::Node& entry : *list) {
        const auto word = entry.text();
        if (!word) {
            reader.wrong_type(entry, "an entry of refeed", "write it in quotes, as in \"strips\"");
            continue;
        }
        const auto refeed = parse_refeed(*word);
        if (refeed) {
            refeeds.push_back(*refeed);
        } else {
            reader.complain(entry, refeed.error().what, refeed.error().mend);
        }
    }
    return refeeds;
}

void read_layings(Reader& reader, const toml::Table& table, Carding& carding) {
    const Carder carder = carder_of(carding);
    carding.layings = read_list(reader, table, "carding", carder,
                                "start each laying with [[carding.lay]] on a line of its own");
    if (!carding.layings.empty()) {
        for (const char* key : {"feed", "repeats", "overlap"})
            if (table.get(key) != nullptr)
                reader.complain(*table.get(key), std::string(key) + " is given, and the feed is laid by hand",
                                "keep either it or the [[carding.lay]] tables");
    }
    const toml::List* blends =
        reader.tables(table, "blend", "carding blend",
                      "start each small blend with [[carding.blend]] on a line of its own");
    if (blends == nullptr) return;
    for (std::size_t i = 0; i < blends->size(); ++i) {
        const toml::Table* entry = (*blends)[i].table();
        if (entry != nullptr) carding.blends.push_back(read_blend(reader, *entry, i, carder));
    }
}

}  // namespace battwright::recipe
