#include "colour/clusters.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "text/believe.hpp"

namespace battwright::colour {
namespace {

using Eigen::Vector3d;

constexpr int most_rounds = 40;
// Lloyd's iteration has arrived when a round takes away less than this part.
constexpr double least_progress = 1e-4;

double uniform(std::mt19937_64& random) {
    return static_cast<double>(random() >> 11u) * 0x1.0p-53;
}

// The first at random, each further one with a chance that grows with its squared distance from those there.
std::vector<Vector3d> seeds(const std::vector<Vector3d>& points, int count, std::mt19937_64& random) {
    const auto any = static_cast<std::size_t>(uniform(random) * static_cast<double>(points.size()));
    std::vector<Vector3d> centres{points[any]};
    std::vector<double> squares(points.size(), std::numeric_limits<double>::infinity());
    while (static_cast<int>(centres.size()) < count) {
        double sum = 0.0;
        for (std::size_t i = 0; i < points.size(); ++i) {
            squares[i] = std::min(squares[i], (points[i] - centres.back()).squaredNorm());
            sum += squares[i];
        }
        if (sum <= 0.0) break;
        double left = uniform(random) * sum;
        std::size_t chosen = points.size();
        for (std::size_t i = 0; i < points.size() && (chosen == points.size() || left >= 0.0); ++i) {
            if (squares[i] <= 0.0) continue;
            chosen = i;
            left -= squares[i];
        }
        centres.push_back(points[chosen]);
    }
    return centres;
}

void assign(const std::vector<Vector3d>& points, Clusters& clusters) {
    clusters.squares = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        double best = std::numeric_limits<double>::infinity();
        for (std::size_t c = 0; c < clusters.centres.size(); ++c) {
            const double square = (points[i] - clusters.centres[c]).squaredNorm();
            if (square >= best) continue;
            best = square;
            clusters.of[i] = c;
        }
        clusters.squares += best;
    }
}

// A centre that lost all its points stays where it is.
void recentre(const std::vector<Vector3d>& points, Clusters& clusters) {
    std::vector<Vector3d> sums(clusters.centres.size(), Vector3d::Zero());
    std::vector<double> counts(clusters.centres.size(), 0.0);
    for (std::size_t i = 0; i < points.size(); ++i) {
        sums[clusters.of[i]] += points[i];
        counts[clusters.of[i]] += 1.0;
    }
    for (std::size_t c = 0; c < sums.size(); ++c)
        if (counts[c] > 0.0) clusters.centres[c] = sums[c] / counts[c];
}

Clusters lloyd(const std::vector<Vector3d>& points, std::vector<Vector3d> centres) {
    Clusters clusters{std::move(centres), std::vector<std::size_t>(points.size()), 0.0};
    assign(points, clusters);
    for (int round = 0; round < most_rounds; ++round) {
        const double before = clusters.squares;
        recentre(points, clusters);
        assign(points, clusters);
        if (before - clusters.squares <= least_progress * before) break;
    }
    return clusters;
}

}  // namespace

Clusters clustered(const std::vector<Vector3d>& points, int count, int restarts) {
    BATTWRIGHT_BELIEVE(!points.empty() && count >= 1);
    std::mt19937_64 random(1'982);
    Clusters best;
    for (int run = 0; run < restarts; ++run) {
        Clusters clusters = lloyd(points, seeds(points, count, random));
        if (run == 0 || clusters.squares < best.squares) best = std::move(clusters);
    }
    return best;
}

double least_gap_between(const std::vector<Vector3d>& points, const Clusters& clusters) {
    const std::size_t size = clusters.centres.size();
    std::vector<Eigen::Matrix3d> spreads(size, Eigen::Matrix3d::Zero());
    std::vector<double> counts(size, 0.0);
    for (std::size_t i = 0; i < points.size(); ++i) {
        const Vector3d away = points[i] - clusters.centres[clusters.of[i]];
        spreads[clusters.of[i]] += away * away.transpose();
        counts[clusters.of[i]] += 1.0;
    }
    for (std::size_t c = 0; c < size; ++c) spreads[c] /= std::max(1.0, counts[c]);
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t a = 0; a < size; ++a)
        for (std::size_t b = a + 1; b < size; ++b) {
            const Vector3d between = clusters.centres[b] - clusters.centres[a];
            const Vector3d along = between.normalized();
            const double variance = 0.5 * along.dot((spreads[a] + spreads[b]) * along);
            if (variance > 0.0) least = std::min(least, between.norm() / std::sqrt(variance));
        }
    return least;
}

}  // namespace battwright::colour
