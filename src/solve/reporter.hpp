// Inside this room: progress that never goes back.
#pragma once

#include <algorithm>
#include <limits>

#include "solve/solve.hpp"

namespace battwright::solve {

class Reporter {
  public:
    explicit Reporter(const Control& control) : control_(control) {}
    void tell(double done, std::string_view doing) {
        done_ = std::max(done_, std::min(done, 1.0));
        if (control_.progress) control_.progress({done_, doing, best_});
    }
    void found(double objective) { best_ = std::min(best_, objective); }
    const std::stop_token& stop() const { return control_.stop; }
    bool stopped() const { return control_.stop.stop_requested(); }

  private:
    const Control& control_;
    double done_ = 0.0;
    double best_ = std::numeric_limits<double>::infinity();
};

}  // namespace battwright::solve
