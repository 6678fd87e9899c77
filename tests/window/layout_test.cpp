// Where the panels lie: whatever the window's size and the size of text, nothing is squeezed or hidden.
#include <doctest/doctest.h>

#include <array>
#include <string>

#include "window/shell/shell.hpp"

using namespace battwright;

namespace {

struct Placed {
    std::string name;
    ImVec2 at, size;
};

std::array<Placed, 5> panels_of(const window::Layout& l) {
    return {{{"top", l.top, l.top_size},
             {"in", l.in, l.in_size},
             {"drum", l.drum, l.drum_size},
             {"out", l.out, l.out_size},
             {"strip", l.strip, l.strip_size}}};
}

bool overlap(const Placed& a, const Placed& b) {
    return a.at.x < b.at.x + b.size.x && b.at.x < a.at.x + a.size.x && a.at.y < b.at.y + b.size.y &&
           b.at.y < a.at.y + a.size.y;
}

}  // namespace

TEST_CASE("text of 100, 130 and 160 % is that large in windows of every size, and the panels make room") {
    // Sizes of screens in use; the smallest is a window beside another on a small laptop.
    for (const ImVec2 window :
         {ImVec2{1024, 700}, ImVec2{1280, 800}, ImVec2{1920, 1080}, ImVec2{3840, 2160}}) {
        for (const float wanted : {1.0f, 1.3f, 1.6f, 2.0f}) {
            CAPTURE(window.x);
            CAPTURE(wanted);
            const float unit = window::unit_that_fits(window, wanted);
            CHECK(unit == wanted);
            const auto layout = window::layout_for(window, unit);
            const auto panels = panels_of(layout);
            for (std::size_t i = 0; i < panels.size(); ++i) {
                CAPTURE(panels[i].name);
                CHECK(panels[i].at.x >= 0.0f);
                CHECK(panels[i].at.x + panels[i].size.x <= window.x);
                CHECK(panels[i].at.y + panels[i].size.y <= layout.height);
                for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(overlap(panels[i], panels[j]));
            }
            CHECK(layout.in_size.x >= 428.0f * unit - 0.01f);
            CHECK(layout.drum_size.x >= 306.0f * unit - 0.01f);
            CHECK(layout.out_size.x >= 460.0f * unit - 0.01f);
            for (const float height : {layout.in_size.y, layout.drum_size.y, layout.out_size.y})
                CHECK(height >= 459.0f * unit);
        }
    }
}

TEST_CASE("side by side in one view where there is room, else one below the other") {
    const auto wide = window::layout_for({1280, 800}, 1.0f);
    CHECK(wide.height <= 800.0f);
    CHECK(wide.in.y == wide.out.y);
    const auto two = window::layout_for({1280, 800}, 1.6f);
    CHECK(two.height > 800.0f);
    CHECK(two.in.y == two.drum.y);
    CHECK(two.out.y > two.in.y + two.in_size.y);
    const auto one = window::layout_for({1024, 700}, 1.6f);
    CHECK(one.drum.y > one.in.y + one.in_size.y);
    CHECK(one.out.y > one.drum.y + one.drum_size.y);
}
