#include "statistics/random.hpp"

#include <algorithm>
#include <cmath>

#include "gelwright/error.hpp"

namespace gelwright::detail {
namespace {

constexpr std::uint32_t low_word(std::uint64_t bits) {
  return static_cast<std::uint32_t>(bits);
}
constexpr std::uint32_t high_word(std::uint64_t bits) {
  return static_cast<std::uint32_t>(bits >> 32);
}

// Philox4x32-10: multipliers, key increments and rounds as published (Salmon et al. 2011, §4.3).
constexpr std::uint64_t multiplier_0 = 0xD2511F53;
constexpr std::uint64_t multiplier_1 = 0xCD9E8D57;
constexpr std::uint32_t key_step_0 = 0x9E3779B9;
constexpr std::uint32_t key_step_1 = 0xBB67AE85;
constexpr int rounds = 10;

// AS 241 (PPND16): the coefficients of its three rational approximations, lowest power first.
using Coefficients = std::array<double, 8>;

constexpr Coefficients centre_top = {3.3871328727963666080e0, 1.3314166789178437745e2,
                                     1.9715909503065514427e3, 1.3731693765509461125e4,
                                     4.5921953931549871457e4, 6.7265770927008700853e4,
                                     3.3430575583588128105e4, 2.5090809287301226727e3};
constexpr Coefficients centre_bottom = {1.0,
                                        4.2313330701600911252e1,
                                        6.8718700749205790830e2,
                                        5.3941960214247511077e3,
                                        2.1213794301586595867e4,
                                        3.9307895800092710610e4,
                                        2.8729085735721942674e4,
                                        5.2264952788528545610e3};
constexpr Coefficients shoulder_top = {1.42343711074968357734e0,  4.63033784615654529590e0,
                                       5.76949722146069140550e0,  3.64784832476320460504e0,
                                       1.27045825245236838258e0,  2.41780725177450611770e-1,
                                       2.27238449892691845833e-2, 7.74545014278341407640e-4};
constexpr Coefficients shoulder_bottom = {1.0,
                                          2.05319162663775882187e0,
                                          1.67638483018380384940e0,
                                          6.89767334985100004550e-1,
                                          1.48103976427480074590e-1,
                                          1.51986665636164571966e-2,
                                          5.47593808499534494600e-4,
                                          1.05075007164441684324e-9};
constexpr Coefficients tail_top = {6.65790464350110377720e0,  5.46378491116411436990e0,
                                   1.78482653991729133580e0,  2.96560571828504891230e-1,
                                   2.65321895265761230930e-2, 1.24266094738807843860e-3,
                                   2.71155556874348757815e-5, 2.01033439929228813265e-7};
constexpr Coefficients tail_bottom = {1.0,
                                      5.99832206555887937690e-1,
                                      1.36929880922735805310e-1,
                                      1.48753612908506148525e-2,
                                      7.86869131145613259100e-4,
                                      1.84631831751005468180e-5,
                                      1.42151175831644588870e-7,
                                      2.04426310338993978564e-15};

double polynomial(const Coefficients& coefficients, double x) {
  double sum = 0.0;
  for (std::size_t i = coefficients.size(); i-- > 0;) sum = sum * x + coefficients[i];
  return sum;
}

}  // namespace

std::array<std::uint32_t, 4> random_block(const Draw& draw) {
  std::array<std::uint32_t, 4> counter = {low_word(draw.index), high_word(draw.index),
                                          low_word(draw.stream), high_word(draw.stream)};
  std::uint32_t key_0 = low_word(draw.seed);
  std::uint32_t key_1 = high_word(draw.seed);
  for (int round = 0; round < rounds; ++round) {
    const std::uint64_t product_0 = multiplier_0 * counter[0];
    const std::uint64_t product_1 = multiplier_1 * counter[2];
    counter = {high_word(product_1) ^ counter[1] ^ key_0, low_word(product_1),
               high_word(product_0) ^ counter[3] ^ key_1, low_word(product_0)};
    key_0 += key_step_0;
    key_1 += key_step_1;
  }
  return counter;
}

double uniform(const Draw& draw) {
  const std::array<std::uint32_t, 4> block = random_block(draw);
  const std::uint64_t bits = (std::uint64_t{block[1]} << 32) | block[0];
  // 52 bits and a half step: the largest value still fits 53 bits, so nothing rounds up to 1.
  return (static_cast<double>(bits >> 12) + 0.5) * 0x1p-52;
}

double standard_normal(const Draw& draw) {
  return inverse_normal(uniform(draw));
}

double rectangular(const Draw& draw, double low, double high) {
  return low + (high - low) * uniform(draw);
}

double inverse_normal(double probability) {
  if (!(probability > 0.0 && probability < 1.0))
    throw InputError("", {{"probability", "a probability must lie between 0 and 1", ""}});
  const double q = probability - 0.5;
  if (std::abs(q) <= 0.425) {
    const double r = 0.180625 - q * q;
    return q * polynomial(centre_top, r) / polynomial(centre_bottom, r);
  }
  const double r = std::sqrt(-std::log(std::min(probability, 1.0 - probability)));
  const double z = r <= 5.0
                       ? polynomial(shoulder_top, r - 1.6) / polynomial(shoulder_bottom, r - 1.6)
                       : polynomial(tail_top, r - 5.0) / polynomial(tail_bottom, r - 5.0);
  return std::copysign(z, q);
}

}  // namespace gelwright::detail
