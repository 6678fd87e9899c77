// Inside this room: the log-normal distribution of a length or a diameter.
#pragma once

namespace battwright::staple {

// Given by mean m and CV c: sigma^2 = ln(1 + c^2), mu = ln m - sigma^2 / 2. A CV of 0 is a single value.
class LogNormal {
  public:
    // Precondition: mean > 0, cv >= 0.
    LogNormal(double mean, double cv);

    // Share of the k-th moment that lies in values under / over x (k = 0: of the number; k = 1: of the
    // length). Phi((ln x - mu - k sigma^2) / sigma), and its complement. Values equal to x are in neither.
    double under(double x, int k = 0) const;
    double over(double x, int k = 0) const;
    // The value that the share `1 - Phi(z)` of the number exceeds.
    double quantile_at(double z) const;

  private:
    double standardised(double x, int k) const;

    double mean_;
    double sigma_;
    double mu_;
};

// z at which the standard normal leaves 5 % above it.
inline constexpr double z_of_95_percent = 1.6448536269514722;

}  // namespace battwright::staple
