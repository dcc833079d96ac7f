#include "gelling/doubt.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "gelling/constant_table.hpp"
#include "gelling/parameter_table.hpp"
#include "gelling/relevance.hpp"

namespace gelwright::gel {

namespace detail {

namespace {

Four four_of(const Point& point) {
  return {point.sum.lg_modulus_pa, point.lg_viscosity, point.sum.lg_yield_pa, point.lg_thickness};
}

/// The model with `values`, of which only those read by `first` and later stages have changed since
/// `centre`.
Point moved(const Setup& setup, const Values& values, const Point& centre, Stage first) {
  Point point = centre;
  if (first == Stage::dissolve) point.dissolved = dissolve(setup, values);
  if (first <= Stage::routes) point.routes = routes_of(setup, point.dissolved, values);
  if (first <= Stage::sum) point.sum = sum_of(setup, point.dissolved, point.routes, values);
  if (first == Stage::dissolve || first == Stage::viscosity)
    point.lg_viscosity = lg_viscosity(setup, point.dissolved, values);
  point.lg_thickness = lg_thickness(point.lg_viscosity, point.sum.lg_yield_pa);
  return point;
}

Point moved(const Setup& setup, Values values, const Point& centre, Id id, double by) {
  values[id] += by;
  return moved(setup, values, centre, first_stage(id));
}

constexpr const auto& shifts = shift_ids;

/// Doubt left by the cups: their covariance, and how far one cup of a mix differs from the next.
Four variance_of(const Learnt& learnt, const Setup& setup, const Values& values,
                 const Point& centre) {
  std::array<Four, 4> slope = {};
  for (std::size_t i = 0; i < 4; ++i) {
    const double sd = std::sqrt(std::max(0.0, learnt.covariance[i][i]));
    if (sd <= 0) continue;
    slope[i] = pull_of(setup, values, centre, shifts[i], sd).slope;
    for (double& each : slope[i]) each /= sd;
  }
  Four variance = {};
  for (std::size_t q = 0; q < variance.size(); ++q) {
    for (std::size_t i = 0; i < 4; ++i)
      for (std::size_t j = 0; j < 4; ++j)
        variance[q] += slope[i][q] * learnt.covariance[i][j] * slope[j][q];
    variance[q] = std::max(0.0, variance[q]);
    if (q != viscosity) variance[q] += cup_to_cup_sd * cup_to_cup_sd;
  }
  return variance;
}

}  // namespace

double Pull::reach() const {
  return std::max(std::fabs(slope[modulus]), std::fabs(slope[thickness]));
}

Pull pull_of(const Setup& setup, const Values& values, const Point& centre, Id id, double sd) {
  const Four up = four_of(moved(setup, values, centre, id, sd));
  const Four down = four_of(moved(setup, values, centre, id, -sd));
  const Four middle = four_of(centre);
  Pull pull;
  for (std::size_t q = 0; q < up.size(); ++q) {
    pull.slope[q] = (up[q] - down[q]) / 2;
    pull.bend[q] = (up[q] + down[q] - 2 * middle[q]) / 2;
  }
  return pull;
}

Point point_at(const Setup& setup, const Values& values) {
  return moved(setup, values, Point{}, Stage::dissolve);
}

Values with_shifts(Values values, const Learnt* learnt) {
  if (learnt != nullptr)
    for (std::size_t i = 0; i < std::size(shifts); ++i) values[shifts[i]] += learnt->mean[i];
  return values;
}

Doubt doubt_of(const Setup& setup, const Values& values, const Point& centre,
               const Learnt* learnt) {
  Four mean = four_of(centre);
  Four variance = {};
  if (learnt != nullptr) variance = variance_of(*learnt, setup, values, centre);
  Doubt out;
  Pull furthest;
  double furthest_sd = 0;
  for (std::size_t i = 0; i < value_count; ++i) {
    const Id id = static_cast<Id>(i);
    const double sd = sd_of(id, *setup.state);
    if (sd <= 0 || stands_in_for(learnt, id) || !matters(id, setup)) continue;
    const Pull pull = pull_of(setup, values, centre, id, sd);
    for (std::size_t q = 0; q < mean.size(); ++q) {
      mean[q] += pull.bend[q];
      variance[q] += pull.slope[q] * pull.slope[q];
    }
    if (furthest_sd == 0 || pull.reach() > furthest.reach()) {
      furthest = pull;
      furthest_sd = sd;
      out.furthest = id;
    }
  }
  const auto sd_of_four = [&variance](std::size_t q) { return std::sqrt(variance[q]); };
  out.lg_modulus = {mean[modulus], sd_of_four(modulus)};
  out.lg_viscosity = {mean[viscosity], sd_of_four(viscosity)};
  out.lg_yield = {mean[yield], sd_of_four(yield)};
  out.lg_thickness = {mean[thickness], sd_of_four(thickness)};

  // The others keep their bend and variance from the centre.
  const Four middle = four_of(centre);
  const auto others = [&](std::size_t q, double at) {
    return MeanSd{at + mean[q] - middle[q] - furthest.bend[q],
                  std::sqrt(std::max(0.0, variance[q] - furthest.slope[q] * furthest.slope[q]))};
  };
  constexpr double steps[] = {-1, 0, 1};
  constexpr double weights[] = {1.0 / 6, 2.0 / 3, 1.0 / 6};
  for (std::size_t n = 0; n < out.nodes.size(); ++n) {
    const Point at = steps[n] == 0 ? centre
                                   : moved(setup, values, centre, out.furthest,
                                           steps[n] * std::sqrt(3.0) * furthest_sd);
    out.nodes[n] = {weights[n], others(modulus, at.sum.lg_modulus_pa),
                    others(thickness, at.lg_thickness), at.sum.sheared_share};
  }
  return out;
}

}  // namespace detail

Values learnt_values(const Learnt* learnt) {
  return detail::with_shifts(central_values(), learnt);
}

bool stands_in_for(const Learnt* learnt, Id id) {
  if (learnt == nullptr) return false;
  if (id == Id::in_fg) return true;
  const std::size_t index = static_cast<std::size_t>(id);
  return index < parameter_count && detail::parameter_table[index].shift != Shift::none;
}

double sd_of(Id id, const State& state) {
  switch (id) {
    case Id::in_ph:
      return state.ph_sd;
    case Id::in_fg:
      return state.guluronate_sd;
    case Id::in_c:
      return state.gum_lg_sd;
    case Id::in_ca:
      return state.ca_lg_sd;
    case Id::u_k:
    case Id::u_ph:
    case Id::u_ca:
    case Id::u_v:
      return 0;
    case Id::v_alg:
      if (state.grade == ViscosityGrade::unknown) return detail::unnamed_grade_sd;
      break;
    default:
      break;
  }
  return detail::parameter_table[static_cast<std::size_t>(id)].sd;
}

}  // namespace gelwright::gel
