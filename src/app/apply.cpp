// What every action does.
#include <utility>

#include "app/shelf/lot_edits.hpp"
#include "app/shelf/shelf_weigh_out.hpp"
#include "app/state.hpp"
#include "recipe/file.hpp"
#include "shelving/lots.hpp"
#include "strip/simulated.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;

// One overload an action.
struct Applier final : Action::Visitor {
    State& state;
    Effects& effects;

    Applier(State& s, Effects& e) : state(s), effects(e) {}

    // The recipe on the bench.
    void operator()(const Edit& edit) const override {
        state.document.change(edit.sheet, edit.what, edit.gesture);
    }
    void operator()(const Disagree& disagree) const override { state.disagreement = disagree; }
    void operator()(const AnswerDisagreement& answer) const override {
        const auto asked = std::exchange(state.disagreement, std::nullopt);
        if (!asked || !answer.way || *answer.way >= asked->disagreement.ways.size()) return;
        state.document.change(asked->disagreement.ways[*answer.way].sheet, asked->what);
    }
    void operator()(const Undo&) const override { state.document.undo(); }
    void operator()(const Redo&) const override { state.document.redo(); }
    void operator()(const NewBatt& action) const override { do_or_ask(action); }
    void operator()(const StartExample& action) const override { do_or_ask(action); }
    void operator()(const OpenRecipe& action) const override {
        // Reading that takes its time; then it is asked about.
        if (looks_like_photo(action.path.string()))
            effects.card_photo = action.path;
        else
            do_or_ask(action);
    }
    void operator()(const OpenCard& action) const override { do_or_ask(action); }
    void operator()(const Leave& action) const override { do_or_ask(action); }

    void operator()(const Save&) const override {
        if (!state.document.path())
            effects.ask_for_file = true;
        else if (state.document.would_lose_comments())
            state.comment_question = state.document.path();
        else
            save_to(fs::path(*state.document.path()));
    }
    void operator()(const SaveAs& save) const override { save_to(save.path); }

    // Answers.
    void operator()(const AnswerUnsaved& answer) const override {
        const Pending pending = std::exchange(state.unsaved_question, {});
        if (answer.choice == AnswerUnsaved::Choice::save) {
            state.after_save = pending;
            (*this)(Save{});
        } else if (answer.choice == AnswerUnsaved::Choice::let_go) {
            go_on(pending);
        }
    }
    void operator()(const AnswerComments& answer) const override {
        const auto path = std::exchange(state.comment_question, std::nullopt);
        if (answer.choice == AnswerComments::Choice::elsewhere)
            effects.ask_for_file = true;
        else if (answer.choice == AnswerComments::Choice::drop && path)
            save_to(*path);
        else
            state.after_save = {};
    }
    void operator()(const AnswerTheirs& answer) const override {
        using enum AnswerTheirs::Choice;
        const auto path = std::exchange(state.theirs_question, std::nullopt);
        if (answer.choice == elsewhere) {
            effects.ask_for_file = true;
            return;
        }
        if (answer.choice == keep_mine && path) {
            // Somebody may have saved once more while the question stood.
            if (!measure::is_still(*path, state.theirs).value_or(false)) return ask_about_theirs(*path);
            return write_to(*path);
        }
        // What was to come after the save would take mine off the bench, where undo still has it.
        state.after_save = {};
        if (answer.choice == take_theirs) read_theirs();
    }
    void operator()(const AnswerRecovery& answer) const override {
        if (state.left_behind.empty()) return;
        const LeftBehind left = state.left_behind.front();
        state.left_behind.erase(state.left_behind.begin());
        if (answer.choice == AnswerRecovery::Choice::later) return;
        if (answer.choice == AnswerRecovery::Choice::bring_back) {
            auto recipe = recipe::read_text(left.text, left.file.string(), *state.catalogue);
            if (!recipe) {
                state.messages.push_back(recipe.error());
                return;  // the copy stays where it is
            }
            put(Document::recovered(std::move(*recipe), left.original, left.seen));
            if (state.recovery) state.recovery->touched(Recovery::Clock::now());
        }
        Recovery::discard(left);
    }

    // Variants.
    void operator()(const KeepVariant&) const override {
        if (!state.outcome().forecast || state.variants.size() >= most_variants) return;
        const Sheet& sheet = state.document.sheet();
        const std::string name = sheet.recipe.name.empty() ? "Variant" : sheet.recipe.name;
        state.variants.push_back({++state.variants_kept,
                                  name + " " + std::to_string(state.variants.size() + 1), sheet,
                                  state.outcome()});
    }
    void operator()(const TakeVariant& take) const override {
        if (take.index < state.variants.size())
            state.document.change(state.variants[take.index].sheet, "go back to a variant");
    }
    void operator()(const DropVariant& drop) const override {
        if (drop.index < state.variants.size())
            state.variants.erase(state.variants.begin() + static_cast<std::ptrdiff_t>(drop.index));
    }

    // What is shown, and how.
    void operator()(const WeighYarn& weigh) const override { state.yarn_grams = weigh.grams; }
    void operator()(const LookAt& action) const override { state.look = action.look; }
    void operator()(const ChangeCanvas& change) const override { state.canvas = change.canvas; }
    void operator()(const ChangeSettings& change) const override {
        if (state.stash.is_open() && change.settings.currency != state.settings.currency)
            complain(state.stash.perform({SetCurrency{change.settings.currency}, 0}));
        state.settings = change.settings;
        keep_settings();
    }
    void operator()(const Complain& action) const override { state.messages.push_back(action.complaint); }
    void operator()(const Dismiss& dismiss) const override {
        if (dismiss.message < state.messages.size())
            state.messages.erase(state.messages.begin() + static_cast<std::ptrdiff_t>(dismiss.message));
    }

    // The shelf.
    void operator()(const AskStash& ask) const override {
        for (auto& complaint : state.stash.carry_out(ask.requests))
            state.messages.push_back(std::move(complaint));
    }
    void operator()(const ChooseShelf& choose) const override { state.stash.choose(choose.choice); }
    void operator()(const TakeFromShelf& take) const override {
        const auto& forecast = state.outcome().forecast;
        if (!forecast) return;
        const auto lines = weigh_lines(*forecast, state.stash.shelf());
        complain(state.stash.perform({CardIt{carding_of(*forecast, lines, take.words)}, take.from}));
    }
    void operator()(const WatchLot& watch) const override { state.stash.watch(watch.mark); }
    void operator()(const LotToBench& lot) const override {
        const stash::Shelved* shelved = state.stash.find(lot.mark);
        if (shelved == nullptr) return;
        const Sheet& sheet = state.document.sheet();
        const double scrap_grams = state.stash.choice().filter.scrap_grams;
        const measure::Mass weight = lot.weight.value_or(
            measure::Mass{suggested_grams(sheet, *shelved, scrap_grams), measure::MassUnit::gram});
        auto changed = put_on_bench(sheet, *shelved, weight, state.stash.movements_of(lot.mark),
                                    state.settings.currency, *state.catalogue);
        const char* what = "take a lot from the shelf";
        if (!changed)
            state.messages.push_back(changed.error());
        else if (changed->disagreement)
            state.disagreement = Disagree{*changed->disagreement, what};
        else
            state.document.change(changed->sheet, what);
    }

    // Files.
    void operator()(const BrowseFiles& browse) const override {
        const auto& visited = state.settings.folders;
        state.files.open(browse.ask, visited.empty() ? recipe_folder(state) : visited.front());
    }
    void operator()(const LeaveFiles&) const override { state.files.leave(); }
    void operator()(const OrderFiles& order) const override { state.files.order_by(order.order); }
    void operator()(const LookAtFiles& seen) const override { state.files.look_at(seen.first, seen.end); }
    void operator()(const GiveFile& give) const override {
        state.files.give(give.who, give.path);
        if (give.who == recipe_asks) (*this)(OpenRecipe{give.path});
    }
    void operator()(const EnterFolder& enter) const override { state.files.enter(enter.folder); }
    void operator()(const NameFile& name) const override { state.files.name_it(name.name); }
    void operator()(const FinishFile&) const override {
        const auto path = state.files.finish();
        if (!path) return;
        const FileRequest& ask = state.files.ask();
        visit(state.settings, ask.purpose == FilePurpose::folder ? *path : path->parent_path());
        keep_settings();
        if (ask.who != recipe_asks) return;
        if (ask.purpose == FilePurpose::save)
            save_to(*path);
        else
            (*this)(OpenRecipe{*path});
    }

    // The record.
    void operator()(const LookUp& ask) const override { state.record.lookup = ask.lookup; }
    void operator()(const ShowReport& show) const override { state.record.report = show.report; }
    void operator()(const ChangeRecordFiles& change) const override {
        auto& files = state.record.files;
        files.start_afresh();
        files.folder = change.folder;
        files.table_path = change.table_path;
        files.backup_path = change.backup_path;
        files.restore_path = change.restore_path;
    }
    void operator()(const WriteTables&) const override { state.record.write_tables(state.stash); }
    void operator()(const ReadTable&) const override {
        state.record.read_table(state.stash, *state.catalogue);
    }
    void operator()(const ForgetTable&) const override { state.record.files.read.reset(); }
    void operator()(const CheckStash&) const override { state.record.check(state.stash); }
    void operator()(const BackUp& backup) const override {
        if (state.record.may_back_up())
            complain(state.stash.perform({BackupTo{state.record.files.backup_path}, backup.from}));
    }
    void operator()(const Restore& restore) const override {
        if (state.record.may_restore())
            complain(state.stash.perform({RestoreFrom{state.record.files.restore_path}, restore.from}));
    }

    // Cards and blends.
    void operator()(const ChangeCard& change) const override { state.card.change(change.draft); }
    void operator()(const WriteCard&) const override { state.card.write(card_subject(state)); }
    void operator()(const WriteAllCards&) const override { state.card.write_folder(card_subject(state)); }
    void operator()(const ChangeTable& change) const override { state.table.change(change.choice); }
    void operator()(const SaveTable&) const override { state.table.save(table_subject(state)); }
    void operator()(const ChangeFind& change) const override { state.find.choice = change.choice; }
    void operator()(const StopFind&) const override { state.find.stop(); }
    void operator()(const FindAgain&) const override { state.find.look_again(); }

  private:
    void complain(const std::optional<measure::Complaint>& complaint) const {
        if (complaint) state.messages.push_back(*complaint);
    }
    void keep_settings() const {
        if (state.config_folder.empty()) return;
        if (auto saved = save_settings(state.settings, state.config_folder); !saved)
            state.messages.push_back(saved.error());
    }

    // A new document on the bench.
    void put(Document document) const {
        state.document = std::move(document);
        state.disagreement.reset();
        state.look.passes.reset();
        const bool laying = state.canvas.open;
        state.canvas = Canvas{};
        state.canvas.open = laying;
        state.yarn_grams.reset();
        effects.new_document = true;
        if (state.recovery) state.recovery->clear();
    }

    void do_or_ask(const Pending& pending) const {
        if (state.document.unsaved())
            state.unsaved_question = pending;
        else
            go_on(pending);
    }
    void go_on(const Pending& pending) const {
        if (std::holds_alternative<NewBatt>(pending)) put(Document());
        if (std::holds_alternative<StartExample>(pending)) start_example();
        if (const auto* open = std::get_if<OpenRecipe>(&pending)) open_recipe(open->path);
        if (const auto* card = std::get_if<OpenCard>(&pending)) open_card(*card);
        if (std::holds_alternative<Leave>(pending)) leave();
    }
    void leave() const {
        if (state.recovery) state.recovery->clear();
        state.leave = true;
    }
    void start_example() const {
        auto recipe = recipe::read_text(example_text(), "the example", *state.catalogue);
        if (recipe)
            put(Document(std::move(*recipe)));
        else
            state.messages.push_back(recipe.error());
    }
    void open_card(const OpenCard& card) const {
        auto recipe =
            recipe::read_text(card.recipe, "the code on " + card.photo.filename().string(), *state.catalogue);
        if (recipe)
            put(Document::recovered(std::move(*recipe), std::nullopt));
        else
            state.messages.push_back(recipe.error());
    }
    // A recipe may be opened before the shelf was looked at.
    recipe::LotOf lots() const {
        if (auto trouble = state.stash.refresh()) state.messages.push_back(std::move(*trouble));
        return shelving::lots_of(state.stash.shelf_kept());
    }
    void open_recipe(const fs::path& path) const {
        auto opened = Document::open(path, *state.catalogue, lots());
        if (!opened) {
            state.messages.push_back(opened.error());
            return;
        }
        put(std::move(*opened));
        remember(state.settings, path);
        keep_settings();
    }

    void save_to(const fs::path& path) const {
        if (state.document.would_lose_theirs(path))
            ask_about_theirs(path);
        else
            write_to(path);
    }
    void ask_about_theirs(const fs::path& path) const {
        state.theirs_question = path;
        state.theirs = measure::look_at(path).value_or(measure::Seen{});
    }
    void read_theirs() const {
        if (auto taken = state.document.take_theirs(*state.catalogue, lots()); !taken)
            state.messages.push_back(taken.error());
    }
    void write_to(const fs::path& path) const {
        if (auto saved = state.document.save(path, *state.catalogue); !saved) {
            state.messages.push_back(saved.error());
            state.after_save = {};
            return;
        }
        if (state.recovery) state.recovery->clear();
        remember(state.settings, *state.document.path());
        keep_settings();
        go_on(std::exchange(state.after_save, {}));
    }
};

}  // namespace

Effects apply(State& state, const Action& action) {
    Effects effects;
    action.visit(Applier(state, effects));
    return effects;
}

}  // namespace battwright::app
