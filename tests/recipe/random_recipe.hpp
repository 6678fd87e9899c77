// Recipes that pass check(), drawn at random.
#pragma once

#include <algorithm>
#include <string>

#include "../measure/seed.hpp"
#include "recipe/file.hpp"
#include "recipe/thickness.hpp"

namespace battwright::testing {

template <class T>
const T& pick(std::mt19937_64& random, const std::vector<T>& from) {
    return from[static_cast<std::size_t>(whole(random, 0, static_cast<int>(from.size()) - 1))];
}

inline colour::Srgb random_colour(std::mt19937_64& random) {
    const auto channel = [&] { return whole(random, 0, 255) / 255.0; };
    return {channel(), channel(), channel()};
}

// Shares in hundredths of a percent that make exactly 100.
inline std::vector<double> random_shares(std::mt19937_64& random, int count) {
    std::vector<double> shares;
    int left = 10000;
    for (int i = count; i > 1; --i) {
        const int share = whole(random, 1, left - i);
        shares.push_back(share / 100.0);
        left -= share;
    }
    shares.push_back(left / 100.0);
    return shares;
}

inline measure::Mass random_mass(std::mt19937_64& random, double low_grams, double high_grams) {
    const auto unit = static_cast<measure::MassUnit>(whole(random, 0, 3));
    const double value = measure::in_unit(uniform(random, low_grams, high_grams), unit);
    return {measure::grams_from(value, unit), unit};
}

inline std::string random_text(std::mt19937_64& random, bool lines) {
    static const std::vector<std::string> words{
        "tide",      "gull",       "kelp \"brown\"", "back\\slash", "'quay'", "# not a comment",
        "h\u00e5vn", "\U0001F411", "a = 1",          "[[x]]",       "\"\"\"", "tab\there"};
    std::string text = pick(random, words);
    for (int i = whole(random, 0, 4); i > 0; --i) {
        text += (lines && whole(random, 0, 1) == 1 ? "\n" : " ") + pick(random, words);
    }
    if (lines && whole(random, 0, 3) == 0) text = "\n" + text + "\n\n";
    // A tab is fine in notes only.
    if (!lines) std::replace(text.begin(), text.end(), '\t', ' ');
    return text;
}

inline recipe::Component random_component(std::mt19937_64& random, int passes) {
    const std::vector<std::string> ids = fibre::Catalogue::builtin().ids();
    recipe::Component component;
    // The number keeps any two components apart.
    component.name = random_text(random, false) + ' ' + std::to_string(random());
    if (whole(random, 0, 3) == 0) component.lot = random_text(random, false);
    if (whole(random, 0, 2) == 0) component.notes = random_text(random, true);
    const int kinds = whole(random, 0, 2) == 0 ? whole(random, 2, 4) : 1;
    for (const double share : random_shares(random, kinds)) {
        std::string id = pick(random, ids);
        const auto same = [&](const recipe::Content& content) { return content.fibre == id; };
        while (std::any_of(component.content.begin(), component.content.end(), same)) id = pick(random, ids);
        component.content.push_back({id, share});
    }
    const int tints = whole(random, 0, 3);
    if (tints > 0) {
        for (const double share : random_shares(random, tints)) {
            colour::Srgb tint = random_colour(random);
            const auto same = [&](const recipe::Tint& other) { return other.colour == tint; };
            while (std::any_of(component.palette.begin(), component.palette.end(), same))
                tint = random_colour(random);
            component.palette.push_back({tint, share});
        }
    }
    if (whole(random, 0, 2) == 0) {
        const auto unit = static_cast<measure::LengthUnit>(whole(random, 0, 2));
        const double one = measure::millimetres_from(1.0, unit);
        component.staple =
            measure::Length{measure::millimetres_from(uniform(random, 20.0, 200.0) / one, unit), unit};
    }
    if (whole(random, 0, 2) == 0) component.diameter_um = uniform(random, 12.0, 40.0);
    if (whole(random, 0, 2) == 0)
        component.colour_from = static_cast<recipe::ColourFrom>(whole(random, 0, 3));
    component.add_on_pass = whole(random, 0, passes);
    return component;
}

inline recipe::Recipe random_recipe(std::mt19937_64& random) {
    recipe::Recipe recipe;
    recipe.name = random_text(random, false);
    if (whole(random, 0, 1) == 1) recipe.notes = random_text(random, true);
    recipe.carding.passes = whole(random, 1, 10);
    recipe.carding.strips = whole(random, 1, 64);
    recipe.carding = recipe::on_carder(recipe.carding, pick(random, recipe::carder_presets()));
    recipe.carding_written = whole(random, 0, 1) == 1;
    if (whole(random, 0, 2) == 0) {
        recipe.carding.carder.clear();
        const double low = uniform(random, 5.0, 50.0);
        recipe.carding.own = recipe::Carder{"",
                                            random_text(random, false),
                                            uniform(random, 300, 900),
                                            uniform(random, 80, 500),
                                            static_cast<double>(whole(random, 40, 130)),
                                            low,
                                            low * 2.0};
    }
    recipe.spinning.plies = whole(random, 1, 12);
    recipe.spinning.preparation = static_cast<recipe::Preparation>(whole(random, 0, 2));
    recipe.spinning.thickness = {recipe::ThicknessIn::wpi, uniform(random, 3.0, 100.0), ""};
    if (whole(random, 0, 2) == 0)
        recipe.spinning.thickness = {recipe::ThicknessIn::tex, uniform(random, 20, 2000), ""};
    if (whole(random, 0, 2) == 0) {
        recipe.spinning.thickness = {recipe::ThicknessIn::class_name, 12.0,
                                     pick(random, recipe::thickness_classes())};
    }
    recipe.spinning.plying = static_cast<recipe::Plying>(whole(random, 0, 3));
    // The other ways to ply have their own number, which a recipe does not write.
    if (recipe.spinning.plying != recipe::Plying::plied) recipe.spinning.plies = recipe::Spinning{}.plies;
    recipe.spinning.twist = static_cast<recipe::Twist>(whole(random, 0, 2));
    if (recipe.spinning.plying == recipe::Plying::with_thread || whole(random, 0, 3) == 0) {
        recipe.spinning.thread =
            recipe::Thread{uniform(random, 10.0, 200.0), uniform(random, 20.0, 5000.0), {}};
        if (whole(random, 0, 1) == 1) recipe.spinning.thread->colour = random_colour(random);
    }
    if (whole(random, 0, 1) == 1) recipe.spinning.wheel_ratio = uniform(random, 3.0, 30.0);
    recipe.spinning_written = whole(random, 0, 1) == 1;
    const int count = whole(random, 1, 12);
    const bool with_total = whole(random, 0, 3) > 0;
    for (int i = 0; i < count; ++i)
        recipe.components.push_back(random_component(random, recipe.carding.passes));
    if (with_total) {
        // At most 60 % in weights and percentages, and parts for the rest.
        recipe.total = random_mass(random, 40.0, 400.0);
        const double total = recipe.total->grams;
        for (std::size_t i = 1; i < recipe.components.size(); ++i) {
            const double share = 60.0 / count;
            const int how = whole(random, 0, 2);
            if (how == 0) recipe.components[i].amount = random_mass(random, 0.1, share / 100.0 * total);
            if (how == 1) recipe.components[i].amount = recipe::Percent{uniform(random, 0.1, share)};
            if (how == 2) recipe.components[i].amount = recipe::Parts{uniform(random, 0.1, 9.0)};
        }
        recipe.components[0].amount = recipe::Parts{uniform(random, 0.1, 9.0)};
        return recipe;
    }
    for (std::size_t i = 0; i < recipe.components.size(); ++i) {
        recipe.components[i].amount = random_mass(random, 1.0, 90.0);
        if (i > 0 && whole(random, 0, 2) == 0)
            recipe.components[i].amount = recipe::Percent{uniform(random, 0.1, 60.0 / count)};
    }
    return recipe;
}

}  // namespace battwright::testing
