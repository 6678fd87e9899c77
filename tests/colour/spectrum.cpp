#include "colour/spectrum.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace battwright::colour;

// The data sets of one of colord's spectral files, cut to our grid. Its column names are SPEC_380 or, in the
// file with 1 nm steps, SPEC_380000.
std::vector<Spectrum> colord_spectra(const std::string& path, std::size_t sets) {
    CAPTURE(path);
    std::ifstream file(path);
    REQUIRE_MESSAGE(file.is_open(), "install Debian's colord-data: its tables are what ours are held to");
    std::string word;
    while (file >> word && word != "BEGIN_DATA_FORMAT") continue;
    std::vector<int> columns;  // nanometres
    while (file >> word && word != "END_DATA_FORMAT") columns.push_back(std::stoi(word.substr(5, 3)));
    while (file >> word && word != "BEGIN_DATA") continue;
    std::vector<Spectrum> spectra(sets);
    std::size_t found = 0;
    for (Spectrum& spectrum : spectra)
        for (const int nanometres : columns) {
            REQUIRE(static_cast<bool>(file >> word));
            if (nanometres < 380 || nanometres > 730 || nanometres % 5 != 0) continue;
            spectrum[static_cast<std::size_t>((nanometres - 380) / 5)] = std::stod(word);
            ++found;
        }
    REQUIRE(found == sets * bands);
    REQUIRE(static_cast<bool>(file >> word));
    REQUIRE(word == "END_DATA");
    return spectra;
}

const std::string colord = "/usr/share/colord/";

void check_xy(Light light, double x, double y, double tolerance) {
    const Xyz w = white(light);
    const double sum = w.x + w.y + w.z;
    CAPTURE(w.x / sum);
    CAPTURE(w.y / sum);
    CHECK(std::abs(w.x / sum - x) <= tolerance);
    CHECK(std::abs(w.y / sum - y) <= tolerance);
}

}  // namespace

// Source: Debian's colord-data, CIE 1931 2-degree colour matching functions at 5 nm.
TEST_CASE("the observer is colord's, digit for digit") {
    const auto cmf = colord_spectra(colord + "cmf/CIE1931-2deg-XYZ.cmf", 3);
    CHECK(observer_1931().x == cmf[0]);
    CHECK(observer_1931().y == cmf[1]);
    CHECK(observer_1931().z == cmf[2]);
}

// Source: CIE 15: V(lambda) is 1 at 555 nm, and z's largest 1.78 at 445 nm.
TEST_CASE("the eye is most sensitive at 555 nm") {
    const auto at = [](const Spectrum& s) {
        const auto band = std::max_element(s.begin(), s.end()) - s.begin();
        return first_nanometre + band_nanometres * static_cast<double>(band);
    };
    CHECK(at(observer_1931().y) == 555.0);
    CHECK(at(observer_1931().z) == 445.0);
}

// Source: Debian's colord-data, CIE illuminants D65, A and F2.
TEST_CASE("the lights are colord's, digit for digit") {
    CHECK(power(Light::d65) == colord_spectra(colord + "illuminant/CIE-D65.sp", 1)[0]);
    CHECK(power(Light::a) == colord_spectra(colord + "illuminant/CIE-A.sp", 1)[0]);
    CHECK(power(Light::f2) == colord_spectra(colord + "illuminant/CIE-F2.sp", 1)[0]);
}

// Source: CIE 15, D65 x, y = 0.3127, 0.3290. The grid ends at 730 nm, not 780: that moves the white by 2e-5,
// so the published four digits are still met to half a unit of the last.
TEST_CASE("white of D65 is the published one to its four digits, in spite of the grid's end at 730 nm") {
    check_xy(Light::d65, 0.3127, 0.3290, 5e-5);
}

// Source: CIE 15 (digits from memory): A 0.4476, 0.4074; F2 0.3721, 0.3751. Illuminant A has most of its
// power at the red end and so loses most by the cut at 730 nm: 8e-5.
TEST_CASE("whites of A and F2 are the published ones to 1e-4") {
    check_xy(Light::a, 0.4476, 0.4074, 1e-4);
    check_xy(Light::f2, 0.3721, 0.3751, 1e-4);
}

TEST_CASE("a perfect white has Y = 100, a grey its share of the white") {
    for (const Light light : {Light::d65, Light::a, Light::f2}) {
        CHECK(white(light).y == doctest::Approx(100.0).epsilon(1e-12));
        Spectrum grey{};
        grey.fill(0.25);
        const Xyz seen = xyz(grey, light);
        CHECK(seen.x == doctest::Approx(0.25 * white(light).x).epsilon(1e-12));
        CHECK(seen.y == doctest::Approx(25.0).epsilon(1e-12));
        CHECK(seen.z == doctest::Approx(0.25 * white(light).z).epsilon(1e-12));
    }
}
