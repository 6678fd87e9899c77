// Inside this room: a recipe wherever it is written down.
#pragma once

#include <filesystem>
#include <string>

#include "fibre/catalogue.hpp"
#include "measure/complaint.hpp"
#include "recipe/lots.hpp"
#include "recipe/recipe.hpp"

namespace battwright::command {

// Of a recipe's file, or of a photo (JPEG or PNG, by its name) of a printed card.
recipe::Recipe recipe_in(const std::filesystem::path& path, const fibre::Catalogue& catalogue,
                         const recipe::LotOf& lot_of = {});

// A recipe's file for the record.
struct RecipeKept {
    std::string text;  // as it stands in the file
    std::string kept;  // the same, with what it leaves to its lots written out
    recipe::Recipe recipe;
};
RecipeKept recipe_kept(const std::string& path, const fibre::Catalogue& catalogue,
                       const recipe::LotOf& lot_of);

}  // namespace battwright::command
