// A batt's photo, measured and held against its forecast beside the window's thread.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <utility>

#include "app/latest_answer.hpp"
#include "app/photo_loader.hpp"
#include "app/record/batt_photo.hpp"
#include "shelving/photo.hpp"
#include "text/believe.hpp"

namespace battwright::app {

struct BattPhotoWanted {
    std::shared_ptr<const PhotoRead> photo;  // has an image
    BattPhotoForm form;
    std::int64_t batt = 0;
    std::string recipe;  // its text, as it was carded
    stash::Hands hands;  // that the forecast is made with
    const fibre::Catalogue* catalogue = nullptr;
};
// What it shows beside what was foretold, to be logged.
struct BattPhotoSeen {
    std::shared_ptr<const PhotoRead> photo;  // that it was measured on
    measure::Expected<stash::BattPhoto> seen;
};
inline BattPhotoSeen seen_on(const BattPhotoWanted& wanted) {
    BATTWRIGHT_BELIEVE(wanted.photo && wanted.photo->image && wanted.catalogue != nullptr);
    const strip::Image& image = *wanted.photo->image;
    auto seen =
        batt_photo_of({image.rgb, image.width, image.height}, wanted.form, wanted.batt, wanted.photo->path);
    if (seen) seen = shelving::judged(*std::move(seen), wanted.recipe, wanted.hands, *wanted.catalogue);
    return {wanted.photo, std::move(seen)};
}
class BattPhotoReader : public LatestAnswer<BattPhotoWanted, BattPhotoSeen> {
  public:
    explicit BattPhotoReader(std::function<void()> ready = {})
        : LatestAnswer(
              [](const BattPhotoWanted& wanted) {
                  return std::make_shared<const BattPhotoSeen>(seen_on(wanted));
              },
              std::move(ready)) {}
};

}  // namespace battwright::app
