// Numbers as people type them, in files and behind options, read in one place: digits with a
// decimal point, with an exponent or without.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace gelwright::detail {

/// A number at the start of a text, and what stands behind it.
struct LeadingNumber {
  double value = 0;  ///< finite
  std::string_view rest;
};

/// Spaces and tabs in front and one plus sign are skipped. Empty where there is no number, or one
/// no double can hold ("nan", "inf", "1e999").
std::optional<LeadingNumber> leading_number(std::string_view text);

/// The whole text as a number; spaces and tabs around it do not matter.
std::optional<double> to_number(std::string_view text);

/// "2:1", "1 : 0.8", "40/60": the first number over the second, both above 0.
std::optional<double> to_ratio(std::string_view text);

/// "3.85" for "3,85"; empty for what is not a number with a decimal comma.
std::optional<std::string> with_decimal_point(std::string_view text);

}  // namespace gelwright::detail
