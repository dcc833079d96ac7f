#include "gelling/cup_slopes.hpp"

#include <cmath>

#include "gelling/constant_table.hpp"
#include "gelling/defects.hpp"

namespace gelwright::gel::detail {

namespace {

constexpr double ph_step = 0.02;

}  // namespace

Values values_at(const Vector& u) {
  Values values = central_values();
  for (std::size_t i = 0; i < u.size(); ++i) values[shift_ids[i]] = u[i];
  return values;
}

Expected expected_of(const Ready& cup, const Values& values) {
  return expected_at(cup, values, point_at(cup.setup, values));
}

Expected expected_at(const Ready& cup, const Values& values, const Point& there) {
  Expected expected{there.lg_thickness, there.sum.lg_yield_pa, 0, 0};
  if (!cup.reading.lumps_lifted_out && !cup.reading.ring_of_liquid) return expected;
  const Defects defects =
      defects_of(cup.setup, values, there.dissolved, there.routes, there.sum.lg_modulus_pa);
  expected.lumps = defects.lumps;
  expected.weeps = defects.weeps;
  return expected;
}

ExtraSd extra_sd_of(const Ready& cup, const Values& values, bool ph_doubt) {
  const double between = cup_to_cup_sd;
  if (!ph_doubt) return {between, between};
  const Pull pull = pull_of(cup.setup, values, point_at(cup.setup, values), Id::in_ph, ph_step);
  const double steps = cup.setup.state->ph_sd / ph_step;
  return {std::hypot(between, steps * pull.slope[thickness]),
          std::hypot(between, steps * pull.slope[yield])};
}

Slopes slopes_at(const Ready& cup, const Values& values, const Point& there) {
  Slopes out;
  for (std::size_t i = 0; i < shift_ids.size(); ++i) {
    const Pull pull = pull_of(cup.setup, values, there, shift_ids[i], u_step);
    out.thickness[i] = pull.slope[thickness] / u_step;
    out.yield[i] = pull.slope[yield] / u_step;
  }
  return out;
}

Vector times(const Matrix& a, const Vector& x) {
  Vector out = {};
  for (std::size_t i = 0; i < x.size(); ++i)
    for (std::size_t j = 0; j < x.size(); ++j) out[i] += a[i][j] * x[j];
  return out;
}

Inverse inverse(Matrix a) {
  Inverse out;
  for (std::size_t i = 0; i < a.size(); ++i) out.matrix[i][i] = 1;
  // Gauss-Jordan without pivoting: safe while the matrix is positive definite, and a pivot tells
  // where it is not.
  for (std::size_t i = 0; i < a.size(); ++i) {
    const double pivot = a[i][i];
    if (!(pivot > 0)) {
      out.positive_definite = false;
      return out;
    }
    out.ln_determinant += std::log(pivot);
    for (std::size_t j = 0; j < a.size(); ++j) {
      a[i][j] /= pivot;
      out.matrix[i][j] /= pivot;
    }
    for (std::size_t k = 0; k < a.size(); ++k) {
      if (k == i) continue;
      const double factor = a[k][i];
      for (std::size_t j = 0; j < a.size(); ++j) {
        a[k][j] -= factor * a[i][j];
        out.matrix[k][j] -= factor * out.matrix[i][j];
      }
    }
  }
  return out;
}

}  // namespace gelwright::gel::detail
