// The colour side of the measures: how a batt looks, and what it takes to look so.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "carding/habits.hpp"
#include "carding/measures.hpp"
#include "carding/parallel.hpp"
#include "colour/spaces.hpp"
#include "staple/findings.hpp"

namespace battwright::carding {
namespace {

constexpr std::array<std::string_view, 4> words{"striped", "streaky", "heathered", "near solid"};
// Friele's function of the blackest fibre is 0 in a double; its logarithm must stay finite.
constexpr double least_f = 1e-300;

struct Seen {
    colour::Xyz xyz;
    colour::Lab lab;
};

// Every patch's blend colour. The additive function is linear in the shares, so each portion's is taken once.
std::vector<Seen> seen_patches(const Field& patches, const Eye& eye) {
    std::vector<colour::Spectrum> additive = eye.reflectances;
    for (auto& spectrum : additive) {
        for (double& value : spectrum) value = colour::forward(std::clamp(value, 1e-9, 1.0), eye.optics);
    }
    const std::size_t count = patches.block_size();
    const colour::Xyz white = colour::white(eye.light);
    std::vector<Seen> seen(count);
    for (std::size_t i = 0; i < count; ++i) {
        colour::Spectrum mixed{};
        for (std::size_t p = 0; p < patches.portions; ++p) {
            const double share = patches.shares[p * count + i];
            for (std::size_t b = 0; b < colour::bands; ++b) mixed[b] += share * additive[p][b];
        }
        for (double& value : mixed) value = colour::inverse(std::max(value, least_f), eye.optics);
        seen[i].xyz = colour::xyz(mixed, eye.light);
        seen[i].lab = colour::lab(seen[i].xyz, white);
    }
    return seen;
}

colour::Xyz mean_of(std::span<const Seen> seen) {
    colour::Xyz sum;
    for (const Seen& one : seen) {
        sum.x += one.xyz.x;
        sum.y += one.xyz.y;
        sum.z += one.xyz.z;
    }
    const double n = static_cast<double>(seen.size());
    return {sum.x / n, sum.y / n, sum.z / n};
}

double variation(std::span<const Seen> seen, const Eye& eye) {
    if (seen.empty()) return 0.0;
    const colour::Lab mean = colour::lab(mean_of(seen), colour::white(eye.light));
    double sum = 0.0;
    for (const Seen& one : seen) sum += colour::ciede2000(mean, one.lab);
    return sum / static_cast<double>(seen.size());
}

double variation_within(std::span<const Seen> seen, const Grid& grid, int strips, const Eye& eye) {
    std::vector<std::vector<Seen>> by_strip(static_cast<std::size_t>(std::max(1, strips)));
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const std::size_t y = i / grid.round % grid.across;
        by_strip[(2 * y + 1) * by_strip.size() / (2 * grid.across)].push_back(seen[i]);
    }
    double sum = 0.0;
    for (const auto& strip : by_strip) {
        sum += variation(strip, eye) * static_cast<double>(strip.size());
    }
    return sum / static_cast<double>(seen.size());
}

Setup with_passes(Setup setup, int passes) {
    for (Portion& portion : setup.portions)
        portion.pass = portion.pass == setup.passes ? passes : std::min(portion.pass, passes);
    setup.passes = passes;
    setup.grid = coarse_grid;
    return setup;
}

}  // namespace

std::string_view word_for(Look look) {
    return words.at(static_cast<std::size_t>(look));
}

std::string_view word_for(Risk risk) {
    if (risk == Risk::low) return "low";
    return risk == Risk::some ? "some" : "high";
}

Look look_for(double variation_de00) {
    if (variation_de00 < habits::near_solid_below) return Look::near_solid;
    if (variation_de00 < habits::heathered_below) return Look::heathered;
    return variation_de00 < habits::streaky_below ? Look::streaky : Look::striped;
}

std::string explained(Look look) {
    switch (look) {
        case Look::near_solid:
            return "near solid: places in the batt differ from its mean colour by under 1.5 CIEDE2000";
        case Look::heathered:
            return "heathered: places in the batt differ from its mean colour by 1.5 to 4 CIEDE2000";
        case Look::streaky:
            return "streaky: places in the batt differ from its mean colour by 4 to 9 CIEDE2000";
        case Look::striped:
            break;
    }
    return "striped: places in the batt differ from its mean colour by over 9 CIEDE2000";
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

Measures measured(const Pass& batt, const Eye& eye, int strips) {
    Measures m;
    m.pass = batt.number;
    m.intensity = intensity(batt.field);
    const Scale scales = scale(batt.field);
    const double area_m2 = batt.field.circumference_mm * batt.field.width_mm * 1e-6;
    const double loft_mm =
        eye.batt_grams / area_m2 / (habits::wool_density_g_m3 * habits::batt_packing) * 1e3;
    m.scale_round_mm = scales.round_mm;
    m.scale_across_mm = scales.across_mm;
    m.scale_depth_mm = scales.depth_share * loft_mm;
    m.scale_mm = std::min({m.scale_round_mm, m.scale_across_mm, m.scale_depth_mm});
    const Field patches = patches_of(batt.field).means;
    m.ibi = expected_irregularity(intensity(patches), eye.fibres_in_section);
    const auto seen = seen_patches(patches, eye);
    m.strip_variation_de00 = variation(seen, eye);
    m.within_strip_de00 = variation_within(seen, patches.grid, strips, eye);
    m.look = look_for(m.strip_variation_de00);
    return m;
}

std::vector<Measures> measured(std::span<const Pass> passes, const Eye& eye, int strips, int threads) {
    std::vector<Measures> all(passes.size());
    run_jobs(passes.size(), threads, [&](std::size_t i) { all[i] = measured(passes[i], eye, strips); });
    return all;
}

OverCarding over_carding(std::span<const Portion> portions, double teeth_per_square_inch, int passes) {
    double grams = 0.0, finest = 1e9;
    for (const Portion& portion : portions) grams += portion.grams;
    // As the finding has it: portions of one thickness count together.
    std::map<double, double> grams_by_um;
    for (const Portion& portion : portions)
        if (portion.lump_grams <= 0.0) grams_by_um[std::round(1000.0 * portion.diameter_um)] += portion.grams;
    for (const auto& [thousandths, grams_of_it] : grams_by_um)
        if (grams_of_it >= (habits::nep_risk_share - 1e-9) * grams)
            finest = std::min(finest, thousandths / 1000.0);
    OverCarding result;
    result.safe_passes = staple::passes_borne(finest, teeth_per_square_inch);
    const int over = passes - result.safe_passes;
    result.risk = over <= 0 ? Risk::low : over == 1 ? Risk::some : Risk::high;
    const std::string safe = std::to_string(result.safe_passes) + " passes";
    if (result.risk == Risk::low) {
        result.text = "neps are unlikely: this fibre bears about " + safe;
    } else if (result.risk == Risk::some) {
        result.text = "some neps may form: this fibre bears about " + safe;
    } else {
        result.text = "neps are likely: this fibre bears about " + safe + ", then rolls up";
    }
    return result;
}

PassesFor passes_for(Look look, const Setup& setup, const Eye& eye, double teeth_per_square_inch, int most,
                     int threads) {
    PassesFor answer;
    for (int passes = 1; passes <= most && !answer.passes; ++passes) {
        const auto batts = simulate(with_passes(setup, passes), threads);
        if (batts.empty()) continue;
        if (measured(batts.back(), eye, setup.strips).look >= look) answer.passes = passes;
    }
    answer.nep_risk = over_carding(setup.portions, teeth_per_square_inch, answer.passes.value_or(most));
    return answer;
}

}  // namespace battwright::carding
