// The carding and spinning tables of a recipe.
#include <algorithm>
#include <utility>

#include "colour/names.hpp"
#include "colour/spaces.hpp"
#include "measure/count.hpp"
#include "measure/nearest.hpp"
#include "recipe/load.hpp"
#include "recipe/read.hpp"
#include "recipe/thickness.hpp"

namespace battwright::recipe {
namespace {

// A key an own carder cannot do without.
void require(Reader& reader, const toml::Table& table, const char* key, const char* example) {
    if (table.get(key) != nullptr) return;
    reader.missing(table, std::string("the carder has no ") + key, std::string("add it, as in ") + example);
}

Carder read_own_carder(Reader& reader, const toml::Table& table) {
    const std::string at = "carding carder ";
    Carder own;
    reader.only(table, "the carder",
                {"name", "drum_circumference", "width", "clothing", "load", "licker_in"});
    require(reader, table, "drum_circumference", "drum_circumference = \"560 mm\"");
    require(reader, table, "width", "width = \"200 mm\"");
    require(reader, table, "clothing", "clothing = 72");
    require(reader, table, "load", "load = \"40-80 g\"");
    own.name = reader.text(table, "name", at + "name").value_or("");
    const auto length = [&](const char* key, const char* example) {
        const auto value = reader.parsed(table, key, at + key, example, measure::parse_length);
        return value ? value->millimetres : 0.0;
    };
    own.drum_circumference_mm = length("drum_circumference", "drum_circumference = \"560 mm\"");
    own.width_mm = length("width", "width = \"200 mm\"");
    own.teeth_per_square_inch = reader.whole_number(table, "clothing", at + "clothing").value_or(0);
    if (const auto load = reader.parsed(table, "load", at + "load", "load = \"40-80 g\"", parse_load)) {
        own.load_low_grams = load->low_grams;
        own.load_high_grams = load->high_grams;
    }
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
    reader.only(
        *table, "carding",
        {"carder", "passes", "strips", "feed", "refeed", "repeats", "overlap", "recombine", "lay", "blend"});
    read_carder(reader, *table, carding);
    carding.passes = reader.whole_number(*table, "passes", "carding passes").value_or(carding.passes);
    carding.strips = reader.whole_number(*table, "strips", "carding strips").value_or(carding.strips);
    carding.repeats = reader.whole_number(*table, "repeats", "carding repeats").value_or(carding.repeats);
    carding.overlap_pct =
        reader.parsed(*table, "overlap", "carding overlap", "overlap = \"50 %\"", measure::parse_percent)
            .value_or(carding.overlap_pct);
    carding.feed = reader.parsed(*table, "feed", "carding feed", "feed = \"layers\"", parse_manner)
                       .value_or(carding.feed);
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

void read_spinning(Reader& reader, const toml::Table& root, Recipe& recipe) {
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
