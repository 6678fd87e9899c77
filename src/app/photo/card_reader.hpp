// Recipes off photos of printed cards, read beside the window's thread.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <utility>

#include "app/latest_answer.hpp"
#include "card/read_code.hpp"

namespace battwright::app {

// A photo that may be of a card.
struct CardPhoto {
    std::filesystem::path path;
    bool perhaps = false;  // where it is of no card, nothing was wrong
};
struct CardRead {
    CardPhoto photo;
    measure::Expected<std::string> recipe;  // the text of its file
};
class CardReader : public LatestAnswer<CardPhoto, CardRead> {
  public:
    explicit CardReader(std::function<void()> ready = {})
        : LatestAnswer(
              [](const CardPhoto& photo) {
                  return std::make_shared<const CardRead>(CardRead{photo, card::code_on(photo.path)});
              },
              std::move(ready)) {}
};

}  // namespace battwright::app
