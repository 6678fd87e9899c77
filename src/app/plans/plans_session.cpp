#include "app/plans/plans_session.hpp"

#include <utility>

#include "colour/spaces.hpp"
#include "measure/unit_tables.hpp"
#include "staple/findings.hpp"
#include "text/believe.hpp"

namespace battwright::app {

PlansMade plans_of(const PlansRequest& request) {
    PlansMade made{request.forecast, request.version, {}, {}, {}, {}};
    auto sample = forecast::sample_of(*request.forecast, request.bench);
    if (sample)
        made.sample = std::move(*sample);
    else
        made.no_sample = std::move(sample.error());
    if (!request.forecast->recipe.series) return made;
    auto series = forecast::series_of(*request.forecast, request.bench.scale_step_grams);
    if (series)
        made.series = std::move(*series);
    else
        made.no_series = std::move(series.error());
    return made;
}

void PlansSession::open(std::function<void()> wake) {
    if (worker_) return;
    worker_ = std::make_unique<Worker>(
        [](const PlansRequest& request, const Worker::Turn& turn) {
            turn.publish(std::make_shared<const PlansMade>(plans_of(request)));
        },
        std::move(wake));
}

void PlansSession::follow(const PlansSubject& subject, const Settings& settings) {
    if (!subject.forecast) {
        asked_version_.reset();
        made_ = nullptr;
        return;
    }
    const double step = measure::usual_scale_grams(settings.mass);
    if (asked_version_ != subject.version || asked_step_ != step) {
        asked_version_ = subject.version;
        asked_step_ = step;
        PlansRequest request{subject.forecast, subject.version, subject.bench};
        request.bench.scale_step_grams = step;
        worker_->ask(std::move(request));
    }
    made_ = worker_->state().latest;
}

bool PlansSession::has_news() const {
    return worker_ && asked_version_ && worker_->state().latest != made_;
}

std::string sample_heading(const PlansMade& made, const Settings& settings) {
    BATTWRIGHT_BELIEVE(made.sample);
    const auto& sample = *made.sample;
    const auto& carder = made.forecast->carder;
    return "Weigh out " + measure::print_mass(sample.grams, settings.mass) + " and card it on " +
           measure::print_length(sample.width_mm, settings.length) + " of the " +
           std::string(recipe::words_of(carder).surface) + "'s " +
           measure::print_length(carder.width_mm, settings.length) +
           ": as much on the same area as the whole.";
}

std::string sample_limits(const PlansMade& made, const Settings& settings) {
    BATTWRIGHT_BELIEVE(made.sample);
    return staple::words_in("It could not be smaller because of " + made.sample->set_by_with_quantities +
                                ". " + made.sample->differs,
                            {settings.length, settings.mass});
}

std::vector<std::string> sample_passes(const PlansMade& made) {
    BATTWRIGHT_BELIEVE(made.sample);
    std::vector<std::string> lines;
    for (const auto& pass : made.sample->passes)
        lines.push_back(
            "pass " + std::to_string(pass.number) + ": sample " + measure::print_number(pass.sample_de00, 1) +
            ", " + std::string(carding::word_for(pass.sample)) + "; the whole " +
            measure::print_number(pass.whole_de00, 1) + ", " + std::string(carding::word_for(pass.whole)));
    return lines;
}

std::string sample_text(const PlansMade& made, const Settings& settings) {
    BATTWRIGHT_BELIEVE(made.sample);
    return forecast::sample_card(*made.forecast, *made.sample, settings.mass, settings.length);
}

SeriesTable series_table(const PlansMade& made, const Settings& settings) {
    BATTWRIGHT_BELIEVE(made.series);
    const auto& plan = *made.series;
    SeriesTable table;
    table.heads.emplace_back(plan.rolags ? "rolag" : "batt");
    for (const auto& line : made.forecast->components) table.heads.push_back(line.label);
    table.heads.insert(table.heads.end(), {"colour", "step"});
    for (std::size_t i = 0; i < plan.batts.size(); ++i) {
        std::vector<std::string> row{std::to_string(i + 1)};
        for (const double grams : plan.batts[i].grams)
            row.push_back(measure::print_mass(grams, settings.mass));
        row.push_back(colour::hex(plan.batts[i].srgb));
        row.push_back(i > 0 ? measure::print_number(plan.batts[i].step_de00, 1) : "");
        table.rows.push_back(std::move(row));
    }
    table.sum.emplace_back("all");
    for (const double grams : plan.grams) table.sum.push_back(measure::print_mass(grams, settings.mass));
    table.sum.insert(table.sum.end(), {measure::print_mass(plan.total_grams, settings.mass), ""});
    return table;
}

std::string with_tabs(const SeriesTable& table) {
    std::string text;
    const auto line = [&](const std::vector<std::string>& cells) {
        for (std::size_t i = 0; i < cells.size(); ++i) text += (i > 0 ? "\t" : "") + cells[i];
        text += "\n";
    };
    line(table.heads);
    for (const auto& row : table.rows) line(row);
    line(table.sum);
    return text;
}

}  // namespace battwright::app
