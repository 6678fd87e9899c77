#include "stash/prices.hpp"

#include <algorithm>

#include "stash/lots.hpp"
#include "stash/millionths.hpp"

namespace battwright::stash {

void RunningPrice::buy(double grams, std::optional<double> cost) {
    if (cost) {
        const double before = known_ ? per_gram_ * grams_ : 0.0;
        const double of = known_ ? grams_ + grams : grams;
        per_gram_ = (before + *cost) / of;
        known_ = true;
    }
    grams_ += grams;
}

void RunningPrice::keep_money(double grams) {
    if (known_ && grams_ > 0.0 && grams_ + grams > 0.0) per_gram_ *= grams_ / (grams_ + grams);
    grams_ += grams;
}

void RunningPrice::pass(Reason reason, double grams, std::optional<double> cost, bool of_purchase) {
    if (reason == Reason::bought) {
        buy(grams, cost);
    } else if (reason == Reason::scoured || (reason == Reason::corrected && of_purchase)) {
        keep_money(grams);
    } else {
        grams_ += grams;
    }
    grams_ = std::max(grams_, 0.0);
}

void Cost::add(const Money& money) {
    const auto at = std::lower_bound(
        sums.begin(), sums.end(), money.currency,
        [](const Money& sum, const std::string& currency) { return sum.currency < currency; });
    if (at != sums.end() && at->currency == money.currency) {
        at->amount += money.amount;
    } else {
        sums.insert(at, money);
    }
}

void Cost::add(const Cost& other, double share) {
    for (const Money& money : other.sums) add({money.amount * share, money.currency});
    unpriced_grams += other.unpriced_grams * share;
}

Prices read_prices(const Database& database) {
    Prices prices;
    // The first purchase costs what the lot's own line says.
    Statement rows = database.prepare(
        "SELECT movement.lot, movement.reason, movement.micrograms, "
        "iif(movement.id = (SELECT min(id) FROM movement first WHERE first.lot = movement.lot), lot.cost, "
        "movement.cost) AS cost, lot.currency, movement.batt, "
        "(SELECT of.reason = 'bought' FROM movement of WHERE of.id = movement.of_movement) AS of_bought "
        "FROM movement JOIN lot ON lot.id = movement.lot ORDER BY movement.lot, movement.id");
    std::int64_t lot = 0;
    RunningPrice running;
    while (rows.step()) {
        if (rows.whole("lot") != lot) running = {};
        lot = rows.whole("lot");
        const Reason reason = value_of(parse_reason(rows.text("reason")));
        const double grams = from_millionths(rows.whole("micrograms"));
        const auto cost = rows.maybe_whole("cost");
        running.pass(reason, grams, cost ? std::optional(from_millionths(*cost)) : std::nullopt,
                     rows.whole("of_bought") != 0);
        const auto price = running.per_gram();
        if (price) prices.now[lot] = {*price, rows.text("currency")};
        if (reason != Reason::carded) continue;
        const std::int64_t batt = rows.whole("batt");
        if (price) {
            prices.of_batt[batt].push_back({-grams * *price, rows.text("currency")});
        } else {
            prices.unpriced_of_batt[batt] -= grams;
        }
    }
    return prices;
}

}  // namespace battwright::stash
