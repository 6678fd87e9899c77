// The colour side of the measures: how a batt looks, and what it takes to look so.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

#include "carding/habits.hpp"
#include "carding/measures.hpp"
#include "carding/seen.hpp"
#include "colour/spaces.hpp"
#include "jobs/run.hpp"
#include "measure/choices.hpp"
#include "staple/findings.hpp"

namespace battwright::carding {
namespace {

// Strips run round a drum, beside each other across it; rolags run across what lies flat, one beyond the
// other along it.
double variation_within(std::span<const Seen> seen, const Grid& grid, int strips,
                        const BattObserver& observer, bool flat) {
    std::vector<std::vector<Seen>> by_strip(static_cast<std::size_t>(std::max(1, strips)));
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const std::size_t at = flat ? i % grid.round : i / grid.round % grid.across;
        const std::size_t cells = flat ? grid.round : grid.across;
        by_strip[(2 * at + 1) * by_strip.size() / (2 * cells)].push_back(seen[i]);
    }
    double sum = 0.0;
    for (const auto& strip : by_strip) {
        sum += variation_of(strip, observer) * static_cast<double>(strip.size());
    }
    return sum / static_cast<double>(seen.size());
}

double mean_tex(const BattObserver& observer, std::span<const double> shares) {
    double fibres = 0.0, mass = 0.0;
    for (std::size_t p = 0; p < shares.size(); ++p) {
        mass += shares[p];
        fibres +=
            shares[p] / (p < observer.tex.size() && observer.tex[p] > 0.0 ? observer.tex[p] : middling_tex());
    }
    return fibres > 0.0 ? mass / fibres : middling_tex();
}

// Shares by number of fibres in a section from shares by mass: w / T.
std::vector<double> by_number(const BattObserver& observer, const double* shares, std::size_t stride,
                              std::size_t portions) {
    std::vector<double> number(portions);
    double sum = 0.0;
    for (std::size_t p = 0; p < portions; ++p)
        sum += number[p] =
            shares[p * stride] /
            (p < observer.tex.size() && observer.tex[p] > 0.0 ? observer.tex[p] : middling_tex());
    for (double& value : number) value /= std::max(sum, 1e-300);
    return number;
}

// Intensity of segregation by number of fibres, between sections of the single: of the patches' means, and of
// what is unresolved in them.
double intensity_by_number(const Field& patches, const std::vector<double>& unresolved,
                           const BattObserver& observer) {
    const std::size_t count = patches.block_size(), portions = patches.portions;
    std::vector<double> means(portions, 0.0);
    double squares = 0.0, below = 0.0;
    std::vector<double> moved(portions);
    for (std::size_t i = 0; i < count; ++i) {
        const double* shares = &patches.shares[i];
        const auto number = by_number(observer, shares, count, portions);
        for (std::size_t p = 0; p < portions; ++p) {
            means[p] += number[p];
            squares += number[p] * number[p];
        }
        const double part = std::sqrt(unresolved[i]);
        for (std::size_t p = 0; p < portions && part > 1e-9; ++p) {
            if (!(shares[p * count] > 1e-9)) continue;
            for (std::size_t q = 0; q < portions; ++q)
                moved[q] = (1.0 - part) * shares[q * count] + (q == p ? part : 0.0);
            const auto there = by_number(observer, moved.data(), 1, portions);
            for (std::size_t q = 0; q < portions; ++q)
                below += shares[p * count] * (there[q] - number[q]) * (there[q] - number[q]);
        }
    }
    const double n = static_cast<double>(count);
    double random = 0.0, mean_squares = 0.0;
    for (double& mean : means) {
        mean /= n;
        random += mean * (1.0 - mean);
        mean_squares += mean * mean;
    }
    if (random < 1e-12) return 0.0;
    return std::clamp(((squares + below) / n - mean_squares) / random, 0.0, 1.0);
}

bool has_specks(const Blends& blends, const colour::Lab& ground, std::span<const double> shares,
                std::span<const Portion> portions) {
    for (std::size_t p = 0; p < portions.size(); ++p) {
        if (portions[p].lump_grams <= 0.0 || portions[p].staple_mm > habits::speck_longest_mm) continue;
        if (shares[p] < habits::speck_share) continue;
        std::vector<double> alone(blends.portions(), 0.0);
        alone[p] = 1.0;
        const colour::Lab own = blends.seen(blends.mixed(alone.data(), 1)).lab;
        if (colour::ciede2000(own, ground) > habits::speck_from) return true;
    }
    return false;
}

// What chance alone does, and what shows close by.
void measure_fleck(const Blends& blends, const Field& field, const BattObserver& observer,
                   std::span<const double> shares, double section_tex, double tufts,
                   std::span<const Portion> portions, Measures& m) {
    const auto mixed = blends.mixed(shares.data(), 1);
    const Seen mean = blends.seen(mixed);
    const double to_mean = std::sqrt(2.0 / std::numbers::pi);
    m.chance_de00 = to_mean * blends.stray(shares.data(), 1, mixed, mean, 0.0,
                                           fibre_parts(observer, field.portions, section_tex));
    const double spot_tex = habits::fleck_fibres * mean_tex(observer, shares);
    m.fleck_de00 = to_mean * blends.stray(shares.data(), 1, mixed, mean, tufts,
                                          fibre_parts(observer, field.portions, spot_tex));
    if (has_specks(blends, mean.lab, shares, portions)) {
        m.fleck = Fleck::tweedy;
    } else if (m.fleck_de00 >= habits::fleck_from) {
        m.fleck = Fleck::salt_and_pepper;
    }
}

Setup with_passes(Setup setup, int passes) {
    const auto moved = [&](int& pass) {
        pass = pass > 1 && pass == setup.passes ? passes : std::min(pass, passes);
    };
    for (Portion& portion : setup.portions) moved(portion.pass);
    for (Lay& lay : setup.lays) moved(lay.pass);
    setup.passes = passes;
    setup.grid = coarse_grid;
    return setup;
}

}  // namespace

std::string_view word_for(Look look) {
    return measure::row_of(looks, look).word;
}

std::string_view word_for(Risk risk) {
    constexpr std::array<measure::Word<Risk>, 3> risks{
        {{Risk::low, "low"}, {Risk::some, "some"}, {Risk::high, "high"}}};
    static_assert(measure::one_row_each(risks));
    return measure::row_of(risks, risk).word;
}

std::string_view word_for(Fleck fleck) {
    constexpr std::array<measure::Word<Fleck>, 3> flecks{
        {{Fleck::none, ""}, {Fleck::salt_and_pepper, "salt and pepper"}, {Fleck::tweedy, "tweedy"}}};
    static_assert(measure::one_row_each(flecks));
    return measure::row_of(flecks, fleck).word;
}

std::string described(const Measures& m) {
    const std::string look(word_for(m.look));
    if (m.fleck == Fleck::tweedy) {
        const bool even = look_for(m.strip_variation_de00, m.chance_de00) == Look::near_solid;
        return "tweedy: specks on " + (even ? "an even ground" : "a " + look + " ground");
    }
    if (m.fleck == Fleck::none || m.look < Look::heathered) return look;
    return look + (m.look == Look::near_solid ? ", salt and pepper close up" : ", flecked");
}

Look look_for(double variation_de00, double chance_de00) {
    const double more = variation_de00 * variation_de00 - chance_de00 * chance_de00;
    if (more < habits::near_solid_below * habits::near_solid_below) return Look::near_solid;
    if (variation_de00 < habits::heathered_below) return Look::heathered;
    return variation_de00 < habits::streaky_below ? Look::streaky : Look::striped;
}

std::string explained(Look look) {
    const LookRow& row = measure::row_of(looks, look);
    return std::string(row.word) + ": " + std::string(row.means);
}

std::vector<colour::Spectrum> portion_reflectances(std::span<const Portion> portions,
                                                   std::span<const recipe::Strand> strands,
                                                   std::span<const colour::Spectrum> of_strands,
                                                   const colour::OpticsModel& optics) {
    std::vector<colour::Spectrum> result;
    result.reserve(portions.size());
    for (const Portion& portion : portions) {
        std::vector<colour::Portion> parts;
        for (const std::size_t strand : portion.strands) {
            // A strand of no mass still has a colour.
            parts.push_back({std::max(strands[strand].mass_share, 1e-12), of_strands[strand]});
        }
        result.push_back(colour::blend(parts, optics));
    }
    return result;
}

Measures measured(const Pass& batt, const BattObserver& observer, int strips,
                  std::span<const Portion> portions) {
    const Field& field = batt.field;
    Measures m;
    m.pass = batt.number;
    const Scale scales = scale(field);
    const double area_m2 = field.circumference_mm * field.width_mm * 1e-6;
    m.scale_round_mm = scales.round_mm;
    m.scale_across_mm = scales.across_mm;
    m.scale_depth_mm = scales.depth_share * loft_mm(observer.batt_grams / area_m2);
    for (const double mm : {m.scale_round_mm, m.scale_across_mm, m.scale_depth_mm})
        if (mm > 0.0) m.scale_mm = m.scale_mm > 0.0 ? std::min(m.scale_mm, mm) : mm;
    const Field patches = patches_of(field);
    const double mg = patch_mg(field, observer.batt_grams),
                 section_tex = 1000.0 * mg / patch_length_mm(field);
    m.resolved_intensity = intensity(patches);
    m.intensity = intensity_at(field, mg);
    std::vector<double> shares;
    for (std::size_t p = 0; p < field.portions; ++p) shares.push_back(mean_share(field, p));
    const double single_mg =
        observer.fibres_in_section * mean_tex(observer, shares) * 1e-3 * patch_length_mm(field);
    const auto in_single = unresolved_intensity(field, patches, single_mg);
    m.ibi =
        expected_irregularity(intensity_by_number(patches, in_single, observer), observer.fibres_in_section);
    const Blends blends(observer);
    const auto seen = seen_patches(blends, patches, unresolved_intensity(field, patches, mg),
                                   fibre_parts(observer, field.portions, section_tex));
    m.strip_variation_de00 = variation_of(seen, observer);
    m.within_strip_de00 = variation_within(seen, patches.grid, strips, observer, field.flat);
    const double tufts = std::accumulate(in_single.begin(), in_single.end(), 0.0) /
                         static_cast<double>(std::max<std::size_t>(1, in_single.size()));
    measure_fleck(blends, field, observer, shares, section_tex, tufts, portions, m);
    m.look = look_for(m.strip_variation_de00, m.chance_de00);
    if (m.fleck == Fleck::tweedy) m.look = std::min(m.look, Look::heathered);
    return m;
}

std::vector<Measures> measured(std::span<const Pass> passes, const BattObserver& observer, int strips,
                               int threads, std::span<const Portion> portions) {
    std::vector<Measures> all(passes.size());
    jobs::run(passes.size(), threads,
              [&](std::size_t i) { all[i] = measured(passes[i], observer, strips, portions); });
    return all;
}

OverCarding over_carding(std::span<const Portion> portions, double teeth_per_square_inch, int passes,
                         ToolKind tool) {
    double grams = 0.0;
    std::vector<staple::Bulk> bulks;
    for (const Portion& portion : portions) {
        grams += portion.grams;
        if (portion.lump_grams <= 0.0)
            bulks.push_back({portion.grams, portion.diameter_um, portion.staple_mm});
    }
    OverCarding result;
    const auto& words = measure::row_of(recipe::tool_rows, tool);
    const int gentler = staple::gentler(tool);
    result.safe_passes = gentler * staple::passes_borne(bulks, grams, teeth_per_square_inch).passes;
    const int over = passes - result.safe_passes;
    result.risk = over <= 0 ? Risk::low : over <= gentler ? Risk::some : Risk::high;
    const std::string safe = result.safe_passes == 1
                                 ? "one " + std::string(words.pass)
                                 : std::to_string(result.safe_passes) + ' ' + std::string(words.passes);
    if (result.risk == Risk::low) {
        result.text = "neps are unlikely: this fibre bears about " + safe;
    } else if (result.risk == Risk::some) {
        result.text = "some neps may form: this fibre bears about " + safe;
    } else {
        result.text = "neps are likely: this fibre bears about " + safe + ", then rolls up";
    }
    return result;
}

PassesFor passes_for(Look look, const Setup& setup, const BattObserver& observer,
                     double teeth_per_square_inch, int most, int threads) {
    PassesFor answer;
    const auto reached = [&](const Pass& batt) {
        return measured(batt, observer, setup.strips, setup.portions).look >= look;
    };
    // What is added on the last pass moves with it; without such, one run answers for every number of passes.
    const auto laid = lays_of_setup(setup);
    const bool moves = std::any_of(laid.begin(), laid.end(),
                                   [&](const Lay& lay) { return lay.pass > 1 && lay.pass == setup.passes; });
    if (!moves) {
        const auto batts = simulate(with_passes(setup, most), threads);
        const auto first = std::find_if(batts.begin(), batts.end(), reached);
        if (first != batts.end()) answer.passes = first->number;
    }
    for (int passes = 1; moves && passes <= most && !answer.passes; ++passes) {
        const auto batts = simulate(with_passes(setup, passes), threads);
        if (!batts.empty() && reached(batts.back())) answer.passes = passes;
    }
    answer.nep_risk =
        over_carding(setup.portions, teeth_per_square_inch, answer.passes.value_or(most), setup.tool);
    return answer;
}

}  // namespace battwright::carding
