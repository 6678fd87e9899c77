#include "app/table/table_session.hpp"

#include <algorithm>
#include <cstdint>
#include <system_error>
#include <utility>

#include "card/table_sheet.hpp"
#include "jobs/run.hpp"
#include "measure/units.hpp"
#include "text/numbers.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;

constexpr int coarse_times = 3;
// Fewer pixels are there at once.
constexpr std::int64_t pixels_at_once = 120'000;
constexpr std::int64_t most_saved_pixels = 32'000'000;
constexpr int most_side = 16384;

strip::TableCanvas coarser(strip::TableCanvas canvas) {
    canvas.width = std::max(1, canvas.width / coarse_times);
    canvas.height = std::max(1, canvas.height / coarse_times);
    canvas.label_px /= coarse_times;
    return canvas;
}

std::shared_ptr<const TableMade> pictured(const TableRequest& request, const strip::TableCanvas& canvas,
                                          bool coarse) {
    return std::make_shared<const TableMade>(
        TableMade{request, strip::table_picture(*request.forecast, *request.batt, request.ask, canvas),
                  coarse, std::nullopt, ""});
}

std::shared_ptr<const TableMade> written_to_file(const TableRequest& request) {
    TableMade made{request, {}, false, std::nullopt, ""};
    const auto sheet = card::table_sheet(*request.forecast, *request.batt, request.ask,
                                         {request.canvas.width, request.canvas.height, request.canvas.unit,
                                          request.canvas.threads, request.canvas.mass});
    if (!sheet.remark.empty()) {
        made.complaint = measure::Complaint{sheet.remark, "mend the batt or its plan first", ""};
    } else if (auto saved =
                   card::save_table(sheet, request.file.string(),
                                    {request.replace ? measure::Replace::yes : measure::Replace::no, {}});
               !saved) {
        made.complaint = saved.error();
    } else {
        made.written = "Saved " + request.file.string() + ": " + text::number(sheet.image.width) + " x " +
                       text::number(sheet.image.height) +
                       " px, 1 mm = " + text::figures(sheet.pixels_per_mm, 3) + " px.";
    }
    return std::make_shared<const TableMade>(std::move(made));
}

double turn_of(const std::string& winder) {
    const auto metres = measure::parse_yarn_length_metres(winder);
    return metres && *metres > 0.0 ? *metres : strip::usual_turn_m;
}

}  // namespace

void make_table(const TableRequest& request, const TableWorker::Turn& turn) {
    if (!request.file.empty()) return turn.publish(written_to_file(request), jobs::Late::shown);
    const auto pixels = std::int64_t{request.canvas.width} * request.canvas.height;
    // Also when a newer one waits: whoever drags sees the table move.
    if (pixels > pixels_at_once)
        turn.publish(pictured(request, coarser(request.canvas), true), jobs::Late::shown);
    if (turn.outdated()) return;
    turn.publish(pictured(request, request.canvas, false));
}

void TableSession::open(const fs::path& folder, std::function<void()> wake) {
    if (!worker_) worker_ = std::make_unique<TableWorker>(make_table, wake);
    if (!writer_) writer_ = std::make_unique<TableWorker>(make_table, std::move(wake));
    choice_.folder = folder;
    choice_.name.reset();
    words_.clear();
    failed_ = replace_asked_ = false;
    told_ = writer_->state().number;
}

strip::TableSettings TableSession::ask_for(const TableSubject& subject) const {
    strip::TableSettings ask;
    ask.view = subject.look.view;
    ask.pull = subject.look.pull;
    const recipe::Recipe& recipe = subject.forecast->recipe;
    if (choice_.each_pass)
        for (int pass = 1; pass <= std::max(1, recipe.carding.passes); ++pass) ask.passes.push_back(pass);
    else
        ask.passes.push_back(pass_shown(recipe, subject.look));
    ask.zoom = choice_.zoom;
    ask.middle_x = choice_.middle_x;
    ask.middle_y = choice_.middle_y;
    ask.turn_m = turn_of(subject.winder);
    return ask;
}

void TableSession::follow(const TableSubject& subject) {
    take_saved();
    showing_ = subject.forecast && subject.batt && choice_.canvas.width > 0 && choice_.canvas.height > 0;
    if (!showing_) {
        shown_ = {};
        return;
    }
    TableRequest request{subject.forecast, subject.batt, ask_for(subject), choice_.canvas, {}, false};
    // One core stays with the window.
    request.canvas.threads = std::max(1, static_cast<int>(jobs::hardware_threads()) - 1);
    if (!(request == asked_)) {
        asked_ = request;
        worker_->ask(std::move(request));
    }
    shown_ = worker_->state();
}

void TableSession::change(TableChoice choice) {
    if (choice.folder != choice_.folder || choice.name != choice_.name) {
        replace_asked_ = false;
        words_.clear();
    }
    choice_ = std::move(choice);
}

void TableSession::save(const TableSubject& subject) {
    if (!subject.forecast || !subject.batt) return;
    const fs::path path = choice_.folder / file_name(choice_, subject);
    std::error_code error;
    failed_ = true;
    if (path.extension() != ".png") {
        words_ = "'" + path.filename().string() + "' is no PNG file name. End it in .png.";
        return;
    }
    if (!fs::is_directory(path.parent_path(), error)) {
        words_ = path.parent_path().string() + " is no folder. Type one that is there.";
        return;
    }
    const bool there = fs::exists(path, error);
    if (there && !std::exchange(replace_asked_, true)) {
        words_ = path.filename().string() + " is there already. Press the button again to replace it.";
        return;
    }
    failed_ = replace_asked_ = false;
    words_.clear();
    TableRequest request{subject.forecast, subject.batt, ask_for(subject), choice_.canvas, path, there};
    request.canvas.width = choice_.width;
    request.canvas.height = choice_.height;
    request.canvas.threads = std::max(1, static_cast<int>(jobs::hardware_threads()) - 1);
    writer_->ask(std::move(request));
    saved_ = writer_->state();
}

void TableSession::take_saved() {
    if (!writer_) return;
    saved_ = writer_->state();
    if (saved_.busy || !saved_.latest || saved_.number == told_) return;
    told_ = saved_.number;
    failed_ = saved_.latest->complaint.has_value();
    words_ = failed_ ? measure::to_line(*saved_.latest->complaint) : saved_.latest->written;
}

strip::TableFrame TableSession::frame() const {
    if (!shown_.latest) return {};
    const TableMade& made = *shown_.latest;
    strip::TableSettings ask = asked_.ask;
    // Another thing altogether: the old one stays where it is until the new one is there.
    if (ask.view != made.request.ask.view || ask.passes.size() != made.request.ask.passes.size())
        ask = made.request.ask;
    return strip::frame_of(made.picture.size, ask, asked_.canvas.width, asked_.canvas.height);
}

bool TableSession::has_news() const {
    if (writer_) {
        const auto now = writer_->state();
        if (now.busy != saved_.busy || now.number != saved_.number) return true;
    }
    if (!worker_ || !showing_) return false;
    const auto now = worker_->state();
    return now.latest != shown_.latest || now.busy != shown_.busy;
}

bool TableSession::settled() const {
    return !has_news() && !shown_.busy && !saved_.busy && (!shown_.latest || !shown_.latest->coarse);
}

std::string file_name(const TableChoice& choice, const TableSubject& subject) {
    const std::string word(measure::row_of(strip::table_views, subject.look.view).word);
    return choice.name.value_or(subject.stem + "-" + word + ".png");
}

measure::Expected<std::pair<int, int>> parse_picture_size(const std::string& text) {
    const measure::Complaint amiss{"'" + text + "' is no size of a picture",
                                   "write width and height in pixels, as in 3000 x 2000", ""};
    const std::size_t cross = text.find_first_of("xX");
    if (cross == std::string::npos) return tl::make_unexpected(amiss);
    const auto number = [](std::string words) -> std::optional<int> {
        std::erase(words, ' ');
        const auto value = text::read_decimal(words);
        if (!value || !(*value >= 1.0 && *value <= most_side)) return std::nullopt;
        return static_cast<int>(*value);
    };
    const auto width = number(text.substr(0, cross)), height = number(text.substr(cross + 1));
    if (!width || !height) return tl::make_unexpected(amiss);
    if (std::int64_t{*width} * *height > most_saved_pixels)
        return tl::make_unexpected(measure::Complaint{
            "a picture of that size would take minutes",
            "make it at most " + std::to_string(most_saved_pixels / 1'000'000) + " million pixels", ""});
    return std::pair{*width, *height};
}

}  // namespace battwright::app
