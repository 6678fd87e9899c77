// stash add, edit, list, show, tag, colours and what changes a weight, as their users run them.
#include <doctest/doctest.h>

#include <cmath>

#include "png.hpp"
#include "stash_bench.hpp"

using namespace program;

namespace {

std::vector<std::string> marks_of(const nlohmann::json& list) {
    std::vector<std::string> marks;
    for (const auto& lot : list.at("lots")) marks.push_back(lot.at("mark"));
    return marks;
}
using Marks = std::vector<std::string>;

// A photo: white paper on the left, green and brass fibre on the right, all under a lamp
// that leaves 60 % of the blue and 80 % of the green.
std::string photo() {
    const auto lamplit = [](int code, double share) {
        const double light = share * std::pow(code / 255.0, 2.2);
        return static_cast<char>(static_cast<unsigned char>(std::lround(255.0 * std::pow(light, 1.0 / 2.2))));
    };
    std::string bytes;
    for (int y = 0; y < 80; ++y)
        for (int x = 0; x < 120; ++x) {
            const int paper[] = {230, 230, 230}, green[] = {47, 93, 80}, brass[] = {176, 141, 60};
            const int* c = x < 40 ? paper : x < 100 ? green : brass;
            bytes += {lamplit(c[0], 1.0), lamplit(c[1], 0.8), lamplit(c[2], 0.6)};
        }
    return png_of(120, 80, bytes);
}

int channel(const std::string& hex, std::size_t at) {
    return std::stoi(hex.substr(1 + 2 * at, 2), nullptr, 16);
}

}  // namespace

TEST_CASE("a lot is put on the shelf and shown with all that was said of it") {
    const Shelf shelf;
    const auto lot = shelf.json("show kf7-r3x");  // as a person types a mark
    CHECK(lot.at("name") == "Kelp");
    CHECK(lot.at("content")[1].at("fibre") == "bombyx-silk");
    CHECK(lot.at("colours")[0].at("srgb") == "#2f5d50");
    CHECK(lot.at("mass_g").get<double>() ==
          doctest::Approx(3.5 * 28.349523125).epsilon(1e-6));  // yard and pound, 1959
    CHECK(lot.at("movements").size() == 1);
    CHECK(lot.at("movements")[0].at("reason") == "bought");
    const auto fleece = shelf.json("show 4CDFGH");
    CHECK(fleece.at("raw") == true);
    CHECK(fleece.at("clean_mass_g").get<double>() == doctest::Approx(600.0));
    CHECK(shelf.must("show CDFGHJ").find("12.00 EUR") != std::string::npos);

    const auto made = shelf.json(
        "add --name Tar --fibre shetland --weight '5 g' --cost 3 --staple '9 cm' --diameter '24 um'");
    CHECK(made.at("mark").get<std::string>().size() == 6);
    CHECK(made.at("cost").at("currency") == "EUR");  // the one named first
    CHECK(made.at("staple_mm") == 90.0);
    CHECK(made.at("scrap") == true);
}

TEST_CASE("what cannot go on the shelf is one line, and no file is made for it") {
    const Shelf shelf;
    const std::string words[] = {"add",
                                 "add --name Tar --fibre shetland",
                                 "add --name Tar --fibre shetland --weight 5",
                                 "add --name Tar --fibre shetland --weight '0 g'",
                                 "add --name Tar --fibre shetlnd --weight '5 g'",
                                 "add --name Tar --weight '5 g'",
                                 "add --fibre shetland --weight '5 g'",
                                 "add --name Tar --fibre 'shetland 60' --weight '5 g'",
                                 "add --name Tar --fibre shetland --colour tidewrack --weight '5 g'",
                                 "add --name Tar --fibre shetland --weight '5 g' --form brick",
                                 "add --name Tar --fibre shetland --weight '5 g' --date yesterday",
                                 "add --name Tar --fibre shetland --weight '5 g' --yield '60 %'",
                                 "add --name Tar --fibre shetland --weight '5 g' --mark CDFGHJ",
                                 "add --name Tar --fibre shetland --weight '5 g' --photo missing.jpg",
                                 "add --name Tar --fibre shetland --weight '5 g' --white 3,3",
                                 "add --name Tar --fibre shetland --weight '5 g' extra",
                                 "",
                                 "stroke CDFGHJ"};
    for (const std::string& line : words) shelf.refused(line);
    CHECK(shelf.json("list").at("lots").size() == 3);
    const Outcome no_currency =
        run(shelf, "stash add --name Tar --fibre shetland --weight '5 g' --cost 3 --stash other.db");
    CHECK(no_currency.code == 2);
    CHECK(no_currency.err.find("currency") != std::string::npos);
    CHECK(run(shelf, "stash add --name Tar --fibre shetlnd --weight '5 g' --stash third.db").code == 2);
    CHECK_FALSE(fs::exists(shelf.folder / "third.db"));
}

TEST_CASE("the list is filtered and ordered") {
    const Shelf shelf;
    CHECK(marks_of(shelf.json("list")) == Marks{"CDFGHJ", "KF7R3X", "4CDFGH"});
    CHECK(marks_of(shelf.json("list --kind bombyx-silk")) == Marks{"KF7R3X"});
    CHECK(marks_of(shelf.json("list --form fleece")) == Marks{"4CDFGH"});
    CHECK(marks_of(shelf.json("list --at-least '100 g' --at-most '0.5 kg'")) == Marks{"CDFGHJ"});
    CHECK(marks_of(shelf.json("list --text 'BLUE kelp'")) == Marks{"KF7R3X"});
    CHECK(marks_of(shelf.json("list --from 2024-05-17 --to 2024-05-17")) == Marks{"CDFGHJ"});
    CHECK(marks_of(shelf.json("list --order heaviest")) == Marks{"4CDFGH", "CDFGHJ", "KF7R3X"});
    CHECK(marks_of(shelf.json("list --order name")) == Marks{"4CDFGH", "CDFGHJ", "KF7R3X"});
    CHECK(shelf.json("list").at("total_g").get<double>() ==
          doctest::Approx(1120 + 3.5 * 28.349523125).epsilon(1e-6));

    const auto near = shelf.json("list --near '#8a9aa0' --within 100");
    CHECK(near.at("lots")[0].at("mark") == "CDFGHJ");
    CHECK(near.at("lots")[0].at("away_de00").get<double>() == doctest::Approx(0.0).epsilon(1e-6));
    CHECK(near.at("lots")[1].at("away_de00").get<double>() <=
          near.at("lots")[2].at("away_de00").get<double>());
    CHECK(marks_of(shelf.json("list --near '#8a9aa0'")) == Marks{"CDFGHJ"});
    CHECK(marks_of(shelf.json("list --near '#2f5d50' --within 1 --any-tint")) == Marks{"KF7R3X"});

    shelf.must("weigh KF7R3X '9 g'");
    CHECK(marks_of(shelf.json("list --scraps")) == Marks{"KF7R3X"});
    CHECK(marks_of(shelf.json("list --scrap-under '9 g'")).empty());
    shelf.must("weigh KF7R3X '0 g'");
    CHECK(shelf.json("list").at("lots").size() == 2);
    CHECK(shelf.json("list --empty").at("lots").size() == 3);
    CHECK(shelf.must("list --weights oz").find("4.23 oz") != std::string::npos);  // 120 / 28.3495
}

TEST_CASE("a list that asks for what there is not is one line") {
    const Shelf shelf;
    for (const char* words :
         {"list --kind shetlnd", "list --form brick", "list --at-least 100", "list --near tidewrack",
          "list --within 5", "list --any-tint", "list --order nearest", "list --order tidy",
          "list --from 2024-13-01", "list --weights stone", "list --near '#fff' --within -1", "show",
          "show CDFGHK", "show 'no mark'", "list --json extra"})
        shelf.refused(words);
    CHECK(shelf.refused("list --kind shetlnd").find("shetland") != std::string::npos);
    CHECK(run(shelf, "stash list").code == 2);  // no stash at the usual place, and none is made
    CHECK_FALSE(fs::exists(shelf.folder / "battwright"));
}

TEST_CASE("weights change by movements, and every one is kept") {
    const Shelf shelf;
    shelf.must("waste CDFGHJ '5 g' --note 'moth, alas'");
    shelf.must("give CDFGHJ '15 g' --date 2024-07-01");
    shelf.must("buy CDFGHJ '1 oz' --cost '4 EUR'");
    CHECK(shelf.grams("CDFGHJ") == doctest::Approx(100 + 28.349523).epsilon(1e-9));
    const auto weighed = shelf.json("weigh CDFGHJ '120 g'");
    CHECK(weighed.at("lot").at("mass_g") == 120.0);
    CHECK(weighed.at("movement").at("mass_g").get<double>() == doctest::Approx(-8.349523));
    CHECK(shelf.json("weigh CDFGHJ '120 g'").at("movement").is_null());

    auto movements = shelf.json("show CDFGHJ").at("movements");
    REQUIRE(movements.size() == 5);
    CHECK(movements[1].at("mass_g") == -5.0);
    CHECK(movements[2].at("date") == "2024-07-01");
    CHECK(movements[3].at("cost").at("amount") == 4.0);
    const std::string wasted = movements[1].at("movement").dump();
    shelf.must("correct CDFGHJ " + wasted + " '2 g' --note 'only a corner'");
    movements = shelf.json("show CDFGHJ").at("movements");
    CHECK(movements.size() == 6);
    CHECK(movements[5].at("puts_right").dump() == wasted);
    CHECK(movements[5].at("mass_g") == 3.0);
    CHECK(shelf.grams("CDFGHJ") == 123.0);
    CHECK(shelf.must("show CDFGHJ").find("moth, alas") != std::string::npos);

    shelf.must("scour 4CDFGH '580 g'");
    CHECK(shelf.json("show 4CDFGH").at("raw") == false);
    CHECK(shelf.grams("4CDFGH") == 580.0);
    for (const char* words :
         {"waste CDFGHJ '500 g'", "give CDFGHJ", "give CDFGHJ '0 g'", "weigh CDFGHJ '-3 g'", "buy CDFGHJ 30",
          "buy CDFGHJ '30 g' --cost '4 shells'", "waste CDFGHK '1 g'", "scour CDFGHJ '50 g'",
          "correct CDFGHJ 999 '1 g'", "correct CDFGHJ x '1 g'", "waste CDFGHJ '1 g' --date never"})
        shelf.refused(words);
    CHECK(shelf.grams("CDFGHJ") == 123.0);
}

TEST_CASE("what is said of a lot is changed, and the rest stays") {
    const Shelf shelf;
    const auto lot = shelf.json("edit KF7R3X --name 'Kelp, deep' --place '' --notes '=1+1 \"##\" %s'");
    CHECK(lot.at("name") == "Kelp, deep");
    CHECK(lot.at("place") == "");
    CHECK(lot.at("notes") == "=1+1 \"##\" %s");
    CHECK(lot.at("content").size() == 2);
    CHECK(lot.at("colours").size() == 2);
    shelf.refused("edit KF7R3X --fibre shetlnd");
    shelf.refused("edit KF7R3X --name ' '");
    shelf.refused("edit CCCCCC --name x");
    CHECK(shelf.json("show KF7R3X").at("name") == "Kelp, deep");
}

TEST_CASE("colours are read from a photo of the fibre, under a lamp too") {
    const Shelf shelf;
    shelf.write("kelp.png", photo());
    const auto seen = shelf.json("colours kelp.png --area 40,0,80,80 --white 20,40");
    REQUIRE(seen.at("colours").size() == 2);
    const auto& green = seen.at("colours")[0];
    CHECK(green.at("share_pct").get<double>() == doctest::Approx(75.0).epsilon(0.02));  // 60 of 80 columns
    // Neutral light keeps the order and about the distance of the channels that were painted: 47, 93, 80.
    const std::string hex = green.at("srgb");
    CHECK(channel(hex, 1) - channel(hex, 0) == doctest::Approx(93 - 47).epsilon(0.15));
    CHECK(channel(hex, 1) - channel(hex, 2) == doctest::Approx(93 - 80).epsilon(0.6));
    // The lamp left alone, blue is far behind.
    const auto lamplit = shelf.json("colours kelp.png --area 34%,0%,66%,100%");
    const std::string yellow = lamplit.at("colours")[0].at("srgb");
    CHECK(channel(yellow, 1) - channel(yellow, 2) > 15);

    const auto lot = shelf.json(
        "add --name 'Kelp photo' --fibre shetland --weight '20 g' --photo kelp.png "
        "--area '100,0 119,0 119,79 100,79' --white 0,0,38,79 --white-reflects '80 %'");
    REQUIRE(lot.at("colours").size() == 1);
    CHECK(lot.at("colours")[0].at("share_pct") == 100.0);
    CHECK(fs::path(lot.at("photo").get<std::string>()).is_absolute());
    CHECK(shelf.json("colours kelp.png --shades 1").at("colours").size() == 1);
    for (const char* words : {"colours missing.png", "colours shelf.db", "colours kelp.png --area 1,2,3",
                              "colours kelp.png --area a,b,c,d", "colours kelp.png --area 500,500,10,10",
                              "colours kelp.png --white 500,500", "colours kelp.png --shades 99",
                              "colours kelp.png --white 20,40 --white-reflects '0 %'",
                              "colours kelp.png --white-reflects '90 %'", "colours"})
        shelf.refused(words);
}

TEST_CASE("a bag's tag has the mark") {
    const Shelf shelf;
    shelf.must("tag KF7R3X -o tag.txt");
    CHECK(slurp(shelf.folder / "tag.txt").find("KF7R3X") != std::string::npos);
    shelf.must("tag KF7R3X -o tag.png");
    CHECK(slurp(shelf.folder / "tag.png").starts_with("\x89PNG"));
    CHECK(shelf.json("tag KF7R3X -o tag.pdf").at("files").size() == 1);
    for (const char* words :
         {"tag KF7R3X", "tag CCCCCC -o x.png", "tag KF7R3X -o x.gif", "tag KF7R3X -o x.png --page wall"})
        shelf.refused(words);
}
