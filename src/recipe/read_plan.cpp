// The carding and spinning tables of a recipe.
#include <algorithm>
#include <utility>

#include "colour/names.hpp"
#include "colour/spaces.hpp"
#include "measure/count.hpp"
#include "measure/nearest.hpp"
#include "recipe/load.hpp"
#include "recipe/purpose.hpp"
#include "recipe/read.hpp"
#include "recipe/thickness.hpp"

namespace battwright::recipe {
namespace {

// A key an own carder cannot do without.
void require(Reader& reader, const toml::Table& table, const char* key, const char* example) {
    if (table.get(key) != nullptr) return;
    reader.missing(table, std::string("the carder has no ") + key, std::string("add it, as in ") + example);
}

std::string a_tool(const Carder& carder) {
    return (carder.kind == ToolKind::hand_cards ? "a pair of " : "a ") + std::string(words_of(carder).word);
}

Carder read_own_carder(Reader& reader, const toml::Table& table) {
    const std::string at = "carding carder ";
    Carder own;
    own.kind = reader
                   .parsed(table, "tool", at + "tool", "tool = \"blending board\"",
                           [](std::string_view text) {
                               return measure::parse_word(tool_rows, text, "tool to card with");
                           })
                   .value_or(own.kind);
    const bool flat = is_flat(own);
    if (flat) {
        reader.only(
            table, "the carder",
            {"tool", "name", "length", "width", "clothing", "load", "licker_in", "drum_circumference"});
        for (const char* key : {"licker_in", "drum_circumference"})
            if (table.get(key) != nullptr)
                reader.complain(*table.get(key),
                                std::string(key) + " is given, and the tool is " + a_tool(own),
                                "leave it out, and write the cloth's length as in length = \"300 mm\"");
        require(reader, table, "length", "length = \"300 mm\"");
    } else {
        reader.only(table, "the carder",
                    {"name", "drum_circumference", "width", "clothing", "load", "licker_in", "tool"});
        require(reader, table, "drum_circumference", "drum_circumference = \"560 mm\"");
    }
    require(reader, table, "width", "width = \"200 mm\"");
    require(reader, table, "clothing", "clothing = 72");
    require(reader, table, "load", "load = \"40-80 g\"");
    own.name = reader.text(table, "name", at + "name").value_or("");
    const auto length = [&](const char* key, const char* example) {
        const auto value = reader.parsed(table, key, at + key, example, measure::parse_length);
        return value ? value->millimetres : 0.0;
    };
    own.drum_circumference_mm = flat ? length("length", "length = \"300 mm\"")
                                     : length("drum_circumference", "drum_circumference = \"560 mm\"");
    own.width_mm = length("width", "width = \"200 mm\"");
    own.teeth_per_square_inch = reader.whole_number(table, "clothing", at + "clothing").value_or(0);
    if (const auto load = reader.parsed(table, "load", at + "load", "load = \"40-80 g\"", parse_load)) {
        own.load_low_grams = load->low_grams;
        own.load_high_grams = load->high_grams;
    }
    if (flat) return own;
    own.licker_in_ratio =
        reader.parsed(table, "licker_in", at + "licker_in", "licker_in = \"5:1\"", parse_licker_in)
            .value_or(usual_licker_in_ratio);
    return own;
}

void read_carder(Reader& reader, const toml::Table& table, Carding& carding) {
    const toml::Node* node = table.get("carder");
    if (node == nullptr) return;
    reader.place("carding carder", *node);
    if (const toml::Table* own = node->table()) {
        carding.own = read_own_carder(reader, *own);
        carding.carder.clear();
        return;
    }
    if (!node->is(toml::Type::text)) {
        reader.wrong_type(*node, "carder",
                          "write a preset in quotes, or { drum_circumference = ..., width = ... }");
        return;
    }
    if (const auto id = reader.text(table, "carder", "carding carder")) carding.carder = *id;
}

// Keys that say nothing on this tool.
void complain_of_tool(Reader& reader, const toml::Table& table, const Carding& carding) {
    const Carder carder = carder_of(carding);
    const auto none = [&](const char* key, const std::string& why, const std::string& mend) {
        if (table.get(key) != nullptr)
            reader.complain(*table.get(key), std::string(key) + " is given, and " + why, mend);
    };
    if (carder.kind != ToolKind::board)
        none("rolags",
             carder.kind == ToolKind::drum ? "the batt comes off a drum"
                                           : "each filling of hand cards is one rolag",
             "leave it out, or write carder = \"blending-board\"");
    if (carder.kind != ToolKind::hand_cards) return;
    for (const char* key : {"strips", "refeed", "recombine"})
        none(key, "on hand cards the fibre goes from one card to the other and back",
             "leave it out: passes says how many transfers there are");
}

// One after another along the line that is not across has a word of its own on each kind of tool.
void read_feed(Reader& reader, const toml::Table& table, Carding& carding) {
    const auto feed = reader.parsed(table, "feed", "carding feed", "feed = \"layers\"", parse_manner);
    if (!feed) return;
    carding.feed = *feed;
    const auto written = table.get("feed")->text();
    const Carder carder = carder_of(carding);
    if (carding.feed != Manner::gradient_round || !written || carder.kind == ToolKind::hand_cards) return;
    if (text::same_word(*written, word_for(carding.feed, is_flat(carder)))) return;
    reader.complain(*table.get("feed"),
                    measure::quoted(*written) + " is no way to lay on " + a_tool(carder) +
                        (is_flat(carder) ? ": nothing turns" : ": it goes round"),
                    "write feed = " + measure::quoted(word_for(carding.feed, is_flat(carder))));
}

std::optional<double> read_thread_tex(Reader& reader, const toml::Table& table) {
    const auto count =
        reader.parsed(table, "count", "spinning thread count", "count = \"2/28 Nm\"", measure::parse_count);
    if (!count) return std::nullopt;
    return measure::tex_of(*count);
}

void read_thread(Reader& reader, const toml::Table& spinning_table, Spinning& spinning) {
    const toml::Table* table = reader.subtable(spinning_table, "thread", "spinning thread");
    if (table == nullptr) return;
    Thread thread;
    reader.only(*table, "the thread", {"count", "length", "colour", "fibre", "blend"});
    for (const auto& [key, example] :
         {std::pair{"count", "count = \"2/28 Nm\""}, std::pair{"length", "length = \"400 m\""}}) {
        if (table->get(key) == nullptr)
            reader.missing(*table, std::string("the thread has no ") + key,
                           std::string("add it, as in ") + example);
    }
    thread.tex = read_thread_tex(reader, *table).value_or(0.0);
    thread.length_m = reader
                          .parsed(*table, "length", "spinning thread length", "length = \"400 m\"",
                                  measure::parse_yarn_length_metres)
                          .value_or(0.0);
    thread.colour = reader.parsed(*table, "colour", "spinning thread colour", "colour = \"#2f5d50\"",
                                  colour::parse_colour);
    thread.content = read_fibres(reader, *table, "spinning thread", "the thread");
    spinning.thread = thread;
}

// Only singles plied with their like have a number to choose.
void read_plies(Reader& reader, const toml::Table& table, Spinning& spinning) {
    const auto plies = reader.whole_number(table, "plies", "spinning plies");
    if (!plies) return;
    spinning.plies = *plies;
    if (spinning.plying == Plying::plied) return;
    reader.complain(*table.get("plies"),
                    "plies is given, and " + std::string(file_word(spinning.plying)) + " has its own number",
                    "leave plies out, or write plying = \"plied\"");
}

}  // namespace

void read_carding(Reader& reader, const toml::Table& root, Recipe& recipe) {
    const toml::Table* table = reader.subtable(root, "carding", "carding");
    if (table == nullptr) return;
    Carding& carding = recipe.carding;
    recipe.carding_written = true;
    reader.only(*table, "carding",
                {"carder", "passes", "strips", "feed", "refeed", "repeats", "overlap", "rolags", "recombine",
                 "lay", "blend"});
    read_carder(reader, *table, carding);
    complain_of_tool(reader, *table, carding);
    carding.passes = reader.whole_number(*table, "passes", "carding passes").value_or(carding.passes);
    carding.strips = reader.whole_number(*table, "strips", "carding strips").value_or(carding.strips);
    carding.repeats = reader.whole_number(*table, "repeats", "carding repeats").value_or(carding.repeats);
    carding.overlap_pct =
        reader.parsed(*table, "overlap", "carding overlap", "overlap = \"50 %\"", measure::parse_percent)
            .value_or(carding.overlap_pct);
    carding.rolags = reader.whole_number(*table, "rolags", "carding rolags").value_or(carding.rolags);
    read_feed(reader, *table, carding);
    if (const auto ways_back = read_refeeds(reader, *table, "carding refeed"); !ways_back.empty()) {
        carding.refeed = ways_back.back();
        if (ways_back.size() > 1) carding.refeeds = ways_back;
    }
    if (const toml::Node* node = table->get("recombine")) {
        reader.place("carding recombine", *node);
        const auto yes = node->boolean();
        if (!yes) reader.wrong_type(*node, "recombine", "write true or false");
        carding.recombine = yes.value_or(false);
    }
    read_layings(reader, *table, carding);
}

// The purpose has been read.
void read_spinning(Reader& reader, const toml::Table& root, Recipe& recipe) {
    recipe.spinning.twist = usual_twist(recipe.purpose);
    const toml::Table* table = reader.subtable(root, "spinning", "spinning");
    if (table == nullptr) return;
    Spinning& spinning = recipe.spinning;
    recipe.spinning_written = true;
    reader.only(*table, "spinning",
                {"preparation", "plies", "thickness", "plying", "twist", "thread", "wheel_ratio"});
    spinning.preparation = reader
                               .parsed(*table, "preparation", "spinning preparation",
                                       "preparation = \"woollen\"", parse_preparation)
                               .value_or(spinning.preparation);
    spinning.plying = reader.parsed(*table, "plying", "spinning plying", "plying = \"chain\"", parse_plying)
                          .value_or(spinning.plying);
    read_plies(reader, *table, spinning);
    const auto thickness = reader.parsed(*table, "thickness", "spinning thickness", "thickness = \"12 wpi\"",
                                         [](std::string_view text) { return parse_thickness(text); });
    if (thickness) spinning.thickness = *thickness;
    spinning.twist = reader.parsed(*table, "twist", "spinning twist", "twist = \"soft\"", parse_twist)
                         .value_or(spinning.twist);
    read_thread(reader, *table, spinning);
    spinning.wheel_ratio = reader.parsed(*table, "wheel_ratio", "spinning wheel_ratio",
                                         "wheel_ratio = \"8.5:1\"", parse_wheel_ratio);
}

void read_purpose(Reader& reader, const toml::Table& root, Recipe& recipe) {
    const toml::Table* table = reader.subtable(root, "purpose", "purpose");
    if (table == nullptr) return;
    Purpose& purpose = recipe.purpose;
    reader.only(*table, "the purpose", {"thing", "size", "next_to_skin"});
    purpose.thing = reader.text(*table, "thing", "purpose thing").value_or("");
    purpose.size = reader.text(*table, "size", "purpose size").value_or("");
    purpose.next_to_skin = reader.yes_or_no(*table, "next_to_skin", "purpose next_to_skin");
}

}  // namespace battwright::recipe
