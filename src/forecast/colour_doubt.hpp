// How far the batt's colour may lie from its forecast, when everything is blended.
#pragma once

#include <string>
#include <vector>

#include "forecast/forecast.hpp"

namespace battwright::forecast {

// All in CIEDE2000.
// With measured fibres and an m fitted to them: mean of 44 blends by the Stearns-Noechel function (Wei, Wan,
// Li 2017: 1.23). That nobody knows this spinner's m comes on top (colour::OpticsModel::m_log_sd).
inline constexpr double model_doubt_de00 = 1.23;
// A photo. Phones' cameras are over 10 off on average as they give it and half of that against a chart (from
// memory); the tool asks for a white in the photo, so the half.
inline constexpr double photo_doubt_de00 = 5.0;
// The eye, at a screen. Two people's matches on a calibrated one are 2.5 apart (Color Research and
// Application 22 (1997) 174-188, in CIELAB, taken here as CIEDE2000); a screen that nobody has calibrated
// adds about 5 (from memory). As errors that do not know of each other: 5.6.
inline constexpr double eye_doubt_de00 = 5.6;
// A tag or a dye card: what dyers take for the same colour from one lot to the next is under 2. Common
// practice, no source.
inline constexpr double tag_doubt_de00 = 2.0;
// Measured on the fibre, taken away and laid on anew: loose fibre lies less evenly than cloth. Common
// practice, no source.
inline constexpr double measured_doubt_de00 = 0.5;
// An undyed fibre against the catalogue's colour for it: from memory (scoured merino is L* 85 to 88).
inline constexpr double natural_colour_doubt_de00 = 3.0;

struct ColourDoubt {
    std::vector<double> components_de00;  // of each component by itself
    double m_de00 = 0.0;                  // what not knowing m brings
    double blend_de00 = 0.0;              // of the whole: the model's own, m's, and what the components bring
};

// How sure a component's colour is, by where the recipe says that it is from; by eye when it does not say.
double own_doubt_de00(const recipe::Component& component);
// "a colour from a photo with something white in it may be 5 off; ...", each origin of the recipe once.
std::string origins_in_words(const recipe::Recipe& recipe);

// Each component's reflectance is moved by its own doubt in three ways (level, slope and bow of the
// spectrum), and the blend made again; what it moves by is added up as independent errors are, root of the
// sum of squares.
ColourDoubt colour_doubt(const Forecast& f);

// The blend under another model of the optics.
colour::Spectrum blend_of(const Forecast& f, const colour::OpticsModel& optics);
// The blend with one component so moved: three for each component, in their order.
std::vector<colour::Spectrum> moved_blends(const Forecast& f, const colour::OpticsModel& optics);
inline constexpr std::size_t ways_to_move = 3;

}  // namespace battwright::forecast
