// Broken recipes by the million: whatever reads must weigh out, write, and read again as the same text.
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "recipe/composition.hpp"
#include "recipe/file.hpp"
#include "toml/toml.hpp"

namespace recipe = battwright::recipe;
using battwright::fibre::Catalogue;

namespace {

void require(bool holds, const char* what) {
    if (holds) return;
    std::fprintf(stderr, "broken promise: %s\n", what);
    std::abort();
}

bool one_line(const battwright::measure::Complaint& complaint) {
    const std::string line = battwright::measure::to_line(complaint);
    return !complaint.what.empty() && line.size() < 4000 && line.find('\n') == std::string::npos;
}

void try_composition(const recipe::Recipe& read) {
    const auto masses = recipe::masses_of(read);
    require(masses.has_value(), "a checked recipe weighs out");
    require(std::isfinite(masses->total_grams) && masses->total_grams > 0.0, "the total is above zero");
    double shares = 0.0;
    for (const recipe::Strand& strand : recipe::strands_of(read, *masses, Catalogue::builtin())) {
        require(std::isfinite(strand.count_share) && strand.grams > 0.0, "every strand weighs something");
        shares += strand.mass_share;
    }
    require(std::abs(shares - 1.0) < 1e-6, "the strands make the batt");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    battwright::toml::has_comments(text);
    const auto read = recipe::read_text(text, "fuzz.toml", Catalogue::builtin());
    if (!read) {
        require(one_line(read.error()), "a complaint is one line");
        return 0;
    }
    require(recipe::check(*read, Catalogue::builtin()).has_value(), "what reads passes the check");
    try_composition(*read);
    const std::string written = recipe::write_text(*read);
    const auto again = recipe::read_text(written, "again.toml", Catalogue::builtin());
    require(again.has_value(), "what was written reads");
    require(recipe::write_text(*again) == written, "what was written stays");
    return 0;
}
