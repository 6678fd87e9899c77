// A recipe out of a parsed TOML document.
#include "recipe/read.hpp"

#include <algorithm>

#include "colour/names.hpp"
#include "measure/nearest.hpp"
#include "recipe/thickness.hpp"

namespace battwright::recipe {
namespace {

constexpr int this_format = 1;

// Line ends of other systems, within a text of several lines.
std::string with_plain_line_ends(const std::string& text) {
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') continue;
        result += text[i];
    }
    return result;
}

void read_notes(Reader& reader, const toml::Table& table, const std::string& field, std::string& notes) {
    if (const auto text = reader.text(table, "notes", field)) notes = with_plain_line_ends(*text);
}

void read_format(Reader& reader, const toml::Table& root) {
    if (root.get("format") == nullptr) {
        reader.missing(root, "the recipe does not say its format", "make format = 1 the first line");
        return;
    }
    const auto format = reader.whole_number(root, "format", "format");
    if (!format || *format == this_format) return;
    reader.complain(*root.get("format"),
                    "format " + std::to_string(*format) + " is not one this program reads",
                    *format > this_format ? "use a newer program, or write format = 1" : "write format = 1");
}

std::optional<double> read_share(Reader& reader, const toml::Table& table, const std::string& field) {
    if (table.get("share") == nullptr) {
        reader.missing(table, "the entry has no share", "add one, as in share = \"70 %\"");
    }
    return reader.parsed(table, "share", field, "share = \"60 %\"", measure::parse_percent);
}

// A list of tables with a part and a share each: `key` in the recipe, `list` the field's name.
struct ShareList {
    std::string key, list, part, mend;
};
template <class Take>
void read_shares(Reader& reader, const toml::Table& table, const ShareList& of, const Take& take) {
    const toml::List* entries = reader.tables(table, of.key, of.list, of.mend);
    if (entries == nullptr) return;
    for (std::size_t i = 0; i < entries->size(); ++i) {
        const toml::Table* entry = (*entries)[i].table();
        if (entry == nullptr) continue;
        const std::string field = of.list + ' ' + std::to_string(i + 1);
        reader.place(field, *entry);
        reader.only(*entry, "the " + of.key, {of.part, "share"});
        if (entry->get(of.part) == nullptr) reader.missing(*entry, "the entry has no " + of.part, of.mend);
        const auto share = read_share(reader, *entry, field + " share");
        take(*entry, field + ' ' + of.part, share.value_or(0.0));
    }
}

}  // namespace

std::vector<Content> read_fibres(Reader& reader, const toml::Table& table, const std::string& place,
                                 const std::string& what) {
    std::vector<Content> content;
    const std::string mend = "write blend = [ { fibre = \"polwarth\", share = \"70 %\" }, ... ]";
    if (table.get("fibre") != nullptr && table.get("blend") != nullptr) {
        reader.complain(*table.get("blend"), what + " has both a fibre and a blend", "keep one of the two");
    }
    if (const auto fibre = reader.text(table, "fibre", place + " fibre")) content.push_back({*fibre, 100.0});
    read_shares(reader, table, {"blend", place + " blend", "fibre", mend},
                [&](const toml::Table& entry, const std::string& field, double share) {
                    content.push_back({reader.text(entry, "fibre", field).value_or(""), share});
                });
    return content;
}

namespace {

void read_content(Reader& reader, const toml::Table& table, std::size_t index, Component& component) {
    const bool says_nothing = table.get("fibre") == nullptr && table.get("blend") == nullptr;
    if (says_nothing && component.lot.empty())
        reader.missing(table, "the component has no fibre", "add one, as in fibre = \"corriedale\"");
    component.content = read_fibres(reader, table, component_field(index), "the component");
}

std::optional<colour::Srgb> read_colour(Reader& reader, const toml::Table& table, const std::string& field) {
    return reader.parsed(table, "colour", field, "colour = \"#2f5d50\"", colour::parse_colour);
}

void read_palette(Reader& reader, const toml::Table& table, std::size_t index, Component& component) {
    const std::string mend = "write colours = [ { colour = \"#b08d3c\", share = \"70 %\" }, ... ]";
    if (table.get("colour") != nullptr && table.get("colours") != nullptr) {
        reader.complain(*table.get("colours"), "the component has both a colour and colours",
                        "keep one of the two");
    }
    if (const auto colour = read_colour(reader, table, component_field(index, "colour"))) {
        component.palette.push_back({*colour, 100.0});
    }
    read_shares(reader, table, {"colours", component_field(index, "colours"), "colour", mend},
                [&](const toml::Table& entry, const std::string& field, double share) {
                    const auto colour = read_colour(reader, entry, field);
                    component.palette.push_back({colour.value_or(colour::Srgb{}), share});
                });
}

// Parts are a bare number, or a text such as "1/3".
std::optional<double> read_parts(Reader& reader, const toml::Table& table, const std::string& field) {
    const toml::Node* node = table.get("parts");
    if (node == nullptr) return std::nullopt;
    reader.place(field, *node);
    if (node->is(toml::Type::text))
        return reader.parsed(table, "parts", field, "parts = 3", measure::parse_parts);
    const auto number = node->number();
    if (!number) reader.wrong_type(*node, "parts", "write a number, as in parts = 3");
    return number;
}

void read_amount(Reader& reader, const toml::Table& table, std::size_t index, Component& component) {
    const toml::Node* first = nullptr;
    for (const char* key : {"share", "weight", "parts"}) {
        const toml::Node* node = table.get(key);
        if (node != nullptr && first != nullptr) {
            reader.complain(*node, "the component has two amounts", "keep one of share, weight and parts");
        }
        if (first == nullptr) first = node;
    }
    if (first == nullptr) {
        reader.missing(table, "the component has no amount",
                       "add one, as in share = \"60 %\", weight = \"42 g\" or parts = 3");
    }
    const std::string share = component_field(index, "share");
    if (const auto percent =
            reader.parsed(table, "share", share, "share = \"60 %\"", measure::parse_percent)) {
        component.amount = Percent{*percent};
    }
    const std::string weight = component_field(index, "weight");
    if (const auto mass = reader.parsed(table, "weight", weight, "weight = \"25 g\"", measure::parse_mass)) {
        component.amount = *mass;
    }
    if (const auto parts = read_parts(reader, table, component_field(index, "parts")))
        component.amount = Parts{*parts};
}

void read_pass(Reader& reader, const toml::Table& table, std::size_t index, Component& component) {
    const toml::Node* node = table.get("add_on_pass");
    if (node == nullptr) return;
    const std::string field = component_field(index, "add_on_pass");
    if (!node->is(toml::Type::text)) {
        const auto pass = reader.whole_number(table, "add_on_pass", field);
        if (!pass) return;
        // Zero means "last" inside the program and must not be a way to write it.
        if (*pass < 1) {
            reader.complain(*node, "pass " + std::to_string(*pass) + " does not exist",
                            "write 1 or more, \"first\" or \"last\"");
        }
        component.add_on_pass = *pass;
        return;
    }
    const auto word = reader.text(table, "add_on_pass", field);
    if (!word) return;
    if (*word == "last") component.add_on_pass = last_pass;
    if (*word == "first" || *word == "last") return;
    reader.complain(*node, "add_on_pass is " + measure::quoted(*word),
                    "write \"first\", \"last\" or the number of a pass");
}

measure::Expected<fibre::Past> parse_reclaimed(std::string_view word) {
    const auto past = fibre::past_from(word);
    if (past && *past != fibre::Past::unsure) return *past;
    return tl::unexpected(
        measure::Complaint{measure::quoted(word) + " does not say what the fibre was before",
                           "write \"never\" (it was never spun), \"yarn\" (spun and no more) or \"cloth\" "
                           "(woven, felted or worn)"});
}

measure::Expected<ColourFrom> parse_colour_from(std::string_view word) {
    return measure::parse_word(colour_origins, word, "source of a colour");
}

Component read_component(Reader& reader, const toml::Table& table, std::size_t index) {
    Component component;
    reader.place(component_field(index), table);
    reader.only(table, "a component",
                {"fibre", "blend", "name", "lot", "colour", "colours", "colour_from", "share", "weight",
                 "parts", "staple", "diameter", "reclaimed", "price", "add_on_pass", "locked", "notes"});
    component.name = reader.text(table, "name", component_field(index, "name")).value_or("");
    component.lot = reader.text(table, "lot", component_field(index, "lot")).value_or("");
    read_notes(reader, table, component_field(index, "notes"), component.notes);
    read_content(reader, table, index, component);
    read_palette(reader, table, index, component);
    component.colour_from = reader.parsed(table, "colour_from", component_field(index, "colour_from"),
                                          "colour_from = \"photo\"", parse_colour_from);
    read_amount(reader, table, index, component);
    component.staple = reader.parsed(table, "staple", component_field(index, "staple"), "staple = \"95 mm\"",
                                     measure::parse_length);
    component.diameter_um = reader.parsed(table, "diameter", component_field(index, "diameter"),
                                          "diameter = \"21 um\"", measure::parse_diameter_micrometres);
    component.reclaimed = reader.parsed(table, "reclaimed", component_field(index, "reclaimed"),
                                        "reclaimed = \"never\"", parse_reclaimed);
    component.price = reader.parsed(table, "price", component_field(index, "price"),
                                    "price = \"6.50 per 100 g\"", parse_price);
    read_pass(reader, table, index, component);
    component.locked = reader.yes_or_no(table, "locked", component_field(index, "locked")).value_or(false);
    return component;
}

void read_components(Reader& reader, const toml::Table& root, Recipe& recipe) {
    const std::string mend = "start each component with [[component]] on a line of its own";
    const toml::List* components = reader.tables(root, "component", "component", mend);
    if (components == nullptr) return;
    for (std::size_t i = 0; i < components->size(); ++i) {
        const toml::Table* table = (*components)[i].table();
        if (table != nullptr) recipe.components.push_back(read_component(reader, *table, i));
    }
}

}  // namespace

Recipe read_document(Reader& reader, const toml::Table& root) {
    Recipe recipe;
    reader.only(
        root, "the recipe",
        {"format", "name", "notes", "total", "component", "carding", "spinning", "purpose", "series"});
    read_format(reader, root);
    recipe.name = reader.text(root, "name", "name").value_or("");
    read_notes(reader, root, "notes", recipe.notes);
    recipe.total = reader.parsed(root, "total", "total", "total = \"100 g\"", measure::parse_mass);
    read_components(reader, root, recipe);
    read_carding(reader, root, recipe);
    read_purpose(reader, root, recipe);
    read_spinning(reader, root, recipe);
    read_series(reader, root, recipe);
    return recipe;
}

}  // namespace battwright::recipe
