// A photo of a batt is held against its forecast, teaches, is asked about and left out, as its users run it.
#include <doctest/doctest.h>

#include <cmath>

#include "colour/spaces.hpp"
#include "png.hpp"
#include "stash_bench.hpp"

namespace batt_photo_test {

using namespace program;
namespace colour = battwright::colour;

namespace {

// White paper of 90 % in the left 40 columns, even fibre of that colour to the right with streaks of
// `streak` L* up and down every 15 columns, under daylight or a lamp.
std::string batt_photo(const colour::Lab& fibre, double streak, bool lamp) {
    const colour::Xyz white = colour::srgb_white();
    // CIE A, from its chromaticity (CIE 15).
    const colour::Xyz light = lamp ? colour::Xyz{109.85, 100.0, 35.58} : white;
    // What a lamp lacks in blue it has in red, which would be cut off.
    const double exposure = lamp ? 0.45 : 0.8;
    constexpr int width = 440, height = 240;
    std::string rgb;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const double l = fibre.l + (x / 15 % 2 == 0 ? streak : -streak);
            const colour::Xyz truth = x < 40 ? colour::Xyz{0.9 * white.x, 0.9 * white.y, 0.9 * white.z}
                                             : colour::xyz_from({l, fibre.a, fibre.b}, white);
            const colour::Xyz lit = colour::adapted(truth, white, light);
            const auto c = colour::clipped(
                colour::encoded(colour::linear_from({exposure * lit.x, exposure * lit.y, exposure * lit.z})));
            for (const double v : {c.r, c.g, c.b})
                rgb += static_cast<char>(static_cast<unsigned char>(std::lround(255.0 * v)));
        }
    return png_of(width, height, rgb);
}
const std::string where = " --white 5,5,30,200 --area 40,0,400,240 --width '200 mm'";
constexpr const char* pinches =
    "format = 1\nname = \"Three pinches\"\n"
    "[[component]]\nfibre = \"corriedale\"\ncolour = \"#1a1716\"\nweight = \"2 g\"\n"
    "[[component]]\nfibre = \"corriedale\"\ncolour = \"#efe9dc\"\nweight = \"2 g\"\n";

colour::Lab foretold(const Shelf& shelf, const std::string& words) {
    const auto lab =
        nlohmann::json::parse(run(shelf, "forecast " + words + " --json").out).at("colour").at("lab");
    return {lab[0].get<double>(), lab[1].get<double>(), lab[2].get<double>()};
}

}  // namespace

TEST_CASE("a batt's photo stands beside its forecast and teaches m and mixing") {
    const Shelf shelf;
    shelf.write_recipe("fog.toml", "30");
    shelf.must("card fog.toml --date 2024-06-01");
    const auto told = foretold(shelf, "fog.toml");
    shelf.write("as-told.png", batt_photo(told, 4.0, false));
    const auto photo = shelf.json("batt-photo as-told.png --batt 1 --date 2024-06-02" + where);
    CHECK(photo.at("apart_de00").get<double>() < 1.5);
    CHECK(photo.at("of") == "face");
    CHECK(photo.at("unfit") == "");
    CHECK(photo.at("mm_per_pixel").get<double>() == doctest::Approx(0.5));
    CHECK(photo.at("seen_variation_de00").get<double>() > 0.1);
    CHECK(photo.at("before").at("m").at("value").get<double>() == doctest::Approx(0.15));
    CHECK(photo.at("now").at("m").at("photos") == 1);
    CHECK(photo.at("question").is_null());
    const std::string text = shelf.must("batt-photos");
    CHECK(text.find("batt 1") != std::string::npos);
    CHECK(shelf.json("calibration").at("blending").at("now").at("mixing").at("photos") == 1);
    CHECK(shelf.must("calibration").find("Stearns and Noechel") != std::string::npos);
    shelf.must("check");
    shelf.must("undo-card 1");
    CHECK(shelf.json("calibration").at("blending").at("now").at("mixing").at("photos") == 0);
    CHECK(shelf.json("calibration").at("blending").at("least_squares").is_null());
    CHECK(shelf.must("batt-photos").find("(batt taken back)") != std::string::npos);
    CHECK(shelf.must("edit-photo 1 --note ebb").find("its batt was taken back") != std::string::npos);
    CHECK(shelf.json("remove-photo 1").at("removed") == 1);
    CHECK(shelf.json("batt-photos").at("photos").empty());
}

TEST_CASE("three pinches make the next forecast hers, until they are left out") {
    const Shelf shelf;
    shelf.write("pinches.toml", pinches);
    const std::string with = "pinches.toml --stash shelf.db";
    const auto before = foretold(shelf, with);
    const auto doubt = [&] {
        return nlohmann::json::parse(run(shelf, "forecast " + with + " --json").out)
            .at("colour")
            .at("m_doubt_de00")
            .get<double>();
    };
    const double doubt_before = doubt();
    shelf.must("add --name Night --fibre corriedale --weight '100 g' --colour '#202840'");
    shelf.must("add --name Foam --fibre corriedale --weight '100 g' --colour '#e8e4d8'");
    // How much of the dark lot goes into a grey between the two.
    const auto dark = [&] {
        const auto found =
            nlohmann::json::parse(run(shelf, "match '#606878' --stash shelf.db --total '60 g' --json").out);
        for (const auto& lot : found.at("proposals").at(0).at("lots"))
            if (lot.at("name") == "Night") return lot.at("mass_g").get<double>();
        return 0.0;
    };
    const double dark_before = dark();
    CHECK(dark_before > 0.0);
    // Lighter than foretold: a smaller m (Stearns and Noechel 1944, f falls with m for dark fibre).
    auto lighter = before;
    lighter.l += 4.0;
    for (int i = 0; i < 3; ++i) {
        // Another pinch each time, a little otherwise.
        lighter.b += 0.5;
        shelf.write("pinch.png", batt_photo(lighter, 0.0, false));
        const auto one =
            shelf.json("batt-photo pinch.png --recipe pinches.toml --of sample --date 2024-06-0" +
                       std::to_string(i + 1) + where);
        CHECK(one.at("mixing").is_null());
        CHECK(one.at("now").at("m").at("value").get<double>() <
              one.at("before").at("m").at("value").get<double>());
    }
    CHECK(foretold(shelf, with).l > before.l + 0.5);
    CHECK(doubt() < doubt_before);
    CHECK(dark() > dark_before);  // her blends come out lighter: the same grey wants more of the dark
    const auto fit = shelf.json("calibration").at("blending").at("least_squares");
    CHECK(fit.at("m").get<double>() < 0.15);
    CHECK(fit.at("rms_de00").get<double>() < fit.at("rms_usual_de00").get<double>());
    for (const char* id : {"1", "2", "3"})
        CHECK(shelf.json(std::string("edit-photo ") + id + " --leave-out").at("counts") == false);
    CHECK(foretold(shelf, with).l == doctest::Approx(before.l).epsilon(1e-9));
    CHECK(dark() == doctest::Approx(dark_before));
    CHECK(shelf.json("edit-photo 2 --take-in").at("now").at("m").at("photos") == 1);
}

TEST_CASE("another batt's photo is asked about, and confirmed") {
    const Shelf shelf;
    shelf.write("pinches.toml", pinches);
    shelf.write("red.png", batt_photo({45.0, 55.0, 30.0}, 0.0, false));
    const auto odd = shelf.json("batt-photo red.png --recipe pinches.toml --of sample" + where);
    CHECK(odd.at("now").at("m").at("photos") == 0);
    CHECK(odd.at("question").get<std::string>().find("leave it out?") != std::string::npos);
    CHECK(shelf.json("calibration").at("blending").at("questions").size() == 1);
    CHECK(shelf.must("batt-photos").find("to be asked about") != std::string::npos);
    CHECK(shelf.json("edit-photo 1 --confirmed").at("now").at("m").at("photos") == 1);
}

TEST_CASE("lamp light, no white, a bad one and a photo too small are told and not learnt from") {
    const Shelf shelf;
    shelf.write("pinches.toml", pinches);
    shelf.write("lamp.png", batt_photo({45.0, 0.0, 0.0}, 0.0, true));
    shelf.write("day.png", batt_photo({45.0, 0.0, 0.0}, 0.0, false));
    const auto why = [&](const std::string& words) {
        const auto photo = shelf.json("batt-photo " + words + " --recipe pinches.toml --of sample");
        CHECK(photo.at("now").at("m").at("photos") == 0);
        CHECK(photo.at("m").is_null());
        return photo.at("unfit").get<std::string>();
    };
    CHECK(why("lamp.png" + where) == "lamp-light");
    CHECK(why("day.png --area 40,0,400,240 --width '200 mm'") == "no-white");
    CHECK(why("day.png --white 5,5,30,200 --area 40,0,400,240 --width '20 mm'") == "too-small");
    // The fibre itself is no white thing; grey in truth, so only its darkness would tell.
    shelf.write("night.png", batt_photo({2.0, 0.0, 0.0}, 0.0, false));
    CHECK(why("night.png --white 50,5,30,200 --area 100,0,340,240 --width '170 mm'") == "bad-white");
    CHECK(shelf.must("batt-photo lamp.png --recipe pinches.toml" + where).find("Not learnt from") !=
          std::string::npos);
    const std::size_t kept = shelf.json("batt-photos").at("photos").size();
    const std::string sample = " --recipe pinches.toml --of sample";
    for (const std::string& words :
         {"batt-photo day.png" + where, "batt-photo day.png --batt 9" + where,
          "batt-photo none.png" + sample + where, "batt-photo day.png" + sample + " --white 5,5,30,200",
          "batt-photo day.png --recipe pinches.toml --of tides" + where,
          "batt-photo day.png" + sample + " --width '0 mm' --white 5,5,30,200",
          "batt-photo day.png" + sample + " --width '9 cm' --white 900,900,5,5",
          "batt-photo day.png" + sample + " --width '9 cm' --area 300,0,400,240",
          "batt-photo day.png" + sample + " --width '9 cm' --white 5,5,60,60 --area 40,0,400,240",
          std::string("edit-photo 99"), std::string("remove-photo 99"), std::string("edit-photo x")})
        shelf.refused(words);
    CHECK(shelf.json("batt-photos").at("photos").size() == kept);
}

}  // namespace batt_photo_test
