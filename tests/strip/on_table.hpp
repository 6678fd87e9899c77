// A batt on the table and its yarn, made up by hand.
#pragma once

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "batts.hpp"
#include "strip/table.hpp"
#include "strip/yarn_picture.hpp"

namespace batts {

inline constexpr auto lengthwise = carding::Pull::torn_lengthwise;

// Shares that wave round, across and through the batt, and tufts below the cells.
inline carding::Field waving(const Batt& batt) {
    const std::size_t count = batt.portions.size();
    carding::Field field = carding::empty_field({16, 24, 12}, count, 600.0, 200.0);
    for (std::size_t z = 0; z < field.grid.depth; ++z)
        for (std::size_t y = 0; y < field.grid.across; ++y)
            for (std::size_t x = 0; x < field.grid.round; ++x) {
                std::vector<double> weights(count);
                double sum = 0.0;
                for (std::size_t p = 0; p < count; ++p) {
                    const double turn = double(p) / double(count) + double(y) / 24.0 +
                                        0.4 * double(z) / 12.0 + 2.0 * double(x) / 16.0;
                    weights[p] =
                        batt.portions[p].share * (1.0 + 0.8 * std::sin(2.0 * std::numbers::pi * turn));
                    sum += weights[p];
                }
                for (std::size_t p = 0; p < count; ++p)
                    field.block(p)[(z * field.grid.across + y) * field.grid.round + x] = weights[p] / sum;
            }
    field.unresolved.assign(field.block_size(), 0.1);
    field.clumped.assign(field.block_size(), 0.05);
    return field;
}

// A batt on the table, its yarn planned: 40 g, carded twice, to be torn into four.
struct OnTable {
    Carded carded;
    forecast::Batt batt;

    explicit OnTable(const Batt& made) : carded(made) {
        forecast::Forecast& f = carded.forecast;
        f.total_grams = 40.0;
        f.recipe.carding.strips = 4;
        f.length.number_mean_mm = 70.0;
        f.diameter.mean_um = 24.0;
        f.plan.batts = 1;
        carding::Pass pass;
        pass.number = 2;
        pass.field = waving(made);
        batt.passes.push_back(std::move(pass));
        for (std::size_t i = 0; i < f.strands.size(); ++i) {
            f.strands[i].grams = 40.0 * f.strands[i].mass_share;
            carding::Portion portion;
            portion.component = i;
            portion.strands = {i};
            portion.grams = f.strands[i].grams;
            portion.staple_mm = f.strands[i].staple_mm;
            batt.portions.push_back(portion);
        }
        plan_yarn();
    }
    void plan_yarn(yarn::Plying plying = yarn::Plying::plied, int plies = 2,
                   recipe::Preparation preparation = recipe::Preparation::semi_woollen) {
        yarn::YarnForecast& yarn = carded.forecast.yarn;
        yarn.spinnable = true;
        yarn.plying = plying;
        yarn.plies = plies;
        yarn.preparation = preparation;
        yarn.diameter_mm = 2.0;
        yarn.single_diameter_mm = 0.8;
        yarn.effect.thickness_factor = 1.4;
        yarn.length_m = 120.0;
        yarn.length_before_wash_m = 126.0;
        yarn.single_length_m = 260.0;
        yarn.twist_per_m = 220.0;
        yarn.ply_twist_per_m = 110.0;
        yarn.evenness_limit_pct = 9.0;
        yarn.plied_evenness_limit_pct = 6.4;
    }
    const carding::Pass& last() const { return batt.passes.back(); }
    strip::YarnScene scene(strip::YarnView view, const strip::YarnFrame& frame = {}) const {
        return strip::yarn_scene(carded.forecast, batt, last(), lengthwise, view, frame);
    }
    strip::TablePicture table(const strip::TableSettings& ask, int width = 360, int height = 240) const {
        return strip::table_picture(carded.forecast, batt, ask,
                                    {width, height, {0.87, 0.87, 0.85}, {}, 22.0, 0});
    }
};

inline Batt batt_named(const std::string& name) {
    for (const Batt& batt : all())
        if (batt.name == name) return batt;
    FAIL("no batt " << name);
    return {};
}

// Fine and coarse, long and short, crimped and straight, dull and bright, locks, neps, film.
inline Batt every_form() {
    using fibre::Form;
    return {"all sorts",
            {{"#203a56", 0.4, Form::fibre, 110.0, 17.0, 0.2, 7.0},
             {"#c9a35a", 0.2, Form::fibre, 60.0, 60.0, 0.9, 0.1},
             {"#f4f1e8", 0.1, Form::nep, 8.0, 20.0, 0.2, 0.0},
             {"#b8d8d0", 0.1, Form::film, 60.0, 40.0, 1.0, 0.0},
             {"#7a3b2e", 0.2, Form::lock, 120.0, 34.0, 0.7, 1.5}}};
}

}  // namespace batts
