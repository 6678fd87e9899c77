#include "fibre/catalogue.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <numbers>
#include <utility>

#include "fibre/read.hpp"
#include "measure/save.hpp"

namespace battwright::embedded {
extern const unsigned char catalogue_toml[];
extern const std::size_t catalogue_toml_size;
}  // namespace battwright::embedded

namespace battwright::fibre {
namespace {

namespace fs = std::filesystem;

Catalogue embedded_catalogue() {
    const auto* bytes = reinterpret_cast<const char*>(embedded::catalogue_toml);
    auto read = Catalogue::from_text({bytes, embedded::catalogue_toml_size},
                                     "src/fibre/catalogue, its files in order");
    if (read) return std::move(*read);
    // Only a build from a broken catalogue file comes here, and it fails its first test.
    std::fprintf(stderr, "%s\n", measure::to_line(read.error()).c_str());
    std::abort();
}

void put(std::vector<Kind>& kinds, Kind kind) {
    const auto same = [&](const Kind& other) { return other.id == kind.id; };
    const auto found = std::find_if(kinds.begin(), kinds.end(), same);
    if (found == kinds.end()) {
        kinds.push_back(std::move(kind));
    } else {
        *found = std::move(kind);
    }
}

// XDG Base Directory Specification: a relative path in the variable is to be ignored.
std::optional<fs::path> user_file() {
    const char* data = std::getenv("XDG_DATA_HOME");
    if (data != nullptr && fs::path(data).is_absolute()) return fs::path(data) / "battwright" / "fibres.toml";
    const char* home = std::getenv("HOME");
    if (home == nullptr || *home == '\0') return std::nullopt;
    return fs::path(home) / ".local" / "share" / "battwright" / "fibres.toml";
}

}  // namespace

bool is_guess(const Kind& kind, const std::string& figure) {
    const auto source = kind.sources.find(figure);
    if (kind.published.contains(figure)) return false;
    return source == kind.sources.end() || source->second == "memory" ||
           source->second.find("a guess") != std::string::npos;
}

double doubt(const Kind& kind, const std::string& figure) {
    struct Row {
        std::string_view figure;
        double Kind::*value;
        double guessed;
    };
    constexpr std::array<Row, 5> rows{{{"staple", &Kind::staple_mm, 0.25},
                                       {"diameter", &Kind::diameter_um, 0.125},
                                       {"staple_cv", &Kind::staple_cv, 0.20},
                                       {"diameter_cv", &Kind::diameter_cv, 0.15},
                                       {"crimp", &Kind::crimp_per_cm, 0.40}}};
    const auto* const row =
        std::find_if(rows.begin(), rows.end(), [&](const Row& each) { return each.figure == figure; });
    if (row == rows.end()) return 0.0;
    const double value = kind.*(row->value);
    if (const auto range = kind.published.find(figure); range != kind.published.end() && value > 0.0)
        return 0.5 * (range->second.high - range->second.low) / value;
    return is_guess(kind, figure) ? row->guessed : 0.0;
}

double fibre_tex(double diameter_um, double diameter_cv, double density_g_cm3) {
    const double mean_square_um2 = diameter_um * diameter_um * (1.0 + diameter_cv * diameter_cv);
    return density_g_cm3 * std::numbers::pi / 4.0 * mean_square_um2 * 1e-3;
}

measure::Expected<Catalogue> Catalogue::from_text(std::string_view text, const std::string& path) {
    return from_text(text, path, Catalogue());
}

measure::Expected<Catalogue> Catalogue::from_text(std::string_view text, const std::string& path,
                                                  const Catalogue& below) {
    auto kinds = read_kinds(text, path, below);
    if (!kinds) return tl::make_unexpected(std::move(kinds.error()));
    std::vector<Kind> all;
    for (Kind& kind : *kinds) put(all, std::move(kind));
    return of(std::move(all));
}

Catalogue Catalogue::of(std::vector<Kind> kinds) {
    Catalogue catalogue;
    catalogue.kinds_ = std::make_shared<std::vector<Kind>>(std::move(kinds));
    return catalogue;
}

const Catalogue& Catalogue::builtin() {
    static const Catalogue catalogue = embedded_catalogue();
    return catalogue;
}

Catalogue Catalogue::with(const Catalogue& upper) const {
    std::vector<Kind> both = kinds();
    for (const Kind& kind : upper.kinds()) put(both, kind);
    return of(std::move(both));
}

const Kind* Catalogue::find(std::string_view id) const {
    const auto found =
        std::find_if(kinds_->begin(), kinds_->end(), [&](const Kind& kind) { return kind.id == id; });
    return found == kinds_->end() ? nullptr : &*found;
}

std::shared_ptr<const Kind> Catalogue::share(std::string_view id) const {
    const Kind* const kind = find(id);
    return kind == nullptr ? nullptr : std::shared_ptr<const Kind>(kinds_, kind);
}

std::vector<std::string> Catalogue::ids() const {
    std::vector<std::string> result;
    result.reserve(kinds_->size());
    for (const Kind& kind : *kinds_) result.push_back(kind.id);
    return result;
}

measure::Expected<Catalogue> catalogue_for_user() {
    constexpr std::size_t most_bytes = 4'000'000;
    const auto path = user_file();
    std::error_code error;
    if (!path || (!fs::exists(*path, error) && !error)) return Catalogue::builtin();
    const auto text = measure::load_bytes(*path, most_bytes);
    if (!text) return tl::make_unexpected(text.error());
    auto own = Catalogue::from_text(*text, path->string(), Catalogue::builtin());
    if (!own) return own;
    return Catalogue::builtin().with(*own);
}

}  // namespace battwright::fibre
