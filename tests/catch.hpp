// One include for Catch2 2.x (one header) and 3.x (library); CMake defines the switch.
#pragma once

#ifdef GELWRIGHT_CATCH2_3
#include <catch2/catch_test_macros.hpp>
#include <catch2/generators/catch_generators.hpp>
#include <catch2/generators/catch_generators_range.hpp>
#include <catch2/matchers/catch_matchers_floating_point.hpp>
#include <catch2/matchers/catch_matchers_string.hpp>
#else
#include <catch2/catch.hpp>
#endif

namespace gelwright::test {

/// Absolute tolerance: `CHECK_THAT(x, near(1.0, 1e-3))`.
inline auto near(double expected, double tolerance) {
#ifdef GELWRIGHT_CATCH2_3
  return Catch::Matchers::WithinAbs(expected, tolerance);
#else
  return Catch::WithinAbs(expected, tolerance);
#endif
}

}  // namespace gelwright::test
