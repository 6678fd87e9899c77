// A lot's palette, read off its photo beside the window's thread.
#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "app/photo_loader.hpp"
#include "app/shelf/lot_photo.hpp"
#include "jobs/latest.hpp"

namespace battwright::app {

struct PaletteRead {
    std::shared_ptr<const PhotoRead> photo;  // that it was read from
    measure::Expected<std::vector<recipe::Tint>> palette;
};

// One thread. What was asked last wins: an older wish is dropped, if it is not read yet.
class PaletteReader {
  public:
    // `ready` is called on the reader's thread once there is something to take.
    explicit PaletteReader(std::function<void()> ready = {});

    // Precondition: the photo has an image.
    void read(std::shared_ptr<const PhotoRead> photo, const PhotoMarks& marks);
    // What was read, once; null while there is nothing new.
    std::shared_ptr<const PaletteRead> take();
    bool has_news() const;
    // One is being read, or is there and not taken yet.
    bool busy() const { return asked_ != taken_; }

  private:
    struct Request {
        std::shared_ptr<const PhotoRead> photo;
        PhotoMarks marks;
    };
    unsigned long asked_ = 0, taken_ = 0;
    jobs::Latest<Request, PaletteRead> worker_;
};

}  // namespace battwright::app
