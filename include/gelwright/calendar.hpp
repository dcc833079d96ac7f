// Days and times of day as ISO 8601 writes them, by the local calendar: no zone, no leap seconds.
// Nothing here knows what time it is.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace gelwright {

/// Minutes since 1970-01-01 00:00 by the same local calendar.
struct LocalTime {
  std::int64_t minutes = 0;

  auto operator<=>(const LocalTime&) const = default;
};

/// "2026-07-04", at midnight. Years 1900 to 2999; empty for any other writing and for a day that
/// does not exist.
std::optional<LocalTime> read_day(std::string_view text);

/// "2026-07-04T08:00", or with a space for the T; seconds are not taken.
std::optional<LocalTime> read_local_time(std::string_view text);

/// "2026-07-04".
std::string day_text(LocalTime time);

/// "2026-07-04 08:00".
std::string time_text(LocalTime time);

}  // namespace gelwright
