// Photos, read and decoded beside the window's thread.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>

#include "jobs/latest.hpp"
#include "strip/photo_file.hpp"

namespace battwright::app {

struct PhotoRead {
    std::filesystem::path path;
    std::uint64_t wanted_by = 0;  // whoever asked
    measure::Expected<strip::Image> image;
};

// One thread. The photo asked for last wins: one asked for before is dropped, if it is not there yet.
class PhotoLoader {
  public:
    // `ready` is called on the loader's thread once there is something to take.
    explicit PhotoLoader(std::function<void()> ready = {});

    void load(std::filesystem::path path, std::uint64_t wanted_by);
    // A photo, or the complaint about it, once; null while there is nothing new.
    std::shared_ptr<const PhotoRead> take();
    // There is something to take.
    bool has_news() const;
    // One is being read, or is there and not taken yet.
    bool busy() const;

  private:
    struct Request {
        std::filesystem::path path;
        std::uint64_t wanted_by = 0;
    };
    unsigned long asked_ = 0, taken_ = 0;
    jobs::Latest<Request, PhotoRead> worker_;
};

}  // namespace battwright::app
