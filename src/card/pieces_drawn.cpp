#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>

#include "card/pieces.hpp"
#include "card/pixels.hpp"
#include "card/qr.hpp"
#include "strip/jpeg_file.hpp"

namespace battwright::card {
namespace {

constexpr double print_pixel_pt = 72.0 / print_dpi;
// The least module a phone reads from paper without trouble: 4 dots of a 300 dpi print, 0.34 mm (common
// practice, no source). Large paper has room for more.
constexpr int least_module_px = 4, roomy_module_px = 6;
constexpr double roomy_letter_pt = 8.5;

using Surface = CairoSurface;

// In a PDF a picture of fibre, which no lossless packing makes smaller, goes in as a JPEG: a fifth of the
// room.
void pack_for_pdf(cairo_t* cr, const Surface& surface, const strip::Image& image) {
    if (cairo_surface_get_type(cairo_get_target(cr)) != CAIRO_SURFACE_TYPE_PDF) return;
    auto bytes = std::make_unique<std::string>(strip::jpeg_bytes(image));
    if (bytes->empty()) return;
    const auto* data = reinterpret_cast<const unsigned char*>(bytes->data());
    const auto forget = [](void* kept) { delete static_cast<std::string*>(kept); };
    if (cairo_surface_set_mime_data(surface.get(), CAIRO_MIME_TYPE_JPEG, data, bytes->size(), forget,
                                    bytes.get()) == CAIRO_STATUS_SUCCESS)
        std::ignore = bytes.release();
}

struct SizedCode {
    QrCode code;
    double module_pt = 0.0, side_pt = 0.0;
};

std::optional<SizedCode> sized_code(const Code& wanted, const Frame& frame) {
    const double most = std::min(frame.most_code_pt, frame.width);
    const int most_modules = static_cast<int>(most / (least_module_px * print_pixel_pt)) - 2 * quiet_modules;
    auto code = qr_of(wanted.payload, most_modules);
    if (!code || code->modules > most_modules) return std::nullopt;
    const int across = code->modules + 2 * quiet_modules;
    const int wish = frame.letter_pt > roomy_letter_pt ? roomy_module_px : least_module_px;
    const int pixels = std::min(wish, static_cast<int>(most / (across * print_pixel_pt)));
    const double module = std::max(least_module_px, pixels) * print_pixel_pt;
    return SizedCode{std::move(*code), module, module * across};
}

// Whole dots of a 300 dpi print, so that every module is as wide as every other.
void snap_to_pixels(cairo_t* cr) {
    double x = 0.0, y = 0.0;
    cairo_user_to_device(cr, &x, &y);
    double dx = std::round(x) - x, dy = std::round(y) - y;
    cairo_device_to_user_distance(cr, &dx, &dy);
    cairo_translate(cr, dx, dy);
}

Ink code_ink(const SizedCode& sized) {
    return [sized](cairo_t* cr) {
        snap_to_pixels(cr);
        cairo_set_antialias(cr, CAIRO_ANTIALIAS_NONE);
        cairo_set_source_rgb(cr, 1.0, 1.0, 1.0);
        cairo_rectangle(cr, 0.0, 0.0, sized.side_pt, sized.side_pt);
        cairo_fill(cr);
        cairo_set_source_rgb(cr, 0.0, 0.0, 0.0);
        const int n = sized.code.modules;
        std::size_t at = 0;
        for (int y = 0; y < n; ++y) {
            for (int x = 0; x < n;) {
                int run = 0;
                while (x + run < n && sized.code.dark[at + std::size_t(run)]) ++run;
                if (run > 0)
                    cairo_rectangle(cr, (x + quiet_modules) * sized.module_pt,
                                    (y + quiet_modules) * sized.module_pt, run * sized.module_pt,
                                    sized.module_pt);
                const int done = std::max(run, 1);
                x += done;
                at += std::size_t(done);
            }
        }
        cairo_fill(cr);
    };
}

void say_instead(std::vector<Piece>& pieces, const Code& code, const Frame& frame) {
    *frame.code_left_out = true;
    add_text(pieces, code.instead, {0.86 * frame.letter_pt}, 0.4 * frame.letter_pt, frame);
}

// Prompts with lines to write on, `width` wide; gives the height they take.
double put_blanks(Piece& piece, const std::vector<std::string>& prompts, double width, double least_step,
                  const Frame& frame) {
    const double step = std::max(2.3 * frame.letter_pt, least_step);
    double y = 0.0;
    for (const std::string& prompt : prompts) {
        auto lines = frame.lettering->lines(prompt, {0.9 * frame.letter_pt}, 0.6 * width);
        double right = 0.0;
        double deep = 0.0;
        for (Line& line : lines) {
            right = line.width;
            piece.placed.push_back({0.0, y + deep, line.width, line.height, std::move(line.ink)});
            deep += line.height;
        }
        const double from = right + 0.4 * frame.letter_pt;
        piece.placed.push_back(
            {from, y + deep, width - from, 0.4, line_ink(0.0, 0.0, width - from, 0.0, 0.4, 0.45)});
        y += std::max(step, deep + 0.6 * frame.letter_pt);
    }
    return y;
}

}  // namespace

Ink line_ink(double x, double y, double to_x, double to_y, double thick, double grey) {
    return [=](cairo_t* cr) {
        cairo_set_source_rgb(cr, grey, grey, grey);
        cairo_set_line_width(cr, thick);
        cairo_move_to(cr, x, y);
        cairo_line_to(cr, to_x, to_y);
        cairo_stroke(cr);
    };
}

void add_picture(std::vector<Piece>& pieces, const Picture& picture, const Frame& frame) {
    if (picture.width_px <= 0) return;
    const double scale = frame.width / picture.width_px;
    Piece piece;
    piece.height = scale * picture.height_px;
    piece.gap_before = 0.5 * frame.letter_pt;
    piece.placed.push_back({0.0, 0.0, frame.width, piece.height, [draw = picture.draw, scale](cairo_t* cr) {
                                const strip::Image image = draw();
                                const Surface surface = surface_of(image);
                                pack_for_pdf(cr, surface, image);
                                cairo_scale(cr, scale, scale);
                                cairo_set_source_surface(cr, surface.get(), 0.0, 0.0);
                                cairo_paint(cr);
                            }});
    pieces.push_back(std::move(piece));
}

void add_rule(std::vector<Piece>& pieces, const Frame& frame) {
    Piece piece;
    piece.height = 0.6 * frame.letter_pt;
    piece.gap_before = 0.3 * frame.letter_pt;
    piece.placed.push_back({0.0, 0.0, frame.width, piece.height,
                            line_ink(0.0, piece.height / 2.0, frame.width, piece.height / 2.0, 0.6, 0.5)});
    pieces.push_back(std::move(piece));
}

void add_hole(std::vector<Piece>& pieces, const HoleMark& hole, const Frame& frame) {
    constexpr double line_pt = 0.6;
    const double side = hole.diameter_mm * points_per_millimetre;
    Piece piece;
    piece.height = side;
    piece.placed.push_back({(frame.width - side) / 2.0, 0.0, side, side, [side](cairo_t* cr) {
                                cairo_set_source_rgb(cr, 0.45, 0.45, 0.45);
                                cairo_set_line_width(cr, line_pt);
                                cairo_new_sub_path(cr);
                                cairo_arc(cr, side / 2.0, side / 2.0, (side - line_pt) / 2.0,
                                          -std::numbers::pi, std::numbers::pi);
                                cairo_stroke(cr);
                            }});
    pieces.push_back(std::move(piece));
}

void add_code(std::vector<Piece>& pieces, const Code& code, const Frame& frame) {
    const auto sized = sized_code(code, frame);
    if (!sized) return say_instead(pieces, code, frame);
    Piece piece;
    piece.height = sized->side_pt;
    piece.gap_before = 0.4 * frame.letter_pt;
    piece.with_next = !code.words.empty();
    piece.placed.push_back({0.0, 0.0, sized->side_pt, sized->side_pt, code_ink(*sized)});
    pieces.push_back(std::move(piece));
    add_text(pieces, code.words, {0.86 * frame.letter_pt}, 0.0, frame);
}

void add_blanks(std::vector<Piece>& pieces, const Blanks& blanks, const Frame& frame) {
    const auto sized = blanks.beside ? sized_code(*blanks.beside, frame) : std::nullopt;
    const double gap = 0.8 * frame.letter_pt;
    // Beside a code that leaves too little to write on, the lines go under it.
    const bool beside = sized && frame.width - sized->side_pt - gap > 12.0 * frame.letter_pt;
    if (sized && !beside) add_code(pieces, *blanks.beside, frame);
    if (blanks.beside && !sized) say_instead(pieces, *blanks.beside, frame);
    Piece piece;
    piece.gap_before = gap;
    const double width = beside ? frame.width - sized->side_pt - gap : frame.width;
    const double count = static_cast<double>(std::max<std::size_t>(1, blanks.prompts.size()));
    const double stretch = beside ? (sized->side_pt - frame.letter_pt) / count : 0.0;
    piece.height = put_blanks(piece, blanks.prompts, width, std::min(stretch, 4.0 * frame.letter_pt), frame);
    if (beside) {
        piece.placed.push_back(
            {frame.width - sized->side_pt, 0.0, sized->side_pt, sized->side_pt, code_ink(*sized)});
        piece.height = std::max(piece.height, sized->side_pt);
    }
    const bool words = beside && !blanks.beside->words.empty();
    piece.with_next = words;
    pieces.push_back(std::move(piece));
    if (words)
        add_text(pieces, blanks.beside->words, {0.86 * frame.letter_pt, false, Set::right}, 0.0, frame);
}

}  // namespace battwright::card
