#include "window/shell/window.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <utility>

#include "app/folders.hpp"
#include "recipe/file.hpp"
#include "window/gl/backend.hpp"
#include "window/kit/fonts.hpp"
#include "window/shell/workbench.hpp"

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

void set_up(Workbench& bench, const Options& options) {
    bench.catalogue = options.catalogue != nullptr ? options.catalogue : &fibre::Catalogue::builtin();
    const bool for_show = options.screenshot.has_value();
    if (!for_show) bench.config_folder = options.config_folder.value_or(default_config_folder());
    if (!for_show) bench.settings = load_settings(bench.config_folder);
    if (options.shade) bench.settings.shade = *options.shade;
    const auto state_folder =
        for_show ? std::filesystem::path() : options.state_folder.value_or(default_state_folder());
    if (!for_show) bench.left_behind = Recovery::left_behind(state_folder);
    bench.recovery = std::make_unique<Recovery>(state_folder);
    auto stash_path = options.stash;
    if (!stash_path && !for_show && !options.driver) stash_path = stash::default_path();
    if (stash_path) bench.desk = StashDesk(*stash_path, bench.catalogue);
    bench.worker = std::make_unique<CardingWorker>(Backend::wake);
    if (options.recipe) open_file(bench, *options.recipe);
    const bool first_time = !for_show && !bench.settings.guide_seen && bench.left_behind.empty();
    if (first_time) bench.opening.push_back(Command::guide);
}

// Fonts and style for one size and theme, made anew when either changes.
struct Dress {
    float unit = 0.0f;
    std::optional<Shade> shade;
    Fonts fonts;

    void put_on(Backend& backend, float wanted_unit, Shade wanted_shade) {
        const bool resized = std::abs(wanted_unit - unit) > 0.005f;
        if (resized) {
            fonts = load_fonts(wanted_unit);
            backend.renew_fonts();
            unit = wanted_unit;
        }
        if (resized || shade != wanted_shade) apply_style(theme_for(wanted_shade), unit);
        shade = wanted_shade;
    }
};

std::string title_of(const Document& document) {
    const std::string& name = document.sheet().recipe.name;
    return (document.unsaved() ? "\u2022 " : "") + (name.empty() ? std::string("new batt") : name) +
           " \u2014 Battwright";
}

class Session {
  public:
    Session(Backend& backend, const Options& options) : backend_(backend), options_(options) {
        probe_.wanted = static_cast<bool>(options.driver);
        set_up(bench_, options);
        if (options.screenshot) hands_.point(-1.0f, -1.0f);  // nothing is pointed at
    }

    int run() {
        while (!bench_.leave) {
            if (!wait_for_work()) continue;
            if (auto drawn = frame(); !drawn) return fail(drawn.error());
            if (pictured_) return 0;
            if (options_.driver && Clock::now() >= rest_until_) drive();
            if (hands_.quit) return 0;
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
            backend_.poll();
            return true;
        }
        auto seconds = bench_.recovery->seconds_until_due(Clock::now());
        if (resting()) {
            const std::chrono::duration<double> rest = rest_until_ - Clock::now();
            seconds = std::min(seconds.value_or(rest.count()), rest.count());
        }
        if (!bench_.desk.path().empty()) seconds = std::min(seconds.value_or(look_seconds), look_seconds);
        const bool event = backend_.wait(seconds);
        if (event) settle_ = frames_to_settle;
        return event || bench_.desk.has_news() || news_from_carding() || card_has_news(bench_.card) ||
               find_has_news(bench_.find) || (options_.driver && !resting());
    }

    // A picture for show is of the batt fully carded.
    bool waits_for_carding() const {
        return options_.screenshot && probe_.frame >= options_.frames && !bench_.shown.settled;
    }
    bool news_from_carding() const {
        return !bench_.shown.settled && bench_.worker->state().latest != bench_.shown.carded;
    }

    void keep_copy() {
        if (bench_.document.version() != copied_version_) {
            copied_version_ = bench_.document.version();
            if (bench_.document.unsaved()) bench_.recovery->touched(Clock::now());
        }
        const auto due = bench_.recovery->seconds_until_due(Clock::now());
        if (!due || *due > 0.0) return;
        const auto& recipe = bench_.document.sheet().recipe;
        if (auto kept = bench_.recovery->write(recipe::write_text(recipe), bench_.document.path()); !kept)
            bench_.messages.push_back(kept.error());
    }

    measure::Expected<void> frame() {
        for (const auto& path : backend_.take_dropped()) take_file(bench_, path);
        for (const auto& path : std::exchange(hands_.dropped, {})) take_file(bench_, path);
        Requests ask;
        if (backend_.take_close_wish()) ask.command(Command::close_window);
        const double scale =
            options_.scale.value_or(double{backend_.content_scale()} * bench_.settings.scale);
        const float unit = unit_that_fits(backend_.size(), static_cast<float>(scale));
        dress_.put_on(backend_, unit, bench_.settings.shade);
        backend_.begin_frame(hands_);
        probe_.boxes.clear();
        const Ui ui{theme_for(bench_.settings.shade),
                    dress_.fonts,
                    unit,
                    bench_.settings,
                    *bench_.catalogue,
                    probe_,
                    ask,
                    bench_.typing,
                    bench_.desk};
        const Layout layout = layout_for(ImGui::GetIO().DisplaySize, unit);
        refresh(bench_, strip_size(ui, layout.strip_size, bench_.look));
        shortcuts(bench_, ask);
        draw(bench_, ui, layout);
        ++probe_.frame;
        std::string picture;
        if (bench_.shown.settled) picture = std::exchange(hands_.picture, {});
        pictured_ = options_.screenshot && probe_.frame > options_.frames && bench_.shown.settled;
        if (pictured_) picture = *options_.screenshot;
        auto drawn = backend_.end_frame(ui.theme.ground, picture);
        settle_ = carry_out(bench_, ask) ? frames_to_settle : settle_ - 1;
        show_title();
        return drawn;
    }

    void show_title() {
        std::string title = title_of(bench_.document);
        if (title == title_) return;
        backend_.set_title(title);
        title_ = std::move(title);
    }

    void drive() {
        hands_.keys.clear();
        hands_.text.clear();
        hands_.wheel = 0.0f;
        hands_.width = hands_.height = 0;
        hands_.rest_seconds = 0.0;
        report(bench_, probe_);
        options_.driver(probe_, hands_);
        if (hands_.width > 0) backend_.resize(hands_.width, hands_.height);
        if (hands_.rest_seconds <= 0.0) return;
        rest_until_ = Clock::now() + std::chrono::duration_cast<Clock::duration>(
                                         std::chrono::duration<double>(hands_.rest_seconds));
    }

    Backend& backend_;
    const Options& options_;
    Workbench bench_;
    Dress dress_;
    Probe probe_;
    Hands hands_;
    std::string title_;
    int settle_ = frames_to_settle;
    bool pictured_ = false;  // the screenshot is saved
    unsigned long copied_version_ = 1;
    Clock::time_point rest_until_{};
};

}  // namespace

int run(const Options& options) {
    Backend::Wanted wanted;
    wanted.width = options.width;
    wanted.height = options.height;
    wanted.fast = options.driver || options.screenshot;
    auto backend = Backend::open(wanted);
    if (!backend) return fail(backend.error());
    return Session(**backend, options).run();
}

}  // namespace battwright::window
