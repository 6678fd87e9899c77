#include "fibre/figures.hpp"

#include <array>

#include "measure/units.hpp"

namespace battwright::fibre {
namespace {

using measure::Expected;

Expected<double> length(std::string_view text) {
    return measure::parse_length(text).map([](const measure::Length& read) { return read.millimetres; });
}

Expected<double> density(std::string_view text) {
    const auto read = measure::parse_quantity(text, "density", "1.31 g/cm3");
    if (!read) return tl::make_unexpected(read.error());
    if (read->unit == "g/cm3") return read->value;
    return tl::make_unexpected(measure::Complaint{"the density " + measure::quoted(text) + " is not in g/cm3",
                                                  "write grams per cubic centimetre, as in \"1.31 g/cm3\""});
}

Expected<double> crimp(std::string_view text) {
    const auto read = measure::parse_quantity(text, "crimp", "4 per cm");
    if (!read) return tl::make_unexpected(read.error());
    if (read->unit == "per cm") return read->value;
    if (read->unit == "per in") return read->value * 10.0 / measure::millimetres_per_inch;
    return tl::make_unexpected(
        measure::Complaint{"the crimp " + measure::quoted(text) + " is not in waves per cm or per in",
                           "write waves per centimetre or per inch, as in \"4 per cm\""});
}

constexpr double percent = 0.01;
// The bounds only keep out slips of the pen; what is usual is for the tests of the built-in file to say.
constexpr std::array<Figure, 10> all{{
    {"staple", "staple length", &Kind::staple_mm, length, 0.5, 1000.0, 1.0, "mm", "\"75 mm\""},
    {"staple_cv", "CV of length", &Kind::staple_cv, measure::parse_percent, 0.0, 200.0, percent, "%",
     "\"40 %\""},
    {"diameter", "diameter", &Kind::diameter_um, measure::parse_diameter_micrometres, 2.0, 500.0, 1.0, "um",
     "\"21 um\""},
    {"diameter_cv", "CV of diameter", &Kind::diameter_cv, measure::parse_percent, 0.0, 150.0, percent, "%",
     "\"22 %\""},
    {"density", "density", &Kind::density_g_cm3, density, 0.5, 10.0, 1.0, "g/cm3", "\"1.31 g/cm3\""},
    {"allowance", "moisture allowance", &Kind::allowance_pct, measure::parse_percent, 0.0, 50.0, 1.0, "%",
     "\"18.25 %\""},
    {"lustre", "lustre", &Kind::lustre, nullptr, 0.0, 1.0, 1.0, "", "0.3"},
    {"slipperiness", "slipperiness", &Kind::slipperiness, nullptr, 0.0, 1.0, 1.0, "", "0.2"},
    {"crimp", "crimp", &Kind::crimp_per_cm, crimp, 0.0, 20.0, 1.0, "per cm", "\"4 per cm\""},
    {"retention", "retention", &Kind::retention, measure::parse_percent, 1.0, 100.0, percent, "%",
     "\"70 %\""},
}};

}  // namespace

std::span<const Figure> figures() {
    return all;
}

}  // namespace battwright::fibre
