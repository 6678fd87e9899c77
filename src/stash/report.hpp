// Sums over the stash, as plain values.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "stash/lot.hpp"

namespace battwright::stash {

// Money by currency, and the weight whose price nobody knows.
struct Cost {
    std::vector<Money> sums;  // one a currency, by its name; empty when nothing is priced
    double unpriced_grams = 0.0;
    void add(const Money& money);
    void add(const Cost& other, double share);
};

struct KindLine {
    std::string kind;    // catalogue id
    int lots = 0;        // that hold some of it and are not empty
    double grams = 0.0;  // its share of what is on hand, as it lies
    double clean_grams = 0.0;
};
struct AgeLine {
    std::string word;  // "under a year", ..., "of no date"
    int lots = 0;
    double grams = 0.0;
    Cost worth;
};
// What the fibre in a batt or a skein cost. A lot's price is the weighted average of its purchases up to the
// day it was carded (moving average); scouring makes what is left dearer, since the money paid stays the
// same.
struct BattCost {
    std::int64_t batt = 0;
    std::string name;
    std::string date;
    double fed_grams = 0.0;
    Cost cost;
};
struct SkeinCost {
    std::int64_t skein = 0;
    std::string name;
    std::string date;
    double grams = 0.0, metres = 0.0;
    Cost cost;  // the batts' cost by this skein's part of them
};
struct UsedKind {
    std::string kind;
    double carded_grams = 0.0;  // clean; batts taken back are not counted
};
struct Used {
    int year = 0;
    std::vector<UsedKind> kinds;                                                           // most used first
    double bought_grams = 0.0, carded_grams = 0.0, wasted_grams = 0.0, given_grams = 0.0;  // as it lay
    int batts = 0, skeins = 0;
    double spun_grams = 0.0, spun_metres = 0.0;
    Cost carded_cost;
};

}  // namespace battwright::stash
