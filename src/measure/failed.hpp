// Failures that travel as an exception: for a room in which nearly every line can fail. guarded() turns them
// into an Expected at the room's border.
#pragma once

#include <string>
#include <string_view>
#include <type_traits>
#include <utility>

#include "measure/complaint.hpp"

namespace battwright::measure {

struct Failed {
    Complaint complaint;
    int code = 0;  // of the library that failed, where one did
};

[[noreturn]] inline void fail(std::string what, std::string mend, std::string where = {}) {
    throw Failed{{std::move(what), std::move(mend), std::move(where)}};
}

template <class T>
T value_of(Expected<T> expected) {
    if (!expected) throw Failed{std::move(expected.error())};
    if constexpr (!std::is_void_v<T>) return std::move(*expected);
}
// The same, of something that is given at that place, as a complaint then says.
template <class T>
T value_of(Expected<T> expected, std::string_view where) {
    if (!expected) expected.error().where = where;
    return value_of(std::move(expected));
}

template <class Work>
auto guarded(const Work& work) -> Expected<decltype(work())> {
    try {
        if constexpr (std::is_void_v<decltype(work())>) {
            work();
            return {};
        } else {
            return work();
        }
    } catch (Failed& failed) {
        return tl::make_unexpected(std::move(failed.complaint));
    }
}

}  // namespace battwright::measure
