#include "shelving/suggestion.hpp"

#include <algorithm>

namespace battwright::shelving {

measure::Expected<Suggestion> suggestion_of(const Stock& stock, const solve::Proposal& proposal,
                                            const std::string& name, const forecast::Bench& bench) {
    recipe::Recipe recipe = recipe_of(stock, proposal);
    recipe.name = name;
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
