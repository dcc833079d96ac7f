// Plain questions on a terminal, each answer checked at once.
#pragma once

#include <functional>
#include <istream>
#include <optional>
#include <ostream>
#include <string>

namespace gelwright::cli {

/// Asks until the answer can be used. `take` keeps a good answer and returns "", or says what is
/// wrong. An empty answer takes `usual`, which is shown in brackets. Throws InputError where the
/// input ends.
void ask(std::istream& in, std::ostream& out, const std::string& question, const std::string& usual,
         const std::function<std::string(const std::string&)>& take);

/// For `take`: a number from `low` to `high`, with the unit it may be typed with.
std::function<std::string(const std::string&)> number_into(double& value, double low, double high,
                                                           const std::string& unit);

/// For `take`: the same, or nothing where it is not known.
std::function<std::string(const std::string&)> number_if_known(std::optional<double>& value,
                                                               double low, double high,
                                                               const std::string& unit);

/// For `take`: one of two words; sets `value` to whether it was the first.
std::function<std::string(const std::string&)> choice_into(bool& value, const std::string& first,
                                                           const std::string& second);

}  // namespace gelwright::cli
