// Inside this room: what a gram of each lot cost at each moment.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "stash/database.hpp"
#include "stash/movement.hpp"
#include "stash/report.hpp"

namespace battwright::stash {

// A lot's average price as its movements go by: purchases are averaged in by weight; what the bath took, and
// a correction to what was bought, leave the money as it is and so change the price of the rest; all else
// leaves at the price of the moment.
class RunningPrice {
  public:
    // `of_purchase`: of a correction, whether it restates a purchase. `cost`: of a purchase.
    void pass(Reason reason, double grams, std::optional<double> cost, bool of_purchase);
    std::optional<double> per_gram() const { return known_ ? std::optional(per_gram_) : std::nullopt; }

  private:
    void buy(double grams, std::optional<double> cost);
    void keep_money(double grams);

    double grams_ = 0.0;
    double per_gram_ = 0.0;
    bool known_ = false;
};

struct Prices {
    std::map<std::int64_t, Money> now;                   // per gram as it lies, by lot; unpriced lots not
    std::map<std::int64_t, std::vector<Money>> of_batt;  // what each batt's movements cost, one a movement
    std::map<std::int64_t, double> unpriced_of_batt;     // grams as they lay
};
// One walk over all movements.
Prices read_prices(const Database& database);

}  // namespace battwright::stash
