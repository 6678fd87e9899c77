#include "command/labels.hpp"

#include <ostream>
#include <utility>

#include "card/output.hpp"
#include "card/tag.hpp"
#include "command/complain.hpp"
#include "recipe/file_name.hpp"

namespace battwright::command {
namespace {

using card::Market;
using card::Product;

// One recipe's labels for one market: of the batt and of the yarn. False when something was refused.
bool write_labels(const forecast::Forecast& forecast, const std::vector<Product>& products, Market market,
                  const card::LabelOptions& options, const Surroundings& s) {
    bool well = true;
    for (const Product product : products) {
        const card::Label made = card::label(card::shares_of(forecast, market, product), market, options);
        *s.out << card::text_of(card::label_page(recipe::title_of(forecast.recipe), made, product));
        well = well && made.refused.empty();
    }
    return well;
}

}  // namespace

void add_label_options(Command& app, CardArguments& args) {
    app.add_option("--market", args.market, "eu, uk or us");
    app.add_option("--word", args.words, "a name in your language, as in wool=laine");
    app.add_option("--functional", args.functional,
                   "US: a fiber that does a job in the yarn and is named under 5 %, as in nylon");
    app.add_option("--origin", args.origin, "US: the country of origin, as in \"Made in Norway\"");
    app.add_flag("--new-wool", args.new_wool, "you vouch that all the wool is new");
    app.add_flag("--count-decorative", args.count_decorative,
                 "EU and UK: state sparkle even where it may be left out");
    app.add_flag("--visible-pattern", args.visible_pattern,
                 "US: the sparkle forms a visible pattern, and so is ornamentation");
}

card::LabelOptions label_options(const CardArguments& args) {
    card::LabelOptions options;
    options.new_wool = args.new_wool;
    options.count_decorative = args.count_decorative;
    options.visible_pattern = args.visible_pattern;
    options.origin = args.origin;
    options.functional.insert(args.functional.begin(), args.functional.end());
    for (const std::string& pair : args.words) {
        const std::size_t equals = pair.find('=');
        if (equals == std::string::npos || equals == 0 || equals + 1 == pair.size())
            fail("'" + pair + "' is no pair of words",
                 "write the English name and yours, as in --word wool=laine", "--word");
        options.words[pair.substr(0, equals)] = pair.substr(equals + 1);
    }
    return options;
}

std::vector<Product> products_of(const std::string& word) {
    if (word.empty()) return std::vector<Product>{Product::batt, Product::yarn};
    for (const Product product : {Product::batt, Product::yarn})
        if (word == card::word_for(product)) return std::vector<Product>{product};
    fail("no content of '" + word + "'", "use batt or yarn", "--of");
}

Market market_of(const CardArguments& args, Market usual) {
    if (args.market.empty()) return usual;
    if (args.market == "eu" || args.market == "uk") return Market::eu_uk;
    if (args.market == "us") return Market::us;
    fail("no market '" + args.market + "'", "use eu, uk or us", "--market");
}

void fail_if_refused(const card::Label& label, const std::string& recipe) {
    if (label.refused.empty()) return;
    Complaint refusal = label.refused.front();
    refusal.where = recipe;
    throw Failed{std::move(refusal)};
}

void write_notes(const card::Label& label, std::set<std::string>& told, std::ostream& out) {
    for (const std::string& note : label.notes)
        if (told.insert(note).second) out << "note: " << note << "\n";
}

int run_labels(const CardArguments& args, const Context& context) {
    const Surroundings& s = context.s;
    const auto place = place_of(args.foretelling, context);
    const auto options = label_options(args);
    std::vector<Market> markets{market_of(args, Market::eu_uk)};
    const auto products = products_of(args.of);
    if (args.market.empty()) markets.push_back(Market::us);
    int code = exit_well;
    for (const std::string& recipe : args.recipes) {
        const auto forecast = guarded([&] { return forecast_of(recipe, place); });
        if (!forecast) {
            code = complain(forecast.error(), s);
            continue;
        }
        for (const Market one : markets)
            if (!write_labels(*forecast, products, one, options, s) && code == exit_well) code = exit_spoils;
    }
    return code;
}

}  // namespace battwright::command
