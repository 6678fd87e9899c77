// What a file looks like, small: a photo itself, a recipe by its colours. Made on a thread.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "fibre/catalogue.hpp"
#include "jobs/latest.hpp"
#include "recipe/recipe.hpp"
#include "strip/picture.hpp"

namespace battwright::app {

// The longer side of a small picture, in pixels.
inline constexpr int thumbnail_side = 192;

struct Thumbnail {
    std::filesystem::file_time_type changed;  // of the file, when it was read
    strip::Image picture;                     // of a photo; of anything else empty
    std::vector<recipe::Tint> colours;        // of a recipe, the largest share first; of anything else none
    std::string about;                        // "4032 x 3024 pixels", "Dawn Tide, 4 fibres"
    std::string trouble;                      // why there is none, in one line; else ""
};
// By the file's path.
using Thumbnails = std::map<std::string, std::shared_ptr<const Thumbnail>>;

// Reads and decodes; may take a second for a large photo.
Thumbnail thumbnail_of(const std::filesystem::path& path, const fibre::Catalogue& catalogue);

struct ThumbnailWanted {
    std::filesystem::path path;
    std::filesystem::file_time_type changed;
    bool operator==(const ThumbnailWanted&) const = default;
};

// One thread. What was asked for last is made first to last, and what was made is kept as long as there is
// room.
class ThumbnailMaker {
  public:
    // `ready` is called on the maker's thread after each. The catalogue must outlive it.
    explicit ThumbnailMaker(const fibre::Catalogue& catalogue, std::function<void()> ready = {});
    void make(std::vector<ThumbnailWanted> wanted);
    void stop() { worker_.cancel(); }
    // All that was made and kept; never null.
    std::shared_ptr<const Thumbnails> latest() const;
    bool busy() const { return worker_.state().busy; }

  private:
    jobs::Latest<std::vector<ThumbnailWanted>, Thumbnails> worker_;
};

}  // namespace battwright::app
