// Cut fibre by the linear density it is sold in, and cotton's waste by cotton.
#include <doctest/doctest.h>

#include <string>
#include <utility>

#include "fibre/catalogue.hpp"

using namespace battwright;

namespace {

const fibre::Kind& cut_kind(const std::string& id) {
    const fibre::Kind* kind = fibre::Catalogue::builtin().find(id);
    REQUIRE_MESSAGE(kind != nullptr, id);
    return *kind;
}

}  // namespace

TEST_CASE("man-made fibre has the decitex it is sold in") {
    // The usual counts of the trade, from memory: fine modal 1.3 dtex, lyocell and cupro 1.4, viscose and the
    // proteins 1.7, polylactide 2.2, nylon, polyester and acrylic for wool blends 3.3. d = sqrt(4 T / (pi
    // rho)).
    for (const auto& [id, decitex] : {std::pair<const char*, double>{"modal", 1.3},
                                      {"lyocell", 1.4},
                                      {"cupro", 1.4},
                                      {"viscose", 1.7},
                                      {"bamboo-viscose", 1.7},
                                      {"soy-protein", 1.7},
                                      {"milk-protein", 1.7},
                                      {"polylactide", 2.2},
                                      {"nylon", 3.3},
                                      {"polyester", 3.3},
                                      {"acrylic", 3.3}}) {
        CAPTURE(id);
        const fibre::Kind& kind = cut_kind(id);
        CHECK(10.0 * fibre::fibre_tex(kind.diameter_um, 0.0, kind.density_g_cm3) ==
              doctest::Approx(decitex).epsilon(0.08).scale(0.0));
        // Morton & Hearle, chapter 4: a CV of length of 10 % for cut fibre.
        CHECK(kind.staple_cv == doctest::Approx(0.10).epsilon(0.1).scale(0.0));
    }
}

TEST_CASE("neps and waste are as fine as the fibre they are of") {
    const double cotton = cut_kind("cotton").diameter_um, viscose = cut_kind("viscose").diameter_um;
    CHECK(cut_kind("cotton-neps").diameter_um == doctest::Approx(cotton).epsilon(0.1).scale(0.0));
    CHECK(cut_kind("cotton-thrums").diameter_um == doctest::Approx(cotton).epsilon(0.1).scale(0.0));
    CHECK(cut_kind("recycled-cotton").diameter_um == doctest::Approx(cotton).epsilon(0.1).scale(0.0));
    CHECK(cut_kind("mercerised-cotton").diameter_um == doctest::Approx(cotton).epsilon(0.1).scale(0.0));
    CHECK(cut_kind("viscose-neps").diameter_um == doctest::Approx(viscose).epsilon(0.1).scale(0.0));
}
