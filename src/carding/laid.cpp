#include "carding/laid.hpp"

#include <algorithm>
#include <cmath>

#include "carding/habits.hpp"
#include "carding/lay.hpp"

namespace battwright::carding {
namespace {

// What a lay is made of, one share a portion.
std::vector<double> made_of(const Lay& lay, const Setup& setup) {
    std::vector<double> shares(setup.portions.size(), 0.0);
    if (lay.blend == no_blend) {
        shares[lay.portion] = 1.0;
        return shares;
    }
    double grams = 0.0;
    for (const Lay& part : setup.blends[lay.blend].lays) {
        const auto inner = made_of(part, setup);
        for (std::size_t p = 0; p < shares.size(); ++p) shares[p] += part.grams * inner[p];
        grams += part.grams;
    }
    for (double& share : shares) share /= grams > 0.0 ? grams : 1.0;
    return shares;
}

// One thing lying on the drum, over its whole extent.
struct Sheetful {
    std::vector<double> made_of;
    std::vector<double> g_m2;  // place by place
};

struct Laid {
    const Setup& setup;
    Field shape;
    double area_m2 = 1.0;

    Sheetful of(const Lay& lay, std::size_t number) const {
        const double mean = lay.grams * setup.batt_share / area_m2;
        if (lay.all_over() && !(lay.dab_mm > 0.0))
            return {made_of(lay, setup), std::vector<double>(shape.plane_size(), mean)};
        auto thick = placed_thickness(lay, number, shape, setup.seed);
        for (double& value : thick) value *= mean;
        return {made_of(lay, setup), std::move(thick)};
    }

    // What the passes before have left, mixed.
    Sheetful before(const std::vector<Lay>& lays, int pass, double part) const {
        Sheetful batt{std::vector<double>(setup.portions.size(), 0.0), {}};
        double grams = 0.0;
        for (const Lay& lay : lays) {
            if (lay.pass >= pass) continue;
            const auto shares = made_of(lay, setup);
            for (std::size_t p = 0; p < shares.size(); ++p) batt.made_of[p] += lay.grams * shares[p];
            grams += lay.grams;
        }
        for (double& share : batt.made_of) share /= grams > 0.0 ? grams : 1.0;
        batt.g_m2.assign(shape.plane_size(), part * grams * setup.batt_share / area_m2);
        return batt;
    }
};

// From the teeth outwards.
std::vector<Sheetful> pile_of(const Laid& laid, int pass, const std::vector<bool>& hidden) {
    const auto lays = lays_of_setup(laid.setup);
    std::vector<Sheetful> pile;
    const auto add = [&](recipe::Lies lies, bool any) {
        std::size_t number = 0;
        for (const Lay& lay : lays) {
            if (lay.pass != pass || !(lay.grams > 0.0)) continue;
            const std::size_t own = number++, laying = lay.source.laying;
            const bool is_hidden = laying < hidden.size() && hidden[laying];
            if (!is_hidden && (any || lay.lies == lies)) pile.push_back(laid.of(lay, own));
        }
    };
    using recipe::Lies;
    if (pass < 2) {
        add(Lies::between, true);
        return pile;
    }
    add(Lies::under, false);
    pile.push_back(laid.before(lays, pass, 0.5));
    add(Lies::between, false);
    pile.push_back(laid.before(lays, pass, 0.5));
    add(Lies::over, false);
    return pile;
}

}  // namespace

LaidFace laid_face(const Setup& setup, int pass, const std::vector<bool>& hidden, std::size_t round,
                   std::size_t across) {
    LaidFace face{round, across, setup.portions.size(), {}, {}, {}};
    const Laid laid{setup, empty_field({round, across, 1}, 1, setup.circumference_mm, setup.width_mm),
                    setup.circumference_mm * setup.width_mm * 1e-6};
    const auto pile = pile_of(laid, pass, hidden);
    const std::size_t places = round * across;
    face.shares.assign(places * face.portions, 0.0);
    face.bare.assign(places, 1.0);
    face.g_m2.assign(places, 0.0);
    for (std::size_t place = 0; place < places; ++place) {
        double* seen = face.shares.data() + place * face.portions;
        double through = 1.0;
        for (auto sheet = pile.rbegin(); sheet != pile.rend(); ++sheet) {
            const double covers = 1.0 - std::exp(-sheet->g_m2[place] / habits::covers_g_m2);
            for (std::size_t p = 0; p < face.portions; ++p) seen[p] += through * covers * sheet->made_of[p];
            through *= 1.0 - covers;
            face.g_m2[place] += sheet->g_m2[place];
        }
        face.bare[place] = through;
        const double sum = 1.0 - through;
        for (std::size_t p = 0; p < face.portions; ++p)
            seen[p] = sum > 1e-12 ? seen[p] / sum : 1.0 / static_cast<double>(face.portions);
    }
    return face;
}

}  // namespace battwright::carding
