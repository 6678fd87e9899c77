#include "app/browse/thumbnails.hpp"

#include <algorithm>
#include <utility>

#include "app/bench/shown_colours.hpp"
#include "app/browse/file_kinds.hpp"
#include "measure/complaint.hpp"
#include "recipe/composition.hpp"
#include "recipe/file.hpp"
#include "recipe/file_name.hpp"
#include "strip/photo_file.hpp"

namespace battwright::app {
namespace {

// What is kept of what is no longer asked for: some ten screens of a folder.
constexpr std::size_t most_kept = 400;

void small_photo(const std::filesystem::path& path, Thumbnail& made) {
    auto photo = strip::load_thumbnail(path, thumbnail_side);
    if (!photo) {
        made.trouble = measure::to_line(photo.error());
        return;
    }
    made.picture = std::move(photo->image);
    made.about = std::to_string(photo->whole_width) + " x " + std::to_string(photo->whole_height) + " pixels";
}

void small_recipe(const std::filesystem::path& path, const fibre::Catalogue& catalogue, Thumbnail& made) {
    const auto recipe = recipe::read_file(path, catalogue);
    if (!recipe) {
        made.trouble = measure::to_line(recipe.error());
        return;
    }
    const auto masses = recipe::masses_of(*recipe);
    for (std::size_t i = 0; i < recipe->components.size(); ++i) {
        const auto shown = shown_colours(recipe->components[i], catalogue);
        const double share = masses ? masses->grams[i] / masses->total_grams : 1.0;
        for (std::size_t c = 0; c < shown.colours.size(); ++c)
            made.colours.push_back({shown.colours[c], share * shown.shares[c]});
    }
    std::ranges::stable_sort(made.colours, std::ranges::greater{}, &recipe::Tint::share_pct);
    const std::size_t count = recipe->components.size();
    made.about =
        recipe::title_of(*recipe) + ", " + std::to_string(count) + (count == 1 ? " fibre" : " fibres");
}

}  // namespace

Thumbnail thumbnail_of(const std::filesystem::path& path, const fibre::Catalogue& catalogue) {
    Thumbnail made;
    const std::string name = path.filename().string();
    if (looks_like_photo(name))
        small_photo(path, made);
    else if (fits(FileKind::recipe, name))
        small_recipe(path, catalogue, made);
    return made;
}

ThumbnailMaker::ThumbnailMaker(const fibre::Catalogue& catalogue, std::function<void()> ready)
    : worker_(
          [&catalogue, kept = Thumbnails{}](const std::vector<ThumbnailWanted>& wanted,
                                            const auto& turn) mutable {
              const auto is_wanted = [&](const auto& entry) {
                  return std::ranges::any_of(
                      wanted, [&](const ThumbnailWanted& one) { return one.path == entry.first; });
              };
              if (kept.size() > most_kept)
                  std::erase_if(kept, [&](const auto& entry) { return !is_wanted(entry); });
              for (const ThumbnailWanted& one : wanted) {
                  if (turn.outdated()) return;
                  auto& place = kept[one.path.string()];
                  if (place && place->changed == one.changed) continue;
                  Thumbnail made = thumbnail_of(one.path, catalogue);
                  made.changed = one.changed;
                  place = std::make_shared<const Thumbnail>(std::move(made));
                  turn.publish(std::make_shared<const Thumbnails>(kept), jobs::Late::shown);
              }
              turn.publish(std::make_shared<const Thumbnails>(kept), jobs::Late::shown);
          },
          std::move(ready)) {}

void ThumbnailMaker::make(std::vector<ThumbnailWanted> wanted) {
    worker_.ask(std::move(wanted));
}

std::shared_ptr<const Thumbnails> ThumbnailMaker::latest() const {
    static const auto none = std::make_shared<const Thumbnails>();
    const auto made = worker_.state().latest;
    return made ? made : none;
}

}  // namespace battwright::app
