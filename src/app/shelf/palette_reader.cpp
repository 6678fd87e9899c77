#include "app/shelf/palette_reader.hpp"

#include <utility>

#include "text/believe.hpp"

namespace battwright::app {

PaletteReader::PaletteReader(std::function<void()> ready)
    : worker_(
          [](const Request& request, const auto& turn) {
              const strip::Image& image = *request.photo->image;
              turn.publish(std::make_shared<const PaletteRead>(PaletteRead{
                  request.photo, read_palette({image.rgb, image.width, image.height}, request.marks)}));
          },
          std::move(ready)) {}

void PaletteReader::read(std::shared_ptr<const PhotoRead> photo, const PhotoMarks& marks) {
    BATTWRIGHT_BELIEVE(photo && photo->image);
    asked_ = worker_.ask({std::move(photo), marks});
}

std::shared_ptr<const PaletteRead> PaletteReader::take() {
    const auto state = worker_.state();
    if (!state.latest || state.number == taken_) return nullptr;
    taken_ = state.number;
    return state.latest;
}

bool PaletteReader::has_news() const {
    return worker_.state().number != taken_;
}

}  // namespace battwright::app
