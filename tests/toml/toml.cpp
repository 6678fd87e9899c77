// The tree and its places, against the TOML 1.0.0 specification (its examples, and its rules for escapes).
#include "toml/toml.hpp"

#include <doctest/doctest.h>

#include <string>

using namespace battwright;

namespace {

const toml::Node& at(const toml::Table& table, const char* key) {
    const toml::Node* node = table.get(key);
    REQUIRE_MESSAGE(node != nullptr, key);
    return *node;
}

// "line:column" of a key's value.
std::string place_of(const toml::Table& table, const char* key) {
    const toml::Place place = at(table, key).place;
    return std::to_string(place.line) + ':' + std::to_string(place.column);
}

}  // namespace

TEST_CASE("every type of value is read as what it is") {
    // Values of the specification's sections Integer, Float, Boolean, Local Date, Array, Inline Table.
    const auto table = toml::parse(R"(int = 1_000
hex = 0xDEADBEEF
flt = 6.626e-34
bool = true
day = 1979-05-27
colours = [ "red", "yellow", "green" ]
point = { x = 1, y = 2 }
quoted = 'C:\Users'
)");
    REQUIRE(table);
    CHECK(at(*table, "int").whole_number() == 1000);
    CHECK(at(*table, "int").number() == 1000.0);
    CHECK_FALSE(at(*table, "int").text());
    CHECK(at(*table, "hex").whole_number() == 0xDEADBEEF);
    CHECK(at(*table, "flt").number() == 6.626e-34);
    CHECK_FALSE(at(*table, "flt").whole_number());
    CHECK(at(*table, "bool").boolean() == true);
    CHECK_FALSE(at(*table, "bool").number());
    CHECK(at(*table, "day").is(toml::Type::time));
    const toml::List* colours = at(*table, "colours").list();
    REQUIRE(colours != nullptr);
    REQUIRE(colours->size() == 3);
    CHECK((*colours)[2].text() == "green");
    const toml::Table* point = at(*table, "point").table();
    REQUIRE(point != nullptr);
    CHECK(at(*point, "y").whole_number() == 2);
    CHECK(at(*table, "quoted").text() == "C:\\Users");
    CHECK(table->get("none") == nullptr);
    CHECK(table->get("in") == nullptr);
    CHECK(table->get("") == nullptr);
}

TEST_CASE("a whole number beyond 2^53 is no number that a double holds") {
    const auto table =
        toml::parse("edge = 9007199254740992\nbeyond = 9007199254740993\nleast = -9007199254740993\n");
    REQUIRE(table);
    CHECK(at(*table, "edge").number() == 9007199254740992.0);
    CHECK_FALSE(at(*table, "beyond").number());
    CHECK_FALSE(at(*table, "least").number());
    CHECK(at(*table, "beyond").whole_number() == 9007199254740993);
}

TEST_CASE("keys come in the order of their bytes, and each knows where it stands") {
    const auto table = toml::parse("zinc = 1\n  \"Ähre\" = 2\nash = 3\n[fruit]\nname = \"äpfel\"  # here\n");
    REQUIRE(table);
    std::string keys;
    for (const auto& [key, value] : *table) keys += key.text + ' ';
    CHECK(keys == "ash fruit zinc Ähre ");
    for (const auto& [key, value] : *table) {
        if (key.text == "zinc") CHECK(std::pair(key.place.line, key.place.column) == std::pair(1, 1));
        if (key.text == "Ähre") CHECK(std::pair(key.place.line, key.place.column) == std::pair(2, 3));
    }
    CHECK(place_of(*table, "zinc") == "1:8");
    CHECK(place_of(*table, "Ähre") == "2:12");  // in characters, not bytes
    CHECK(place_of(*table, "fruit") == "4:1");
    CHECK(place_of(*at(*table, "fruit").table(), "name") == "5:8");
}

TEST_CASE("tables of a list stand where each begins") {
    // The specification, Array of Tables.
    const auto table =
        toml::parse("[[products]]\nname = \"Hammer\"\n\n[[products]]\n\n[[products]]\nname = \"Nail\"\n");
    REQUIRE(table);
    const toml::List* products = at(*table, "products").list();
    REQUIRE(products != nullptr);
    REQUIRE(products->size() == 3);
    CHECK((*products)[1].place.line == 4);
    CHECK((*products)[2].table()->place.line == 6);
    CHECK(at(*(*products)[2].table(), "name").text() == "Nail");
}

TEST_CASE("a fault has its place and a way to mend it") {
    // The specification: "Defining a key multiple times is invalid."
    const auto twice = toml::parse("name = \"Tom\"\nname = \"Pradyun\"\n", "t.toml");
    REQUIRE_FALSE(twice);
    CHECK(twice.error().where == "t.toml");
    CHECK(twice.error().line == 2);
    CHECK(twice.error().mend == "keep one of the two and remove the other");
    const auto open = toml::parse("a = 1\nb = [ 1, 2\n");
    REQUIRE_FALSE(open);
    CHECK(open.error().line >= 2);
    CHECK(open.error().mend == "check the quotes, brackets and equals signs here");
    CHECK_FALSE(open.error().what.empty());
}

TEST_CASE("no bytes end the reading otherwise than with a complaint") {
    // A dot is a table within a table (the specification, Dotted Keys), and each takes room on the stack.
    std::string deep = "é = 1\na";
    while (deep.size() < (1u << 20)) deep += ".a";
    for (const std::string& text : {deep + " = 1\n", "é = 1\n[" + deep.substr(7) + "]\n"}) {
        const auto fault = toml::parse(text);
        REQUIRE_FALSE(fault);
        CHECK(fault.error().what == "a key here has too many dots");
        CHECK(fault.error().line == 2);
    }
    CHECK(toml::parse("a.b.c = 1.5e3\n\"a.b.c.d.e.f.g.h.i.j.k\" = '1.2.3.4.5.6.7.8.9.10'\n"));
    // Nine names deep is a key, ten are not.
    CHECK(toml::parse("a.b.c.d.e.f.g.h.i = 1\n"));
    CHECK_FALSE(toml::parse("a.b.c.d.e.f.g.h.i.j = 1\n"));
    // The specification, String: between three quotes new lines are allowed, and one or two quotes anywhere.
    for (const std::string quotes : {"\"\"\"", "'''"}) {
        const auto lines = toml::parse("a = " + quotes + "1.2.3.4\n5.6.7.8.9.10.11.12.13.14.15 \" '\n" +
                                       quotes + "\nb = 2\n");
        REQUIRE(lines);
        CHECK(at(*lines, "b").number() == 2.0);
    }
    const auto bytes = toml::parse("é = \"\xff\"\n");
    REQUIRE_FALSE(bytes);
    CHECK(bytes.error().what == "the text is not UTF-8 here");
    CHECK(bytes.error().column == 6);  // in characters
}

TEST_CASE("what is written reads back") {
    // The specification, String: quotation mark, backslash and control characters other than tab are escaped.
    for (const std::string text : {"plain", "", "a \"quoted\" word", "back\\slash", "tab\there",
                                   "line\nbreak", "bell\x07", "\x7f", "'''", "äöü 🐑"}) {
        const auto back = toml::parse("text = " + toml::written(text) + "\n");
        REQUIRE_MESSAGE(back, text);
        CHECK(at(*back, "text").text() == text);
    }
    CHECK(toml::written("plain") == "\"plain\"");
    CHECK(toml::written(std::string("äöü")) == "\"äöü\"");
    for (const double value : {1.0, 0.75, 1.1, -2.5e-7, 1e300}) {
        const auto back = toml::parse("value = " + toml::written(value) + "\n");
        REQUIRE(back);
        CHECK(at(*back, "value").is(toml::Type::number));
        CHECK(at(*back, "value").number() == value);
    }
}
