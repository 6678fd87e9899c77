// What the picture of a fibre says of the fibre: its length and its crimp to the picture's scale.
#include "strip/glyph.hpp"

#include <doctest/doctest.h>

#include "fibre/catalogue.hpp"
#include "strip/picture.hpp"

using namespace battwright;
using doctest::Approx;

namespace {

recipe::Strand strand_of(const char* id, double staple_mm, double crimp_per_cm = 2.0) {
    auto kind = std::make_shared<fibre::Kind>(*fibre::Catalogue::builtin().find(id));
    kind->crimp_per_cm = crimp_per_cm;
    recipe::Strand strand;
    strand.staple_mm = staple_mm;
    strand.diameter_um = kind->diameter_um;
    strand.kind = std::move(kind);
    return strand;
}

}  // namespace

TEST_CASE(
    "a fibre is drawn as long as its staple and with a wave for every crimp, at four pixels a millimetre") {
    for (const double mm : {8.0, 20.0, 44.0}) {
        CAPTURE(mm);
        CHECK(2.0 * double{strip::look_of(strand_of("corriedale", mm)).half_length_px} == Approx(4.0 * mm));
    }
    for (const double crimps : {1.0, 3.0, 6.0}) {
        CAPTURE(crimps);
        const auto look = strip::look_of(strand_of("corriedale", 40.0, crimps));
        CHECK(double{look.waves_per_px} * 4.0 * 10.0 == Approx(crimps));
    }
    // Straight fibre still has a little sway, less than one wave in 30 mm; a lock is as long as its staple.
    CHECK(double{strip::look_of(strand_of("corriedale", 40.0, 0.0)).waves_per_px} * 4.0 * 30.0 < 1.0);
    CHECK(2.0 * double{strip::look_of(strand_of("lincoln-locks", 12.0)).half_length_px} ==
          Approx(4.0 * 12.0));
}

TEST_CASE("coarser is drawn wider, lustrous brighter, and film brightest of all, as it glitters") {
    const auto merino = strip::look_of(strand_of("merino-fine", 60.0)),
               romney = strip::look_of(strand_of("romney", 60.0));
    CHECK(romney.half_width_px > merino.half_width_px);
    const auto silk = strip::look_of(strand_of("bombyx-silk", 60.0)),
               film = strip::look_of(strand_of("sparkle-film", 60.0));
    CHECK(silk.highlight > merino.highlight);
    CHECK(film.highlight > silk.highlight);
    CHECK(film.glints);
    CHECK_FALSE(silk.glints);
}
