#include "shelving/photo.hpp"

#include <algorithm>
#include <cmath>

#include "recipe/file.hpp"

namespace battwright::shelving {
namespace {

measure::Expected<forecast::Forecast> forecast_of_text(const std::string& text, const std::string& name,
                                                       const stash::Hands& hands,
                                                       const fibre::Catalogue& catalogue) {
    const auto recipe = recipe::read_text(text, "the recipe kept with " + name, catalogue);
    if (!recipe) return tl::make_unexpected(recipe.error());
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    lay_on(hands, bench);
    return forecast::forecast(*recipe, bench);
}

std::optional<stash::LogFigure> figure_of(const colour::Sighting& sighting) {
    if (!std::isfinite(sighting.sd)) return std::nullopt;
    return stash::LogFigure{sighting.at, sighting.sd};
}

}  // namespace

void lay_on(const stash::Hands& hands, forecast::Bench& bench) {
    bench.optics = hands.applied_to(bench.optics);
    bench.mixing = hands.mixing.factor();
}

measure::Expected<stash::BattPhoto> judged(stash::BattPhoto photo, const std::string& recipe,
                                           const stash::Hands& hands, const fibre::Catalogue& catalogue) {
    const auto made = forecast_of_text(recipe, photo.name, hands, catalogue);
    if (!made) return tl::make_unexpected(made.error());
    const auto foretold = forecast::photo_forecast(*made, photo.taken);
    photo.foretold = foretold.mean;
    photo.foretold_variation_de00 = foretold.variation_de00;
    photo.model = forecast::photo_model;
    photo.log_m.reset();
    photo.log_mixing.reset();
    if (photo.seen.unfit != colour::Unfit::none) return photo;
    const auto lesson = forecast::photo_lesson(foretold, photo.seen);
    photo.log_m = figure_of(lesson.log_m);
    photo.log_mixing = lesson.log_mixing;
    photo.misfit = lesson.log_m.misfit;
    return photo;
}

measure::Expected<std::string> recipe_of(const stash::BattPhoto& photo, const stash::Stash& stash) {
    if (!photo.batt) return photo.recipe;
    auto batt = stash.batt(*photo.batt);
    if (!batt) return tl::make_unexpected(batt.error());
    return batt->carding.recipe;
}

measure::Expected<colour::Calibration> fitted_m(const stash::Stash& stash,
                                                const fibre::Catalogue& catalogue) {
    const auto photos = stash.photos();
    if (!photos) return tl::make_unexpected(photos.error());
    const auto learnt = stash.hands();
    if (!learnt) return tl::make_unexpected(learnt.error());
    std::vector<colour::Sample> samples;
    for (const stash::BattPhoto& photo : *photos) {
        const auto& believed = learnt->believed;
        if (!photo.log_m || std::find(believed.begin(), believed.end(), photo.id) == believed.end()) continue;
        const auto text = recipe_of(photo, stash);
        if (!text) return tl::make_unexpected(text.error());
        const auto made = forecast_of_text(*text, photo.name, {}, catalogue);
        if (!made) continue;  // a kind this catalogue does not have any more
        colour::Sample sample{{}, photo.seen.mean};
        for (std::size_t i = 0; i < made->strands.size(); ++i)
            sample.portions.push_back({made->strands[i].mass_share, made->strand_reflectances[i]});
        samples.push_back(std::move(sample));
    }
    return colour::calibrated_m(samples);
}

}  // namespace battwright::shelving
