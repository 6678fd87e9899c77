// Inside this room: how the lengths of a strand's fibres are spread.
#pragma once

namespace battwright::staple {

// A Weibull law of mean m and CV c. Its short tail is that of tops: at a CV of 45 % one fibre in ten is under
// 0.44 of the mean, where a log-normal has one in seventy; carded and recycled fibre differ by their CV.
// (Finite mixtures of Weibull laws are what cotton's lengths are fitted with: Krifa, Textile Research Journal
// 2008, "A Finite Mixture Distribution Model"; one law serves here, as only a mean and a CV are known.) A CV
// of 0 is a single value.
class LengthLaw {
  public:
    // Precondition: mean > 0, cv >= 0.
    LengthLaw(double mean, double cv);

    // Share of the k-th moment that lies in values under / over x (k = 0: of the number; k = 1: of the
    // length). F(x) = 1 - exp(-(x/s)^a); by length the incomplete gamma P(1 + 1/a, (x/s)^a). Values equal to
    // x are in neither.
    double under(double x, int k = 0) const;
    double over(double x, int k = 0) const;
    // The value that this share of the number exceeds. Precondition: 0 < share < 1.
    double exceeded_by(double share) const;

  private:
    double mean_;
    double shape_ = 0.0;  // 0: a single value
    double scale_ = 0.0;
};

}  // namespace battwright::staple
