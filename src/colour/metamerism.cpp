#include "colour/metamerism.hpp"

#include "colour/spaces.hpp"

namespace battwright::colour {
namespace {

double ratio(double over, double under) {
    return under > 0.0 ? over / under : 1.0;
}

}  // namespace

double metamerism_index(const Spectrum& first, const Spectrum& second, Light reference, Light test) {
    const Xyz first_there = xyz(first, reference), second_there = xyz(second, reference);
    Xyz matched = xyz(second, test);
    matched.x *= ratio(first_there.x, second_there.x);
    matched.y *= ratio(first_there.y, second_there.y);
    matched.z *= ratio(first_there.z, second_there.z);
    return ciede2000(lab_under(first, test), lab(matched, white(test)));
}

}  // namespace battwright::colour
