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
};

// Invariant: marks.size() == recipe.components.size(), and the uids differ.
struct Sheet {
    recipe::Recipe recipe;
    std::vector<Mark> marks;
    bool total_held = false;  // the total was written or typed, not found by an edit
};

// A sheet with fresh marks; a total the recipe states is held.
Sheet sheet_of(recipe::Recipe recipe);
// An identity no component of the sheet has.
std::uint64_t fresh_uid(const Sheet& sheet);
// The component with that identity, or the number of components when there is none.
std::size_t index_of(const Sheet& sheet, std::uint64_t uid);

// True when both hold the same values, field by field.
bool same(const recipe::Component& first, const recipe::Component& second);
bool same(const recipe::Recipe& first, const recipe::Recipe& second);
bool same(const Sheet& first, const Sheet& second);

}  // namespace battwright::app
