#include "card/lettering.hpp"

#include <algorithm>
#include <cmath>

namespace battwright::card {
namespace {

// Lato where there is one; pango takes other scripts' letters from whatever else the machine has.
constexpr const char* families = "Lato, DejaVu Sans, Noto Sans, sans-serif";

double points(int pango_units) {
    return static_cast<double>(pango_units) / PANGO_SCALE;
}

bool is_figure(char c) {
    return c >= '0' && c <= '9';
}

// Where a number and the word after it (its unit) begin and end.
struct TextSpan {
    std::size_t from = 0, to = 0;
};
std::vector<TextSpan> held_together(const std::string& text) {
    std::vector<TextSpan> held;
    for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at + 1)) {
        if (at == 0 || !is_figure(text[at - 1]) || at + 1 == text.size() || is_figure(text[at + 1])) continue;
        const std::size_t before = text.rfind(' ', at - 1);
        held.push_back(
            {before == std::string::npos ? 0 : before + 1, std::min(text.find(' ', at + 1), text.size())});
    }
    return held;
}

void hold_together(PangoLayout* layout, const std::string& text) {
    PangoAttrList* list = pango_attr_list_new();
    for (const TextSpan& held : held_together(text)) {
        PangoAttribute* unbroken = pango_attr_allow_breaks_new(FALSE);
        unbroken->start_index = static_cast<guint>(held.from);
        unbroken->end_index = static_cast<guint>(held.to);
        pango_attr_list_insert(list, unbroken);
    }
    pango_layout_set_attributes(layout, list);
    pango_attr_list_unref(list);
}

Ink ink_of(const std::shared_ptr<PangoLayout>& layout, PangoLayoutLine* line, double x, double baseline) {
    // The line belongs to the layout: holding the layout keeps it alive.
    return [layout, line, x, baseline](cairo_t* cr) {
        set_ink(cr);
        cairo_move_to(cr, x, baseline);
        pango_cairo_show_layout_line(cr, line);
    };
}

}  // namespace

void set_ink(cairo_t* cr) {
    cairo_set_source_rgb(cr, 0.08, 0.08, 0.1);
}

Lettering::Lettering() {
    PangoFontMap* fonts = pango_cairo_font_map_get_default();
    context_.reset(pango_font_map_create_context(fonts), g_object_unref);
    // No hinting: the same widths on screen, on paper and in a PDF.
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context_.get(), options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(context_.get(), 0);
}

std::shared_ptr<PangoLayout> Lettering::set(const std::string& text, const Style& style) const {
    std::shared_ptr<PangoLayout> layout(pango_layout_new(context_.get()), g_object_unref);
    PangoFontDescription* font = pango_font_description_new();
    pango_font_description_set_family_static(font, families);
    pango_font_description_set_absolute_size(font, style.size_pt * PANGO_SCALE);
    pango_font_description_set_weight(font, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(layout.get(), font);
    pango_font_description_free(font);
    pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
    pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
    pango_layout_set_alignment(layout.get(), style.set == Set::right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT);
    return layout;
}

std::vector<Line> Lettering::lines(const std::string& text, const Style& style, double width) {
    const std::shared_ptr<PangoLayout> layout = set(text, style);
    hold_together(layout.get(), text);
    pango_layout_set_width(layout.get(), static_cast<int>(std::floor(width * PANGO_SCALE)));
    missing_ += pango_layout_get_unknown_glyphs_count(layout.get());
    std::vector<Line> lines;
    PangoLayoutIter* at = pango_layout_get_iter(layout.get());
    do {
        PangoRectangle logical{};
        pango_layout_iter_get_line_extents(at, nullptr, &logical);
        const double x = points(logical.x);
        const double baseline = points(pango_layout_iter_get_baseline(at) - logical.y);
        lines.push_back({x + points(logical.width), points(logical.height),
                         ink_of(layout, pango_layout_iter_get_line_readonly(at), x, baseline)});
    } while (pango_layout_iter_next_line(at) != 0);
    pango_layout_iter_free(at);
    return lines;
}

double Lettering::least_width(const std::string& text, const Style& style) {
    double widest = 0.0;
    const auto held = held_together(text);
    for (std::size_t from = 0; from < text.size();) {
        std::size_t to = std::min(text.find(' ', from), text.size());
        for (const TextSpan& one : held)
            if (one.from <= from && to < one.to) to = one.to;
        widest = std::max(widest, natural_width(text.substr(from, to - from), style));
        from = to + 1;
    }
    return widest;
}

double Lettering::natural_width(const std::string& text, const Style& style) {
    const std::shared_ptr<PangoLayout> layout = set(text, style);
    int width = 0;
    pango_layout_get_size(layout.get(), &width, nullptr);
    return points(width + 1);  // lines() rounds it down
}

}  // namespace battwright::card
