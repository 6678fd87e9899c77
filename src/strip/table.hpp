// What lies on the table, to scale: the batt flat, torn or rolled, the roving and the rolags made of it, and
// all of its yarn. Drawn on the CPU, so that the window, the command line and files show the same picture.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "carding/pull.hpp"
#include "forecast/batt.hpp"
#include "measure/choices.hpp"
#include "strip/picture.hpp"
#include "strip/yarn_picture.hpp"

namespace battwright::strip {

// The batt as it is, what is made of it for spinning, then its yarn.
enum class TableView { edge, face, rolled, roving, rolags, single, plied, skein, swatch };
struct TableViewRow {
    TableView value;
    std::string_view word;  // of the option
    std::string_view button, name;
    bool fills_strip;  // long and low, so that a strip can be filled with it; else it is seen whole
    std::string_view help;
};
inline constexpr std::array<TableViewRow, 9> table_views{{
    {TableView::edge, "edge", "torn edge", "torn edge", true,
     "The batt torn into its strips, seen from the torn side."},
    {TableView::face, "face", "batt face", "batt face", true,
     "The batt flat on the table, round the drum from left to right."},
    {TableView::rolled, "rolled", "rolled", "rolled batt", false,
     "The batt rolled up from the end that was lifted first, its face outside, and the end of the roll."},
    {TableView::roving, "roving", "roving", "roving", false,
     "Drawn off the drum in one piece through a diz and coiled, its beginning in the middle."},
    {TableView::rolags, "rolags", "rolags", "rolags", false,
     "Torn across into pieces and each rolled up, in the order they lay round the drum."},
    {TableView::single, "single", "single", "single", true, "The single, in the order it is spun."},
    {TableView::plied, "plied", "plied", "plied yarn", true, "The finished yarn, wound row by row."},
    {TableView::skein, "skein", "skein", "skein", false,
     "The finished yarn as a skein, opened until its turns lie side by side; its beginning is inside."},
    {TableView::swatch, "swatch", "swatch", "knitted swatch", true,
     "The finished yarn, knitted back and forth in stocking stitch from the bottom up."},
}};
static_assert(measure::one_row_each(table_views));
inline constexpr bool is_yarn(TableView view) {
    return view >= TableView::single;
}
inline constexpr bool fills_strip(TableView view) {
    return measure::row_of(table_views, view).fills_strip;
}
// A view's button and help for what is carded so: of a board and of cards without a drum, and what is rolled
// off in rolags is not torn.
struct ViewWords {
    std::string button, help;
};
ViewWords view_words(TableView view, const recipe::Carding& carding);
// How the yarn of such a view is drawn. Precondition: is_yarn(view).
YarnView yarn_view_of(TableView view);

// Common practice, no source: how loosely a batt lies, and fibre once it is rolled or drawn through a diz;
// how heavy a roving for spinning is, and a rolag; one turn of a skein winder.
inline constexpr double lying_kg_m3 = 15.0, rolled_kg_m3 = 25.0;
inline constexpr double roving_g_per_m = 5.0, rolag_grams = 10.0, rolag_web_mm = 6.0;
inline constexpr double usual_turn_m = 1.5;

// What is looked at.
struct TableSettings {
    TableView view = TableView::face;
    carding::Pull pull = carding::Pull::torn_lengthwise;  // yarn: how the batt is taken to the wheel
    std::vector<int> passes;                              // side by side; none: after the batt's last
    double zoom = 1.0;                                    // 1: all of it fits in
    double middle_x = 0.5, middle_y = 0.5;                // of all that lies there, in the picture's middle
    double turn_m = usual_turn_m;                         // of the winder
    bool operator==(const TableSettings&) const = default;
};
struct TableCanvas {
    int width = 0, height = 0;  // px
    colour::Srgb ground{1.0, 1.0, 1.0};
    measure::LengthUnit unit = measure::LengthUnit::millimetre;  // of captions
    double label_px = 0.0;                                       // room above each of several for its words
    int threads = 0;  // 0: as many as there are; the picture does not depend on it
    measure::MassUnit mass = measure::MassUnit::gram;  // of captions
    bool operator==(const TableCanvas&) const = default;
};

// The part of the table that a picture shows; millimetres from the table's top left corner.
struct TableFrame {
    int width = 0, height = 0;
    double pixels_per_mm = 1.0, left_mm = 0.0, top_mm = 0.0;
    bool operator==(const TableFrame&) const = default;
};
struct TableSize {
    double wide_mm = 0.0, tall_mm = 0.0;
};
TableFrame frame_of(const TableSize& size, const TableSettings& ask, int width, int height);
// The ask that puts what lies under a point of the picture `by_x`, `by_y` pixels further right and down, ...
TableSettings moved(TableSettings ask, const TableSize& size, const TableFrame& frame, double by_x,
                    double by_y);
// ... and the one that shows it so many times larger, in the same place.
TableSettings zoomed(TableSettings ask, const TableSize& size, const TableFrame& frame, double times,
                     double x, double y);
// The most pixels a millimetre takes; nearer, and a fibre would be a rope.
inline constexpr double most_pixels_per_mm = 16.0;

struct TableLabel {
    double x_mm = 0.0, y_mm = 0.0;  // its lower left corner
    std::string words;              // "after pass 2: streaky"
};
// The colours of all the yarn from the first metre to the last: ply by ply, or with several passes side by
// side the mean of the plies after each. What the picture shows of it lies between two shares of its length.
struct YarnRun {
    std::vector<std::vector<colour::Srgb>> rows;
    double from = 0.0, to = 1.0;
    double metres = 0.0;
};
struct TablePicture {
    Image image;
    TableFrame frame;
    TableSize size;
    std::vector<TableLabel> labels;  // none for one pass
    YarnRun run;                     // without rows: no yarn is on show
    std::string caption;             // what lies there, and how large
    std::string scale;               // "1 mm = 1.82 px"
    std::string remark;              // why there is nothing; then the image is the ground
};
// Precondition: the batt was made from this forecast (forecast::is_of). Passes the batt does not have are
// left out.
TablePicture table_picture(const forecast::Forecast& forecast, const forecast::Batt& batt,
                           const TableSettings& ask, const TableCanvas& canvas);

// A length that is round in that unit and at most `most_px` long.
struct ScaleBar {
    double px = 0.0, mm = 0.0;
    std::string words;  // "100 mm", "4 in"
};
ScaleBar scale_bar(double pixels_per_mm, double most_px, measure::LengthUnit unit);

// The mean colour of the plies along all of the yarn, each weighted by what is seen of it, at the middles of
// `steps` equal stretches.
std::vector<colour::Srgb> mean_run_of(const YarnScene& scene, std::size_t steps);

}  // namespace battwright::strip
