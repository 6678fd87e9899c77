// Before the whole is carded: a sample of it, and the batts of its series, made beside the window's thread.
// No display.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/settings.hpp"
#include "forecast/sample.hpp"
#include "forecast/series.hpp"
#include "jobs/latest.hpp"

namespace battwright::app {

struct PlansSubject {
    std::shared_ptr<const forecast::Forecast> forecast;  // null: nothing lies on the bench
    unsigned long version = 0;                           // of the outcome
    forecast::Bench bench;
};
struct PlansRequest {
    std::shared_ptr<const forecast::Forecast> forecast;
    unsigned long version = 0;
    forecast::Bench bench;  // with the scale's step
};
struct PlansMade {
    std::shared_ptr<const forecast::Forecast> forecast;  // it is of
    unsigned long version = 0;
    std::optional<forecast::Sample> sample;
    std::optional<forecast::SeriesPlan> series;  // none where the recipe has none
    std::optional<measure::Complaint> no_sample, no_series;
};
PlansMade plans_of(const PlansRequest& request);

class PlansSession {
  public:
    // Before the panel opens; `wake` is called on the thread.
    void open(std::function<void()> wake);
    // Each frame it is open.
    void follow(const PlansSubject& subject, const Settings& settings);

    const std::shared_ptr<const PlansMade>& made() const { return made_; }
    bool has_news() const;
    // What is on show is of the batt on the bench.
    bool settled() const { return !asked_version_ || (made_ && made_->version == *asked_version_); }

  private:
    using Worker = jobs::Latest<PlansRequest, PlansMade>;
    std::unique_ptr<Worker> worker_;  // made when the panel first opens
    std::optional<unsigned long> asked_version_;
    double asked_step_ = 0.0;
    std::shared_ptr<const PlansMade> made_;
};

// The sample's own words, in the user's units.
std::string sample_heading(const PlansMade& made, const Settings& settings);
std::string sample_limits(const PlansMade& made, const Settings& settings);
// "pass 1: sample 9.2, striped; the whole 9.5, striped"
std::vector<std::string> sample_passes(const PlansMade& made);
// Its card as text, with lines to write on. Precondition of these: there is a sample.
std::string sample_text(const PlansMade& made, const Settings& settings);

// The table to weigh by: a head, a row a batt, their sum.
struct SeriesTable {
    std::vector<std::string> heads;
    std::vector<std::vector<std::string>> rows;
    std::vector<std::string> sum;
};
// Precondition: there is a series.
SeriesTable series_table(const PlansMade& made, const Settings& settings);
// The same with tabs between, as a spreadsheet takes it.
std::string with_tabs(const SeriesTable& table);

}  // namespace battwright::app
