#include "picture/ticks.hpp"

#include <algorithm>
#include <cmath>

namespace gelwright::detail {

Ticks round_ticks(double low, double high, int most) {
  Ticks ticks;
  const double length = high - low;
  if (!(length > 0) || !std::isfinite(length)) return ticks;
  // A hair of the length: a tick that binary arithmetic puts just outside is still on the axis.
  const double hair = 1e-9 * length;
  for (int power = static_cast<int>(std::floor(std::log10(length / most))) - 1;; ++power)
    for (const int digit : {1, 2, 5}) {
      const double step = digit * std::pow(10.0, power);
      const double first = std::ceil((low - hair) / step);
      const double last = std::floor((high + hair) / step);
      if (last - first + 1 > most) continue;
      for (double i = first; i <= last; ++i) ticks.at.push_back(i == 0 ? 0 : i * step);
      ticks.decimals = std::max(0, -power);
      return ticks;
    }
}

}  // namespace gelwright::detail
