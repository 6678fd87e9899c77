#include "card/content.hpp"

#include "card/label_parts.hpp"

namespace battwright::card {
namespace {

constexpr double grams_in_tex_metre = 1e-3;  // tex is grams in 1,000 m (ISO 1144)

std::string name_in(Market market, const fibre::Kind& kind) {
    return market == Market::us ? kind.label_us : kind.label_eu;
}

Share share_of(const fibre::Kind& kind, Market market) {
    Share share;
    share.name = name_in(market, kind);
    share.decorative = kind.family == fibre::Family::sparkle;
    share.known = share.name != unknown_name(market);
    share.past = kind.past;
    share.diameter_um = kind.diameter_um;
    share.diameter_cv = kind.diameter_cv;
    share.cross_goat = kind.label_eu == "cashgora";
    share.pet = kind.label_us == "dog hair" || kind.label_us == "cat hair";
    return share;
}

// What the recipe's own figures say of a strand goes before the catalogue's.
Share share_of(const recipe::Strand& strand, const std::string& from, Market market) {
    Share share = share_of(*strand.kind, market);
    share.past = strand.past;
    share.diameter_um = strand.diameter_um;
    share.diameter_cv = strand.diameter_cv;
    share.from = from;
    return share;
}

double thread_grams(const forecast::Forecast& forecast) {
    const auto& thread = forecast.recipe.spinning.thread;
    return thread ? forecast.yarn.thread_needed_m * thread->tex * grams_in_tex_metre : 0.0;
}

// Grams of the thread in the yarn, and by what it is spun from.
void add_thread(std::vector<Share>& shares, const forecast::Forecast& forecast, Market market) {
    const double grams = thread_grams(forecast);
    if (grams <= 0.0) return;
    if (forecast.thread.empty()) {
        Share unknown{unknown_name(market), grams, false, false};
        unknown.from = "the thread, whose fibre the recipe does not name";
        shares.push_back(unknown);
    }
    for (const forecast::ThreadFibre& part : forecast.thread) {
        Share share = share_of(*part.kind, market);
        share.percent = grams * part.share;
        share.from = "the thread";
        shares.push_back(share);
    }
}

}  // namespace

std::string_view word_for(Product product) {
    return measure::row_of(products, product).word;
}

double skein_grams(const forecast::Forecast& forecast) {
    return forecast.yarn.yarn_grams + thread_grams(forecast);
}

std::vector<Share> shares_of(const forecast::Forecast& forecast, Market market, Product product) {
    const bool yarn = product == Product::yarn;
    // What the carder and the wheel lose of every fibre alike does not move the shares but against the
    // thread.
    double stays = 0.0;
    for (const recipe::Strand& strand : forecast.strands) stays += strand.grams * strand.kind->retention;
    const double scale = yarn && stays > 0.0 ? forecast.yarn.yarn_grams / stays : 1.0;
    std::vector<Share> shares;
    for (const recipe::Strand& strand : forecast.strands) {
        Share share = share_of(strand, forecast.components[strand.component].label, market);
        share.percent = strand.grams * (yarn ? strand.kind->retention * scale : 1.0);
        shares.push_back(share);
    }
    if (yarn) add_thread(shares, forecast, market);
    return shares;
}

}  // namespace battwright::card
