#include "command/recipe_in.hpp"

#include <algorithm>
#include <cctype>
#include <string>

#include "card/read_code.hpp"
#include "measure/save.hpp"
#include "recipe/file.hpp"

namespace battwright::command {

measure::Expected<recipe::Recipe> recipe_in(const std::filesystem::path& path,
                                            const fibre::Catalogue& catalogue, const recipe::LotOf& lot_of) {
    std::string ending = path.extension().string();
    std::ranges::transform(ending, ending.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    if (ending != ".jpg" && ending != ".jpeg" && ending != ".png")
        return recipe::read_file(path, catalogue, lot_of);
    const auto text = card::code_on(path);
    if (!text) return tl::make_unexpected(text.error());
    return recipe::read_text(*text, "the code on " + path.string(), catalogue, lot_of);
}

measure::Expected<RecipeKept> recipe_kept(const std::string& path, const fibre::Catalogue& catalogue,
                                          const recipe::LotOf& lot_of) {
    auto text = measure::load_bytes(path, recipe::longest_file_bytes);
    if (!text) return tl::make_unexpected(text.error());
    auto recipe = recipe::read_text(*text, path, catalogue, lot_of);
    if (!recipe) return tl::make_unexpected(recipe.error());
    const auto alone = recipe::read_text(*text, path, catalogue);
    std::string kept = alone && *alone == *recipe ? *text : recipe::write_text(*recipe);
    return RecipeKept{std::move(*text), std::move(kept), std::move(*recipe)};
}

}  // namespace battwright::command
