// Inside this room: a recipe out of a parsed TOML document.
#pragma once

#include "recipe/reader.hpp"

namespace battwright::recipe {

// Reads everything it can; the recipe stands only when reader.complaint() is empty afterwards.
Recipe read_document(Reader& reader, const toml::Table& root);

// The two tables after the components.
// What a component or a thread is made of, by its keys fibre and blend; empty when it has neither. `what` is
// "the component" or "the thread", `place` its field.
std::vector<Content> read_fibres(Reader& reader, const toml::Table& table, const std::string& place,
                                 const std::string& what);
// One way, or a list of one for each pass after the first; empty when nothing is said.
std::vector<Refeed> read_refeeds(Reader& reader, const toml::Table& table, const std::string& field);
// The layings and the small blends of [carding].
void read_layings(Reader& reader, const toml::Table& table, Carding& carding);
void read_carding(Reader& reader, const toml::Table& root, Recipe& recipe);
void read_spinning(Reader& reader, const toml::Table& root, Recipe& recipe);
void read_series(Reader& reader, const toml::Table& root, Recipe& recipe);
void read_purpose(Reader& reader, const toml::Table& root, Recipe& recipe);

}  // namespace battwright::recipe
