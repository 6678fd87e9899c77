// What lies on the cloth before it is carded: the fibre that was laid, each gram once.
#include "carding/laid.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <numeric>

using namespace battwright;
using carding::Lay;

namespace {

carding::Setup two_wools() {
    carding::Setup setup;
    setup.portions.resize(2);
    setup.portions[0].grams = 30.0;
    setup.portions[1].component = 1;
    setup.portions[1].grams = 10.0;
    setup.feed.by_hand = true;
    setup.batt_share = 0.5;
    return setup;
}

// Of one batt, from the thickness place by place.
double grams_of(const carding::LaidFace& face, const carding::Setup& setup) {
    const double sum = std::accumulate(face.g_m2.begin(), face.g_m2.end(), 0.0);
    return sum / static_cast<double>(face.g_m2.size()) * setup.circumference_mm * setup.width_mm * 1e-6;
}

}  // namespace

TEST_CASE("an even layer covers as Beer-Lambert has it, and weighs what was laid for one batt") {
    carding::Setup setup = two_wools();
    setup.lays = {{0, 1.2}};
    const auto face = carding::laid_face(setup, 1, {}, 20, 10);
    CHECK(grams_of(face, setup) == doctest::Approx(0.6));
    // 0.6 g on 0.112 m2; 60 g/m2 let 1/e of what is under them be seen.
    for (const double bare : face.bare) CHECK(bare == doctest::Approx(std::exp(-0.6 / 0.112 / 60.0)));
    for (std::size_t place = 0; place < 200; ++place) CHECK(face.shares[2 * place] == doctest::Approx(1.0));
}

TEST_CASE("each gram lies somewhere once, in patches and wisps too, and the last laid is on top") {
    carding::Setup setup = two_wools();
    Lay base{0, 30.0}, patch{1, 6.0}, wisps{1, 4.0};
    patch.across = {0.0, 0.5};
    patch.round = {0.25, 0.75};
    patch.on_drum = wisps.on_drum = true;
    patch.source = {1};
    wisps.how = recipe::Spreading::wisps;
    wisps.dab_mm = 20.0;
    wisps.source = {2};
    setup.lays = {base, patch, wisps};
    const auto face = carding::laid_face(setup, 1, {}, 56, 28);
    CHECK(grams_of(face, setup) == doctest::Approx(20.0));
    const auto hidden = carding::laid_face(setup, 1, {false, false, true}, 56, 28);
    CHECK(grams_of(hidden, setup) == doctest::Approx(18.0));
    const auto second_at = [&](std::size_t x, std::size_t y) { return hidden.shares[2 * (y * 56 + x) + 1]; };
    CHECK(second_at(28, 7) > 0.6);
    CHECK(second_at(28, 21) < 0.01);
    CHECK(second_at(3, 7) < 0.01);
    for (std::size_t place = 0; place < 56 * 28; ++place)
        CHECK(face.shares[2 * place] + face.shares[2 * place + 1] == doctest::Approx(1.0));
}

TEST_CASE("on a later pass what was there lies mixed, and what goes over it hides it") {
    carding::Setup setup = two_wools();
    Lay first{0, 15.0}, second{1, 5.0}, over{0, 8.0};
    over.pass = 2;
    over.lies = recipe::Lies::over;
    over.across = {0.5, 1.0};
    setup.lays = {first, second, over};
    const auto face = carding::laid_face(setup, 2, {}, 8, 8);
    CHECK(grams_of(face, setup) == doctest::Approx(14.0));
    CHECK(face.shares[1] == doctest::Approx(0.25).epsilon(0.02).scale(0.0));
    CHECK(face.shares[2 * 63 + 1] < 0.1);
}

TEST_CASE("laid between the halves of a batt: half of the batt is over it") {
    carding::Setup setup = two_wools();
    Lay first{0, 15.0}, second{1, 5.0}, between{1, 8.0};
    between.pass = 2;
    between.lies = recipe::Lies::between;
    setup.lays = {first, second, between};
    const auto face = carding::laid_face(setup, 2, {}, 8, 8);
    // 10 g of the old batt (three parts to one) and 4 g between on 0.112 m2; 60 g/m2 let 1/e be seen
    // (Beer-Lambert).
    const double half = 1.0 - std::exp(-5.0 / 0.112 / 60.0), lain = 1.0 - std::exp(-4.0 / 0.112 / 60.0);
    const double top = half, middle = (1.0 - half) * lain, low = (1.0 - half) * (1.0 - lain) * half;
    CHECK(
        face.shares[1] ==
        doctest::Approx((0.25 * top + middle + 0.25 * low) / (top + middle + low)).epsilon(0.01).scale(0.0));
}
