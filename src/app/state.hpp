// Everything the window knows that is not drawing. Views read it and ask for actions; apply() alone changes
// it.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "app/action.hpp"
#include "app/bench/bench_actions.hpp"
#include "app/bench/carding_worker.hpp"
#include "app/bench/document.hpp"
#include "app/bench/outcome.hpp"
#include "app/bench/recovery.hpp"
#include "app/bench/variant.hpp"
#include "app/browse/browser.hpp"
#include "app/card/card_session.hpp"
#include "app/derived.hpp"
#include "app/find/find_session.hpp"
#include "app/lay/canvas.hpp"
#include "app/look.hpp"
#include "app/plans/plans_session.hpp"
#include "app/record/record_session.hpp"
#include "app/settings.hpp"
#include "app/shelf/stash_session.hpp"
#include "app/table/table_session.hpp"

namespace battwright::app {

// Of the variants, by their numbers.
using VariantScenes = std::map<unsigned long, strip::Scene>;

// What waits for an answer before it goes on.
using Pending = std::variant<std::monostate, NewBatt, StartExample, OpenRecipe, OpenCard, Leave>;
inline bool waits(const Pending& pending) {
    return !std::holds_alternative<std::monostate>(pending);
}

// What the picture of the strokes is made of.
struct LaidInputs {
    unsigned long version = 0;  // of the outcome
    int pass = 1;
    std::vector<recipe::Laying> hidden;
    bool operator==(const LaidInputs&) const = default;
};

struct State {
    const fibre::Catalogue* catalogue = nullptr;
    std::filesystem::path config_folder;  // empty: settings are not kept
    Settings settings;
    Document document;
    Look look;
    Canvas canvas;
    std::optional<double> yarn_grams;  // finished yarn, when that was weighed and not the fibre
    StashSession stash;
    RecordSession record;
    FindSession find;
    CardSession card;
    TableSession table;
    PlansSession plans;
    FileBrowser files;
    std::vector<Variant> variants;
    unsigned long variants_kept = 0;
    std::vector<measure::Complaint> messages;  // until they are dismissed
    std::unique_ptr<Recovery> recovery;
    std::unique_ptr<CardingWorker> worker;  // none: nothing is carded

    // Five questions, each asked while it stands.
    std::vector<LeftBehind> left_behind;  // unsaved work of an earlier run; the first is offered
    std::optional<std::filesystem::path> comment_question;  // saving there would drop comments
    // Saving there would go over what another window or program has written since it was read.
    std::optional<std::filesystem::path> theirs_question;
    measure::Seen theirs;  // what was there when that was asked: "keep mine" is said of this and no other
    Pending unsaved_question;
    std::optional<Disagree> disagreement;  // what an edit could not do
    Pending after_save;                    // goes on once the recipe is saved
    bool leave = false;

    // Made of the above by follow().
    Derived<OutcomeInputs, Outcome> outcomes;
    const Outcome& outcome() const { return outcomes.value(); }
    // Only while the variants are on show: each one's strip, by their numbers.
    Derived<std::vector<unsigned long>, VariantScenes> variant_scenes;
    // Only while the canvas is open.
    Derived<unsigned long, Listed> listed;  // by the document's version
    Derived<LaidInputs, LaidPicture> laid;
    CardingRequest asked;  // of the worker, last
    CardedShown carded;
};

// One of the four waits for its answer.
bool a_question_stands(const State& state);

// What the window itself has to do once an action is applied.
struct Effects {
    bool new_document = false;  // what was half typed or dragged belonged to another recipe
    std::optional<std::filesystem::path> card_photo;  // the recipe on it is to be read
    bool ask_for_file = false;                        // the panel that saves under a name is to open
};
Effects apply(State& state, const Action& action);

// Once a frame, before anything is drawn: the stash is read anew when it has changed, and all that is made of
// the sheet is brought up to date.
void follow(State& state);
// The same of the variants' strips, which are simulated: each frame they are on show.
void follow_variants(State& state);

// Writes the copy of unsaved work now, due or not; when all is in its file there is no copy any more.
void keep_copy(State& state);

// What surrounds the recipe on the bench, for a forecast.
forecast::Bench surroundings(const State& state);
// What there is to print.
CardSubject card_subject(const State& state);
// What a sample and a series are made of.
PlansSubject plans_subject(const State& state);
// What lies on the table.
TableSubject table_subject(const State& state);
// Where the recipe lives; the person's own folder when it has no file.
std::filesystem::path recipe_folder(const State& state);
// A file name for the recipe, made of its name when it has no file yet: "slack-water.toml".
std::string suggested_file_name(const Document& document);

// The recipe of "start from an example".
const char* example_text();

}  // namespace battwright::app
