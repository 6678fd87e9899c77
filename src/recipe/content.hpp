// What a lot or a thread is made of.
#pragma once

#include <string>

namespace battwright::recipe {

// One kind in a component or a thread; a plain one has one at 100 %.
struct Content {
    std::string fibre;  // catalogue id
    double share_pct = 100.0;
    bool operator==(const Content& other) const = default;
};

}  // namespace battwright::recipe
