// What the product that is sold is made of: the batt as weighed out, or the yarn spun from it.
#pragma once

#include <array>
#include <vector>

#include "card/label.hpp"
#include "forecast/forecast.hpp"
#include "measure/choices.hpp"

namespace battwright::card {

// A batt is sold as it comes off the drum; a yarn has lost some of its bits and may have a thread in it.
enum class Product { batt, yarn };
inline constexpr std::array<measure::Word<Product>, 2> products{
    {{Product::batt, "batt"}, {Product::yarn, "yarn"}}};
static_assert(measure::one_row_each(products));
std::string_view word_for(Product product);  // "batt", "yarn"

// The product's fibres by the names of the market. Sparkle counts as decorative, fibre without a name as
// unknown. The yarn's: each kind's mass times what of it is expected to stay (its `retention`), and the
// thread's own fibre by the metres that plying takes; a thread of no stated fibre is unknown.
std::vector<Share> shares_of(const forecast::Forecast& forecast, Market market,
                             Product product = Product::batt);

// What the finished skein is foretold to weigh: its own fibre and the thread it is plied with.
double skein_grams(const forecast::Forecast& forecast);

}  // namespace battwright::card
