// What a person edits and what undo brings back: the recipe and the marks that belong to its components.
#pragma once

#include <cstdint>
#include <vector>

#include "recipe/recipe.hpp"

namespace battwright::app {

// Beside each component: an identity that survives reordering, and when its amount was typed: the larger the
// later, 0 when nobody has typed it since the recipe was put on the bench.
struct Mark {
    std::uint64_t uid = 0;
    std::uint64_t typed = 0;
    bool operator==(const Mark&) const = default;
};

// Invariant: marks.size() == recipe.components.size(), and the uids differ.
struct Sheet {
    recipe::Recipe recipe;
    std::vector<Mark> marks;
    bool total_held = false;  // the total was written or typed, not found by an edit
    bool operator==(const Sheet&) const = default;
};

// A sheet with fresh marks; a total the recipe states is held.
Sheet sheet_of(recipe::Recipe recipe);
// An identity no component of the sheet has.
std::uint64_t fresh_uid(const Sheet& sheet);
// The component with that identity, or the number of components when there is none.
std::size_t index_of(const Sheet& sheet, std::uint64_t uid);

}  // namespace battwright::app
