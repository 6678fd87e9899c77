// Inside this room: what photos of batts have taught, in words and as JSON.
#pragma once

#include <string>

#include "command/json_value.hpp"
#include "stash/stash.hpp"

namespace battwright::command {

// m and mixing with their 80 % ranges, before and now; a line each.
std::string hands_text(const stash::Hands& before, const stash::Hands& now);
Json hands_json(const stash::Hands& hands);
Json photo_json(const stash::BattPhoto& photo);
Json asked_photo_json(const stash::AskedPhoto& asked);
// What is asked of this photo; null when nothing is.
Json question_of(std::int64_t photo, const stash::HandsLearnt& learnt);

}  // namespace battwright::command
