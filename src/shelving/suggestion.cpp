#include "shelving/suggestion.hpp"

#include <algorithm>

namespace battwright::shelving {

namespace {

// Neps, locks and sparkle would be ground in by every pass before the last.
void put_extras_on_last(recipe::Recipe& recipe, const fibre::Catalogue& catalogue) {
    for (recipe::Component& component : recipe.components) {
        double extras_pct = 0.0;
        for (const recipe::Content& part : component.content) {
            const fibre::Kind* kind = catalogue.find(part.fibre);
            if (kind != nullptr && kind->form != fibre::Form::fibre) extras_pct += part.share_pct;
        }
        if (extras_pct > 50.0) component.add_on_pass = recipe::last_pass;
    }
}

}  // namespace

measure::Expected<Suggestion> suggestion_of(const Stock& stock, const solve::Proposal& proposal,
                                            const std::string& name, const forecast::Bench& bench) {
    recipe::Recipe recipe = recipe_of(stock, proposal);
    recipe.name = name;
    put_extras_on_last(recipe, *bench.catalogue);
    auto forecast = forecast::forecast(recipe, bench);
    if (!forecast) return tl::make_unexpected(forecast.error());
    return Suggestion{proposal, std::move(*forecast)};
}

measure::Expected<std::vector<Suggestion>> suggestions_of(const Stock& stock,
                                                          const std::vector<solve::Proposal>& proposals,
                                                          const std::string& name,
                                                          const forecast::Bench& bench) {
    std::vector<Suggestion> result;
    for (std::size_t i = 0; i < proposals.size(); ++i) {
        std::string own = name;
        if (proposals.size() > 1) own.append(" ").append(std::to_string(i + 1));
        auto one = suggestion_of(stock, proposals[i], own, bench);
        if (!one) return tl::make_unexpected(one.error());
        result.push_back(std::move(*one));
    }
    return result;
}

const staple::Finding* worst_of(const forecast::Forecast& forecast) {
    // They come gravest first.
    return forecast.findings.empty() ? nullptr : &forecast.findings.front();
}

void spoilt_last(std::vector<Suggestion>& suggestions) {
    std::stable_partition(suggestions.begin(), suggestions.end(), [](const Suggestion& one) {
        const staple::Finding* worst = worst_of(one.forecast);
        return worst == nullptr || worst->severity != staple::Severity::spoils;
    });
}

}  // namespace battwright::shelving
