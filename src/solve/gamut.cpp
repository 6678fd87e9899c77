#include "solve/gamut.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>

#include "colour/large.hpp"
#include "solve/finder.hpp"

namespace battwright::solve {
namespace {

using Eigen::Index;
using Eigen::Vector3d;
using measure::Complaint;
using measure::Expected;

constexpr std::size_t lots_at_start = 6;

using Triangle = std::array<std::uint32_t, 3>;

struct Sphere {
    std::vector<Vector3d> points;
    std::vector<Triangle> triangles;
};

// The regular icosahedron; its twelve corners are the cyclic permutations of (0, +-1, +-golden ratio).
Sphere icosahedron() {
    const double g = std::numbers::phi;
    Sphere sphere;
    sphere.points = {{-1, g, 0},  {1, g, 0},  {-1, -g, 0}, {1, -g, 0}, {0, -1, g},  {0, 1, g},
                     {0, -1, -g}, {0, 1, -g}, {g, 0, -1},  {g, 0, 1},  {-g, 0, -1}, {-g, 0, 1}};
    for (Vector3d& point : sphere.points) point.normalize();
    // Faces: all triples of neighbours, which alone look the same way, wound to look outward.
    const auto near = [&](std::uint32_t i, std::uint32_t j) {
        return sphere.points[i].dot(sphere.points[j]) > 0.0;
    };
    for (std::uint32_t i = 0; i < sphere.points.size(); ++i) {
        for (std::uint32_t j = i + 1; j < sphere.points.size(); ++j) {
            for (std::uint32_t k = j + 1; k < sphere.points.size(); ++k) {
                if (!near(i, j) || !near(j, k) || !near(i, k)) continue;
                const Vector3d normal =
                    (sphere.points[j] - sphere.points[i]).cross(sphere.points[k] - sphere.points[i]);
                sphere.triangles.push_back(normal.dot(sphere.points[i]) > 0.0 ? Triangle{i, j, k}
                                                                              : Triangle{i, k, j});
            }
        }
    }
    return sphere;
}

Sphere refined(const Sphere& coarse) {
    Sphere fine;
    fine.points = coarse.points;
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> middles;
    const auto middle = [&](std::uint32_t i, std::uint32_t j) {
        const auto [place, added] = middles.try_emplace(std::minmax(i, j), std::uint32_t(fine.points.size()));
        if (added) fine.points.push_back((coarse.points[i] + coarse.points[j]).normalized());
        return place->second;
    };
    for (const auto& [i, j, k] : coarse.triangles) {
        const auto ij = middle(i, j), jk = middle(j, k), ki = middle(k, i);
        fine.triangles.insert(fine.triangles.end(), {{i, ij, ki}, {j, jk, ij}, {k, ki, jk}, {ij, jk, ki}});
    }
    return fine;
}

Vector3d vector(const colour::Lab& lab) {
    return {lab.a, lab.b, lab.l};
}
colour::Lab lab_at(const Vector3d& v) {
    return {v.z(), v.x(), v.y()};
}

// As far as blending goes from the centre towards `direction`, held to the ray by a penalty of 1 per unit of
// Lab squared.
OfLab reach_along(const Vector3d& centre, const Vector3d& direction) {
    return [centre, direction](const colour::Lab& lab) {
        const Vector3d away = vector(lab) - centre;
        const double along = away.dot(direction);
        return (away - along * direction).squaredNorm() - along;
    };
}

class GamutBuilder {
  public:
    explicit GamutBuilder(const Shelf& shelf) : shelf_(shelf) {
        const Index n = shelf.f.cols();
        problem_.f = &shelf.f;
        problem_.optics = shelf.optics;
        problem_.good_enough = -no_limit;
        for (Index j = 0; j < n; ++j) {
            problem_.columns.push_back({0, j, 0.0, 1.0});
            lots_.push_back(vector(lab_of_f(shelf.f.col(j), shelf.optics)));
        }
        problem_.rows = MatrixXd::Ones(1, n);
        problem_.row_low = problem_.row_high = VectorXd::Ones(1);
        centre_ = vector(lab_of_f(shelf.f.rowwise().mean(), shelf.optics));
    }

    const Vector3d& centre() const { return centre_; }
    const std::vector<Vector3d>& lots() const { return lots_; }

    Vector3d edge(const Vector3d& direction) {
        problem_.of = {reach_along(centre_, direction)};
        std::vector<Index> order(lots_.size());
        std::iota(order.begin(), order.end(), Index(0));
        const auto value = [&](Index j) {
            return (lots_[std::size_t(j)] - centre_).normalized().dot(direction);
        };
        std::stable_sort(order.begin(), order.end(), [&](Index a, Index b) { return value(a) > value(b); });
        VectorXd start = VectorXd::Zero(Index(lots_.size()));
        const std::size_t count = std::min(order.size(), lots_at_start);
        for (std::size_t k = 0; k < count; ++k) start[order[k]] = 1.0 / double(count);
        const Fit furthest = fit(problem_, start);
        return vector(lab_of_f(shelf_.f * furthest.grams / furthest.grams.sum(), shelf_.optics));
    }

  private:
    const Shelf& shelf_;
    FitProblem problem_;
    std::vector<Vector3d> lots_;
    Vector3d centre_;
};

// All lots free to any share.
Problem free_problem(const std::vector<Lot>& lots) {
    Problem problem;
    for (const Lot& lot : lots) {
        Lot free = lot;
        free.on_hand_grams = 1.0;
        free.keep_back_grams = free.least_grams = 0.0;
        free.most_grams.reset();
        problem.lots.push_back(std::move(free));
    }
    problem.goal.total = {1.0, 1.0};
    problem.goal.scale_step_grams = 0.0;
    return problem;
}

}  // namespace

Expected<Gamut> gamut_of(const std::vector<Lot>& lots, const Setting& setting, const GamutRequest& request) {
    if (auto checked = check(free_problem(lots), setting); !checked)
        return tl::make_unexpected(checked.error());
    if (request.detail < 1 || request.detail > 4)
        return tl::make_unexpected(Complaint{"no such detail", "ask for 1 to 4", "detail"});
    const auto shelf = shelf_of(lots, setting);
    if (!shelf) return tl::make_unexpected(shelf.error());
    Sphere sphere = icosahedron();
    for (int k = 0; k < request.detail; ++k) sphere = refined(sphere);
    GamutBuilder surveyor(*shelf);
    Gamut gamut;
    gamut.centre = lab_at(surveyor.centre());
    for (const Vector3d& lot : surveyor.lots()) gamut.lots.push_back(lab_at(lot));
    for (const Vector3d& direction : sphere.points) gamut.points.push_back(lab_at(surveyor.edge(direction)));
    gamut.triangles = std::move(sphere.triangles);
    return gamut;
}

void hold(Reach& reach, const std::vector<Proposal>& proposals) {
    for (const Proposal& proposal : proposals) {
        if (!proposal.difference || *proposal.difference >= reach.difference) continue;
        reach.difference = *proposal.difference;
        reach.delta_e = proposal.delta_e.value_or(reach.delta_e);
        reach.nearest = proposal.lab;
        reach.shares = proposal.grams;
        for (double& share : reach.shares) share /= proposal.total_grams;
    }
}

Expected<Reach> distance_to_gamut(const std::vector<Lot>& lots, const Target& target,
                                  const Setting& setting) {
    Problem problem = free_problem(lots);
    problem.goal.target = target;
    if (auto checked = check(problem, setting); !checked) return tl::make_unexpected(checked.error());
    const auto shelf = shelf_of(lots, setting);
    if (!shelf) return tl::make_unexpected(shelf.error());
    const auto models = models_of(problem, *shelf);
    if (models.empty()) return tl::make_unexpected(Complaint{"no lot can be used", "add a lot", "lots"});
    const Objective objective(models.front(), *shelf, problem.goal);
    const auto found = best_relaxed(objective, 8, {});
    if (!found) return tl::make_unexpected(Complaint{"no lot can be used", "add a lot", "lots"});
    Reach reach;
    const VectorXd shares = found->grams / found->grams.sum();
    reach.nearest = lab_of_f(shelf->f * shares, shelf->optics);
    reach.delta_e = colour::ciede2000(target.lab, reach.nearest);
    reach.difference = colour::match_difference(target.lab, reach.nearest);
    reach.shares.assign(shares.data(), shares.data() + shares.size());
    return reach;
}

}  // namespace battwright::solve
