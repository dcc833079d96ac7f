#include "base/number.hpp"

#include <charconv>
#include <cmath>
#include <system_error>

namespace gelwright::detail {

namespace {

std::string_view without_spaces_in_front(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  return first == std::string_view::npos ? std::string_view() : text.substr(first);
}

}  // namespace

std::optional<LeadingNumber> leading_number(std::string_view text) {
  text = without_spaces_in_front(text);
  if (text.starts_with('+')) {
    text.remove_prefix(1);
    if (text.starts_with('-')) return std::nullopt;
  }
  LeadingNumber number;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number.value);
  if (error != std::errc() || !std::isfinite(number.value)) return std::nullopt;
  number.rest = text.substr(static_cast<std::size_t>(end - text.data()));
  return number;
}

std::optional<double> to_number(std::string_view text) {
  const std::optional<LeadingNumber> number = leading_number(text);
  if (!number || !without_spaces_in_front(number->rest).empty()) return std::nullopt;
  return number->value;
}

std::optional<double> to_ratio(std::string_view text) {
  const std::size_t sign = text.find_first_of(":/");
  if (sign == std::string_view::npos) return std::nullopt;
  const std::optional<double> first = to_number(text.substr(0, sign));
  const std::optional<double> second = to_number(text.substr(sign + 1));
  if (!first || !second || *first <= 0 || *second <= 0) return std::nullopt;
  const double ratio = *first / *second;
  return std::isfinite(ratio) && ratio > 0 ? std::optional(ratio) : std::nullopt;
}

std::optional<std::string> with_decimal_point(std::string_view text) {
  const std::size_t comma = text.find(',');
  if (comma == std::string_view::npos || comma == 0 || comma + 1 == text.size() ||
      text.find_first_not_of("0123456789,+-") != std::string_view::npos)
    return std::nullopt;
  std::string mended(text);
  mended[comma] = '.';
  if (!to_number(mended)) return std::nullopt;
  return mended;
}

}  // namespace gelwright::detail
