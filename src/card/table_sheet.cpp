#include "card/table_sheet.hpp"

#include <algorithm>
#include <cmath>

#include "card/lettering.hpp"
#include "card/output.hpp"
#include "card/pixels.hpp"
#include "recipe/file_name.hpp"

namespace battwright::card {
namespace {

constexpr double bar_share = 0.25;  // of the width a scale bar may take

void box(cairo_t* cr, double x, double y, double width, double height) {
    cairo_rectangle(cr, x, y, width, height);
    cairo_fill(cr);
}

// One sheet in the making, from the top down. Letters grow with the picture.
struct Sheet {
    const TableSheetSize& size;
    cairo_t* cr = nullptr;
    Lettering lettering{};
    double letter = 0.0, margin = 0.0;
    double top = 0.0;

    double room() const { return size.width - 2.0 * margin; }

    double line_at(const std::string& words, double x, double y, bool bold, double letters) {
        const auto lines = lettering.lines(words, {letters, bold, Set::left}, std::max(1.0, size.width - x));
        if (lines.empty()) return 0.0;
        cairo_save(cr);
        cairo_translate(cr, x, y);
        lines.front().ink(cr);
        cairo_restore(cr);
        return lines.front().height;
    }

    void paragraph(const std::string& words) {
        for (const Line& line : lettering.lines(words, {letter, false, Set::left}, room())) {
            cairo_save(cr);
            cairo_translate(cr, margin, top);
            line.ink(cr);
            cairo_restore(cr);
            top += line.height;
        }
    }

    // All of the yarn, first metre to last, and a bracket under what the picture shows of it.
    void run(const strip::YarnRun& yarn) {
        const double tall = 1.6 * letter, each = tall / static_cast<double>(yarn.rows.size());
        top += 0.4 * letter;
        for (std::size_t row = 0; row < yarn.rows.size(); ++row) {
            const auto& colours = yarn.rows[row];
            const double step = room() / static_cast<double>(colours.size());
            for (std::size_t i = 0; i < colours.size(); ++i) {
                cairo_set_source_rgb(cr, colours[i].r, colours[i].g, colours[i].b);
                // A little over its end, so that no seam shows.
                box(cr, margin + step * static_cast<double>(i), top + each * static_cast<double>(row),
                    step + 1.0, each);
            }
        }
        set_ink(cr);
        top += tall + 0.15 * letter;
        const double left = margin + room() * yarn.from, right = margin + room() * yarn.to;
        box(cr, left, top, std::max(2.0, right - left), std::max(1.5, 0.15 * letter));
        top += 0.4 * letter;
    }

    void labels(const strip::TablePicture& picture, double picture_top) {
        for (const auto& label : picture.labels) {
            const double x = margin + (label.x_mm - picture.frame.left_mm) * picture.frame.pixels_per_mm;
            const double y = picture_top + (label.y_mm - picture.frame.top_mm) * picture.frame.pixels_per_mm;
            if (y < picture_top || y > picture_top + picture.frame.height) continue;
            line_at(label.words, std::max(margin, x), y - 1.35 * letter, true, letter);
        }
    }

    void scale(const strip::ScaleBar& bar, double y) {
        set_ink(cr);
        const double thick = std::max(1.5, 0.15 * letter), tall = 0.6 * letter;
        box(cr, margin, y + 0.5 * (tall - thick), bar.px, thick);
        for (const double x : {margin, margin + bar.px - thick}) box(cr, x, y, thick, tall);
        line_at(bar.words, margin + bar.px + 0.5 * letter, y + 0.5 * tall - 0.65 * letter, false, letter);
    }
};

strip::TableCanvas canvas_of(const TableSheetSize& size, double width, double height, double letter) {
    strip::TableCanvas canvas;
    canvas.width = std::max(1, static_cast<int>(width));
    canvas.height = std::max(1, static_cast<int>(height));
    // A table on white paper, so that white fibre is seen on it.
    canvas.ground = {0.87, 0.87, 0.85};
    canvas.unit = size.unit;
    canvas.mass = size.mass;
    canvas.threads = size.threads;
    canvas.label_px = 1.5 * letter;
    return canvas;
}

}  // namespace

TableSheet table_sheet(const forecast::Forecast& forecast, const forecast::Batt& batt,
                       const strip::TableSettings& ask, const TableSheetSize& size) {
    TableSheet sheet;
    const double letter = std::max(9.0, 0.022 * std::min(size.width, size.height));
    const double margin = letter;
    // Title, two lines of words, the run of a yarn and the scale bar.
    const double head = 4.6 * letter + (strip::is_yarn(ask.view) ? 2.6 * letter : 0.0), foot = 1.8 * letter;
    const bool worded = size.height > 2.0 * (head + foot) && size.width > 20.0 * letter;
    const double width = worded ? size.width - 2.0 * margin : size.width;
    const double height = worded ? size.height - head - foot - margin : size.height;
    const auto picture = strip::table_picture(forecast, batt, ask, canvas_of(size, width, height, letter));
    sheet.remark = picture.remark;
    sheet.caption = picture.caption + "; " + picture.scale;
    sheet.pixels_per_mm = picture.frame.pixels_per_mm;
    sheet.bar = strip::scale_bar(sheet.pixels_per_mm, bar_share * width, size.unit);
    if (!sheet.remark.empty()) return sheet;
    if (!worded) {
        sheet.image = picture.image;
        return sheet;
    }
    Pixels pixels(size.width, size.height);
    if (!pixels.ready()) return sheet;
    Sheet drawn{size, pixels.cairo()};
    drawn.letter = letter;
    drawn.margin = drawn.top = margin;
    drawn.top += 1.15 * drawn.line_at(recipe::title_of(forecast.recipe), margin, margin, true, 1.3 * letter);
    drawn.paragraph(sheet.caption);
    if (!picture.run.rows.empty()) drawn.run(picture.run);
    pixels.put(picture.image, margin, margin + head);
    drawn.labels(picture, margin + head);
    drawn.scale(sheet.bar, size.height - foot + 0.3 * letter);
    sheet.image = pixels.image();
    return sheet;
}

measure::Expected<void> save_table(const TableSheet& sheet, const std::string& path,
                                   const measure::Saving& saving) {
    const std::string bytes = png_of(sheet.image, sheet.pixels_per_mm * measure::millimetres_per_inch);
    if (bytes.empty())
        return tl::make_unexpected(measure::Complaint{"the picture does not fit into memory as a PNG",
                                                      "ask for a smaller one", path});
    return measure::save_as(measure::FileKind::png, path, bytes, saving);
}

}  // namespace battwright::card
