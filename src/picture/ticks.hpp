// Where an axis has its ticks. Private.
#pragma once

#include <vector>

namespace gelwright::detail {

struct Ticks {
  std::vector<double> at;
  int decimals = 0;  ///< that show each of them whole
};

/// Ticks at whole multiples of 1, 2 or 5 times a power of ten, at least two and at most `most`
/// (3 or more) of them where the axis has any length.
Ticks round_ticks(double low, double high, int most);

}  // namespace gelwright::detail
