#include "window/shell/window.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <utility>

#include "app/bench/bench_actions.hpp"
#include "app/end_signals.hpp"
#include "app/settings.hpp"
#include "app/state.hpp"
#include "fibre/catalogue.hpp"
#include "window/gl/backend.hpp"
#include "window/kit/fonts.hpp"
#include "window/shell/commands.hpp"
#include "window/shell/letters_wanted.hpp"
#include "window/shell/shell.hpp"

namespace battwright::window {
namespace {

using Clock = std::chrono::steady_clock;

// ImGui needs a few frames after an event until nothing moves any more.
constexpr int frames_to_settle = 3;
// How often a window at rest looks whether another program has changed the stash.
constexpr double look_seconds = 2.0;

int fail(const measure::Complaint& complaint) {
    std::fprintf(stderr, "%s\n", measure::to_line(complaint).c_str());
    return 2;
}

void set_up(Shell& shell, const Options& options) {
    State& app = shell.app;
    app.catalogue = options.catalogue != nullptr ? options.catalogue : &fibre::Catalogue::builtin();
    const bool for_show = options.screenshot.has_value();
    if (!for_show) app.config_folder = options.config_folder.value_or(default_config_folder());
    if (!for_show) app.settings = load_settings(app.config_folder);
    if (options.shade) app.settings.shade = *options.shade;
    const auto state_folder =
        for_show ? std::filesystem::path() : options.state_folder.value_or(default_state_folder());
    if (!for_show) app.left_behind = Recovery::left_behind(state_folder);
    app.recovery = std::make_unique<Recovery>(state_folder);
    auto stash_path = options.stash;
    if (!stash_path && !for_show && !options.driver) stash_path = stash::default_path();
    if (stash_path) app.stash = StashSession(*stash_path, app.catalogue);
    app.worker = std::make_unique<CardingWorker>(Backend::wake);
    shell.photos = std::make_unique<PhotoLoader>(Backend::wake);
    shell.palettes = std::make_unique<PaletteReader>(Backend::wake);
    shell.card_photos = std::make_unique<CardReader>(Backend::wake);
    shell.batt_photos = std::make_unique<BattPhotoReader>(Backend::wake);
    app.files.use(*app.catalogue, Backend::wake);
    if (options.recipe) act(shell, OpenRecipe{*options.recipe});
    const bool first_time = !for_show && !app.settings.guide_seen && app.left_behind.empty();
    if (first_time) open_panel(shell, Command::guide);
}

// Fonts and style for one size and theme, made anew when either changes.
struct AppliedStyle {
    float unit = 0.0f;
    std::optional<Shade> shade;
    Fonts fonts;
    std::size_t letters = 0;  // that the fonts were loaded with

    void apply(Backend& backend, float wanted_unit, Shade wanted_shade, const Letters& wanted) {
        const bool resized = std::abs(wanted_unit - unit) > 0.005f;
        if (resized || wanted.wanted().size() != letters) {
            fonts = load_fonts(wanted_unit, wanted);
            letters = wanted.wanted().size();
            backend.renew_fonts();
            unit = wanted_unit;
        }
        if (resized || shade != wanted_shade) apply_style(theme_for(wanted_shade), unit);
        shade = wanted_shade;
    }
};

std::string title_of(const Document& document) {
    const std::string& name = document.sheet().recipe.name;
    return (document.unsaved() ? "\u2022 " : "") + (name.empty() ? std::string("Untitled batt") : name) +
           " \u2014 Battwright";
}

class Session {
  public:
    Session(Backend& backend, const EndSignals& signals, const Options& options)
        : backend_(backend), signals_(signals), options_(options) {
        probe_.wanted = static_cast<bool>(options.driver);
        set_up(shell_, options);
        if (options.screenshot) input_.point(-1.0f, -1.0f);  // nothing is pointed at
    }

    int run() {
        while (!shell_.app.leave) {
            const bool work = wait_for_work();
            if (signals_.asked()) {
                // Nobody may be there to answer a question: the next start asks it.
                app::keep_copy(shell_.app);
                return 0;
            }
            if (!work) continue;
            if (auto drawn = frame(); !drawn) return fail(drawn.error());
            if (pictured_) return 0;
            if (options_.driver && Clock::now() >= rest_until_) drive();
            if (input_.quit) return 0;
        }
        return 0;
    }

  private:
    bool resting() const { return Clock::now() < rest_until_; }

    // Sleeps while nothing happens. False when it was only the recovery copy that was due.
    bool wait_for_work() {
        keep_copy();
        const bool driven = options_.screenshot || (options_.driver && !resting());
        if (waits_for_carding()) backend_.wait(0.02);
        if (settle_ > 0 || driven) {
            // What arrives while frames settle has to settle, too.
            if (backend_.poll()) settle_ = frames_to_settle;
            return true;
        }
        auto seconds = shell_.app.recovery->seconds_until_due(Clock::now());
        if (resting()) {
            const std::chrono::duration<double> rest = rest_until_ - Clock::now();
            seconds = std::min(seconds.value_or(rest.count()), rest.count());
        }
        if (!shell_.app.stash.path().empty())
            seconds = std::min(seconds.value_or(look_seconds), look_seconds);
        const bool event = backend_.wait(seconds);
        if (event) settle_ = frames_to_settle;
        return event || shell_.app.stash.has_news() || news_from_carding() || panels_have_news(shell_) ||
               readers_have_news(shell_) || (options_.driver && !resting());
    }

    // A picture for show is of the batt fully carded, and of a table that is drawn to an end.
    bool drawn_to_an_end() const {
        const bool table = panel_is_open(shell_, Command::table);
        return shell_.app.carded.settled && (!table || shell_.app.table.settled());
    }
    bool waits_for_carding() const {
        return options_.screenshot && probe_.frame >= options_.frames && !drawn_to_an_end();
    }
    bool news_from_carding() const {
        if (shell_.app.carded.settled) return false;
        const auto now = shell_.app.worker->state();
        return !now.busy || now.latest != shell_.app.carded.carded;
    }

    void keep_copy() {
        if (shell_.app.document.version() != copied_version_) {
            copied_version_ = shell_.app.document.version();
            if (shell_.app.document.unsaved()) shell_.app.recovery->touched(Clock::now());
        }
        const auto due = shell_.app.recovery->seconds_until_due(Clock::now());
        if (due && *due <= 0.0) app::keep_copy(shell_.app);
    }

    measure::Expected<void> frame() {
        for (const auto& path : backend_.take_dropped()) take_file(shell_, path);
        for (const auto& path : std::exchange(input_.dropped, {})) take_file(shell_, path);
        Requests ask;
        const bool closing = backend_.take_close_request() || std::exchange(input_.close, false);
        if (closing) ask.command(Command::close_window);
        const double scale =
            options_.scale.value_or(double{backend_.content_scale()} * shell_.app.settings.scale);
        const float unit = unit_that_fits(backend_.size(), static_cast<float>(scale));
        want_letters(shell_);
        style_.apply(backend_, unit, shell_.app.settings.shade, shell_.letters.letters);
        backend_.begin_frame(input_);
        // As with a key: a field on the bench is taken as done. On a card the focus must stay.
        if (closing &&
            !ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId | ImGuiPopupFlags_AnyPopupLevel))
            ImGui::SetWindowFocus(nullptr);
        probe_.boxes_before = std::exchange(probe_.boxes, {});
        probe_.cut.clear();
        const State& app = shell_.app;
        const Ui ui{theme_for(app.settings.shade),
                    style_.fonts,
                    unit,
                    app,
                    probe_,
                    ask,
                    shell_.typing,
                    shell_.tabs,
                    *app.catalogue,
                    app.settings,
                    app.document,
                    app.look,
                    app.stash,
                    app.record,
                    app.find,
                    app.card,
                    app.table,
                    app.plans,
                    app.files,
                    app.variants,
                    a_question_stands(app),
                    shell_.thumbnails};
        const Layout layout = layout_for(ImGui::GetIO().DisplaySize, unit,
                                         shell_.share_drawn.value_or(app.settings.strip_share));
        refresh(shell_, strip_size(ui, layout.strip_size, app.look));
        begin_tab_stops(shell_.tabs);
        shortcuts(shell_, ask);
        draw(shell_, ui, layout);
        ++probe_.frame;
        std::string picture;
        if (drawn_to_an_end()) picture = std::exchange(input_.picture, {});
        pictured_ = options_.screenshot && probe_.frame > options_.frames && drawn_to_an_end();
        if (pictured_) picture = *options_.screenshot;
        const bool nothing = nothing_under_pointer();
        auto drawn = backend_.end_frame(ui.theme.ground, picture);
        probe_.painted = backend_.painted();
        const bool changed = carry_out(shell_, ask);
        settle_ = changed || backend_.input_waits() ? frames_to_settle : settle_ - 1;
        // From empty ground to empty ground one frame shows all there is.
        if (!changed && nothing && nothing_under_pointer_ && backend_.only_pointer() &&
            !backend_.input_waits())
            settle_ = 0;
        nothing_under_pointer_ = nothing;
        show_title();
        return drawn;
    }

    bool nothing_under_pointer() const {
        return !ImGui::IsAnyItemHovered() && !ImGui::IsAnyItemActive() && shell_.pointing.now.empty() &&
               !ImGui::IsPopupOpen("", ImGuiPopupFlags_AnyPopup);
    }

    void show_title() {
        std::string title = title_of(shell_.app.document);
        if (title == title_) return;
        backend_.set_title(title);
        title_ = std::move(title);
    }

    void drive() {
        input_.keys.clear();
        input_.text.clear();
        input_.wheel = 0.0f;
        input_.width = input_.height = 0;
        input_.repaint = false;
        input_.rest_seconds = 0.0;
        report(shell_, probe_);
        options_.driver(probe_, input_);
        if (input_.width > 0) backend_.resize(input_.width, input_.height);
        if (input_.rest_seconds <= 0.0) return;
        rest_until_ = Clock::now() + std::chrono::duration_cast<Clock::duration>(
                                         std::chrono::duration<double>(input_.rest_seconds));
    }

    Backend& backend_;
    const EndSignals& signals_;
    const Options& options_;
    Shell shell_;
    AppliedStyle style_;
    Probe probe_;
    Input input_;
    std::string title_;
    int settle_ = frames_to_settle;
    bool nothing_under_pointer_ = false;  // in the last frame
    bool pictured_ = false;               // the screenshot is saved
    unsigned long copied_version_ = 1;
    Clock::time_point rest_until_{};
};

}  // namespace

int run(const Options& options) {
    Backend::Options wanted;
    wanted.width = options.width;
    wanted.height = options.height;
    wanted.fast = options.driver || options.screenshot;
    wanted.arrivals = options.arrivals;
    const EndSignals signals(Backend::wake);  // before the driver's threads
    auto backend = Backend::open(wanted);
    if (!backend) return fail(backend.error());
    return Session(**backend, signals, options).run();
}

}  // namespace battwright::window
