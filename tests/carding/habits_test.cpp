// What the habits of carding come to, as a spinner would tell it, from both sides. Common practice, no
// source, but where one is named; worked by hand beside each.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <string>

#include "batt_of_text.hpp"
#include "carding/findings.hpp"
#include "carding/lay.hpp"
#include "carding/loss.hpp"
#include "carding/plan.hpp"
#include "colour/optics.hpp"
#include "colour/spaces.hpp"
#include "making.hpp"

using namespace battwright;
using namespace battwright::carding;
using namespace battwright::testing::carded;
using doctest::Approx;

namespace {

const Step& step_of(const Plan& plan, StepKind kind) {
    const auto found = std::find_if(plan.steps.begin(), plan.steps.end(),
                                    [&](const Step& step) { return step.kind == kind; });
    REQUIRE(found != plan.steps.end());
    return *found;
}

Portion portion(double mm, double um, double slipperiness) {
    Portion portion;
    portion.grams = 30.0;
    portion.staple_mm = mm;
    portion.diameter_um = um;
    portion.slipperiness = slipperiness;
    return portion;
}

const recipe::Carder& standard() {
    return *recipe::find_carder("table-standard");
}

}  // namespace

TEST_CASE("the licker-in keeps down and second cuts, and silk as fine as cashmere") {
    CHECK(keeps_to_licker_in(portion(29.0, 16.0, 0.2)));
    CHECK_FALSE(keeps_to_licker_in(portion(32.0, 16.0, 0.2)));
    // Mulberry silk is 12 um, tussah 26 um and more; on the catalogue's scale silk is 0.65 slick, merino 0.2.
    CHECK(keeps_to_licker_in(portion(100.0, 14.0, 0.65)));
    CHECK_FALSE(keeps_to_licker_in(portion(100.0, 15.0, 0.65)));
    CHECK_FALSE(keeps_to_licker_in(portion(100.0, 14.0, 0.6)));
    // Bits of 3 mm stay by the half, an inch of down by an eighth, silk by a twentieth.
    CHECK(licker_in_share(portion(3.0, 16.0, 0.2)) == Approx(0.50).epsilon(0.05).scale(0.0));
    CHECK(licker_in_share(portion(25.4, 16.0, 0.2)) == Approx(0.127).epsilon(0.03).scale(0.0));
    CHECK(licker_in_share(portion(100.0, 14.0, 0.65)) == Approx(0.05).epsilon(0.05).scale(0.0));
}

TEST_CASE("what three passes of a down lose") {
    // Nearly all under an inch, so 4 % a pass under the drum; and on the two passes after the first a fifth
    // of the 35 % that the licker-in would keep of 12 mm: 0.96^3 0.93^2 = 0.765.
    const Laid down = laid(wool(20.0, 12.0, 16.0) + "[carding]\npasses = 3\n");
    auto strands = down.strands;
    for (auto& strand : strands) strand.staple_cv = 0.1;
    const auto portions = portions_of(down.recipe, strands);
    CHECK(kept_shares(portions, strands, 3).front() == Approx(0.765).epsilon(0.006).scale(0.0));
    CHECK(kept_shares(portions, strands, 1).front() == Approx(0.96).epsilon(0.003).scale(0.0));
    CHECK(kept_shares(portions, strands, 2).front() == Approx(0.96 * 0.96 * 0.93).epsilon(0.004).scale(0.0));
    // By hand: of ten grams a tenth of a gram stays in a board's teeth on a pass, a fifth on the cards.
    const auto lost_grams = [&](ToolKind tool) {
        return 10.0 * (1.0 - kept_shares(portions, strands, 3, tool).front());
    };
    CHECK(lost_grams(ToolKind::board) == Approx(0.297).epsilon(0.06).scale(0.0));
    CHECK(lost_grams(ToolKind::hand_cards) == Approx(0.588).epsilon(0.06).scale(0.0));
}

TEST_CASE("fibres broken: a twelfth of the 31 % of a worsted card") {
    // The study of staple strength in processing: 31 % of a 58/60s wool, about 25 um and 85 mm.
    const auto left = [](double mm, double um, int passes) {
        const Laid batt = laid(wool(40.0, mm, um));
        return wear_of(portions_of(batt.recipe, batt.strands), batt.strands, passes).length_share;
    };
    CHECK(left(85.0, 25.0, 12) == Approx(std::pow(1.0 + 0.31 / 12.0, -12.0)).epsilon(1e-6).scale(0.0));
    CHECK(1.0 - left(85.0, 25.0, 1) == Approx(0.0252).epsilon(0.01).scale(0.0));
    CHECK(1.0 - left(42.5, 25.0, 1) == Approx(0.0128).epsilon(0.02).scale(0.0));
    CHECK(1.0 - left(85.0, 100.0, 1) ==
          Approx(0.0128).epsilon(0.02).scale(0.0));  // four times the thickness, half the breaks
}

TEST_CASE("how far the card spreads fibre: in teeth, in its own length, in fibres lying on one another") {
    const std::vector<Portion> portions{portion(80.0, 21.0, 0.2)};
    const Spread spread = spread_of(standard(), portions, 60.0, false);
    // 72 teeth to the square inch stand 25.4 / sqrt(72) = 3 mm apart: between one and a half and two of them.
    const double tooth_mm = 25.4 / std::sqrt(72.0);
    CHECK(spread.across_mm > 1.5 * tooth_mm);
    CHECK(spread.across_mm < 2.0 * tooth_mm);
    CHECK(spread.round_mm / 80.0 == Approx(0.4).epsilon(0.1).scale(0.0));
    // 60 g on 560 mm x 200 mm are 536 g/m2; of wool, 1.31 g/cm3, 21 um thick: 19.5 fibres. Half to two thirds
    // of one.
    const double fibres = 60.0 / 0.112 / (1.31e6 * 21e-6);
    CHECK(spread.depth_share * fibres > 0.52);
    CHECK(spread.depth_share * fibres < 0.66);
    // However thick the batt, a fiftieth of it; however thin, not more than a seventh.
    CHECK(spread_of(standard(), portions, 2000.0, false).depth_share ==
          Approx(0.02).epsilon(0.05).scale(0.0));
    CHECK(spread_of(standard(), portions, 1.0, false).depth_share == Approx(0.15).epsilon(0.05).scale(0.0));
    // Fed thin, a quarter more; on cloth of twice the teeth, sqrt(2).
    const Spread thin = spread_of(standard(), portions, 60.0, true);
    CHECK(thin.across_mm / spread.across_mm == Approx(1.25).epsilon(0.05).scale(0.0));
    recipe::Carder dense = standard();
    dense.teeth_per_square_inch = 144.0;
    CHECK(spread_of(dense, portions, 60.0, false).across_mm / spread.across_mm ==
          Approx(std::numbers::sqrt2));
}

TEST_CASE("opening: what one pass leaves of the tufts") {
    const auto opening = [](double um, double slipperiness, double grams = 60.0, bool thin = false,
                            double ratio = 5.0) {
        recipe::Carder carder = standard();
        carder.licker_in_ratio = ratio;
        return opening_of(
            carder, std::vector<Portion>{portion(80.0, um, slipperiness), portion(80.0, um, slipperiness)},
            grams, thin);
    };
    // Middling wool, 21 um and as grippy as merino: about three tenths, so that three passes leave a
    // fortieth.
    const Opening usual = opening(21.0, 0.2);
    CHECK(1.0 / std::pow(usual.cut, 3.0) == Approx(37.0).epsilon(0.03).scale(0.0));
    CHECK(1.0 / std::pow(usual.shrink, 3.0) == Approx(37.0).epsilon(0.03).scale(0.0));
    // How many times as much another opens: the passes of the one that do what a pass of the other does.
    const auto times = [&](const Opening& other) { return std::log(other.cut) / std::log(usual.cut); };
    CHECK(times(opening(21.0, 0.7)) == Approx(0.80).epsilon(0.02).scale(0.0));  // silk: a fifth less
    CHECK(times(opening(21.0, 0.2, 60.0, true)) == Approx(1.15).epsilon(0.05).scale(0.0));
    CHECK(times(opening(21.0, 0.2, 160.0)) == Approx(0.5));              // twice what the drum takes
    CHECK(times(opening(84.0, 0.2)) == Approx(2.0));                     // Klein: the root of the diameter
    CHECK(times(opening(21.0, 0.2, 60.0, false, 20.0)) == Approx(2.0));  // and of the speed
}

TEST_CASE("at the tray: how thick, how fast, how high it stands") {
    const auto first = [](double um) {
        return step_of(plan_for(laid(wool(28.35, 80.0, um))), StepKind::feed);
    };
    // 64s merino of 20 um goes in thin, 18 um still, 17 um as gauze; 60s wool of 21 um as it comes.
    CHECK(first(17.0).thickness == FeedThickness::gauze);
    CHECK(first(18.0).thickness == FeedThickness::thin);
    CHECK(first(20.0).thickness == FeedThickness::thin);
    CHECK(first(21.0).thickness == FeedThickness::plain);
    // A batt of 60 g is a quarter of an hour's feeding (common practice, no source): an ounce 28.35 / 60 x 15
    // = 7.1 minutes. Of fine wool, fed 45 g/m2 thick where another is 80, no more than 80 / 45 = 1.8 times
    // that.
    CHECK(first(28.0).minutes == Approx(7.1).epsilon(0.05).scale(0.0));
    CHECK(first(18.0).minutes > 1.5 * 7.1);
    CHECK(first(18.0).minutes < 1.8 * 7.1);
    // Light comes through 25 g/m2 as through bandage gauze, hardly through 80.
    CHECK(first(17.0).tray_g_m2 == Approx(25.0).epsilon(0.1).scale(0.0));
    CHECK(first(18.0).tray_g_m2 == Approx(45.0).epsilon(0.1).scale(0.0));
    CHECK(first(28.0).tray_g_m2 == Approx(80.0).epsilon(0.1).scale(0.0));
    // 67.2 g on 560 mm x 200 mm are 600 g/m2 and stand an inch and a quarter high.
    const Step whole = step_of(plan_for(laid(wool(67.2, 80.0, 28.0))), StepKind::feed);
    CHECK(whole.layer_g_m2 == Approx(600.0).epsilon(1e-6).scale(0.0));
    CHECK(whole.layer_mm > 28.0);
    CHECK(whole.layer_mm < 33.0);
    // Three minutes to lift a batt off, three quarters of a minute a strip.
    const Plan twice = plan_for(laid(wool(28.35, 80.0, 28.0) + "[carding]\npasses = 2\nstrips = 4\n"));
    CHECK(step_of(twice, StepKind::doff).minutes == Approx(3.0).epsilon(0.1).scale(0.0));
    double again = 0.0;
    for (const Step& step : twice.steps) again += step.kind == StepKind::feed_again ? step.minutes : 0.0;
    CHECK(again == Approx(7.1 + 3.0).epsilon(0.03).scale(0.0));
    // A board of 30 g is drawn over its teeth in a quarter of an hour (common practice, no source): an ounce
    // in 28.35 / 30 x 15 = 14.2 minutes; a minute to brush it in, and four rolags in three to roll them off.
    const Plan board =
        plan_for(laid(wool(28.35, 80.0, 28.0) + "[carding]\ncarder = \"blending-board\"\nrolags = 4\n"));
    CHECK(step_of(board, StepKind::feed).minutes == Approx(14.2).epsilon(0.05).scale(0.0));
    CHECK(step_of(board, StepKind::brush).minutes == Approx(1.0).epsilon(0.1).scale(0.0));
    CHECK(step_of(board, StepKind::roll).minutes == Approx(3.0).epsilon(0.1).scale(0.0));
    // Cards go 25 strokes a minute, 60 / 25 = 2.4 s each (common practice, no source); what goes into four
    // rolags is weighed out in a minute.
    const Plan cards =
        plan_for(laid(wool(6.0, 80.0, 28.0) + "[carding]\ncarder = \"hand-cards\"\npasses = 1\n"));
    const Step transfer = step_of(cards, StepKind::transfer);
    const std::size_t at = transfer.text.find(" strokes or so");
    REQUIRE(at != std::string::npos);
    const double strokes = std::stod(transfer.text.substr(transfer.text.rfind(' ', at - 1) + 1));
    CHECK(60.0 * transfer.minutes / strokes == Approx(2.4).epsilon(0.1).scale(0.0));
    CHECK(step_of(cards, StepKind::weigh).minutes == Approx(0.25).epsilon(0.1).scale(0.0));
    // A dab is a pinch of fibre, an inch and a half to two inches.
    const Plan dabs = plan_for(
        laid(wool(20.0, 80.0, 28.0) + wool(5.0, 80.0, 28.0, "romney") + "[carding]\nfeed = \"dabs\"\n"));
    bool told = false;
    for (const Step& step : dabs.steps)
        if (step.manner == FeedManner::dab && step.kind == StepKind::feed)
            told = step.text.find("about 45 mm wide") != std::string::npos;
    CHECK(told);
}

TEST_CASE("what comes late goes in when half of the strips are back") {
    const Plan plan = plan_for(laid(wool(30.0, 80.0, 28.0) + wool(5.0, 80.0, 34.0, "romney") +
                                    "add_on_pass = 2\n[carding]\npasses = 2\nstrips = 4\n"));
    std::vector<double> minutes;
    for (const Step& step : plan.steps)
        if (step.kind == StepKind::feed_again) minutes.push_back(step.minutes);
    REQUIRE(minutes.size() == 2);
    CHECK(minutes[0] == Approx(minutes[1]));
}

TEST_CASE("cautions and findings at the carder from both sides") {
    const auto caution = [](const char* code, const Laid& batt) {
        const Plan plan = plan_for(batt);
        return std::any_of(plan.cautions.begin(), plan.cautions.end(),
                           [&](const Caution& caution) { return caution.code == code; });
    };
    CHECK(caution("wraps", laid(wool(40.0, 155.0, 30.0))));
    CHECK_FALSE(caution("wraps", laid(wool(40.0, 145.0, 30.0))));
    // Stripes need a fifth of their width in common to hold.
    const auto stripes = [](int overlap) {
        return wool(20.0, 80.0, 28.0) + wool(20.0, 80.0, 34.0, "romney") +
               "[carding]\nfeed = \"stripes\"\npasses = 1\noverlap = \"" + std::to_string(overlap) + " %\"\n";
    };
    CHECK(finds("stripes-apart", stripes(18)));
    CHECK_FALSE(finds("stripes-apart", stripes(22)));
    // A drum of 80 g holds about 68 g the second time round.
    const auto full = [](int grams) { return wool(grams, 80.0, 28.0) + "[carding]\npasses = 2\n"; };
    CHECK(finds("holds-less", full(70)));
    CHECK_FALSE(finds("holds-less", full(66)));
    CHECK_FALSE(finds("holds-less", wool(79.0, 80.0, 28.0) + "[carding]\npasses = 1\n"));
    // It tells from which pass on: 80, 68, 58 g.
    const auto told = [&](int grams, int passes) {
        const Laid batt = laid(wool(grams, 80.0, 28.0) + "[carding]\npasses = " + std::to_string(passes));
        for (const auto& finding : feeding_findings(batt.recipe, batt.strands, batt.carder, batt.grams))
            if (finding.code == "holds-less") return finding.text + finding.remedy;
        return std::string();
    };
    CHECK(told(70, 3).find("From pass 2 on") != std::string::npos);
    CHECK(told(64, 3).find("From pass 3 on") != std::string::npos);
    CHECK(told(64, 3).find("holds about 57.8 g") != std::string::npos);
    // A gradient is lost on the second pass, of two colours as of more, and not on the first.
    const auto gradient = [](int passes, const char* feed) {
        return wool(20.0, 80.0, 28.0) + wool(20.0, 80.0, 34.0, "romney") + "[carding]\nfeed = \"" + feed +
               "\"\npasses = " + std::to_string(passes) + "\n";
    };
    CHECK(finds("gradient-lost", gradient(2, "gradient-round")));
    CHECK(finds("gradient-lost", gradient(2, "gradient-across")));
    CHECK_FALSE(finds("gradient-lost", gradient(1, "gradient-across")));
    CHECK_FALSE(finds("gradient-lost",
                      wool(40.0, 80.0, 28.0) + "[carding]\nfeed = \"gradient-across\"\npasses = 2\n"));
    // What a list of ways offers reads on in the sentence, whichever way loses it.
    const std::map<std::string_view, const char*> goes_back{
        {"strips", "strip by strip"}, {"tear-and-fold", "torn and turned"},
        {"halves", "half on half"},   {"sideways", "sideways"},
        {"on-edge", "on edge"},       {"quarter-turn", "side first"}};
    int lost = 0;
    for (const auto& row : recipe::refeeds) {
        const Laid batt =
            laid(gradient(2, "gradient-across") + "refeed = \"" + std::string(row.word) + "\"\n");
        for (const auto& finding : feeding_findings(batt.recipe, batt.strands, batt.carder, batt.grams)) {
            if (finding.code != "gradient-lost") continue;
            CAPTURE(finding.text);
            ++lost;
            REQUIRE(goes_back.contains(row.word));
            CHECK(finding.text.find("the batt goes back " + std::string(goes_back.at(row.word)) + ",") !=
                  std::string::npos);
        }
    }
    CHECK(lost >= 4);
    // Nobody weighs a quarter of a gram a dozen times over, nor lays seventy times.
    const auto laying = [](int count, const char* grams) {
        std::string lay = "[carding]\npasses = 1\nlay = [";
        for (int i = 0; i < count; ++i)
            lay += " { what = \"corriedale\", weight = \"" + std::string(grams) + " g\" },";
        return wool(60.0, 80.0, 28.0) + lay + " { what = \"corriedale\" } ]\n";
    };
    CHECK(finds("fiddly", laying(13, "0.28")));
    CHECK_FALSE(finds("fiddly", laying(12, "0.28")));
    CHECK_FALSE(finds("fiddly", laying(13, "0.32")));
    CHECK(finds("fiddly", laying(62, "0.5")));
    CHECK_FALSE(finds("fiddly", laying(58, "0.5")));
}

TEST_CASE("a thousand batts are weighed out, not more") {
    const Tool drum{"drum", "drum", ToolKind::drum, 40.0, 80.0};
    CHECK(weigh_out(std::vector<double>{79000.0}, drum).has_value());
    CHECK_FALSE(weigh_out(std::vector<double>{81000.0}, drum).has_value());
}

TEST_CASE("handfuls: as wide as a hand is long, one lying a third thicker than the next") {
    // Value noise joined by t^2 (3 - 2 t): of the knots' variance 26/35 is left between them, and two places
    // one handful apart correlate by (9/70) / (26/35) = 0.173 (worked by hand).
    const Field shape = empty_field({1, 200, 1}, 1, 560.0, 200.0);
    double squares = 0.0, beside = 0.0, count = 0.0, pairs = 0.0;
    for (std::uint64_t seed = 1; seed <= 1500; ++seed) {
        const auto thick = handfuls_across(shape, seed, 3);
        for (std::size_t y = 0; y < thick.size(); y += 5) {
            squares += (thick[y] - 1.0) * (thick[y] - 1.0);
            count += 1.0;
            if (y + 60 >= thick.size()) continue;
            beside += (thick[y] - 1.0) * (thick[y + 60] - 1.0);
            pairs += 1.0;
        }
    }
    CHECK(std::sqrt(squares / count) == Approx(0.35 * std::sqrt(26.0 / 35.0)).epsilon(0.04).scale(0.0));
    CHECK(beside / pairs / (squares / count) == Approx(0.173).epsilon(0.2).scale(0.0));
    // Drawn over a board's teeth by hand it comes in pinches of an inch, as unevenly.
    Field board = shape;
    board.flat = true;
    double inch = 0.0, all = 0.0;
    for (std::uint64_t seed = 1; seed <= 1500; ++seed) {
        const auto thick = handfuls_across(board, seed, 3);
        for (std::size_t y = 0; y + 25 < thick.size(); y += 5) {
            inch += (thick[y] - 1.0) * (thick[y + 25] - 1.0);
            all += (thick[y] - 1.0) * (thick[y] - 1.0);
        }
    }
    CHECK(inch / all == Approx(0.173).epsilon(0.2).scale(0.0));
}

TEST_CASE("what the hands draw from at one moment: a pinch of some 60 mg, two inches and a half long") {
    // 60 g on 560 x 200 mm: a sixth of the depth, 12 mm across and 60 mm round are 64 mg.
    const Field field = empty_field(default_grid, 1, 560.0, 200.0);
    CHECK(patch_mg(field, 60.0) == Approx(64.0).epsilon(0.08).scale(0.0));
    CHECK(patch_length_mm(field) == Approx(62.0).epsilon(0.06).scale(0.0));
    CHECK(patches_of(field).grid.across == 17);
    CHECK(patches_of(field).grid.depth == 6);
}

TEST_CASE(
    "salt and pepper: what chance leaves between spots of forty fibres, from two units of CIEDE2000 on") {
    // Half and half and perfectly mixed: a spot's share strays by 0.5 / sqrt(40), its mean distance is sqrt(2
    // / pi) of that (a folded normal), times what a hundredth of share does to the colour.
    Pass even{1, empty_field(default_grid, 2, 560.0, 200.0), {}};
    std::fill(even.field.shares.begin(), even.field.shares.end(), 0.5);
    const auto grey = [](double l) {
        return colour::reflectance_of(colour::clipped(colour::srgb_from(colour::Lab{l, 0.0, 0.0})));
    };
    const auto lab_at = [](const BattObserver& observer, double share) {
        const std::vector<colour::Portion> parts{{share, observer.reflectances[0]},
                                                 {1.0 - share, observer.reflectances[1]}};
        return colour::lab_under(colour::blend(parts, observer.optics), observer.light);
    };
    const auto expected = [&](const BattObserver& observer) {
        const double a_hundredth = colour::ciede2000(lab_at(observer, 0.495), lab_at(observer, 0.505));
        return std::sqrt(2.0 / std::numbers::pi) * 100.0 * 0.5 / std::sqrt(40.0) * a_hundredth;
    };
    bool below = false, above = false;
    for (double l = 60.0; l < 100.0; l += 0.5) {
        BattObserver observer;
        observer.reflectances = {grey(40.0), grey(l)};
        const double own = expected(observer);
        const auto found = measured(even, observer, 4);
        CHECK(found.fleck_de00 == Approx(own).epsilon(0.06).scale(0.0));
        if (own > 1.8 && own < 1.9) CHECK(found.fleck == Fleck::none);
        if (own > 2.1 && own < 2.25) CHECK(found.fleck == Fleck::salt_and_pepper);
        below = below || (own > 1.8 && own < 1.9);
        above = above || (own > 2.1 && own < 2.25);
    }
    CHECK(below);
    CHECK(above);
}

TEST_CASE("tweedy: enough specks, small enough, and different enough from the ground") {
    const auto fleck = [](double share, double staple_mm, double l) {
        Pass batt{1, empty_field(default_grid, 2, 560.0, 200.0), {}};
        std::fill(batt.field.block(0).begin(), batt.field.block(0).end(), 1.0 - share);
        std::fill(batt.field.block(1).begin(), batt.field.block(1).end(), share);
        std::vector<Portion> portions{portion(80.0, 21.0, 0.2), portion(staple_mm, 16.0, 0.2)};
        portions[1].lump_grams = 0.002;
        BattObserver observer;
        for (const double each : {50.0, l})
            observer.reflectances.push_back(
                colour::reflectance_of(colour::clipped(colour::srgb_from(colour::Lab{each, 0.0, 0.0}))));
        return measured(batt, observer, 4, portions).fleck;
    };
    CHECK(fleck(0.05, 11.0, 70.0) == Fleck::tweedy);
    // One part in five hundred: a tenth of a gram in fifty.
    CHECK(fleck(0.0023, 11.0, 70.0) == Fleck::tweedy);
    CHECK(fleck(0.0018, 11.0, 70.0) != Fleck::tweedy);
    // A snip of yarn of two inches is a speck, a curl of two and a half is a curl.
    CHECK(fleck(0.05, 58.0, 70.0) == Fleck::tweedy);
    CHECK(fleck(0.05, 63.0, 70.0) != Fleck::tweedy);
    // Six units: L* 50 beside 56.5 is 6.3, beside 55.8 is 5.6.
    CHECK(fleck(0.01, 11.0, 56.6) == Fleck::tweedy);
    CHECK(fleck(0.01, 11.0, 55.6) != Fleck::tweedy);
}

TEST_CASE("a nep is a pinhead, a lock's curl a twentieth of a gram") {
    const auto lump = [](const char* fibre) {
        const Laid batt = laid("[[component]]\nfibre = \"" + std::string(fibre) + "\"\nweight = \"5 g\"\n");
        return portions_of(batt.recipe, batt.strands).front().lump_grams;
    };
    // A ball of 1.7 to 1.8 mm, the head of a pin, of wool packed as in a hard knot (60 %): 2 mg.
    const double pinhead = 1.75;
    CHECK(
        lump("wool-neps") ==
        Approx(std::numbers::pi / 6.0 * std::pow(pinhead / 10.0, 3.0) * 1.31 * 0.55).epsilon(0.1).scale(0.0));
    // Twenty curls of a longwool to the gram.
    CHECK(1.0 / lump("lincoln-locks") == Approx(20.0).epsilon(0.1).scale(0.0));
}
