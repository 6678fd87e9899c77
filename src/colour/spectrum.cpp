#include "colour/spectrum.hpp"

#include <numeric>

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
    static const Observer d65 = weights_of(Light::d65);
    static const Observer a = weights_of(Light::a);
    static const Observer f2 = weights_of(Light::f2);
    switch (light) {
        case Light::a:
            return a;
        case Light::f2:
            return f2;
        case Light::d65:
            break;
    }
    return d65;
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
