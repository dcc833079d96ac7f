#include "gelling/cup_slopes.hpp"

#include <cmath>

#include "gelling/constant_table.hpp"
#include "gelling/defects.hpp"
#include "gelling/doubt.hpp"

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
  const Point point = point_at(cup.setup, values);
  const Defects defects =
      defects_of(cup.setup, values, point.dissolved, point.routes, point.sum.lg_modulus_pa);
  return {point.lg_thickness, point.sum.lg_yield_pa, defects.lumps, defects.weeps};
}

ExtraSd extra_sd_of(const Ready& cup, const Values& values, bool ph_doubt) {
  const double between = cup_to_cup_sd;
  if (!ph_doubt) return {between, between};
  const Pull pull = pull_of(cup.setup, values, point_at(cup.setup, values), Id::in_ph, ph_step);
  const double steps = cup.setup.state->ph_sd / ph_step;
  return {std::hypot(between, steps * pull.slope[thickness]),
          std::hypot(between, steps * pull.slope[yield])};
}

Slopes slopes_at(const Ready& cup, const Vector& u) {
  const Values values = values_at(u);
  const Point centre = point_at(cup.setup, values);
  Slopes out;
  for (std::size_t i = 0; i < u.size(); ++i) {
    const Pull pull = pull_of(cup.setup, values, centre, shift_ids[i], u_step);
    out.thickness[i] = pull.slope[thickness] / u_step;
    out.yield[i] = pull.slope[yield] / u_step;
  }
  return out;
}

Inverse inverse(Matrix a) {
  Inverse out;
  for (std::size_t i = 0; i < a.size(); ++i) out.matrix[i][i] = 1;
  // Gauss-Jordan without pivoting: safe, because the matrix is symmetric and positive definite.
  for (std::size_t i = 0; i < a.size(); ++i) {
    const double pivot = a[i][i];
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
