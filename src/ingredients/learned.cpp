#include "gelwright/learned.hpp"

#include <cmath>

namespace gelwright {

std::vector<double> packed(const LearnedCovariance& covariance) {
  std::vector<double> ten;
  for (std::size_t i = 0; i < learned_shift_count; ++i)
    for (std::size_t j = i; j < learned_shift_count; ++j) ten.push_back(covariance[i][j]);
  return ten;
}

LearnedCovariance unpacked(const std::vector<double>& ten) {
  LearnedCovariance covariance = {};
  std::size_t next = 0;
  for (std::size_t i = 0; i < learned_shift_count; ++i)
    for (std::size_t j = i; j < learned_shift_count; ++j)
      covariance[i][j] = covariance[j][i] = ten.at(next++);
  return covariance;
}

bool is_covariance(const LearnedCovariance& covariance) {
  // Six figures are kept, so a correlation of 1 may come back a little over it.
  constexpr double rounding = 1e-4;
  for (std::size_t i = 0; i < learned_shift_count; ++i) {
    if (!(covariance[i][i] >= 0)) return false;
    for (std::size_t j = 0; j < i; ++j)
      if (std::abs(covariance[i][j]) >
          (1 + rounding) * std::sqrt(covariance[i][i] * covariance[j][j]))
        return false;
  }
  return true;
}

}  // namespace gelwright
