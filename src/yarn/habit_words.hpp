// What a spinner's own skeins have taught, said to her.
#pragma once

#include <string>

#include "yarn/calibration.hpp"
#include "yarn/forecast.hpp"

namespace battwright::yarn {

// `borrowed`: of all her skeins, however they were spun, since those of this way are too few.
// "aim: for 12 wraps wanted you get about 15, four times in five 13 to 18 (3 skeins)". Empty with no skein.
std::string aim_words(const Belief& aim, double wanted_wpi, bool borrowed = false);
// "loft: your skeins run 8 % longer than others' of their wraps ... (3 skeins)". Empty with no skein.
std::string loft_words(const Belief& loft, bool borrowed = false);
// Of a plan by wraps whose aim has been learnt: "for 12 wraps expect about 15; to get 12, ask for 9.5". Empty
// when there is nothing to say (no skein, or an aim that is within half a wrap).
std::string plan_words(const YarnForecast& forecast);
// The question a skein raises, with its figures; empty for Question::none.
std::string question_words(Question question, const Lesson& lesson);
std::string taught_words(Taught taught);

}  // namespace battwright::yarn
