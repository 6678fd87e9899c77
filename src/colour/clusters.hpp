// Inside this room: k-means.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <vector>

namespace battwright::colour {

struct Clusters {
    std::vector<Eigen::Vector3d> centres;
    std::vector<std::size_t> of;  // for each point its cluster
    double squares = 0.0;         // summed squared distances of the points from their centres
};

// The best of `restarts` runs of Lloyd's iteration from k-means++ seeds. Deterministic. Fewer centres than
// asked for when there are not so many different points. Preconditions: at least one point, count >= 1.
Clusters clustered(const std::vector<Eigen::Vector3d>& points, int count, int restarts);

// The least distance between two centres, in standard deviations of their points along the line between them
// (root mean square of the two clusters'). Infinite for one cluster or when none of them spreads.
double least_gap_between(const std::vector<Eigen::Vector3d>& points, const Clusters& clusters);

}  // namespace battwright::colour
