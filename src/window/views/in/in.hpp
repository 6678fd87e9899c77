// What is half typed or half dragged of what goes in.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

#include "app/bench/sheet.hpp"
#include "window/room.hpp"

namespace battwright::window {

struct InState {
    std::optional<std::uint64_t> dragged;  // component being reordered
    std::optional<std::size_t> border;     // border of the composition bar being dragged
    float border_from = 0.0f;
    Sheet border_start;
    std::string hex_complaint;
    std::size_t tint = 0;  // which tint of the palette is being edited
    std::string search;
    bool open_search = false;
};

}  // namespace battwright::window
