// A linear fit with a habit for each source, robust against wild records and wild sources.
#pragma once

#include <Eigen/Dense>
#include <vector>

namespace skeins {

// y = X b + habit of the source + chance; both follow Student's t (4 and 5 degrees of freedom), whose scales
// have weak inverse-gamma priors worth four observations of 0.25 and 0.20. b has a normal prior.
struct Sample {
    Eigen::MatrixXd x;
    Eigen::VectorXd y;
    std::vector<int> source;
    Eigen::VectorXd prior_mean, prior_sd;
};
struct Fit {
    Eigen::VectorXd b;
    Eigen::MatrixXd covariance;
    // Scales of the t of the program's prior with the same 80 % range.
    double habit_log_sd = 0.0, chance_log_sd = 0.0;
    double standard_error(Eigen::Index i) const;
};
// Expectation-maximisation over the scale mixtures of the two t distributions (Lange, Little & Taylor 1989,
// Robust statistical modeling using the t distribution), b by generalised least squares.
Fit fitted(const Sample& sample);
// The sample without, and with only, one source.
Sample without(const Sample& sample, int source);

}  // namespace skeins
