#include "colour/spectrum.hpp"

#include <array>
#include <numeric>

#include "colour/optics.hpp"

namespace battwright::colour {
namespace {

Observer weights_of(Light light) {
    const Observer& observer = observer_1931();
    const Spectrum& lamp = power(light);
    const double y_sum = std::inner_product(lamp.begin(), lamp.end(), observer.y.begin(), 0.0);
    Observer weights;
    for (std::size_t i = 0; i < bands; ++i) {
        const double scale = 100.0 * lamp[i] / y_sum;
        weights.x[i] = scale * observer.x[i];
        weights.y[i] = scale * observer.y[i];
        weights.z[i] = scale * observer.z[i];
    }
    return weights;
}

}  // namespace

const Observer& weights(Light light) {
    static const auto all = [] {
        std::array<Observer, all_lights.size()> made;
        for (const LightRow& row : all_lights)
            made[static_cast<std::size_t>(row.value)] = weights_of(row.value);
        return made;
    }();
    return all[static_cast<std::size_t>(light)];
}

Xyz xyz(const Spectrum& reflectance, Light light) {
    const Observer& w = weights(light);
    Xyz sum;
    for (std::size_t i = 0; i < bands; ++i) {
        sum.x += w.x[i] * reflectance[i];
        sum.y += w.y[i] * reflectance[i];
        sum.z += w.z[i] * reflectance[i];
    }
    return sum;
}

Xyz white(Light light) {
    Spectrum perfect{};
    perfect.fill(1.0);
    return xyz(perfect, light);
}

}  // namespace battwright::colour
