#include "app/photo_loader.hpp"

#include <utility>

namespace battwright::app {

PhotoLoader::PhotoLoader(std::function<void()> ready)
    : worker_(
          [](const Request& request, const auto& turn) {
              turn.publish(std::make_shared<const PhotoRead>(
                  PhotoRead{request.path, request.wanted_by, strip::load_photo(request.path)}));
          },
          std::move(ready)) {}

void PhotoLoader::load(std::filesystem::path path, std::uint64_t wanted_by) {
    asked_ = worker_.ask({std::move(path), wanted_by});
}

std::shared_ptr<const PhotoRead> PhotoLoader::take() {
    const auto state = worker_.state();
    if (!state.latest || state.number == taken_) return nullptr;
    taken_ = state.number;
    return state.latest;
}

bool PhotoLoader::has_news() const {
    return worker_.state().number != taken_;
}

bool PhotoLoader::busy() const {
    return asked_ != taken_;
}

}  // namespace battwright::app
