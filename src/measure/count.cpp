#include "measure/count.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

namespace battwright::measure {
namespace {

constexpr double yards_per_worsted_hank = 560.0;
constexpr double yards_per_cotton_hank = 840.0;
constexpr int most_plies_of_a_thread = 12;

// An indirect count times its tex; 0 for the direct ones.
double product_with_tex(CountSystem system) {
    switch (system) {
        case CountSystem::metric:
            return 1000.0;
        case CountSystem::worsted:
            return tex_yards_per_pound / yards_per_worsted_hank;
        case CountSystem::cotton:
            return tex_yards_per_pound / yards_per_cotton_hank;
        case CountSystem::yards_per_pound:
            return tex_yards_per_pound;
        default:
            return 0.0;
    }
}

double direct_per_tex(CountSystem system) {
    if (system == CountSystem::decitex) return 10.0;
    return system == CountSystem::denier ? 9.0 : 1.0;
}

struct Word {
    std::string_view word;
    CountSystem system;
};
constexpr std::array words{
    Word{"tex", CountSystem::tex},         Word{"dtex", CountSystem::decitex},
    Word{"decitex", CountSystem::decitex}, Word{"den", CountSystem::denier},
    Word{"denier", CountSystem::denier},   Word{"nm", CountSystem::metric},
    Word{"metric", CountSystem::metric},   Word{"nw", CountSystem::worsted},
    Word{"worsted", CountSystem::worsted}, Word{"ne", CountSystem::cotton},
    Word{"cotton", CountSystem::cotton},   Word{"yd/lb", CountSystem::yards_per_pound},
};

std::string_view without_spaces(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

std::optional<CountSystem> system_from(std::string_view text) {
    std::string lower(without_spaces(text));
    for (char& c : lower) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const auto* const found =
        std::find_if(words.begin(), words.end(), [&](const Word& w) { return w.word == lower; });
    return found == words.end() ? std::nullopt : std::optional(found->system);
}

// Takes a number above zero off the front of `text`.
std::optional<double> take_positive(std::string_view& text) {
    text = without_spaces(text);
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || !std::isfinite(value) || value <= 0.0) return std::nullopt;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    text = without_spaces(text);
    return value;
}

bool is_plies(double value) {
    return value >= 1.0 && value <= most_plies_of_a_thread && std::floor(value) == value;
}

std::optional<PliedCount> read_count(std::string_view text) {
    PliedCount count;
    const auto first = take_positive(text);
    if (!first) return std::nullopt;
    count.single = *first;
    if (!text.empty() && text.front() == '/') {
        text.remove_prefix(1);
        const auto second = take_positive(text);
        if (!second || !is_plies(std::min(*first, *second))) return std::nullopt;
        count.plies = static_cast<int>(std::min(*first, *second));
        count.single = std::max(*first, *second);
    }
    const auto system = system_from(text);
    if (!system) return std::nullopt;
    count.system = *system;
    return count;
}

}  // namespace

double tex_from(double count, CountSystem system) {
    const double product = product_with_tex(system);
    return product > 0.0 ? product / count : count / direct_per_tex(system);
}

double count_from(double tex, CountSystem system) {
    const double product = product_with_tex(system);
    return product > 0.0 ? product / tex : tex * direct_per_tex(system);
}

double metres_per_100_g(double tex) {
    return 1e5 / tex;
}

double yards_per_pound(double tex) {
    return tex_yards_per_pound / tex;
}

double tex_of(const PliedCount& count) {
    return tex_from(count.single, count.system) * count.plies;
}

Expected<PliedCount> parse_count(std::string_view text) {
    if (const auto count = read_count(text); count && std::isfinite(tex_of(*count))) return *count;
    return tl::make_unexpected(
        Complaint{"the count " + measure::quoted(text) + " is not understood",
                  "write it as \"2/24 worsted\", \"16/2 cotton\", \"2/28 Nm\" or \"60 tex\""});
}

}  // namespace battwright::measure
