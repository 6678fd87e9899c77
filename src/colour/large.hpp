// Colour differences too large for CIEDE2000, which was fitted to differences of about 5 and less.
#pragma once

#include <optional>
#include <string>

#include "colour/spaces.hpp"

namespace battwright::colour {

// How a colour is looked at: the white it is seen under (Y = 100), the adapting luminance in cd/m2, the
// background's Y. Surround: average. The defaults are a light table of 1,000 lux with a grey around (L_A = E
// Yb / (100 pi)).
struct Viewing {
    Xyz white;
    double adapting_cd_m2 = 63.66;
    double background_y = 20.0;
};

// CIECAM02 (CIE 159:2004): lightness J, colourfulness M, hue angle in degrees.
struct Appearance {
    double j = 0.0, m = 0.0, hue_degrees = 0.0;
};
Appearance appearance(const Xyz& xyz, const Viewing& viewing);

// J', a', b' of CAM02-LCD, the uniform space fitted to large differences (Luo, Cui and Li 2006, Color
// Research and Application 31, 320-330: K_L = 0.77, c1 = 0.007, c2 = 0.0053), and the distance in it.
struct LargeSpace {
    double j = 0.0, a = 0.0, b = 0.0;
};
LargeSpace large_space(const Appearance& appearance);
double cam02_lcd(const LargeSpace& first, const LargeSpace& second);

// Two colours of Lab under our grid's D65.
double cam02_lcd(const Lab& first, const Lab& second);

// The difference a match is judged by: CIEDE2000 up to 5, CAM02-LCD from 10, and between them from the one to
// the other without a step. `k_l` is CIEDE2000's.
inline constexpr double near_de00 = 5.0, far_de00 = 10.0;
double match_difference(const Lab& target, const Lab& sample, double k_l = 1.0);
// How a difference is told: near, CIEDE2000 to a tenth; further off that figure means little, and the one for
// large differences speaks (CIEDE2000 where that was not asked), in whole units.
struct ToldDifference {
    bool near = true;
    std::string figure;
};
ToldDifference told(double de00, std::optional<double> large);
// A difference under this the eye does not see on fibre. Common practice, no source.
inline constexpr double unseen_de00 = 0.5;
// The same of many samples to one target, whose own share of the work is done once.
class MatchTo {
  public:
    explicit MatchTo(const Lab& target, double k_l = 1.0);
    double operator()(const Lab& sample) const;

  private:
    Lab target_;
    double k_l_;
    LargeSpace large_;
};

}  // namespace battwright::colour
