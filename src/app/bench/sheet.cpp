#include "app/bench/sheet.hpp"

#include <algorithm>

namespace battwright::app {
namespace {

bool same(const measure::Mass& a, const measure::Mass& b) {
    return a.grams == b.grams && a.unit == b.unit;
}

bool same(const measure::Length& a, const measure::Length& b) {
    return a.millimetres == b.millimetres && a.unit == b.unit;
}

bool same(const recipe::Carder& a, const recipe::Carder& b) {
    return a.id == b.id && a.name == b.name && a.drum_circumference_mm == b.drum_circumference_mm &&
           a.width_mm == b.width_mm && a.teeth_per_square_inch == b.teeth_per_square_inch &&
           a.load_low_grams == b.load_low_grams && a.load_high_grams == b.load_high_grams &&
           a.licker_in_ratio == b.licker_in_ratio;
}

template <class T>
bool same(const std::optional<T>& a, const std::optional<T>& b) {
    return a.has_value() == b.has_value() && (!a || same(*a, *b));
}

bool same(const recipe::Amount& a, const recipe::Amount& b) {
    if (a.index() != b.index()) return false;
    if (const auto* mass = std::get_if<measure::Mass>(&a)) return same(*mass, std::get<measure::Mass>(b));
    if (const auto* pct = std::get_if<recipe::Percent>(&a))
        return pct->value == std::get<recipe::Percent>(b).value;
    return std::get<recipe::Parts>(a).value == std::get<recipe::Parts>(b).value;
}

bool same(const recipe::Carding& a, const recipe::Carding& b) {
    return a.carder == b.carder && same(a.own, b.own) && a.passes == b.passes && a.strips == b.strips &&
           a.feed == b.feed && a.refeed == b.refeed;
}

bool same(const recipe::Spinning& a, const recipe::Spinning& b) {
    return a.preparation == b.preparation && a.plies == b.plies && a.thickness.in == b.thickness.in &&
           a.thickness.value == b.thickness.value && a.thickness.class_name == b.thickness.class_name &&
           a.plying == b.plying && a.twist == b.twist && a.thread == b.thread &&
           a.wheel_ratio == b.wheel_ratio;
}

}  // namespace

Sheet sheet_of(recipe::Recipe recipe) {
    Sheet sheet{std::move(recipe), {}};
    for (std::size_t i = 0; i < sheet.recipe.components.size(); ++i) sheet.marks.push_back({i + 1, false});
    return sheet;
}

std::uint64_t fresh_uid(const Sheet& sheet) {
    std::uint64_t highest = 0;
    for (const Mark& mark : sheet.marks) highest = std::max(highest, mark.uid);
    return highest + 1;
}

std::size_t index_of(const Sheet& sheet, std::uint64_t uid) {
    const auto found = std::find_if(sheet.marks.begin(), sheet.marks.end(),
                                    [uid](const Mark& mark) { return mark.uid == uid; });
    return static_cast<std::size_t>(found - sheet.marks.begin());
}

bool same(const recipe::Component& a, const recipe::Component& b) {
    const auto same_content = [](const recipe::Content& x, const recipe::Content& y) {
        return x.fibre == y.fibre && x.share_pct == y.share_pct;
    };
    const auto same_tint = [](const recipe::Tint& x, const recipe::Tint& y) {
        return x.colour == y.colour && x.share_pct == y.share_pct;
    };
    return a.name == b.name && a.lot == b.lot && a.notes == b.notes && a.add_on_pass == b.add_on_pass &&
           a.diameter_um == b.diameter_um && a.price == b.price && same(a.staple, b.staple) &&
           same(a.amount, b.amount) &&
           std::equal(a.content.begin(), a.content.end(), b.content.begin(), b.content.end(), same_content) &&
           std::equal(a.palette.begin(), a.palette.end(), b.palette.begin(), b.palette.end(), same_tint);
}

bool same(const recipe::Recipe& a, const recipe::Recipe& b) {
    return a.name == b.name && a.notes == b.notes && same(a.total, b.total) && same(a.carding, b.carding) &&
           same(a.spinning, b.spinning) && a.carding_written == b.carding_written &&
           a.spinning_written == b.spinning_written &&
           std::equal(a.components.begin(), a.components.end(), b.components.begin(), b.components.end(),
                      [](const auto& x, const auto& y) { return app::same(x, y); });
}

bool same(const Sheet& a, const Sheet& b) {
    return same(a.recipe, b.recipe) &&
           std::equal(a.marks.begin(), a.marks.end(), b.marks.begin(), b.marks.end(),
                      [](const Mark& x, const Mark& y) { return x.uid == y.uid && x.locked == y.locked; });
}

}  // namespace battwright::app
