// Random draws that can be asked for in any order.
//
// There is no generator state: a draw is a pure function of (seed, stream, index), so any number of
// threads gives the same numbers, and adding a stream leaves the others alone. Bits are the same on
// every platform; so are uniform and rectangular draws. A normal draw further than 1.44
// from 0 takes std::log, so its last bit may follow the mathematics library.
// Sources: Philox4x32-10, Salmon, Moraes, Dror & Shaw, Proc. SC11 (2011), doi
// 10.1145/2063384.2063405; inverse normal, Wichura, Algorithm AS 241, Appl. Stat. 37:477 (1988).
#pragma once

#include <array>
#include <cstdint>

namespace gelwright::detail {

/// Names one draw.
struct Draw {
  std::uint64_t seed = 0;    ///< what the user gives and the report prints
  std::uint64_t stream = 0;  ///< which uncertain input
  std::uint64_t index = 0;   ///< which trial
};

/// The 128 random bits of this draw. Two draws that differ in stream or index never share a
/// counter.
std::array<std::uint32_t, 4> random_block(const Draw& draw);

/// Uniform in the open interval (0, 1): a multiple of 2^-53, never 0 or 1, symmetric about 1/2.
double uniform(const Draw& draw);

/// Standard normal, by inverse distribution function, so monotone in `uniform` of the same draw.
double standard_normal(const Draw& draw);

/// Uniform between `low` and `high`, any unit. `low` <= `high`, not checked.
double rectangular(const Draw& draw, double low, double high);

/// The standard normal quantile of `probability`, relative error about 1e-16 plus rounding.
/// Throws InputError unless 0 < probability < 1.
double inverse_normal(double probability);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
