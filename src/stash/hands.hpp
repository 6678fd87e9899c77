// What photos of her batts have taught of one spinner: how her fibres blend to the eye, and how thoroughly
// her carder and hands mix.
#pragma once

#include <cmath>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "colour/batt_photo.hpp"
#include "colour/optics.hpp"
#include "stash/batt_photo.hpp"
#include "yarn/calibration.hpp"

namespace battwright::stash {

// Model: each photo says of x = ln m or ln mixing what a colour::CurvedSighting says, and the prior is one
// such saying. All the standard deviations stated may be too small or too large together, by a factor whose
// square is inverse gamma with this many degrees of freedom about 1; so what is believed of x is Student's t
// (normal-inverse-gamma, Gelman and others, Bayesian Data Analysis, 3.3). The order does not matter. The
// number: common practice, no source.
inline constexpr int photo_prior_freedom = 12;
using colour::mixing_prior_log_sd, colour::photo_model;
// A photo this many standard deviations from what the others taught, or whose colour fits no value at all
// this badly, is asked about before it teaches anything. Common practice, no source.
inline constexpr double asked_photo_sds = 3.0, asked_misfit = 2.4;

class LogBelief {
  public:
    LogBelief(double mean, double sd) : prior_{mean, sd}, belief_{mean, sd * sd, 0.0} {}
    // `count`: the batts and samples that the sightings are of.
    LogBelief(const colour::PriorNormal& prior, std::span<const colour::CurvedSighting> sightings, int count,
              const colour::PriorNormal& other = {0.0, 0.0});
    double mean() const { return belief_.mean; }
    double sd() const;                     // of the logarithm, with what the spread of photos says
    double factor() const;                 // exp of the mean: the median
    yarn::Range range_80_percent() const;  // of the factor
    double sds_off(const colour::CurvedSighting& next) const;
    int count() const { return count_; }    // of batts and samples
    int photos() const { return photos_; }  // of them
    const colour::PriorNormal& prior() const { return prior_; }
    bool operator==(const LogBelief& other) const;

  private:
    double scale() const;  // the square of the common factor
    colour::PriorNormal prior_;
    colour::BeliefNormal belief_;
    int count_ = 0, photos_ = 0;
};

struct Hands {
    LogBelief m{std::log(colour::OpticsModel{}.m), colour::OpticsModel{}.m_log_sd};
    LogBelief mixing{0.0, mixing_prior_log_sd};
    // The optics with this spinner's m and how sure it is.
    colour::OpticsModel applied_to(colour::OpticsModel optics) const;
    bool operator==(const Hands&) const = default;
};

// What is odd about a photo.
enum class Odd { m, mixing, colour };
struct AskedPhoto {
    std::int64_t photo = 0;
    std::string name;
    Odd about = Odd::m;
    double sds = 0.0;
    int others = 0;  // batts and samples that taught the figure; of a colour that fits no figure not counted
};
// "this batt disagrees with what the others taught; leave it out?" and why.
std::string question_words(const AskedPhoto& asked);

struct HandsLearnt {
    Hands hands;
    std::vector<AskedPhoto> questions;   // by id; these taught nothing
    std::vector<std::int64_t> believed;  // the photos that taught
    // The same picture once more, and the photo it repeats.
    struct Repeat {
        std::int64_t photo = 0, of = 0;
    };
    std::vector<Repeat> repeats;
};
// Of all photos that are fit, count, are of the present model and of no batt taken back. A picture that was
// logged twice counts once. Several photos of one batt have its errors in common, so n of them count as one:
// each standard deviation is taken sqrt(n) times as large. Those that disagree with all the others are set
// aside, the worst first, unless they were confirmed.
HandsLearnt hands_from(std::span<const BattPhoto> photos);

// Why a photo taught nothing of what was learnt: in a word or two for a list, and in a sentence.
struct WhyNot {
    std::string in_short, words;
    bool asked = false;  // it waits for an answer
};
std::optional<WhyNot> why_not(const BattPhoto& photo, const HandsLearnt& learnt);

}  // namespace battwright::stash
