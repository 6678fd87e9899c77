// A line cut into equal parts.
#pragma once

namespace battwright::measure {

// The middle of part `index` (0 .. parts - 1) of a line from 0 to 1. Precondition: parts above zero.
template <class Index, class Count>
constexpr double middle_of(Index index, Count parts) {
    return (static_cast<double>(index) + 0.5) / static_cast<double>(parts);
}

}  // namespace battwright::measure
