#include "window/shell/letters_wanted.hpp"

#include "app/state.hpp"

#include <algorithm>

namespace battwright::window {
namespace {

void want_recipe(Letters& letters, const recipe::Recipe& recipe) {
    for (const std::string* text : {&recipe.name, &recipe.notes}) letters.want(*text);
    for (const recipe::Component& component : recipe.components)
        for (const std::string* text : {&component.name, &component.notes}) letters.want(*text);
    if (recipe.carding.own) letters.want(recipe.carding.own->name);
    for (const recipe::SmallBlend& blend : recipe.carding.blends) letters.want(blend.name);
}

void want_shelf(Letters& letters, const stash::Shelf& shelf) {
    for (const auto& shelved : shelf.lots) {
        const stash::Lot& lot = shelved->lot;
        for (const std::string* text : {&lot.name, &lot.maker, &lot.place, &lot.notes, &lot.photo})
            letters.want(*text);
    }
}

void want_record(Letters& letters, const RecordBook& book) {
    for (const stash::Batt& batt : book.batts)
        for (const std::string* text : {&batt.carding.name, &batt.carding.notes}) letters.want(*text);
    for (const stash::Skein& skein : book.skeins)
        for (const std::string* text : {&skein.name, &skein.note, &skein.became}) letters.want(*text);
    for (const stash::Allocation& allocation : book.allocations) letters.want(allocation.project);
}

}  // namespace

void want_letters(Shell& shell) {
    const State& app = shell.app;
    Letters& letters = shell.letters.letters;
    want_recipe(letters, app.document.sheet().recipe);
    for (const auto& variant : app.variants) letters.want(variant.name);
    for (const auto& left : app.left_behind) letters.want(left.text);
    for (const auto& message : app.messages) letters.want(measure::to_line(message));
    for (const std::string* text : {&shell.typing.text, &shell.typing.refused.text, &shell.record.form.name,
                                    &shell.record.form.note, &shell.record.form.became})
        letters.want(*text);
    if (shell.letters.stash != app.stash.version()) {
        shell.letters.stash = app.stash.version();
        want_shelf(letters, app.stash.shelf());
    }
    const auto& open = shell.panel_open;
    if (std::none_of(open.begin(), open.end(), [](bool one) { return one; })) return;
    want_record(letters, app.record.book());
    letters.want(app.files.folder().string());
    if (const app::Listing* listing = app.files.listing())
        for (const auto& entry : listing->entries) letters.want(entry.name);
}

}  // namespace battwright::window
