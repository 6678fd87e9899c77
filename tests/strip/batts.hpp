// Batts made up for the picture's tests, put together by hand so that only the picture is under test.
#pragma once

#include <deque>
#include <string>
#include <vector>

#include "colour/reflectance.hpp"
#include "forecast/forecast.hpp"

namespace batts {

using namespace battwright;

struct Portion {
    std::string hex;
    double share;
    fibre::Form form = fibre::Form::fibre;
    double staple_mm = 75.0;
    double diameter_um = 22.0;
    double lustre = 0.3;
    double crimp_per_cm = 4.0;
};
struct Batt {
    std::string name;
    std::vector<Portion> portions;
};

// Owns the kinds that its forecast's strands point to.
class Carded {
  public:
    explicit Carded(const Batt& batt) {
        forecast.recipe.name = batt.name;
        std::vector<colour::Portion> portions;
        for (const Portion& portion : batt.portions) add(portion, portions);
        forecast.colour.reflectance = colour::blend(portions, forecast.optics);
        forecast.colour.srgb =
            colour::clipped(colour::encoded(forecast::seen(forecast.colour.reflectance, forecast.light)));
    }
    Carded(const Carded&) = delete;
    Carded& operator=(const Carded&) = delete;

    forecast::Forecast forecast;

  private:
    void add(const Portion& portion, std::vector<colour::Portion>& portions) {
        fibre::Kind& kind = kinds_.emplace_back();
        kind.form = portion.form;
        kind.lustre = portion.lustre;
        kind.crimp_per_cm = portion.crimp_per_cm;
        recipe::Strand strand;
        strand.component = forecast.strands.size();
        strand.kind = std::shared_ptr<const fibre::Kind>(std::shared_ptr<void>(), &kind);
        strand.mass_share = portion.share;
        strand.staple_mm = portion.staple_mm;
        strand.fibre_mm = portion.staple_mm;
        strand.diameter_um = portion.diameter_um;
        strand.colour = colour::parse_hex(portion.hex).value();
        const auto reflectance = colour::reflectance_of(strand.colour);
        portions.push_back({portion.share, reflectance});
        forecast.strands.push_back(strand);
        forecast.strand_colours.push_back(forecast::seen(reflectance, forecast.light));
        forecast.strand_reflectances.push_back(reflectance);
        forecast.recipe.components.emplace_back();
    }
    std::deque<fibre::Kind> kinds_;
};

inline std::vector<Batt> all() {
    using fibre::Form;
    return {
        {"low tide",
         {{"#2f5d50", 0.6}, {"#b08d3c", 0.25, Form::fibre, 60, 28, 0.75, 0.3}, {"#efe9dd", 0.15}}},
        {"gull and tar", {{"#000000", 0.5}, {"#ffffff", 0.5}}},
        {"all foam", {{"#ffffff", 1.0}}},
        {"all tar", {{"#000000", 0.7}, {"#101014", 0.3}}},
        {"fog", {{"#f2ede2", 0.8}, {"#c9c4b8", 0.2, Form::fibre, 120, 36, 0.5, 1.5}}},
        {"signal flags", {{"#ff0000", 0.25}, {"#0000ff", 0.25}, {"#ffff00", 0.25}, {"#00ff00", 0.25}}},
        {"lanterns", {{"#ff00ff", 0.5}, {"#00ffff", 0.5, Form::fibre, 40, 18, 0.1, 6}}},
        {"nep squall",
         {{"#8c9399", 0.7},
          {"#f4f1e8", 0.2, Form::nep, 8, 20, 0.2, 0},
          {"#22242a", 0.1, Form::nep, 8, 20, 0.2, 0}}},
        {"phosphor",
         {{"#1f3a4d", 0.7},
          {"#2b7a78", 0.25, Form::fibre, 90, 14, 0.8, 0.5},
          {"#b8d8d0", 0.05, Form::film, 60, 40, 1.0, 0}}},
        {"curls", {{"#6b4a6e", 0.6}, {"#d9c7a0", 0.4, Form::lock, 60, 34, 0.7, 1.5}}},
        {"many tints",
         {{"#13315c", 0.1},
          {"#1d5c7a", 0.1},
          {"#2f8f9d", 0.1},
          {"#6fc3c0", 0.1},
          {"#b9e0d2", 0.1},
          {"#f2e9c9", 0.1},
          {"#e0b46c", 0.1},
          {"#b5703c", 0.1},
          {"#7a3b2e", 0.1},
          {"#3d1f2b", 0.1}}},
        {"a trace", {{"#203040", 0.985}, {"#ffd000", 0.015}}},
    };
}

}  // namespace batts
