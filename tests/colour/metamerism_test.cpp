// The index of a change of light: what follows from its definition (CIE 15, ISO 18314-4).
#include "colour/metamerism.hpp"

#include <doctest/doctest.h>

#include "colour/optics.hpp"
#include "colour/reflectance.hpp"
#include "colour/spaces.hpp"

using namespace battwright::colour;

namespace {

Spectrum smoothest_of(const char* hex) {
    return reflectance_of(parse_hex(hex).value());
}

}  // namespace

TEST_CASE("no pair of one reflectance is metameric, nor one that is only darker") {
    const Spectrum teal = smoothest_of("#2f5d50");
    Spectrum darker = teal;
    for (double& value : darker) value *= 0.8;
    for (const Light light : {Light::a, Light::f2}) {
        CHECK(metamerism_index(teal, teal, Light::d65, light) == doctest::Approx(0.0));
        // The multiplicative correction takes a factor out whole.
        CHECK(metamerism_index(teal, darker, Light::d65, light) == doctest::Approx(0.0).epsilon(1e-6));
    }
}

TEST_CASE("a match by other dyes parts in lamplight, and by as much as its CIEDE2000 there") {
    // Half violet and half green make a grey violet; the smoothest reflectance of that colour is another one.
    const std::vector<Portion> halves{{0.5, smoothest_of("#bd69fe")}, {0.5, smoothest_of("#a6eb8c")}};
    const Spectrum heather = blend(halves, {});
    const Spectrum dyed = reflectance_of(srgb_under(heather, Light::d65));
    REQUIRE(ciede2000(lab_under(heather, Light::d65), lab_under(dyed, Light::d65)) < 0.1);
    const double apart = ciede2000(lab_under(heather, Light::a), lab_under(dyed, Light::a));
    CHECK(metamerism_index(heather, dyed, Light::d65, Light::a) ==
          doctest::Approx(apart).epsilon(0.03).scale(0.0));
    CHECK(apart > metameric_from);
    CHECK(metamerism_index(heather, dyed, Light::d65, Light::d65) < 0.01);
}
