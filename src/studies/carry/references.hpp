// Thresholds the run shares with the flags. Private.
#pragma once

#include <string_view>

namespace gelwright::detail {

/// A threshold of the flags: what is too much of a serving is too much of a run.
double flagged(std::string_view key);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
