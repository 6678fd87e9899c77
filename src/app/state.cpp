#include "app/state.hpp"

#include <algorithm>
#include <utility>

#include "app/yarn/yarn_words.hpp"
#include "recipe/file.hpp"
#include "recipe/file_name.hpp"
#include "shelving/photo.hpp"
#include "strip/simulated.hpp"
#include "text/words.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;

// Hands the worker what is to be seen now, and takes what it has made.
void follow_worker(State& state) {
    const Outcome& outcome = state.outcome();
    if (!outcome.forecast || !state.worker) {
        state.carded = {};
        return;
    }
    const Look& look = state.look;
    CardingRequest request{outcome.forecast,
                           outcome.version,
                           pass_shown(outcome.forecast->recipe, look),
                           look.view,
                           look.pull,
                           {look.from, look.zoom},
                           {}};
    request.canvas.width = look.strip_width;
    request.canvas.height = look.strip_height;
    request.canvas.ground = look.ground;
    request.canvas.unit = state.settings.length;
    request.canvas.mass = state.settings.mass;
    request.canvas.threads = 1;
    if (state.canvas.open) {
        request.pass = std::max(1, outcome.forecast->recipe.carding.passes);
        request.all_passes = true;
    }
    if (!request.same_as(state.asked)) {
        state.asked = request;
        state.worker->ask(std::move(request));
    }
    auto made = state.worker->state();
    state.carded = {std::move(made.latest), !made.busy};
}

void follow_canvas(State& state) {
    if (!state.canvas.open) return;
    state.listed.of(state.document.version(), [&](unsigned long, Listed& listed) {
        listed.sheet = as_list(state.document.sheet(), *state.catalogue);
        listed.tiles = tiles_of(listed.sheet);
    });
    const Outcome& outcome = state.outcome();
    if (!outcome.forecast) return;
    const int passes = std::max(1, outcome.forecast->recipe.carding.passes);
    state.laid.of({outcome.version, std::clamp(state.canvas.brush.pass, 1, passes), state.canvas.hidden},
                  [&](const LaidInputs& inputs, LaidPicture& picture) {
                      picture = laid_picture(*outcome.forecast, inputs.pass, inputs.hidden);
                  });
}

}  // namespace

void follow(State& state) {
    state.files.follow();
    state.stash.speak_in({state.settings.mass, yarn_length_unit(state.settings)});
    if (auto trouble = state.stash.refresh()) state.messages.push_back(std::move(*trouble));
    if (state.settings.currency.empty()) state.settings.currency = state.stash.currency();
    // A lock is for edits to come and changes nothing about the batt.
    OutcomeInputs inputs{state.document.sheet().recipe, state.look.light, state.stash.calibration(),
                         state.stash.hands().hands,     state.yarn_grams, state.stash.shelf_kept()};
    for (recipe::Component& component : inputs.recipe.components) component.locked = false;
    state.outcomes.of(std::move(inputs), [&](const OutcomeInputs& from, Outcome& outcome) {
        update(outcome, from, *state.catalogue);
    });
    follow_canvas(state);
    follow_worker(state);
}

void follow_variants(State& state) {
    std::vector<unsigned long> numbers;
    for (const Variant& variant : state.variants) numbers.push_back(variant.number);
    state.variant_scenes.of(numbers, [&](const std::vector<unsigned long>& kept, VariantScenes& scenes) {
        std::erase_if(scenes, [&](const auto& one) { return std::ranges::count(kept, one.first) == 0; });
        for (const Variant& variant : state.variants)
            if (variant.outcome.forecast && !scenes.contains(variant.number))
                scenes.emplace(variant.number, strip::carded_scene(*variant.outcome.forecast,
                                                                   variant.sheet.recipe.carding.passes));
    });
}

bool a_question_stands(const State& state) {
    return !state.left_behind.empty() || state.comment_question || state.theirs_question ||
           waits(state.unsaved_question);
}

void keep_copy(State& state) {
    if (!state.recovery) return;
    if (!state.document.unsaved()) return state.recovery->clear();
    const Document& document = state.document;
    if (auto kept = state.recovery->write(recipe::write_text(document.sheet().recipe), document.path(),
                                          document.seen());
        !kept)
        state.messages.push_back(kept.error());
}

forecast::Bench surroundings(const State& state) {
    forecast::Bench around;
    around.catalogue = state.catalogue;
    around.light = state.look.light;
    around.calibration = state.stash.calibration();
    shelving::lay_on(state.stash.hands().hands, around);
    around.yarn_grams = state.yarn_grams;
    return around;
}

CardSubject card_subject(const State& state) {
    const Outcome& outcome = state.outcome();
    return {outcome.forecast, outcome.version, surroundings(state),
            recipe::file_stem(suggested_file_name(state.document)), outcome.complaint.has_value()};
}

PlansSubject plans_subject(const State& state) {
    return {state.outcome().forecast, state.outcome().version, surroundings(state)};
}

TableSubject table_subject(const State& state) {
    const auto& carded = state.carded.carded;
    TableSubject subject{state.outcome().forecast, nullptr, state.look, state.settings.winder,
                         recipe::file_stem(suggested_file_name(state.document))};
    // A batt of an earlier forecast does not go with this one.
    if (carded && carded->version == state.outcome().version) subject.batt = carded->batt;
    return subject;
}

fs::path recipe_folder(const State& state) {
    const auto& path = state.document.path();
    return path ? fs::absolute(*path).parent_path() : home_folder();
}

std::string suggested_file_name(const Document& document) {
    if (document.path()) return document.path()->filename().string();
    return text::file_stem(document.sheet().recipe.name, "new-batt") + recipe::file_ending;
}

const char* example_text() {
    return R"(format = 1
name = "Slack Water"
total = "60 g"

[[component]]
fibre = "corriedale"
colour = "#35586b"
share = "50 %"

[[component]]
fibre = "tussah-silk"
colours = [ { colour = "#c39a4a", share = "60 %" }, { colour = "#e4d3a2", share = "40 %" } ]
share = "20 %"

[[component]]
fibre = "polwarth"
colour = "#7fa39a"
parts = 1
)";
}

}  // namespace battwright::app
