#include <algorithm>
#include <cmath>
#include <thread>
#include <vector>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "statistics/quantile.hpp"
#include "statistics/random.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

constexpr std::size_t trials = 1000000;

template <typename Function>
std::vector<double> sample(Function&& function, std::size_t count = trials) {
  std::vector<double> values(count);
  for (std::size_t i = 0; i < count; ++i) values[i] = function(i);
  return values;
}

using Block = std::array<std::uint32_t, 4>;

}  // namespace

TEST_CASE("Philox4x32-10 known answers, Salmon et al. 2011, vectors published with the paper") {
  CHECK(random_block({0, 0, 0}) == Block{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8});
  const std::uint64_t ones = ~std::uint64_t{0};
  CHECK(random_block({ones, ones, ones}) == Block{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd});
  // Counter 243f6a88 85a308d3 13198a2e 03707344, key a4093822 299f31d0, least significant first.
  CHECK(random_block({0x299f31d0a4093822, 0x0370734413198a2e, 0x85a308d3243f6a88}) ==
        Block{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1});
}

TEST_CASE("10000th word of the default philox4x32, C++26 [rand.predef]") {
  // Default seed 20111115; four words a block, so word 9999 (from 0) is the last of block 2499.
  CHECK(random_block({20111115, 0, 2499})[3] == 1955073260u);
}

TEST_CASE("a uniform draw takes the first two words and stays inside (0, 1)") {
  // By hand from the known answer: (0xe169c58d6627e8d5 >> 12) + 1/2, over 2^52.
  CHECK(uniform({0, 0, 0}) == (static_cast<double>(0xe169c58d6627eull) + 0.5) / 4503599627370496.0);
  // The normal draw of the same name, from scipy.special.ndtri of that number.
  CHECK_THAT(standard_normal({0, 0, 0}), near(1.1775912390542733, 1e-14));
  const std::vector<double> u = sample([](std::size_t i) { return uniform({1, 2, i}); });
  CHECK(*std::min_element(u.begin(), u.end()) > 0.0);
  CHECK(*std::max_element(u.begin(), u.end()) < 1.0);
  // Mean 1/2 and variance 1/12, each within four standard errors.
  const Moments m = moments(u);
  CHECK_THAT(m.mean, near(0.5, 4.0 * std::sqrt(1.0 / 12.0) / 1000.0));
  CHECK_THAT(m.sd * m.sd, near(1.0 / 12.0, 4.0 * std::sqrt(1.0 / 180.0) / 1000.0));
  // 100 cells: chi-squared of 99 degrees of freedom, 0.999 quantile 148.23 (tables).
  std::vector<double> cells(100, 0.0);
  for (const double value : u) cells[static_cast<std::size_t>(value * 100.0)] += 1.0;
  double chi_squared = 0.0;
  for (const double cell : cells) chi_squared += (cell - 1e4) * (cell - 1e4) / 1e4;
  CHECK(chi_squared < 148.23);
  CHECK(chi_squared > 55.0);  // and not evener than chance either
}

TEST_CASE("seed, stream and index each give other, unrelated draws") {
  CHECK(uniform({1, 0, 0}) != uniform({0, 0, 0}));
  CHECK(uniform({0, 1, 0}) != uniform({0, 0, 0}));
  CHECK(uniform({0, 0, 1}) != uniform({0, 0, 0}));
  CHECK(uniform({0, std::uint64_t{1} << 40, 0}) != uniform({0, 0, 0}));
  const std::size_t n = 100000;
  const std::vector<double> a = sample([](std::size_t i) { return uniform({7, 0, i}); }, n);
  const std::vector<double> b = sample([](std::size_t i) { return uniform({7, 1, i}); }, n);
  const std::vector<double> c = sample([](std::size_t i) { return uniform({8, 0, i}); }, n);
  const double four_errors = 4.0 / std::sqrt(static_cast<double>(n));
  CHECK_THAT(spearman(a, b), near(0.0, four_errors));
  CHECK_THAT(spearman(a, c), near(0.0, four_errors));
  const std::span<const double> all = a;
  CHECK_THAT(spearman(all.first(n - 1), all.last(n - 1)), near(0.0, four_errors));  // neighbours
}

TEST_CASE("any number of threads gives the same draws") {
  const std::size_t n = 4000;
  const std::vector<double> alone = sample(
      [](std::size_t i) {
        return standard_normal({3, 5, i});
      },
      n);
  std::vector<double> shared(n);
  std::vector<std::thread> threads;
  for (std::size_t part = 0; part < 3; ++part)
    threads.emplace_back([part, &shared] {
      for (std::size_t i = part; i < shared.size(); i += 3) shared[i] = standard_normal({3, 5, i});
    });
  for (std::thread& thread : threads) thread.join();
  CHECK(shared == alone);
}

TEST_CASE("inverse normal at tabulated points") {
  // Wichura 1988 prints these three as the check of the algorithm.
  CHECK_THAT(inverse_normal(0.25), near(-0.6744897501960817, 1e-15));
  CHECK_THAT(inverse_normal(0.001), near(-3.090232306167814, 1e-14));
  CHECK_THAT(inverse_normal(1e-20), near(-9.262340089798408, 1e-13));
  // Common tables of the normal distribution.
  CHECK_THAT(inverse_normal(0.975), near(1.959963984540054, 1e-14));
  CHECK_THAT(inverse_normal(0.995), near(2.575829303548901, 1e-14));
  CHECK(inverse_normal(0.5) == 0.0);
}

TEST_CASE("inverse normal undoes the distribution function") {
  for (double z = -8.0; z <= 8.0; z += 0.0371) {
    const double p = std::erfc(-z / std::sqrt(2.0)) / 2.0;
    // Above 0 the rounding of p itself moves z by eps / density.
    const double density = std::exp(-z * z / 2.0) / std::sqrt(2.0 * 3.14159265358979323846);
    REQUIRE_THAT(inverse_normal(p), near(z, 4e-15 * (1.0 + std::abs(z)) + 3e-16 * p / density));
  }
}

TEST_CASE("inverse normal refuses what is no probability") {
  CHECK_THROWS_AS(inverse_normal(0.0), InputError);
  CHECK_THROWS_AS(inverse_normal(1.0), InputError);
  CHECK_THROWS_AS(inverse_normal(std::nan("")), InputError);
}

TEST_CASE("sum of four standard normals, JCGM 101:2008 9.2.2") {
  // u = 2 and a 95 % interval of +-3.92; tolerances are four standard errors of the simulation.
  std::vector<double> y = sample([](std::size_t i) {
    double sum = 0.0;
    for (std::uint64_t input = 0; input < 4; ++input) sum += standard_normal({20080901, input, i});
    return sum;
  });
  const Spread spread = spread_of(y);
  const double root_m = std::sqrt(static_cast<double>(trials));
  CHECK_THAT(spread.moments.mean, near(0.0, 4.0 * 2.0 / root_m));
  CHECK_THAT(spread.moments.sd, near(2.0, 4.0 * 2.0 / (std::sqrt(2.0) * root_m)));
  CHECK_THAT(spread.low.value, near(-3.92, 4.0 * 2.67 * 2.0 / root_m));
  CHECK_THAT(spread.high.value, near(3.92, 4.0 * 2.67 * 2.0 / root_m));
  // The printed sampling error of the end point is the known one: +-1.96 * 2.67 u / sqrt(M).
  CHECK_THAT(spread.high.high - spread.high.low, near(0.02093, 0.003));
}

TEST_CASE("sum of four rectangular inputs of unit sd, JCGM 101:2008 9.2.3") {
  std::vector<double> y = sample([](std::size_t i) {
    double sum = 0.0;
    for (std::uint64_t input = 0; input < 4; ++input)
      sum += rectangular({20080901, input, i}, -std::sqrt(3.0), std::sqrt(3.0));
    return sum;
  });
  const Spread spread = spread_of(y);
  const double root_m = std::sqrt(static_cast<double>(trials));
  // Exact: the share of a sum of four U(0,1) below x < 1 is x^4/24; the guide prints 3.88.
  const double exact = 2.0 * std::sqrt(3.0) * (2.0 - std::pow(0.6, 0.25));
  CHECK_THAT(exact, near(3.8794067, 5e-8));
  CHECK_THAT(spread.moments.sd, near(2.0, 4.0 * 2.0 / (std::sqrt(2.0) * root_m)));
  CHECK_THAT(spread.low.value, near(-exact, 4.0 * 2.38 * 2.0 / root_m));
  CHECK_THAT(spread.high.value, near(exact, 4.0 * 2.38 * 2.0 / root_m));
}
