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

TEST_CASE("a fibre is drawn as long as its staple and with a wave for every crimp, about life size") {
    const auto px_of = [](const char* id, double mm) {
        return 2.0 * double{strip::look_of(strand_of(id, mm)).half_length_px};
    };
    // A screen's pixel is the 96th part of an inch (CSS Values and Units, the reference pixel).
    const double px_per_mm = px_of("corriedale", 12.0) / 12.0;
    CHECK(px_per_mm == Approx(96.0 / 25.4).epsilon(0.1).scale(0.0));
    CHECK(px_of("corriedale", 44.0) == Approx(44.0 * px_per_mm));
    // 40 mm of a fibre of 3 crimps to the cm have 3 x 4 = 12 of them, at any scale.
    for (const double crimps : {1.0, 3.0, 6.0}) {
        CAPTURE(crimps);
        const auto look = strip::look_of(strand_of("corriedale", 40.0, crimps));
        CHECK(double{look.waves_per_px} * 40.0 * px_per_mm == Approx(crimps * 4.0));
    }
    // Straight fibre still has a little sway, less than one wave in 30 mm; a lock is as long as its staple.
    CHECK(double{strip::look_of(strand_of("corriedale", 40.0, 0.0)).waves_per_px} * 30.0 * px_per_mm < 1.0);
    CHECK(px_of("lincoln-locks", 12.0) == Approx(12.0 * px_per_mm));
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
