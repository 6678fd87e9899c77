// The layings of a recipe as the simulation takes them.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "carding/feed.hpp"

namespace battwright::carding {

// A small blend carded by itself beforehand.
struct Small {
    std::string name;
    std::vector<Lay> lays;        // what it is made of; its own blends come before it
    std::vector<Refeed> refeeds;  // of its pass 2, 3, ...; the last stands for the rest
    int passes = 1, strips = 1;
    double grams = 0.0;
};
struct Layings {
    std::vector<Lay> lays;  // of all passes, in order; of components no laying speaks of, as their pass says
    std::vector<Small> blends;
};
// Empty when the recipe has no layings. `portions` are portions_of() the recipe. Precondition: its layings
// close, as those of a recipe that has passed check() do.
Layings layings_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
                   std::span<const Portion> portions, const recipe::Carder& carder);

// The same recipe with its manner written out as a list of layings. A stripe that overlaps its neighbours by
// unlike widths is written with the wider on both sides.
recipe::Recipe written_out(recipe::Recipe recipe, std::span<const recipe::Strand> strands);

// What a lay is made of, one value a portion, and the mean square of the shares of its tufts (1 while each is
// of one portion), plain and by their mass: see unresolved.hpp.
struct Content {
    std::vector<double> shares;
    double second = 1.0, clumped = 1.0;
};

}  // namespace battwright::carding
