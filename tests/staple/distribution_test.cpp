// Length and diameter distributions against handbook values, identities and plain sums.
#include "staple/distribution.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

#include "fibre/catalogue.hpp"
#include "strands.hpp"

using namespace battwright;
using doctest::Approx;
using recipe::Strand;
using staple::Histogram;
using staple::Weighting;

namespace {

// A grid so fine and so long that sums over it stand for integrals.
constexpr staple::LengthGrid fine_grid{3000.0, 60000};

double sum_of(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

// Share of a histogram in classes whose midpoint is below x.
double share_below(const Histogram& h, double x) {
    double below = 0.0;
    for (std::size_t i = 0; i < h.midpoints.size(); ++i)
        if (h.midpoints[i] < x) below += h.frequencies[i];
    return below / sum_of(h.frequencies);
}

std::vector<Strand> three_wools() {
    return {strand_of(40.0, 77.0, 0.35, 0.38, 19.0, 0.21), strand_of(25.0, 110.0, 0.30, 0.80, 28.0, 0.24),
            strand_of(10.0, 38.0, 0.45, 0.24, 15.5, 0.22)};
}

std::vector<Strand> random_strands(std::mt19937& random) {
    std::uniform_int_distribution<int> count(2, 9);
    std::uniform_real_distribution<double> grams(0.5, 60.0), length(15.0, 200.0), cv(0.0, 0.7);
    std::uniform_real_distribution<double> um(11.0, 40.0);
    std::vector<Strand> strands;
    for (int i = count(random); i > 0; --i) {
        const double diameter = um(random);
        // Mass of a metre of wool of that thickness; the spread term does not matter here.
        const double tex = 1.31 * 3.14159 / 4.0 * diameter * diameter * 1e-3;
        strands.push_back(strand_of(grams(random), length(random), cv(random), tex, diameter, cv(random)));
    }
    return strands;
}

void check_same(const std::vector<Strand>& a, const std::vector<Strand>& b) {
    const auto la = staple::summarise_lengths(a), lb = staple::summarise_lengths(b);
    CHECK(la.number_mean_mm == Approx(lb.number_mean_mm).epsilon(1e-10));
    CHECK(la.length_biased_mean_mm == Approx(lb.length_biased_mean_mm).epsilon(1e-10));
    CHECK(la.cv_pct == Approx(lb.cv_pct).epsilon(1e-10));
    CHECK(la.short_share_pct == Approx(lb.short_share_pct).epsilon(1e-10));
    CHECK(la.under_half_mean_pct == Approx(lb.under_half_mean_pct).epsilon(1e-8));
    CHECK(la.p95_mm == Approx(lb.p95_mm).epsilon(1e-7));
    const auto da = staple::summarise_diameters(a), db = staple::summarise_diameters(b);
    CHECK(da.mean_um == Approx(db.mean_um).epsilon(1e-10));
    CHECK(da.cv_pct == Approx(db.cv_pct).epsilon(1e-10));
    CHECK(da.over_30um_pct == Approx(db.over_30um_pct).epsilon(1e-10));
    CHECK(staple::mean_fibre_tex(a) == Approx(staple::mean_fibre_tex(b)).epsilon(1e-10));
}

}  // namespace

TEST_CASE("Morton & Hearle, table 4.2, to its printed digits") {
    // Morton & Hearle, Physical Properties of Textile Fibres, table 4.2 (hypothetical fibre sample).
    const Histogram sample{{1, 3, 5, 7, 9, 11, 13, 15, 17, 19}, {0, 1, 3, 6, 11, 19, 27, 23, 9, 1}};
    CHECK(sum_of(sample.frequencies) == 100.0);
    CHECK(staple::mean(sample) * 100.0 == Approx(1236.0));                  // sum f l
    CHECK(staple::mean(sample) == Approx(12.36));                           // number mean
    CHECK(staple::length_biased_mean(sample) * 1236.0 == Approx(16268.0));  // sum f l^2
    CHECK(std::abs(staple::length_biased_mean(sample) - 13.16) < 0.005);    // length-biased mean
    CHECK(std::abs(staple::standard_deviation(sample) - 3.15) < 0.005);     // standard deviation
    // Same source: the length-biased mean is the mean times 1 + CV^2.
    const double cv = staple::standard_deviation(sample) / staple::mean(sample);
    CHECK(staple::length_biased_mean(sample) == Approx(staple::mean(sample) * (1.0 + cv * cv)));
}

TEST_CASE("frequencies need not sum to 1, and an empty histogram has no mean") {
    const Histogram counts{{10, 20, 40}, {2, 5, 1}}, shares{{10, 20, 40}, {0.25, 0.625, 0.125}};
    CHECK(staple::mean(counts) == Approx(staple::mean(shares)));
    CHECK(staple::standard_deviation(counts) == Approx(staple::standard_deviation(shares)));
    CHECK(staple::mean({}) == 0.0);
    CHECK(staple::standard_deviation({}) == 0.0);
    CHECK(staple::length_biased_mean({}) == 0.0);
}

TEST_CASE("a strand's histogram has the strand's mean and CV") {
    for (const double cv : {0.05, 0.25, 0.5}) {
        CAPTURE(cv);
        const Histogram h = staple::strand_lengths(strand_of(1.0, 80.0, cv, 0.4), fine_grid);
        CHECK(sum_of(h.frequencies) == Approx(1.0));
        CHECK(staple::mean(h) == Approx(80.0).epsilon(1e-5));
        CHECK(staple::standard_deviation(h) / staple::mean(h) == Approx(cv).epsilon(1e-4));
        CHECK(staple::length_biased_mean(h) == Approx(80.0 * (1.0 + cv * cv)).epsilon(1e-5));
    }
}

TEST_CASE("a strand longer than the grid keeps all its fibres") {
    const Histogram h = staple::strand_lengths(strand_of(1.0, 500.0, 0.2, 0.4), {400.0, 40});
    CHECK(sum_of(h.frequencies) == Approx(1.0));
    CHECK(h.frequencies.back() > 0.8);
}

TEST_CASE("the mixture by number, length and mass: closed forms against sums over the histogram") {
    const auto strands = three_wools();
    const auto summary = staple::summarise_lengths(strands);
    const Histogram number = staple::mixture_lengths(strands, fine_grid, Weighting::number);
    const Histogram mass = staple::mixture_lengths(strands, fine_grid, Weighting::mass);
    const Histogram length = staple::mixture_lengths(strands, fine_grid, Weighting::length);
    for (const Histogram* h : {&number, &mass, &length}) CHECK(sum_of(h->frequencies) == Approx(1.0));

    CHECK(summary.number_mean_mm == Approx(staple::mean(number)).epsilon(1e-5));
    CHECK(summary.cv_pct ==
          Approx(100.0 * staple::standard_deviation(number) / staple::mean(number)).epsilon(1e-4));
    CHECK(summary.length_biased_mean_mm == Approx(staple::length_biased_mean(number)).epsilon(1e-5));
    // The cross-section's fibres are the number's, weighted by length: its plain mean is the biased one.
    CHECK(staple::mean(length) == Approx(summary.length_biased_mean_mm).epsilon(1e-5));
    CHECK(summary.short_share_pct == Approx(100.0 * share_below(mass, 25.0)).epsilon(1e-4));
    CHECK(summary.under_half_mean_pct ==
          Approx(100.0 * share_below(mass, summary.number_mean_mm / 2.0)).epsilon(5e-3));
    CHECK(std::abs(1.0 - share_below(number, summary.p95_mm) - 0.05) < 1e-4);
    // The three differ, or this test could not tell them apart.
    CHECK(std::abs(staple::mean(mass) - staple::mean(length)) > 1.0);
    CHECK(std::abs(staple::mean(number) - staple::mean(length)) > 1.0);
}

TEST_CASE("the number of fibres goes with mass over tex and length") {
    // Two degenerate strands of 10 g: 100 mm of 0.5 tex and 50 mm of 0.25 tex. N ~ 0.2 and 0.8 (by hand).
    const std::vector<Strand> strands{strand_of(10.0, 100.0, 0.0, 0.5), strand_of(10.0, 50.0, 0.0, 0.25)};
    const auto summary = staple::summarise_lengths(strands);
    CHECK(summary.number_mean_mm == Approx(0.2 * 100.0 + 0.8 * 50.0));
    CHECK(summary.cv_pct == Approx(100.0 * 20.0 / 60.0));  // deviation sqrt(0.2 * 40^2 + 0.8 * 10^2) = 20
    CHECK(summary.p95_mm == Approx(100.0));
}

TEST_CASE("the length law's closed forms: exponential at a CV of 1, Rayleigh at sqrt(4 / pi - 1)") {
    const std::vector<Strand> exponential{strand_of(1.0, 60.0, 1.0, 0.4)};
    const auto e = staple::summarise_lengths(exponential);
    CHECK(e.p95_mm == Approx(60.0 * std::log(20.0)).epsilon(1e-9));
    const double t = 25.0 / 60.0;  // by mass: gamma(2), 1 - (1 + t) exp(-t)
    CHECK(e.short_share_pct == Approx(100.0 * (1.0 - (1.0 + t) * std::exp(-t))).epsilon(1e-9));
    const double pi = 3.14159265358979324;
    const std::vector<Strand> rayleigh{strand_of(1.0, 60.0, std::sqrt(4.0 / pi - 1.0), 0.4)};
    const double sigma = 60.0 / std::sqrt(pi / 2.0);
    CHECK(staple::summarise_lengths(rayleigh).p95_mm == Approx(sigma * std::sqrt(2.0 * std::log(20.0))));
}

TEST_CASE("the short tail of tops: a symmetric top of CV 42-48 % has 9-12 % by number under 30 mm of 68") {
    // The normal law's share, from tables of Phi; commercial tops are near symmetric (from memory).
    for (const double cv : {0.42, 0.45, 0.48}) {
        CAPTURE(cv);
        const Histogram h = staple::strand_lengths(strand_of(1.0, 68.0, cv, 0.4), {400.0, 400});
        const double normal = 0.5 * std::erfc((68.0 - 30.0) / (cv * 68.0) / std::sqrt(2.0));
        CHECK(std::abs(share_below(h, 30.0) - normal) < 0.01);
        // The other end: the longest twentieth of the normal law begins at 1 + 1.645 CV.
        const std::vector<Strand> one{strand_of(1.0, 68.0, cv, 0.4)};
        CHECK(staple::summarise_lengths(one).p95_mm == Approx(68.0 * (1.0 + 1.645 * cv)).epsilon(0.04));
    }
}

TEST_CASE("neps, film and whole locks are no fibres of the mixture, and are told by themselves") {
    const auto& catalogue = fibre::Catalogue::builtin();
    const auto of = [&](const char* id, double grams) {
        const fibre::Kind& kind = *catalogue.find(id);
        Strand strand = strand_of(grams, kind.staple_mm, kind.staple_cv,
                                  fibre::fibre_tex(kind.diameter_um, kind.diameter_cv, kind.density_g_cm3),
                                  kind.diameter_um, kind.diameter_cv);
        strand.kind = catalogue.share(id);
        return strand;
    };
    const std::vector<Strand> plain{of("romney", 95.0)};
    // Romney is 34 um by any count; by number 5 % of cotton neps made it 16.1 um and lifted the prickle.
    for (const double neps : {5.0, 20.0}) {
        const std::vector<Strand> nepped{of("romney", 95.0), of("cotton-neps", neps),
                                         of("sparkle-film", 2.0)};
        check_same(plain, nepped);
        const auto riders = staple::inclusions_of(nepped);
        REQUIRE(riders.size() == 2);
        CHECK(riders[0].kind->id == "cotton-neps");
        CHECK(riders[0].mass_pct == Approx(100.0 * neps / (97.0 + neps)));
    }
    std::vector<Strand> locks{of("merino-fine", 60.0), of("lincoln-locks", 40.0)};
    CHECK(staple::summarise_diameters(locks).mean_um == Approx(19.0));
    CHECK(staple::inclusions_of(locks).front().over_30um_pct > 50.0);
    locks[1].opened = true;
    CHECK(staple::inclusions_of(locks).empty());
    CHECK(staple::summarise_diameters(locks).over_30um_pct > 5.0);
    // Only neps: they are all there is to speak of.
    CHECK(staple::summarise_lengths(std::vector<Strand>{of("cotton-neps", 5.0)}).number_mean_mm > 0.0);
}

TEST_CASE("diameters are weighted by length of fibre, w / T") {
    // Two of no spread, 10 g each: 0.2 tex of 14 um and 0.8 tex of 28 um, so 50 m and 12.5 m (by hand).
    const std::vector<Strand> two{strand_of(10.0, 40.0, 0.0, 0.2, 14.0, 0.0),
                                  strand_of(10.0, 120.0, 0.0, 0.8, 32.0, 0.0)};
    CHECK(staple::summarise_diameters(two).mean_um == Approx(0.8 * 14.0 + 0.2 * 32.0));
    CHECK(staple::summarise_diameters(two).over_30um_pct == Approx(20.0));
}

TEST_CASE("one strand: closed forms") {
    const std::vector<Strand> one{strand_of(30.0, 60.0, 0.4, 0.4, 24.0, 0.25)};
    const auto lengths = staple::summarise_lengths(one);
    CHECK(lengths.number_mean_mm == Approx(60.0));
    CHECK(lengths.cv_pct == Approx(40.0));
    CHECK(lengths.length_biased_mean_mm == Approx(60.0 * 1.16));
    const auto phi = [](double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); };
    const auto diameters = staple::summarise_diameters(one);
    CHECK(diameters.mean_um == Approx(24.0));
    CHECK(diameters.cv_pct == Approx(25.0));
    const double ds = std::sqrt(std::log(1.0625)), dmu = std::log(24.0) - ds * ds / 2.0;
    CHECK(diameters.over_30um_pct == Approx(100.0 * (1.0 - phi((std::log(30.0) - dmu) / ds))));
}

TEST_CASE("a fibre of no spread is one length and one thickness") {
    const std::vector<Strand> even{strand_of(30.0, 40.0, 0.0, 1.5, 33.0, 0.0)};
    const auto lengths = staple::summarise_lengths(even);
    CHECK(lengths.number_mean_mm == Approx(40.0));
    CHECK(lengths.length_biased_mean_mm == Approx(40.0));
    CHECK(lengths.cv_pct == 0.0);
    CHECK(lengths.p95_mm == Approx(40.0));
    CHECK(lengths.short_share_pct == 0.0);
    CHECK(lengths.under_half_mean_pct == 0.0);
    CHECK(staple::summarise_diameters(even).over_30um_pct == Approx(100.0));
    const Histogram h = staple::strand_lengths(even[0], {400.0, 200});
    CHECK(h.frequencies[20] == 1.0);  // the class that begins at 40 mm
    CHECK(sum_of(h.frequencies) == Approx(1.0));
    // Exactly at a limit is neither under nor over it.
    const std::vector<Strand> at{strand_of(1.0, 25.0, 0.0, 1.0, 30.0, 0.0)};
    CHECK(staple::summarise_lengths(at).short_share_pct == 0.0);
    CHECK(staple::summarise_diameters(at).over_30um_pct == 0.0);
}

TEST_CASE("nothing in, nothing out") {
    const auto lengths = staple::summarise_lengths({});
    CHECK(lengths.number_mean_mm == 0.0);
    CHECK(lengths.p95_mm == 0.0);
    CHECK(staple::summarise_diameters({}).mean_um == 0.0);
    const Histogram h = staple::mixture_lengths({}, {400.0, 200}, Weighting::mass);
    CHECK(h.midpoints.size() == 200);
    CHECK(h.midpoints.front() == Approx(1.0));
    CHECK(sum_of(h.frequencies) == 0.0);
    // A strand of no mass changes nothing.
    auto strands = three_wools();
    const auto before = staple::summarise_lengths(strands);
    strands.push_back(strand_of(0.0, 300.0, 0.3, 0.4));
    CHECK(staple::summarise_lengths(strands).p95_mm == before.p95_mm);
}

TEST_CASE("order, splitting and scaling do not matter") {
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        const auto strands = random_strands(random);
        auto shuffled = strands;
        std::shuffle(shuffled.begin(), shuffled.end(), random);
        check_same(strands, shuffled);
        auto split = strands;
        split.push_back(split.front());
        split.front().grams *= 0.3;
        split.back().grams *= 0.7;
        check_same(strands, split);
        auto scaled = strands;
        for (Strand& strand : scaled) strand.grams *= 3.7;
        check_same(strands, scaled);
    }
}

TEST_CASE("what holds for every mixture") {
    for (unsigned seed = 101; seed <= 160; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        const auto strands = random_strands(random);
        const auto s = staple::summarise_lengths(strands);
        const double cv = s.cv_pct / 100.0;
        // Length-biased identity (Morton & Hearle).
        CHECK(s.length_biased_mean_mm == Approx(s.number_mean_mm * (1.0 + cv * cv)));
        // A mean lies among its parts.
        const auto [least, most] =
            std::minmax_element(strands.begin(), strands.end(),
                                [](const Strand& a, const Strand& b) { return a.staple_mm < b.staple_mm; });
        CHECK(s.number_mean_mm >= least->staple_mm);
        CHECK(s.number_mean_mm <= most->staple_mm);
        CHECK(s.short_share_pct >= 0.0);
        CHECK(s.short_share_pct <= 100.0);
        // Weighted means: harmonic below arithmetic (Cauchy's inequality).
        CHECK(staple::mean_fibre_tex(strands) <= staple::mean_fibre_tex_arithmetic(strands) * (1.0 + 1e-12));
    }
}
