// Photos, read and decoded beside the window's thread.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <utility>

#include "app/latest_answer.hpp"
#include "strip/photo_file.hpp"

namespace battwright::app {

struct PhotoRead {
    std::filesystem::path path;
    std::uint64_t wanted_by = 0;  // whoever asked
    measure::Expected<strip::Image> image;
};

struct PhotoWanted {
    std::filesystem::path path;
    std::uint64_t wanted_by = 0;
};
class PhotoLoader : public LatestAnswer<PhotoWanted, PhotoRead> {
  public:
    explicit PhotoLoader(std::function<void()> ready = {})
        : LatestAnswer(
              [](const PhotoWanted& wanted) {
                  return std::make_shared<const PhotoRead>(
                      PhotoRead{wanted.path, wanted.wanted_by, strip::load_photo(wanted.path)});
              },
              std::move(ready)) {}

    void load(std::filesystem::path path, std::uint64_t wanted_by) { ask({std::move(path), wanted_by}); }
};

}  // namespace battwright::app
