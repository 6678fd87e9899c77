// The second opinion on m rests on the very photos that are learnt from.
#include "shelving/photo.hpp"

#include <doctest/doctest.h>

#include "folder.hpp"
#include "stash/stash.hpp"

using namespace battwright;

namespace {

constexpr const char* night_and_foam =
    "format = 1\nname = \"Night and foam\"\n"
    "[[component]]\nfibre = \"corriedale\"\ncolour = \"#202840\"\nweight = \"2 g\"\n"
    "[[component]]\nfibre = \"corriedale\"\ncolour = \"#e8e4d8\"\nweight = \"2 g\"\n";

stash::BattPhoto pinch(double lightness) {
    stash::BattPhoto photo;
    photo.name = "Night and foam";
    photo.recipe = night_and_foam;
    photo.photo = "/pictures/pinch.jpg";
    photo.taken = colour::Taken::sample;
    photo.seen.mean = {lightness, 0.0, -6.0};
    photo.foretold = photo.seen.mean;
    photo.log_m = stash::LogFigure{-1.9, 0.3};
    photo.model = stash::photo_model;
    return photo;
}

}  // namespace

TEST_CASE("a photo that is not learnt from changes nothing of the m fitted by least squares") {
    const testing::Folder folder("photo");
    auto stash = stash::Stash::open(folder.path / "stash.db").value();
    const auto fitted = [&] { return shelving::fitted_m(stash, fibre::Catalogue::builtin()).value().m; };
    stash::Lot lot;
    lot.name = "Gull grey";
    lot.content = {{"corriedale", 100.0}};
    const auto mark = stash.add(lot, 100.0)->mark;
    stash::Carding carding;
    carding.name = "Night and foam";
    carding.recipe = night_and_foam;
    carding.lines = {{mark, 4.0}};
    const auto batt = stash.card_it(carding).value();
    REQUIRE(stash.log(pinch(52.0)).has_value());
    const double alone = fitted();
    auto other = pinch(60.0);
    other.batt = batt.id;
    REQUIRE(stash.log(other).has_value());
    CHECK(fitted() < 0.9 * alone);  // a lighter one asks for a smaller m
    REQUIRE(stash.take_back(batt.id).has_value());
    CHECK(fitted() == alone);
    auto old = pinch(60.0);
    old.model = stash::photo_model - 1;
    REQUIRE(stash.log(old).has_value());
    CHECK(fitted() == alone);
    auto left_out = stash.log(pinch(60.0)).value();
    left_out.counts = false;
    REQUIRE(stash.change(left_out).has_value());
    CHECK(fitted() == alone);
}
