// Inside this room: a recipe out of a parsed TOML document.
#pragma once

#include "recipe/reader.hpp"

namespace battwright::recipe {

// Reads everything it can; the recipe stands only when reader.complaint() is empty afterwards.
Recipe read_document(Reader& reader, const toml::table& root);

// The two tables after the components.
void read_carding(Reader& reader, const toml::table& root, Recipe& recipe);
void read_spinning(Reader& reader, const toml::table& root, Recipe& recipe);
void read_purpose(Reader& reader, const toml::table& root, Recipe& recipe);

}  // namespace battwright::recipe
