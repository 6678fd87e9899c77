// Whole recipes, labelled for both markets: each names the article or section it follows and the page where
// its text was found.
#include <doctest/doctest.h>

#include <sstream>
#include <string>
#include <vector>

#include "card/content.hpp"
#include "examples.hpp"

using namespace battwright;

namespace {

enum class As { plain, vouched, counted };

struct LabelCase {
    const char* why;
    const char* parts;  // "corriedale 96; cashmere 4 21": kind, percent, and the tag's micrometres
    As as;
    const char* eu;
    const char* us;  // "": none may be given
    bool eu_refuses, us_refuses;
};

const std::vector<LabelCase> cases{
    {"Article 7(1) (gesetze.legal); 16 CFR 300.17 (lexbuild.dev)", "shetland 100", As::plain, "100 % wool",
     "100% wool", false, false},
    {"Articles 8(2)(b), 9(1) (gesetze.legal); 16 CFR 300.20 (law.cornell.edu)",
     "merino-fine 20; bombyx-silk 80", As::plain, "80 % silk, 20 % wool", "80% silk, 20% wool", false, false},
    {"Articles 8(2)(b), 9(1) (gesetze.legal); 16 CFR 300.20 (law.cornell.edu)",
     "merino-fine 20; bombyx-silk 80", As::vouched, "80 % silk, 20 % wool", "80% silk, 20% virgin wool", true,
     false},
    {"Articles 8(2), 9(1) (gesetze.legal); 16 CFR 300.20 (law.cornell.edu)", "merino-fine 80; bombyx-silk 20",
     As::plain, "80 % wool, 20 % silk", "80% wool, 20% silk", false, false},
    {"Articles 8(2), 9(1) (gesetze.legal); 16 CFR 300.20 (law.cornell.edu)", "merino-fine 80; bombyx-silk 20",
     As::vouched, "80 % virgin wool, 20 % silk", "80% virgin wool, 20% silk", false, false},
    {"Articles 8(2), 9(1) (gesetze.legal); 16 CFR 300.20 (law.cornell.edu)",
     "merino-fine 60; bombyx-silk 20; flax 20", As::vouched, "60 % wool, 20 % silk, 20 % flax",
     "60% virgin wool, 20% silk, 20% linen", true, false},
    {"Article 9(1), from memory; 15 USC 68b(a)(2)(A) (lawserver.com)", "merino-fine 97; bombyx-silk 3",
     As::plain, "97 % wool, 3 % silk", "97% wool, 3% other fiber", false, false},
    {"Article 10(1) and Annex VII (gesetze.legal); 16 CFR 300.1 (uslegal.com), 15 USC 68b(a)(2)(A)",
     "corriedale 98; sparkle-film 2", As::plain, "100 % wool", "98% wool, 2% other fiber", false, false},
    {"Article 10(1) and Annex VII (gesetze.legal); 16 CFR 300.1 (uslegal.com), 15 USC 68b(a)(2)(A)",
     "corriedale 94; sparkle-film 6", As::plain, "100 % wool", "94% wool, 6% metallic", false, false},
    {"Article 10(1) and Annex VII (gesetze.legal); 16 CFR 300.1 (uslegal.com), 15 USC 68b(a)(2)(A)",
     "corriedale 92; sparkle-film 8", As::plain, "92 % wool, 8 % metallised fibre", "92% wool, 8% metallic",
     false, false},
    {"Article 10(1) and Annex VII (gesetze.legal); 16 CFR 300.1 (uslegal.com), 15 USC 68b(a)(2)(A)",
     "corriedale 98; sparkle-film 2", As::vouched, "100 % virgin wool", "98% virgin wool, 2% other fiber",
     false, false},
    {"Article 10(1) and Annex VII (gesetze.legal); 16 CFR 300.1 (uslegal.com), 15 USC 68b(a)(2)(A)",
     "corriedale 97; sparkle-film-iridescent 3", As::plain, "100 % wool", "97% wool, 3% other fiber", false,
     false},
    {"Article 10(1) and Annex VII (gesetze.legal); 16 CFR 300.1 (uslegal.com), 15 USC 68b(a)(2)(A)",
     "corriedale 98; sparkle-film 2", As::counted, "98 % wool, 2 % metallised fibre",
     "98% wool, 2% other fiber", false, false},
    {"Article 10(1) and Annex VII (gesetze.legal); 16 CFR 300.1 (uslegal.com), 15 USC 68b(a)(2)(A)",
     "corriedale 97; nylon-trilobal 3", As::plain, "97 % wool, 3 % polyamide", "97% wool, 3% other fiber",
     false, false},
    {"Article 10(1) and Annex VII (gesetze.legal); 16 CFR 300.1 (uslegal.com), 15 USC 68b(a)(2)(A)",
     "corriedale 94.8; sparkle-film 5.2", As::plain, "100 % wool", "95% wool, 5% metallic", false, false},
    {"Article 9(1), from memory; 15 USC 68b(a)(2)(A) (lawserver.com)", "corriedale 90; wool-neps 10",
     As::plain, "100 % wool", "100% wool", false, false},
    {"Article 9(1), from memory; 15 USC 68b(a)(2)(A) (lawserver.com)", "corriedale 96; cotton-neps 4",
     As::plain, "96 % wool, 4 % cotton", "96% wool, 4% other fiber", false, false},
    {"Article 9(1), from memory; 15 USC 68b(a)(2)(A) (lawserver.com)", "corriedale 96; silk-neps 4",
     As::plain, "96 % wool, 4 % silk", "96% wool, 4% other fiber", false, false},
    {"Article 9(1), from memory; 15 USC 68b(a)(2)(A) (lawserver.com)", "corriedale 94; viscose-neps 6",
     As::plain, "94 % wool, 6 % viscose", "94% wool, 6% rayon", false, false},
    {"Annex I no. 2 (legislation.gov.uk); hair under the animal's name, from memory",
     "merino-fine 60; yak 40", As::plain, "60 % wool, 40 % yak", "60% wool, 40% yak hair", false, false},
    {"Annex I no. 2 (legislation.gov.uk); hair under the animal's name, from memory", "merino-fine 97; yak 3",
     As::plain, "97 % wool, 3 % yak", "97% wool, 3% other fiber", false, false},
    {"Annex I no. 2 (legislation.gov.uk); 15 USC 68(b) (lexbuild.dev)", "merino-fine 70; alpaca-baby 30",
     As::plain, "70 % wool, 30 % alpaca", "70% wool, 30% alpaca", false, false},
    {"Annex I no. 2 (legislation.gov.uk); 16 CFR 300.19 (law.cornell.edu)", "merino-fine 97; cashmere 3",
     As::plain, "97 % wool, 3 % cashmere", "97% wool, 3% cashmere", false, false},
    {"Annex I no. 2 (legislation.gov.uk); 16 CFR 300.19 (law.cornell.edu)", "cashmere 100", As::plain,
     "100 % cashmere", "100% cashmere", false, false},
    {"Annex I no. 2 (legislation.gov.uk); 16 CFR 300.19 (law.cornell.edu)", "mohair-kid 60; mohair 40",
     As::plain, "100 % mohair", "100% mohair", false, false},
    {"Annex I no. 2 (legislation.gov.uk); 16 CFR 300.8(g), from memory", "merino-fine 80; angora 20",
     As::plain, "80 % wool, 20 % angora", "80% wool, 20% angora rabbit hair", false, false},
    {"man-made names from memory", "merino-fine 70; bamboo-viscose 30", As::plain, "70 % wool, 30 % viscose",
     "70% wool, 30% rayon", false, false},
    {"man-made names from memory", "merino-fine 70; lyocell 30", As::plain, "70 % wool, 30 % lyocell",
     "70% wool, 30% lyocell", false, false},
    {"man-made names from memory", "merino-fine 70; milk-protein 20; soy-protein 10", As::plain,
     "70 % wool, 30 % protein", "70% wool, 30% azlon", false, false},
    {"Article 8(1) (gesetze.legal); 15 USC 68(b), (c) (lexbuild.dev); 16 CFR 300.20",
     "merino-fine 50; recycled-cotton 50", As::plain, "50 % wool, 50 % cotton", "50% wool, 50% cotton", false,
     false},
    {"Article 8(1) (gesetze.legal); 15 USC 68(b), (c) (lexbuild.dev); 16 CFR 300.20",
     "merino-fine 60; wool-thrums 40", As::plain, "100 % wool", "100% wool", false, false},
    {"Article 8(1) (gesetze.legal); 15 USC 68(b), (c) (lexbuild.dev); 16 CFR 300.20",
     "merino-fine 60; wool-thrums 40", As::vouched, "100 % wool", "100% wool", true, true},
    {"Article 9(2), 9(4), from memory; 16 CFR 300.28 (lawstack.com)", "corriedale 96; unknown-fibre 4",
     As::plain, "96 % wool, 4 % other fibres", "", false, true},
    {"Article 9(2), 9(4), from memory; 16 CFR 300.28 (lawstack.com)", "corriedale 88; unknown-fibre 12",
     As::plain, "88 % wool, 12 % other fibres", "", false, true},
    {"Article 9(2), 9(4), from memory; 16 CFR 300.28 (lawstack.com)", "corriedale 85; unknown-fibre 15",
     As::plain, "85 % wool, 15 % other fibres", "", false, true},
    {"Article 9(2), 9(4), from memory; 16 CFR 300.28 (lawstack.com)", "corriedale 80; unknown-fibre 20",
     As::plain, "mixed fibres", "", false, true},
    {"Article 9(2), 9(4), from memory; 16 CFR 300.28 (lawstack.com)", "corriedale 50; unknown-wool 50",
     As::plain, "100 % wool", "100% wool", false, false},
    {"Article 9(2), 9(4), from memory; 16 CFR 300.28 (lawstack.com)", "corriedale 70; unknown-hair 30",
     As::plain, "mixed fibres", "", false, true},
    {"Article 9(2), 9(4), from memory; 16 CFR 300.28 (lawstack.com)", "corriedale 10; unknown-fibre 90",
     As::plain, "mixed fibres", "", false, true},
    {"Article 9(2), 9(4), from memory; 16 CFR 300.28 (lawstack.com)",
     "corriedale 40; bombyx-silk 30; unknown-fibre 30", As::plain, "mixed fibres", "", false, true},
    {"Annex I nos. 7, 8 (legislation.gov.uk); 16 CFR 303.6, from memory", "flax 60; hemp 40", As::plain,
     "60 % flax, 40 % true hemp", "60% linen, 40% hemp", false, false},
    {"Annex I no. 3 (legislation.gov.uk); Regulation (EC) 1523/2007 in the notes", "merino-fine 80; dog 20",
     As::plain, "80 % wool, 20 % animal hair", "80% wool, 20% dog hair", false, false},
    {"Annex I no. 3 (legislation.gov.uk); Regulation (EC) 1523/2007 in the notes",
     "merino-fine 70; bison 10; qiviut 10; possum 10", As::plain, "70 % wool, 30 % animal hair",
     "70% wool, 10% bison hair, 10% musk ox hair, 10% possum hair", false, false},
    {"Article 8(1) (gesetze.legal); 16 CFR 300.20 (law.cornell.edu)", "merino-superwash 100", As::plain,
     "100 % wool", "100% wool", false, false},
    {"Article 8(1) (gesetze.legal); 16 CFR 300.20 (law.cornell.edu)", "merino-superwash 100", As::vouched,
     "100 % virgin wool", "100% virgin wool", false, false},
    {"Article 9(1), from memory; rounding to 100", "merino-fine 33.333; bombyx-silk 33.333; flax 33.334",
     As::plain, "34 % flax, 33 % wool, 33 % silk", "34% linen, 33% wool, 33% silk", false, false},
    {"Article 9(1), from memory; rounding to 100", "merino-fine 99.7; bombyx-silk 0.3", As::plain,
     "99 % wool, 1 % silk", "99% wool, 1% other fiber", false, false},
    {"Article 9(1), from memory; rounding to 100", "merino-fine 66.6; bombyx-silk 16.7; mohair 16.7",
     As::plain, "66 % wool, 17 % silk, 17 % mohair", "66% wool, 17% silk, 17% mohair", false, false},
    {"Article 9(1), from memory; 15 USC 68b(a)(2)(A) (lawserver.com)",
     "merino-fine 88; bombyx-silk 4; cashmere 4; flax 4", As::plain,
     "88 % wool, 4 % silk, 4 % cashmere, 4 % flax", "88% wool, 4% cashmere, 8% other fibers", false, false},
    {"Article 9(1), from memory; 15 USC 68b(a)(2)(A) (lawserver.com)",
     "merino-fine 88; bombyx-silk 4; flax 4; viscose 4", As::plain,
     "88 % wool, 4 % silk, 4 % flax, 4 % viscose", "88% wool, 12% other fibers", false, false},
    {"Article 7(1) (gesetze.legal); 16 CFR 300.17 (lexbuild.dev)", "merino-fine 100", As::plain, "100 % wool",
     "100% wool", false, false},
    {"Annex I no. 2 (legislation.gov.uk); 15 USC 68(b): doubtful", "merino-fine 70; cashgora 30", As::plain,
     "70 % wool, 30 % cashgora", "100% wool", false, false},
    {"Annex I no. 2 (legislation.gov.uk); 15 USC 68(b): doubtful", "cashgora 100", As::plain,
     "100 % cashgora", "100% wool", false, false},
    {"Annex I no. 2 (legislation.gov.uk); hair under the animal's name, from memory",
     "merino-fine 70; guanaco 30", As::plain, "70 % wool, 30 % guanaco", "70% wool, 30% guanaco hair", false,
     false},
    {"man-made names from memory", "modal 60; cupro 40", As::plain, "60 % modal, 40 % cupro", "100% rayon",
     false, false},
    {"man-made names from memory", "merino-fine 40; viscose 20; modal 20; cupro 20", As::plain,
     "40 % wool, 20 % viscose, 20 % modal, 20 % cupro", "60% rayon, 40% wool", false, false},
    {"man-made names from memory", "merino-fine 75; nylon 20; polylactide 5", As::plain,
     "75 % wool, 20 % polyamide, 5 % polylactide", "75% wool, 20% nylon, 5% PLA", false, false},
    {"Annex I nos. 9, 14 (legislation.gov.uk)", "ramie 60; jute 40", As::plain, "60 % ramie, 40 % jute",
     "60% ramie, 40% jute", false, false},
    {"Annex I no. 2 (legislation.gov.uk); 16 CFR 300.18, from memory", "llama 55; camel 45", As::plain,
     "55 % llama, 45 % camel", "55% llama, 45% camel hair", false, false},
    {"Article 9(1), from memory; 15 USC 68b(a)(2)(A) (lawserver.com)", "cotton 97; merino-fine 3", As::plain,
     "97 % cotton, 3 % wool", "97% cotton, 3% wool", false, false},
    {"Annex I no. 3 (legislation.gov.uk)", "dog 100", As::plain, "100 % animal hair", "100% dog hair", false,
     false},
    {"Annex I no. 2 (legislation.gov.uk); 16 CFR 300.19 (law.cornell.edu)",
     "mohair-locks 30; wensleydale-locks 70", As::plain, "70 % wool, 30 % mohair", "70% wool, 30% mohair",
     false, false},
    {"man-made names from memory", "sparkle-film 100", As::plain, "100 % metallised fibre", "100% metallic",
     false, false},
    {"Article 10(1) (gesetze.legal); 16 CFR 300.1", "cotton 92; corriedale 2; sparkle-film 6", As::plain,
     "98 % cotton, 2 % wool", "92% cotton, 6% metallic, 2% wool", false, false},
    {"Article 9(1), from memory; 15 USC 68b(a)(2)(A) (lawserver.com)",
     "merino-fine 80; bombyx-silk 16; nylon 4", As::plain, "80 % wool, 16 % silk, 4 % polyamide",
     "80% wool, 16% silk, 4% other fiber", false, false},
    {"Article 9(1), from memory; 15 USC 68b(a)(2)(A) (lawserver.com)", "cotton 99.7; merino-fine 0.3",
     As::plain, "99 % cotton, 1 % wool", "99% cotton, 1% wool", false, false},
    {"Article 8(2) (gesetze.legal); 16 CFR 300.28 (lawstack.com)", "merino-fine 96; unknown-fibre 4",
     As::vouched, "96 % wool, 4 % other fibres", "", true, true},
    {"Articles 8(2), 19(2), Annex VII (gesetze.legal); 16 CFR 300.20",
     "merino-fine 80; bombyx-silk 18; sparkle-film 2", As::vouched, "82 % virgin wool, 18 % silk",
     "80% virgin wool, 18% silk, 2% other fiber", false, false},
    {"Article 8(1) (gesetze.legal); 16 CFR 300.20 (law.cornell.edu)", "merino-fine 50; unknown-wool 50",
     As::vouched, "100 % wool", "100% wool", true, true},
    {"Article 8(2) (gesetze.legal); 16 CFR 300.19, 300.20 (law.cornell.edu)", "merino-fine 70; cashmere 30",
     As::vouched, "70 % virgin wool, 30 % cashmere", "70% virgin wool, 30% cashmere", false, false},
    {"Article 9(4), from memory; 16 CFR 300.28 (lawstack.com)", "unknown-fibre 100", As::plain,
     "mixed fibres", "", false, true},
    {"Annex I nos. 2, 3 and Article 9(2); 16 CFR 300.28 (lawstack.com)", "merino-fine 96; unknown-hair 4",
     As::plain, "96 % wool, 4 % other fibres", "", false, true},
    {"Article 9(1), from memory; 15 USC 68b(a)(2)(A) (lawserver.com)",
     "merino-fine 98.8; bombyx-silk 0.4; flax 0.4; cotton 0.4", As::plain,
     "98.8 % wool, 0.4 % silk, 0.4 % flax, 0.4 % cotton", "99% wool, 1% other fibers", false, false},
    {"16 CFR 300.19(a) (law.cornell.edu): 21 um", "cashmere 100 21", As::plain, "100 % cashmere", "100% wool",
     false, false},
    {"Article 20(3) (gesetze.legal)", "corriedale 70; cotton-thrums 30", As::plain, "70 % wool, 30 % cotton",
     "70% wool, 30% cotton", false, false},
};

recipe::Recipe recipe_of_parts(const std::string& parts) {
    std::string text = "format = 1\nname = \"Low Water\"\ntotal = \"100 g\"\n";
    std::istringstream list(parts);
    for (std::string part; std::getline(list, part, ';');) {
        std::istringstream words(part);
        std::string fibre, share, um;
        words >> fibre >> share >> um;
        text += "[[component]]\nfibre = \"" + fibre + "\"\nshare = \"" + share + " %\"\n";
        if (!um.empty()) text += "diameter = \"" + um + " um\"\n";
    }
    return examples::recipe_of(text);
}

card::Label label_as(const forecast::Forecast& forecast, card::Market market, As as,
                     card::Product product = card::Product::batt) {
    card::LabelOptions options;
    options.new_wool = as == As::vouched;
    options.count_decorative = as == As::counted;
    return card::label(card::shares_of(forecast, market, product), market, options);
}

}  // namespace

TEST_CASE("whole recipes are labelled as the two laws have it") {
    CHECK(cases.size() > 60);
    for (const LabelCase& one : cases) {
        CAPTURE(one.why);
        CAPTURE(one.parts);
        const auto forecast = examples::forecast_of(recipe_of_parts(one.parts));
        const card::Label eu = label_as(forecast, card::Market::eu_uk, one.as);
        const card::Label us = label_as(forecast, card::Market::us, one.as);
        CHECK(eu.text == one.eu);
        CHECK(us.text == one.us);
        CHECK(eu.refused.empty() != one.eu_refuses);
        CHECK(us.refused.empty() != one.us_refuses);
    }
}

TEST_CASE("a yarn's label counts the thread in it and what stays of the rest") {
    // 100 g of wool and the thread beside it: without a stated fibre nobody may call it wool (Article 7(1);
    // 16 CFR 300.17).
    recipe::Recipe recipe = recipe_of_parts("merino-fine 100");
    recipe.spinning.plying = recipe::Plying::with_thread;
    recipe.spinning.thickness.value = 12.0;
    recipe.spinning.thread = recipe::Thread{71.4, 400.0};
    const auto secret = examples::forecast_of(recipe);
    CHECK(label_as(secret, card::Market::eu_uk, As::plain).text == "100 % wool");  // the batt
    CHECK(label_as(secret, card::Market::eu_uk, As::plain, card::Product::yarn).text.find("100 % wool") ==
          std::string::npos);
    CHECK(label_as(secret, card::Market::us, As::plain, card::Product::yarn).text.empty());

    recipe.spinning.thread->content = {{"cotton", 100.0}};
    const auto told = examples::forecast_of(recipe);
    const double thread_grams = told.yarn.thread_needed_m * 71.4e-3;
    const card::Label label = label_as(told, card::Market::eu_uk, As::plain, card::Product::yarn);
    REQUIRE(label.entries.size() == 2);
    CHECK(label.entries[1].name == "cotton");
    CHECK(label.entries[1].percent ==
          doctest::Approx(100.0 * thread_grams / (thread_grams + told.yarn.yarn_grams)).epsilon(0.05));

    // 30 % of thread ends of which 65 % stay: 19.5 of 89.5 parts, 22 % (Article 20(3) forgives 3).
    const auto ends = examples::forecast_of(recipe_of_parts("corriedale 70; cotton-thrums 30"));
    CHECK(label_as(ends, card::Market::eu_uk, As::plain).text == "70 % wool, 30 % cotton");
    CHECK(label_as(ends, card::Market::eu_uk, As::plain, card::Product::yarn).text ==
          "78 % wool, 22 % cotton");
}

TEST_CASE("what a recipe says of a lot's past goes before the catalogue") {
    recipe::Recipe recipe = recipe_of_parts("corriedale 60; wool-thrums 40");
    recipe.components[1].reclaimed = fibre::Past::fleece;
    const auto never = examples::forecast_of(recipe);
    CHECK(label_as(never, card::Market::eu_uk, As::vouched).text == "100 % virgin wool");
    recipe.components[1].reclaimed = fibre::Past::cloth;
    const auto cloth = examples::forecast_of(recipe);
    CHECK(label_as(cloth, card::Market::us, As::plain).text == "60% wool, 40% recycled wool");
    CHECK_FALSE(label_as(cloth, card::Market::eu_uk, As::vouched).refused.empty());
}
