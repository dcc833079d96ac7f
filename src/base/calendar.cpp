#include "gelwright/calendar.hpp"

#include <fmt/format.h>

#include <chrono>

namespace gelwright {

namespace {

constexpr std::int64_t minutes_of_day = 24 * 60;
constexpr int first_year = 1900;
constexpr int last_year = 2999;

/// Digits and nothing else, as a number.
std::optional<int> digits(std::string_view text) {
  int value = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = 10 * value + (c - '0');
  }
  return value;
}

std::chrono::year_month_day calendar_day(LocalTime time) {
  const std::chrono::days days{static_cast<int>(
      std::chrono::floor<std::chrono::days>(std::chrono::minutes(time.minutes)).count())};
  return std::chrono::year_month_day(std::chrono::sys_days(days));
}

}  // namespace

std::optional<LocalTime> read_day(std::string_view text) {
  constexpr std::size_t length = 10;  // 2026-07-04
  if (text.size() != length || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto year = digits(text.substr(0, 4));
  const auto month = digits(text.substr(5, 2));
  const auto day = digits(text.substr(8, 2));
  if (!year || !month || !day || *year < first_year || *year > last_year) return std::nullopt;
  const std::chrono::year_month_day found{std::chrono::year(*year),
                                          std::chrono::month(static_cast<unsigned>(*month)),
                                          std::chrono::day(static_cast<unsigned>(*day))};
  if (!found.ok()) return std::nullopt;
  return LocalTime{std::chrono::sys_days(found).time_since_epoch().count() * minutes_of_day};
}

std::optional<LocalTime> read_local_time(std::string_view text) {
  constexpr std::size_t length = 16;  // 2026-07-04T08:00
  if (text.size() != length || (text[10] != 'T' && text[10] != ' ') || text[13] != ':')
    return std::nullopt;
  std::optional<LocalTime> time = read_day(text.substr(0, 10));
  const auto hour = digits(text.substr(11, 2));
  const auto minute = digits(text.substr(14, 2));
  if (!time || !hour || !minute || *hour > 23 || *minute > 59) return std::nullopt;
  time->minutes += 60 * *hour + *minute;
  return time;
}

std::string day_text(LocalTime time) {
  const std::chrono::year_month_day day = calendar_day(time);
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()),
                     static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
}

std::string time_text(LocalTime time) {
  const std::int64_t of_day = ((time.minutes % minutes_of_day) + minutes_of_day) % minutes_of_day;
  return fmt::format("{} {:02}:{:02}", day_text(time), of_day / 60, of_day % 60);
}

}  // namespace gelwright
