#include "cli/questions.hpp"

#include <fmt/format.h>

#include "base/number.hpp"
#include "base/text.hpp"
#include "gelwright/error.hpp"

namespace gelwright::cli {

namespace {

std::string without_unit(std::string text, const std::string& unit) {
  if (!unit.empty() && text.ends_with(unit)) text.resize(text.size() - unit.size());
  return std::string(detail::trimmed(text));
}

std::string read_number(const std::string& text, double low, double high, const std::string& unit,
                        double& value) {
  const std::optional<double> number = detail::to_number(without_unit(text, unit));
  if (!number || *number < low || *number > high)
    return fmt::format("please a number from {:g} to {:g}{}{}", low, high, unit.empty() ? "" : " ",
                       unit);
  value = *number;
  return "";
}

}  // namespace

void ask(std::istream& in, std::ostream& out, const std::string& question, const std::string& usual,
         const std::function<std::string(const std::string&)>& take) {
  while (true) {
    out << question << (usual.empty() ? "" : " [" + usual + "]") << ": " << std::flush;
    std::string line;
    if (!std::getline(in, line))
      throw InputError("", {{"questions", "the answers end before all is asked",
                             "answer them, or give options; see `gelwright start --help`"}});
    const std::string answer(detail::trimmed(line));
    const std::string wrong = take(answer.empty() ? usual : answer);
    if (wrong.empty()) return;
    out << "  " << wrong << '\n';
  }
}

std::function<std::string(const std::string&)> number_into(double& value, double low, double high,
                                                           const std::string& unit) {
  return [=, &value](const std::string& text) { return read_number(text, low, high, unit, value); };
}

std::function<std::string(const std::string&)> number_if_known(std::optional<double>& value,
                                                               double low, double high,
                                                               const std::string& unit) {
  return [=, &value](const std::string& text) {
    if (text.empty() || text == "not known") {
      value.reset();
      return std::string();
    }
    double number = 0;
    std::string wrong = read_number(text, low, high, unit, number);
    if (wrong.empty())
      value = number;
    else
      wrong += ", or nothing where you do not know";
    return wrong;
  };
}

std::function<std::string(const std::string&)> choice_into(bool& value, const std::string& first,
                                                           const std::string& second) {
  return [=, &value](const std::string& text) {
    const std::string answer = lower(text);
    const bool one = !answer.empty() && first.starts_with(answer);
    const bool two = !answer.empty() && second.starts_with(answer);
    if (one == two) return fmt::format("please \"{}\" or \"{}\"", first, second);
    value = one;
    return std::string();
  };
}

}  // namespace gelwright::cli
