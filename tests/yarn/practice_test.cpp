// What the trade says of skeins and knitting, from both sides of each figure. Common practice, no source, but
// where one is named.
#include <doctest/doctest.h>

#include <cctype>
#include <cmath>
#include <numbers>
#include <string>

#include "yarn/finish.hpp"
#include "yarn/habit_words.hpp"
#include "yarn/project.hpp"
#include "yarn/spin.hpp"
#include "yarn/unknown.hpp"
#include "yarns.hpp"

using namespace yarns;
using doctest::Approx;
using yarn::Calibration;
using yarn::Lesson;
using yarn::Question;

namespace {

constexpr auto middling_way = Preparation::semi_woollen;

// A skein of 100 g of so many wraps wanted and got, that long against the law.
Lesson logged(double wanted, double got, double log_loft = 0.0, Preparation preparation = middling_way) {
    Lesson lesson;
    lesson.preparation = preparation;
    lesson.grams = 100.0;
    lesson.metres = 0.1 * std::exp(yarn::log_m_per_kg_at_wraps(got, {}) + log_loft);
    lesson.nominal_m = 0.1 * std::exp(yarn::log_m_per_kg_at_wraps(wanted, {}));
    lesson.by_wraps = true;
    lesson.wanted_wpi = wanted;
    lesson.got_wpi = got;
    return lesson;
}

// About these ends, to a tenth; one that is nothing is nothing.
bool ends_at(const yarn::Spread& spread, double low, double high) {
    return std::abs(spread.low - low) <= 0.1 * low && std::abs(spread.high - high) <= 0.1 * high;
}

// Half the 80 % range of a skein in hand of 14 wraps, in logarithms.
double half_range(double unknown_share) {
    const auto held = yarn::length_in_hand(100.0, 14.0, {}, middling_way, Calibration(), unknown_share);
    return 0.5 * std::log(held.high_m / held.low_m);
}

}  // namespace

TEST_CASE("a generous version takes half as much again and more; a jumper, cut to the body, a third") {
    for (const yarn::Project& project : yarn::projects()) {
        CAPTURE(project.thing);
        CAPTURE(project.size);
        const bool jumper = project.thing == "adult's jumper", child = project.thing == "child's jumper";
        const bool sock = project.thing == "socks" && project.size != "child";
        const double ratio = project.high_m / project.low_m;
        CHECK(ratio > (jumper || sock ? 1.33 : child ? 1.4 : 1.52));
        CHECK(ratio < (jumper || sock ? 1.45 : child ? 1.6 : 1.81));
    }
    // Worked open, a shawl of lace takes three quarters of what its stitches would.
    const auto& shawl = *yarn::project_named("shawl", "large");
    CHECK(yarn::need_of(shawl, 18.0).high_m == Approx(0.75 * 2.0 * shawl.high_m));
    CHECK(yarn::need_of(shawl, 13.5).high_m == Approx(1.5 * shawl.high_m));
}

TEST_CASE("the classes in metres of 100 g, as an encyclopaedia tables the system") {
    struct Row {
        const char* name;
        double least, most;
    };
    for (const Row& row : {Row{"lace", 600, 800}, Row{"super fine", 400, 480}, Row{"fine", 300, 400},
                           Row{"light", 240, 300}, Row{"medium", 120, 240}, Row{"bulky", 100, 130}}) {
        CAPTURE(row.name);
        const yarn::ThicknessClass& found = *yarn::class_named(row.name);
        CHECK(found.metres_per_100_g_low.value_or(0.0) == row.least);
        CHECK(found.metres_per_100_g_high.value_or(0.0) == row.most);
    }
    CHECK(yarn::class_named("super bulky")->metres_per_100_g_high.value_or(0.0) == 100.0);
    // Wraps as tabled, 18+, 14-17, 12-13, 11, 9, 7, 5-6: the borders halve the gaps, what is usual is the
    // middle.
    const auto from = [](const char* name) { return yarn::class_named(name)->from_wpi; };
    CHECK(from("lace") == 0.5 * (17 + 18));
    CHECK(from("super fine") == 0.5 * (13 + 14));
    CHECK(from("fine") == 0.5 * (11 + 12));
    CHECK(from("light") == 0.5 * (9 + 11));
    CHECK(from("medium") == 0.5 * (7 + 9));
    CHECK(from("bulky") == 0.5 * (6 + 7));
    const auto usual = [](const char* name) { return yarn::class_named(name)->typical_wpi; };
    CHECK(usual("super fine") == 0.5 * (14 + 17));
    CHECK(usual("fine") == 0.5 * (12 + 13));
    CHECK(usual("super bulky") == 0.5 * (5 + 6));
    CHECK(usual("lace") >= 18.0);
    CHECK(usual("lace") < 22.0);
    CHECK(usual("jumbo") < 4.0);
    CHECK(from("super bulky") > 4.0);
    CHECK(from("super bulky") < 5.0);
}

TEST_CASE("what a wash takes in length and gives in thickness") {
    // Figures of spinners' pages, wound to washed and dry: merino 6 and 33 %, polwarth 22 to 28, polypay 22,
    // churro 11, a bulky batt yarn 17.
    const auto wool_of = [](double crimp) { return yarn::wash_of(fibre::Family::wool, crimp).shrink_pct; };
    CHECK(ends_at(wool_of(6.0), 6.0, 33.0));
    CHECK(wool_of(5.0).high >= 33.0);
    CHECK(wool_of(5.0).high < 35.0);
    CHECK(wool_of(5.0).low <= 6.0);
    CHECK(wool_of(0.0).low <= 5.0);
    CHECK(wool_of(0.0).high >= 11.0);
    CHECK(wool_of(0.0).high < 14.0);
    // A wool of which nothing is known may do what polypay does, and not what crimpy polwarth does.
    const auto unknown = yarn::wash_of(std::span<const Strand>{}).shrink_pct;
    CHECK(unknown.high > 22.0);
    CHECK(unknown.high < 26.0);
    CHECK(ends_at(yarn::wash_of(fibre::Family::wool).bloom_pct, 5.0, 15.0));
    const auto of = [](fibre::Family family) { return yarn::wash_of(family); };
    using fibre::Family;
    CHECK(ends_at(of(Family::hair).shrink_pct, 2.0, 6.0));  // less than wool, but a halo
    CHECK(ends_at(of(Family::hair).bloom_pct, 5.0, 20.0));
    CHECK(ends_at(of(Family::silk).shrink_pct, 0.0, 3.0));
    CHECK(ends_at(of(Family::silk).bloom_pct, 0.0, 5.0));
    CHECK(ends_at(of(Family::bast).shrink_pct, 1.0, 4.0));
    CHECK(ends_at(of(Family::bast).bloom_pct, 0.0, 3.0));
    CHECK(ends_at(of(Family::cotton).shrink_pct, 2.0, 6.0));
    CHECK(ends_at(of(Family::cotton).bloom_pct, 2.0, 8.0));
    CHECK(ends_at(of(Family::regenerated).shrink_pct, 1.0, 5.0));
    CHECK(ends_at(of(Family::regenerated).bloom_pct, 0.0, 4.0));
    CHECK(ends_at(of(Family::synthetic).shrink_pct, 0.0, 1.0));
    CHECK(ends_at(of(Family::synthetic).bloom_pct, 0.0, 3.0));
    CHECK(ends_at(of(Family::unknown).shrink_pct, 0.0, 10.0));
    CHECK(ends_at(of(Family::unknown).bloom_pct, 0.0, 20.0));
}

TEST_CASE("a crimp that is only guessed widens what the wash may take, and moves it not at all") {
    fibre::Kind known = kind_of(fibre::Family::wool, 1.31);
    known.crimp_per_cm = 2.0;
    known.sources["crimp"] = "a handbook";
    fibre::Kind guessed = known;
    guessed.sources["crimp"] = "memory";
    const auto shrink = [](const fibre::Kind& kind) {
        return yarn::wash_of(std::vector<Strand>{strand_of(kind, 50.0, 90.0, 24.0)}).shrink_pct;
    };
    // Two fifths of 2 per cm; the middle of the range rises by 11 for 5 per cm: 1.76.
    CHECK(shrink(guessed).middle() == Approx(shrink(known).middle()));
    CHECK(shrink(guessed).high - shrink(known).high == Approx(1.76).epsilon(0.01).scale(0.0));
    CHECK(shrink(known).low - shrink(guessed).low == Approx(1.76).epsilon(0.01).scale(0.0));
    // Beyond full crimp it makes no difference.
    known.crimp_per_cm = guessed.crimp_per_cm = 9.0;
    CHECK(shrink(guessed).high == Approx(shrink(known).high));
}

TEST_CASE("a stranger's range: eight skeins' worth of belief, and more for a fibre nobody knows") {
    // Student's t of 8 degrees leaves a tenth above 1.397 (table); spreads of the records: 0.307 and 0.251,
    // and 0.064 of the law itself, are 0.402 together.
    CHECK(half_range(0.0) == Approx(1.397 * std::hypot(0.307, 0.251, 0.064)).epsilon(0.005).scale(0.0));
    // A fibre nobody knows: 15 %.
    const double more = std::sqrt(half_range(1.0) * half_range(1.0) - half_range(0.0) * half_range(0.0));
    CHECK(more / 1.397 == Approx(0.15).epsilon(0.05).scale(0.0));
}

TEST_CASE("what is asked about, what is refused, and when a preparation speaks for itself") {
    // A fifth finer than wanted is no longer chance.
    CHECK(Calibration().question_about(logged(12.0, 14.2)) == Question::none);
    CHECK(Calibration().question_about(logged(12.0, 14.7)) == Question::changed_her_mind);
    // Metres for its weight: two and a half of the standard deviations that strangers' skeins have.
    const double sd = std::hypot(0.307, 0.251);
    CHECK(Calibration().question_about(logged(12.0, 12.0, 2.4 * sd)) == Question::none);
    CHECK(Calibration().question_about(logged(12.0, 12.0, 2.7 * sd)) == Question::is_it_right);
    Calibration plain;
    CHECK_FALSE(plain.update(middling_way, 480.0, 100.0).has_value());
    CHECK(plain.update(middling_way, 520.0, 100.0).has_value());  // five times as long: a slip of the pen
    CHECK_FALSE(plain.update(middling_way, 21.0, 100.0).has_value());
    CHECK(plain.update(middling_way, 19.0, 100.0).has_value());
    // Two woollen skeins still speak with all of hers, three for themselves.
    Calibration hers;
    for (int i = 0; i < 5; ++i) REQUIRE(hers.learn(logged(12.0, 12.0, 0.1)).has_value());
    for (int i = 0; i < 2; ++i)
        REQUIRE(hers.learn(logged(12.0, 12.0, -0.1, Preparation::woollen)).has_value());
    CHECK(hers.loft(Preparation::woollen).count == 7);
    REQUIRE(hers.learn(logged(12.0, 12.0, -0.1, Preparation::woollen)).has_value());
    CHECK(hers.loft(Preparation::woollen).count == 3);
    // Wraps against grist: what one skein in twenty does by chance (1.96 of the normal distribution).
    const double law_sd = std::hypot(0.307, 0.251, 0.064);
    const auto disagrees = [&](double sds) {
        const double tex = yarn::tex_of_log_m_per_kg(yarn::log_m_per_kg_at_wraps(14.0, {}) + sds * law_sd);
        return yarn::hold_together(14.0, tex, {}).disagrees;
    };
    CHECK(disagrees(2.0));
    CHECK_FALSE(disagrees(1.92));
}

TEST_CASE("wraps are told to the half, as a ruler tells them, lengths of a habit to the hundredth") {
    Calibration calibration;
    for (int i = 0; i < 3; ++i) REQUIRE(calibration.learn(logged(12.3, 14.1, 0.05)).has_value());
    const std::string aim = yarn::aim_words(calibration.aim(middling_way), 12.3);
    CHECK(aim.find("for 12.5 wraps wanted you get about 14 ") == std::string::npos);
    CHECK(aim.find("for 12.5 wraps wanted you get about 14,") != std::string::npos);
    // Every number of wraps is a half or a whole.
    const auto in_halves = [](const std::string& text) {
        for (std::size_t at = text.find('.'); at != std::string::npos; at = text.find('.', at + 1))
            if (at + 2 > text.size() || text[at + 1] != '5' ||
                (at + 2 < text.size() && std::isdigit(static_cast<unsigned char>(text[at + 2])) != 0))
                return false;
        return true;
    };
    for (const double wanted : {10.1, 10.7, 11.3, 12.2, 13.8, 15.3}) {
        CAPTURE(wanted);
        CHECK(in_halves(yarn::aim_words(calibration.aim(middling_way), wanted)));
        const auto told = spun(plan(wraps(wanted)), 100.0, calibration);
        CHECK_FALSE(yarn::plan_words(told).empty());
        CHECK(in_halves(yarn::plan_words(told)));
        CHECK(in_halves(yarn::question_words(Question::changed_her_mind, logged(wanted, 1.7 * wanted))));
        CHECK(in_halves(yarn::question_words(Question::is_it_right, logged(wanted, 1.1 * wanted))));
    }
    // 5 % longer; every factor to the hundredth.
    const std::string loft = yarn::loft_words(calibration.loft(middling_way));
    CHECK(loft.find(" % longer than others'") != std::string::npos);
    const auto& belief = calibration.loft(middling_way);
    const auto range = yarn::range_80_percent(std::exp(belief.mean), yarn::half_width_80_percent(belief));
    const auto hundredth = [](double value) {
        return measure::write_number(std::round(100.0 * value) / 100.0);
    };
    CHECK(loft.find("four in five " + hundredth(range.low) + " to " + hundredth(range.high) + " times") !=
          std::string::npos);
    // Less than half a wrap apart is not told.
    Calibration steady;
    for (int i = 0; i < 3; ++i) REQUIRE(steady.learn(logged(12.0, 12.6, 0.0)).has_value());
    const auto close = spun(plan(wraps(12.0)), 100.0, steady);
    CHECK(std::abs(close.expected_wpi - 12.0) < 0.6);
    CHECK(yarn::plan_words(close).empty() == (std::abs(close.expected_wpi - 12.0) < 0.5));
}

TEST_CASE("the wheel: soft, medium and firm, and how few fibres hold") {
    const auto soft = yarn::range_of(yarn::Twist::soft), firm = yarn::range_of(yarn::Twist::firm);
    CHECK(soft.from_degrees == Approx(10.0).epsilon(0.1).scale(0.0));
    CHECK(soft.to_degrees == Approx(17.0).epsilon(0.1).scale(0.0));
    CHECK(firm.from_degrees == Approx(25.0).epsilon(0.1).scale(0.0));
    CHECK(firm.to_degrees == Approx(40.0).epsilon(0.1).scale(0.0));
    // Turns: a quarter fewer, a third more.
    const auto tangent = [](yarn::Twist twist) {
        return std::tan(yarn::spinning_angle_degrees(wool_batt(), twist) * std::numbers::pi / 180.0);
    };
    CHECK(tangent(yarn::Twist::soft) / tangent(yarn::Twist::medium) == Approx(0.75).epsilon(0.01).scale(0.0));
    CHECK(tangent(yarn::Twist::firm) / tangent(yarn::Twist::medium) ==
          Approx(4.0 / 3.0).epsilon(0.01).scale(0.0));
    // Half of what hands draft without constant breaks no longer holds.
    CHECK(yarn::fewest_fibres(Preparation::worsted) == Approx(20.0));
    CHECK(yarn::fewest_fibres(Preparation::woollen) == Approx(40.0));
    CHECK(yarn::spinning_k(Preparation::semi_woollen) == Approx(0.875));  // between 0.85 and 0.90, Ashenhurst
}

TEST_CASE("the curve goes from rug yarn to cobweb by half wraps") {
    const auto curve = spun(plan(wraps(12.0))).curve;
    REQUIRE(curve.size() > 2);
    CHECK(curve.front().wpi == Approx(3.0));
    CHECK(curve.back().wpi == Approx(45.0));
    CHECK(curve[1].wpi - curve[0].wpi == Approx(0.5));
}
