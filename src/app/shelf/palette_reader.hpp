// A lot's palette, read off its photo beside the window's thread.
#pragma once

#include <functional>
#include <memory>
#include <utility>
#include <vector>

#include "app/latest_answer.hpp"
#include "app/photo_loader.hpp"
#include "app/shelf/lot_photo.hpp"
#include "text/believe.hpp"

namespace battwright::app {

struct PaletteRead {
    std::shared_ptr<const PhotoRead> photo;  // that it was read from
    measure::Expected<std::vector<recipe::Tint>> palette;
};

struct PaletteWanted {
    std::shared_ptr<const PhotoRead> photo;
    PhotoMarks marks;
};
class PaletteReader : public LatestAnswer<PaletteWanted, PaletteRead> {
  public:
    explicit PaletteReader(std::function<void()> ready = {})
        : LatestAnswer(
              [](const PaletteWanted& wanted) {
                  const strip::Image& image = *wanted.photo->image;
                  return std::make_shared<const PaletteRead>(PaletteRead{
                      wanted.photo, read_palette({image.rgb, image.width, image.height}, wanted.marks)});
              },
              std::move(ready)) {}

    // Precondition: the photo has an image.
    void read(std::shared_ptr<const PhotoRead> photo, const PhotoMarks& marks) {
        BATTWRIGHT_BELIEVE(photo && photo->image);
        ask({std::move(photo), marks});
    }
};

}  // namespace battwright::app
