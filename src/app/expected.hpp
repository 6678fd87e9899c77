// What a call gave, or what went wrong with it.
#pragma once

#include <utility>

#include "measure/complaint.hpp"

namespace battwright::app {

// Takes the value; `into` stays as it was when there is none.
template <class T>
measure::Expected<void> take(measure::Expected<T> given, T& into) {
    if (!given) return tl::make_unexpected(std::move(given.error()));
    into = std::move(*given);
    return {};
}
// Whether it went well, without what it gave.
template <class T>
measure::Expected<void> without_value(const measure::Expected<T>& given) {
    if (!given) return tl::make_unexpected(given.error());
    return {};
}

}  // namespace battwright::app
