#include "app/card/card_choice.hpp"

#include <algorithm>
#include <optional>
#include <span>
#include <sstream>
#include <system_error>

#include "measure/unit_tables.hpp"
#include "recipe/file.hpp"
#include "recipe/file_name.hpp"
#include "text/words.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;
using measure::Complaint;
using measure::Expected;

card::Page tag_of(const forecast::Forecast& forecast, const CardChoice& choice) {
    card::TagOptions options;
    options.market = choice.market;
    options.label = label_options(choice.word);
    options.units = {choice.mass, choice.length};
    options.maker = choice.maker;
    options.lot = choice.lot;
    options.length = choice.measured;
    options.date = choice.date;
    options.skein = choice.product == card::Product::yarn;
    options.draft = choice.word.draft;
    return card::tag(forecast, options);
}

// The words between the commas, without the blanks round them.
std::set<std::string> words_typed(const std::string& typed) {
    std::set<std::string> words;
    std::istringstream all(typed);
    for (std::string word; std::getline(all, word, ',');)
        if (!text::is_blank(word)) words.emplace(text::trimmed(word));
    return words;
}

// Why the page may not go out.
std::optional<Complaint> barred(const forecast::Forecast& forecast, const CardChoice& choice) {
    if (choice.kind == PageKind::recipe_card) return std::nullopt;
    const card::Label label = label_of(forecast, choice);
    const bool bars = choice.kind == PageKind::tag || label.text.empty();
    if (!bars || label.refused.empty()) return std::nullopt;
    Complaint complaint = label.refused.front();
    if (complaint.where.empty()) complaint.where = forecast.recipe.name;
    return complaint;
}

card::Page card_of(const forecast::Forecast& forecast, const CardChoice& choice) {
    card::CardOptions options;
    options.date = choice.date;
    options.units = {choice.mass, choice.length};
    options.parts = choice.parts;
    options.yarn_length = measure::yarn_unit_beside(choice.length);
    return card::recipe_card(forecast, options);
}

Expected<forecast::Forecast> forecast_of(const Batch& batch, const fs::path& recipe_path) {
    const auto recipe = recipe::read_file(recipe_path, *batch.bench.catalogue);
    if (!recipe) return tl::make_unexpected(recipe.error());
    auto forecast = forecast::forecast(*recipe, batch.bench);
    if (forecast) return std::move(*forecast);
    Complaint complaint = forecast.error();
    complaint.where = recipe_path.string() + (complaint.where.empty() ? "" : ", " + complaint.where);
    return tl::make_unexpected(std::move(complaint));
}

// A page of its own.
Expected<void> write_recipe(const Batch& batch, const fs::path& recipe_path) {
    const auto forecast = forecast_of(batch, recipe_path);
    if (!forecast) return tl::make_unexpected(forecast.error());
    auto written = write_page(*forecast, batch.choice, batch_file(batch, recipe_path));
    if (!written) return tl::make_unexpected(written.error());
    return {};
}

}  // namespace

card::Page page_of(const forecast::Forecast& forecast, const CardChoice& choice) {
    switch (choice.kind) {
        case PageKind::tag:
            return tag_of(forecast, choice);
        case PageKind::label:
            return card::label_page(recipe::title_of(forecast.recipe), label_of(forecast, choice),
                                    choice.product, choice.word.draft);
        case PageKind::recipe_card:
            break;
    }
    return card_of(forecast, choice);
}

card::LabelOptions label_options(const SellersWord& word) {
    card::LabelOptions options;
    options.new_wool = word.new_wool;
    options.count_decorative = word.count_decorative;
    options.visible_pattern = word.visible_pattern;
    options.functional = words_typed(word.functional);
    options.origin = word.origin;
    return options;
}

card::Label label_of(const forecast::Forecast& forecast, const CardChoice& choice) {
    return card::label(card::shares_of(forecast, choice.market, choice.product), choice.market,
                       label_options(choice.word));
}

std::vector<std::string> said_with(const forecast::Forecast& forecast, const CardChoice& choice) {
    std::vector<std::string> said;
    if (choice.kind == PageKind::recipe_card) return said;
    const card::Label label = label_of(forecast, choice);
    for (const Complaint& one : label.refused) said.push_back("Refused: " + one.what + "; " + one.mend + ".");
    for (const std::string& note : label.notes) said.push_back("Note: " + note + ".");
    return said;
}

std::string word_for(PageKind kind) {
    if (kind == PageKind::tag) return "tag";
    return kind == PageKind::label ? "label" : "card";
}

std::string with_ending(const std::string& name, const std::string& ending) {
    fs::path path(name);
    if (card::format_of(path))
        path.replace_extension(ending);
    else
        path += ending;
    return path.string();
}

double dpi_to_fit(card::Paper paper, int width, int height) {
    constexpr double least = 20.0;
    const card::PaperSize size = card::size_of(paper);
    return std::max(least,
                    measure::millimetres_per_inch * std::min(width / size.width_mm, height / size.height_mm));
}

Expected<std::vector<fs::path>> write_page(const forecast::Forecast& forecast, const CardChoice& choice,
                                           const fs::path& path) {
    if (const auto format = card::format_of(path); !format)
        return tl::make_unexpected(Complaint{format.error().what, format.error().mend, "file name"});
    if (auto complaint = barred(forecast, choice)) return tl::make_unexpected(std::move(*complaint));
    return card::write(page_of(forecast, choice), choice.paper(), path);
}

std::vector<fs::path> recipes_in(const fs::path& folder) {
    std::vector<fs::path> recipes;
    std::error_code error;
    for (auto it = fs::directory_iterator(folder, error); !error && it != fs::directory_iterator();
         it.increment(error)) {
        std::error_code ignored;
        const bool hidden = it->path().filename().string().starts_with('.');
        if (!hidden && it->path().extension() == ".toml" && !it->is_directory(ignored))
            recipes.push_back(it->path());
    }
    std::sort(recipes.begin(), recipes.end());
    return recipes;
}

fs::path batch_file(const Batch& batch, const fs::path& recipe) {
    return batch.to / (recipe::file_stem(recipe) + "-" + word_for(batch.choice.kind) + batch.ending);
}

fs::path sheets_file(const Batch& batch) {
    return batch.to / (word_for(batch.choice.kind) + "s-a4.pdf");
}

std::size_t already_there(const Batch& batch) {
    std::error_code unreadable;
    if (batch.sheets) return fs::exists(sheets_file(batch), unreadable) ? 1 : 0;
    const auto recipes = recipes_in(batch.from);
    return static_cast<std::size_t>(
        std::count_if(recipes.begin(), recipes.end(), [&batch](const fs::path& recipe) {
            std::error_code ignored;
            return fs::exists(batch_file(batch, recipe), ignored);
        }));
}

namespace {

// The page of a recipe, laid out to share a sheet.
Expected<card::Laid> laid_out(const Batch& batch, const fs::path& recipe_path) {
    const auto forecast = forecast_of(batch, recipe_path);
    if (!forecast) return tl::make_unexpected(forecast.error());
    if (auto complaint = barred(*forecast, batch.choice)) return tl::make_unexpected(std::move(*complaint));
    return card::lay_out(page_of(*forecast, batch.choice), batch.choice.paper());
}

Expected<void> write_sheets(const Batch& batch, std::span<const card::Laid> laid) {
    const auto sheets = card::sheet_of(laid, card::Paper::a4);
    if (!sheets) return tl::make_unexpected(sheets.error());
    auto written = card::write(*sheets, sheets_file(batch));
    if (!written) return tl::make_unexpected(written.error());
    return {};
}

}  // namespace

BatchResult write_batch(const Batch& batch, const std::stop_token& stop,
                        const std::function<void(const BatchResult&)>& progress) {
    const auto recipes = recipes_in(batch.from);
    BatchResult result;
    result.of = recipes.size();
    std::vector<card::Laid> laid;
    for (const fs::path& recipe : recipes) {
        if (stop.stop_requested()) return result;
        Expected<void> done;
        if (!batch.sheets)
            done = write_recipe(batch, recipe);
        else if (auto one = laid_out(batch, recipe))
            laid.push_back(std::move(*one));
        else
            done = tl::make_unexpected(one.error());
        if (done)
            ++result.written;
        else
            result.failed.push_back(done.error());
        if (progress) progress(result);
    }
    if (laid.empty()) return result;
    if (const auto done = write_sheets(batch, laid); !done) {
        result.written = 0;
        result.failed.push_back(done.error());
    }
    return result;
}

}  // namespace battwright::app
