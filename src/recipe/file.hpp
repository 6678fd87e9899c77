// Recipe files: TOML, read with full checking, written so that a person can read them.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "fibre/catalogue.hpp"
#include "measure/complaint.hpp"
#include "recipe/lots.hpp"
#include "recipe/recipe.hpp"

namespace battwright::recipe {

// Files longer than this are refused before parsing (1 MiB).
inline constexpr std::size_t longest_file_bytes = 1u << 20;

// A recipe from TOML text, checked whole: keys, values, fibres, sums. A fibre may be written in any word for
// it; the recipe has its id. What a component leaves to the lot it names is asked of `lot_of`, where that is
// given. The first fault found is the complaint, with line and column. `path` is only for complaints.
measure::Expected<Recipe> read_text(std::string_view text, const std::string& path,
                                    const fibre::Catalogue& catalogue, const LotOf& lot_of = {});
measure::Expected<Recipe> read_file(const std::filesystem::path& path, const fibre::Catalogue& catalogue,
                                    const LotOf& lot_of = {});

// What was found wrong elsewhere with a field ("component 2 lot") of a recipe that was read from `text`, with
// its place in the file.
measure::Complaint at_field(const measure::Complaint& complaint, std::string_view text,
                            const std::string& path, const std::string& field);

// The recipe as TOML. For one that passes check(), read_text(write_text(r)) gives r again: weights and
// lengths in the unit they were written in, colours to 8 bits a channel, a written-out carder in millimetres
// and grams.
std::string write_text(const Recipe& recipe);
// Writes beside the target, flushes to disk, then renames: the old file or the new one, never half.
measure::Expected<void> write_file(const Recipe& recipe, const std::filesystem::path& path);

// The same checks on a recipe built in memory (a field name stands for the line).
measure::Expected<void> check(const Recipe& recipe, const fibre::Catalogue& catalogue);

}  // namespace battwright::recipe
