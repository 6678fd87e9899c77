// What lies on the table as a picture to keep: its name, a scale bar, the words over each pass, all of the
// yarn with what is enlarged marked on it.
#pragma once

#include <string>

#include "measure/replace.hpp"
#include "strip/table.hpp"

namespace battwright::card {

struct TableSheetSize {
    int width = 0, height = 0;                                   // px, of all of it
    measure::LengthUnit unit = measure::LengthUnit::millimetre;  // of the scale bar and the words
    int threads = 0;                                             // as in strip::TableCanvas
    measure::MassUnit mass = measure::MassUnit::gram;            // of the words
};
struct TableSheet {
    strip::Image image;
    double pixels_per_mm = 0.0;  // of what lies there
    strip::ScaleBar bar;
    std::string caption;
    std::string remark;  // why there is nothing to show; then there is no image
};
// Where there is no room for words they are left out. Precondition: as strip::table_picture().
TableSheet table_sheet(const forecast::Forecast& forecast, const forecast::Batt& batt,
                       const strip::TableSettings& ask, const TableSheetSize& size);
// A PNG that states its scale (pHYs chunk): printed at the size it asks for, it is as large as the things
// are.
measure::Expected<void> save_table(const TableSheet& sheet, const std::string& path,
                                   const measure::Saving& saving = {});

}  // namespace battwright::card
