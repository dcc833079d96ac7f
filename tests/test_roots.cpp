#include <cmath>
#include <limits>

#include "base/roots.hpp"
#include "catch.hpp"
#include "gelwright/error.hpp"

using namespace gelwright;
using gelwright::detail::find_edge;
using gelwright::detail::find_root;
using gelwright::detail::narrow_bracket;
using gelwright::detail::RootOptions;
using gelwright::test::near;

namespace {

/// Wallis' cubic, the classic of root finding; its real root is OEIS A007493.
double wallis(double x) {
  return x * x * x - 2.0 * x - 5.0;
}
constexpr double wallis_root = 2.0945514815423265915;

}  // namespace

TEST_CASE("roots with published digits") {
  CHECK_THAT(find_root(wallis, 2.0, 3.0), near(wallis_root, 1e-15));
  // The Dottie number, OEIS A003957.
  const auto dottie = [](double x) { return std::cos(x) - x; };
  CHECK_THAT(find_root(dottie, 0.0, 1.0), near(0.73908513321516064166, 1e-15));
  CHECK_THAT(find_root(dottie, 1.0, 0.0), near(0.73908513321516064166, 1e-15));
  // A root at 0, where a relative tolerance alone would never be met, within the absolute one.
  const auto odd = [](double x) { return x * (2.0 + std::sin(x)); };
  CHECK(std::abs(find_root(odd, -1.0, 1.5, {.x_tolerance = 1e-9})) <= 1e-9);
}

TEST_CASE("a smooth root takes far fewer evaluations than halving") {
  int evaluations = 0;
  const auto counted = [&](double x) {
    ++evaluations;
    return wallis(x);
  };
  find_root(counted, 2.0, 3.0);
  CHECK(evaluations <= 12);  // halving takes 52
}

TEST_CASE("the bracket that is left holds the root and is as narrow as asked") {
  for (const double tolerance : {1e-1, 1e-3, 1e-6, 1e-12}) {
    const detail::Bracket left =
        narrow_bracket(wallis, 2.0, wallis(2.0), 3.0, wallis(3.0), {.x_tolerance = tolerance});
    INFO(tolerance);
    CHECK(wallis(left.negative) < 0.0);
    CHECK(wallis(left.positive) >= 0.0);
    CHECK(std::abs(left.positive - left.negative) <= tolerance);
    CHECK(std::abs(left.root - wallis_root) <= tolerance);
  }
}

TEST_CASE("a step, a kink, a pole and a flat stretch cannot upset it") {
  const auto step = [](double x) { return x < 0.3 ? -7.0 : 1e-9; };
  CHECK_THAT(find_root(step, -1.0, 1.0), near(0.3, 1e-15));
  const auto kink = [](double x) { return x < 0.3 ? 1e-6 * (x - 0.3) : 1e6 * (x - 0.3); };
  CHECK_THAT(find_root(kink, -1.0, 1.0), near(0.3, 1e-14));
  const auto pole = [](double x) { return std::log(x) + 7.0; };  // -infinity at 0
  CHECK_THAT(find_root(pole, 0.0, 1.0), near(std::exp(-7.0), 1e-17));
  const auto flat = [](double x) { return std::pow(x - 0.3, 9.0); };
  CHECK(std::abs(find_root(flat, 0.0, 1.0, {.x_tolerance = 1e-6}) - 0.3) <= 1e-6);
}

TEST_CASE("an end that is the root is the answer") {
  CHECK(find_root([](double x) { return x - 2.0; }, 2.0, 3.0) == 2.0);
  CHECK(find_root([](double x) { return x - 3.0; }, 2.0, 3.0) == 3.0);
}

TEST_CASE("the edge of a condition lies on the side where it holds") {
  for (const double edge : {0.1, 1.0 / 3.0, 0.9}) {
    const auto holds = [&](double x) { return x >= edge; };
    const double upwards = find_edge(holds, 0.0, 1.0, {.x_tolerance = 1e-3});
    CHECK(holds(upwards));
    CHECK(upwards - edge <= 1e-3);
    const auto below = [&](double x) { return x <= edge; };
    const double downwards = find_edge(below, 1.0, 0.0, {.x_tolerance = 1e-3});
    CHECK(below(downwards));
    CHECK(edge - downwards <= 1e-3);
  }
}

TEST_CASE("what is no bracket, is no number or takes too long is refused with its state") {
  const auto refused = [](auto f, double a, double b, RootOptions options = {}) {
    try {
      find_root(f, a, b, options);
    } catch (const NotConverged& error) {
      return std::string(error.what());
    }
    return std::string("not refused");
  };
  CHECK(refused(wallis, 3.0, 4.0) ==
        "root in a bracket: after 2 evaluations the value is 16 at 3 and 51 at 4");
  CHECK(refused([](double x) { return x < 0.6 ? -1.0 : std::nan(""); }, 0.0, 1.0) ==
        "root in a bracket: after 2 evaluations the value is -1 at 0 and nan at 1");
  CHECK(refused([](double x) { return x < 1.0 ? std::nan("") : 1.0; }, -1.0, 1.0) ==
        "root in a bracket: after 2 evaluations the value is nan at -1 and 1 at 1");
  CHECK(refused(wallis, 2.0, 3.0, {.most_evaluations = 3}) ==
        "root in a bracket: after 3 evaluations the value is 5.625 at 2.5 and -1 at 2");
}
