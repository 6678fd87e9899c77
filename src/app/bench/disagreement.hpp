// Two things held on the bench that cannot both be, and the ways out.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/bench/sheet.hpp"

namespace battwright::app {

// What a button says and the sheet it leads to.
struct Resolution {
    std::string words;  // "Unlock merino"
    Sheet sheet;
};
struct Disagreement {
    std::string what;  // a sentence that names the two
    std::vector<Resolution> ways;
};
// A change that was asked for: the sheet with it carried out, or the sheet as it was and why not.
struct Change {
    Sheet sheet;
    std::optional<Disagreement> disagreement;
};

}  // namespace battwright::app
