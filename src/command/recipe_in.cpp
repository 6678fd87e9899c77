#include "command/recipe_in.hpp"

#include <string>

#include "card/read_code.hpp"
#include "command/complain.hpp"
#include "measure/save.hpp"
#include "recipe/file.hpp"
#include "text/words.hpp"

namespace battwright::command {

recipe::Recipe recipe_in(const std::filesystem::path& path, const fibre::Catalogue& catalogue,
                         const recipe::LotOf& lot_of) {
    const std::string ending = text::lower(path.extension().string());
    if (ending != ".jpg" && ending != ".jpeg" && ending != ".png")
        return value_of(recipe::read_file(path, catalogue, lot_of));
    const auto text = value_of(card::code_on(path));
    return value_of(recipe::read_text(text, "the code on " + path.string(), catalogue, lot_of));
}

RecipeKept recipe_kept(const std::string& path, const fibre::Catalogue& catalogue,
                       const recipe::LotOf& lot_of) {
    auto text = value_of(measure::load_bytes(path, recipe::longest_file_bytes));
    auto recipe = value_of(recipe::read_text(text, path, catalogue, lot_of));
    const auto alone = recipe::read_text(text, path, catalogue);
    std::string kept = alone && *alone == recipe ? text : recipe::write_text(recipe);
    return RecipeKept{std::move(text), std::move(kept), std::move(recipe)};
}

}  // namespace battwright::command
