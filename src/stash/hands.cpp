#include "stash/hands.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "colour/calibration.hpp"
#include "measure/units.hpp"
#include "text/words.hpp"

namespace battwright::stash {
namespace {

// Why it cannot teach, whatever the others say.
std::optional<WhyNot> told_alone(const BattPhoto& photo) {
    if (photo.seen.unfit != colour::Unfit::none) {
        const colour::UnfitRow& unfit = colour::row_for(photo.seen.unfit);
        return WhyNot{std::string(unfit.word),
                      "Not learnt from: " + std::string(unfit.what) + "; " + std::string(unfit.mend) + "."};
    }
    if (!photo.counts) return WhyNot{"left out", "Left out: nothing is learnt from it."};
    if (!photo.standing) return WhyNot{"batt taken back", "Not learnt from: its batt was taken back."};
    if (photo.model != photo_model)
        return WhyNot{"another version's forecast",
                      "Not learnt from: another version of this program foretold it; log the photo anew."};
    if (!photo.log_m && !photo.log_mixing)
        return WhyNot{"says nothing",
                      "It says nothing of how your fibre blends: one colour, or too well mixed."};
    return {};
}

bool teaches(const BattPhoto& photo) {
    return !told_alone(photo);
}

using Pointers = std::vector<const BattPhoto*>;

colour::CurvedSighting line_of(const LogFigure& figure) {
    return {figure.at, figure.sd, 0.0, 1.0, 0.0};
}

// What several photos say, those of one batt together no more than one.
class Evidence {
  public:
    void add(const BattPhoto& photo, colour::CurvedSighting sighting) {
        sightings_.push_back(sighting);
        batts_.push_back(photo.batt.value_or(-photo.id));  // a sample stands for itself
    }
    int count() const { return static_cast<int>(std::set(batts_.begin(), batts_.end()).size()); }
    std::vector<colour::CurvedSighting> weighed() const {
        auto all = sightings_;
        for (std::size_t i = 0; i < all.size(); ++i)
            all[i].sd *= std::sqrt(static_cast<double>(std::ranges::count(batts_, batts_[i])));
        return all;
    }

  private:
    std::vector<colour::CurvedSighting> sightings_;
    std::vector<std::int64_t> batts_;
};

Hands taught_by(const Pointers& photos, const BattPhoto* but = nullptr) {
    Evidence of_m, of_mixing;
    for (const BattPhoto* photo : photos) {
        if (photo == but) continue;
        if (photo->log_m) of_m.add(*photo, line_of(*photo->log_m));
        if (photo->log_mixing) of_mixing.add(*photo, *photo->log_mixing);
    }
    Hands hands;
    hands.m = {hands.m.prior(), of_m.weighed(), of_m.count()};
    // The variation goes with m as well, which all these photos share.
    hands.mixing = {hands.mixing.prior(),
                    of_mixing.weighed(),
                    of_mixing.count(),
                    {hands.m.mean() - hands.m.prior().mean, hands.m.sd()}};
    return hands;
}

bool same_figures(const BattPhoto& one, const BattPhoto& other) {
    const colour::Lab &a = one.seen.mean, &b = other.seen.mean;
    return a.l == b.l && a.a == b.a && a.b == b.b && one.seen.patches == other.seen.patches &&
           one.seen.variation_de00 == other.seen.variation_de00 && one.mm_per_pixel == other.mm_per_pixel;
}

// The same picture: to the last digit; or the same file of the same batt or sample, though it was marked
// otherwise.
bool same_picture(const BattPhoto& one, const BattPhoto& other) {
    if (same_figures(one, other)) return true;
    return !one.photo.empty() && one.photo == other.photo && one.batt == other.batt &&
           one.recipe == other.recipe && one.date == other.date;
}

// Takes out what repeats a photo logged before it.
std::vector<HandsLearnt::Repeat> take_out_repeats(Pointers& photos) {
    std::ranges::sort(photos, {}, &BattPhoto::id);
    Pointers first;
    std::vector<HandsLearnt::Repeat> repeats;
    for (const BattPhoto* photo : photos) {
        const auto before =
            std::ranges::find_if(first, [&](const BattPhoto* one) { return same_picture(*one, *photo); });
        if (before == first.end())
            first.push_back(photo);
        else
            repeats.push_back({photo->id, (*before)->id});
    }
    photos = std::move(first);
    return repeats;
}

// How far a photo is from the limit of belief, 1 at it, and why.
struct Outlier {
    double over = 0.0;
    AskedPhoto asked;
};

Outlier outlier_of(const BattPhoto& photo, const Hands& others) {
    Outlier odd;
    const auto hear = [&](Odd about, double sds, double limit, int count) {
        if (sds / limit <= odd.over) return;
        odd = {sds / limit, {photo.id, photo.name, about, sds, count}};
    };
    if (photo.log_m) hear(Odd::m, others.m.sds_off(line_of(*photo.log_m)), asked_photo_sds, others.m.count());
    if (photo.log_mixing)
        hear(Odd::mixing, others.mixing.sds_off(*photo.log_mixing), asked_photo_sds, others.mixing.count());
    if (photo.log_m) hear(Odd::colour, photo.misfit, asked_misfit, 0);
    return odd;
}

std::optional<Outlier> worst_in(const Pointers& photos) {
    std::optional<Outlier> worst;
    for (const BattPhoto* photo : photos) {
        if (photo->confirmed) continue;
        const Outlier odd = outlier_of(*photo, taught_by(photos, photo));
        if (odd.over > 1.0 && (!worst || odd.over > worst->over)) worst = odd;
    }
    return worst;
}

}  // namespace

LogBelief::LogBelief(const colour::PriorNormal& prior, std::span<const colour::CurvedSighting> sightings,
                     int count, const colour::PriorNormal& other)
    : prior_(prior),
      belief_(colour::believed(prior, sightings, other)),
      count_(count),
      photos_(static_cast<int>(sightings.size())) {}

double LogBelief::scale() const {
    return (photo_prior_freedom + belief_.squares) / (photo_prior_freedom + count_);
}

double LogBelief::sd() const {
    return std::sqrt(belief_.variance * scale());
}

bool LogBelief::operator==(const LogBelief& other) const {
    return belief_.mean == other.belief_.mean && belief_.variance == other.belief_.variance &&
           belief_.squares == other.belief_.squares && count_ == other.count_;
}

double LogBelief::factor() const {
    return std::exp(mean());
}

yarn::Range LogBelief::range_80_percent() const {
    return yarn::range_80_percent(factor(), yarn::t_of_80_percent(photo_prior_freedom + count_) * sd());
}

double LogBelief::sds_off(const colour::CurvedSighting& next) const {
    const double slope = next.slope_at(mean());
    return std::abs(next.seen - next.foretold(mean())) /
           std::sqrt(scale() * (slope * slope * belief_.variance + next.sd * next.sd));
}

colour::OpticsModel Hands::applied_to(colour::OpticsModel optics) const {
    if (m.count() == 0) return optics;
    optics.m = std::clamp(m.factor(), colour::smallest_m, colour::largest_m);
    optics.m_log_sd = m.sd();
    return optics;
}

std::string question_words(const AskedPhoto& asked) {
    const std::string how_far =
        measure::write_number(std::round(10.0 * asked.sds) / 10.0) + " standard deviations off";
    const std::string whose = asked.others > 0 ? "what the others taught" : "what is usual";
    switch (asked.about) {
        case Odd::m:
            return "this batt disagrees with " + whose + " of how colours blend (" + how_far +
                   "); leave it out?";
        case Odd::mixing:
            return "this batt disagrees with " + whose + " of how thoroughly it mixes (" + how_far +
                   "); leave it out?";
        case Odd::colour:
            break;
    }
    return "the photo's colour is none this recipe can give (" + how_far +
           "): is it another batt, or another dye? leave it out?";
}

HandsLearnt hands_from(std::span<const BattPhoto> photos) {
    Pointers believed;
    for (const BattPhoto& photo : photos)
        if (teaches(photo)) believed.push_back(&photo);
    HandsLearnt learnt;
    learnt.repeats = take_out_repeats(believed);
    while (const auto worst = worst_in(believed)) {
        learnt.questions.push_back(worst->asked);
        std::erase_if(believed, [&](const BattPhoto* photo) { return photo->id == worst->asked.photo; });
    }
    std::sort(learnt.questions.begin(), learnt.questions.end(),
              [](const AskedPhoto& a, const AskedPhoto& b) { return a.photo < b.photo; });
    learnt.hands = taught_by(believed);
    for (const BattPhoto* photo : believed) learnt.believed.push_back(photo->id);
    return learnt;
}

std::optional<WhyNot> why_not(const BattPhoto& photo, const HandsLearnt& learnt) {
    if (auto why = told_alone(photo)) return why;
    for (const auto& repeat : learnt.repeats)
        if (repeat.photo == photo.id)
            return WhyNot{"as photo " + std::to_string(repeat.of),
                          "Not learnt from: it is the same picture as photo " + std::to_string(repeat.of) +
                              ", which counts once."};
    for (const AskedPhoto& asked : learnt.questions)
        if (asked.photo == photo.id)
            return WhyNot{"to be asked about", "Not learnt from yet: " + question_words(asked), true};
    return {};
}

}  // namespace battwright::stash
