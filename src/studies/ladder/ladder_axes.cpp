#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/rounding.hpp"
#include "gelwright/error.hpp"
#include "gelwright/ladder.hpp"

namespace gelwright {

namespace {

/// Where a problem is, before the text of the axis.
constexpr std::string_view place = "axes";
/// A range that misses its end by less than this share of a step still reaches it.
constexpr double step_slack = 1e-9;

/// Reads one axis after another and keeps everything that is wrong.
struct AxisReader {
  const Inputs& inputs;
  std::vector<Problem> problems = {};

  void refuse(std::string_view text, std::string what, std::string remedy) {
    problems.push_back({fmt::format("{} {}", place, text), std::move(what), std::move(remedy)});
  }

  std::optional<LadderAxis> read(std::string_view text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string_view::npos) {
      refuse(text, "no range", "write KNOB=FROM:TO:STEP, for example acid_g=0.1:0.6:0.1");
      return std::nullopt;
    }
    LadderAxis axis;
    const std::size_t before = problems.size();
    axis.name = std::string(text.substr(0, equals));
    const FoundKnob found = find_knob(axis.name, *inputs.recipe);
    if (!found.knob) refuse(text, found.what, found.remedy);
    axis.knob = found.knob.value_or(KnobOf{});
    double numbers[3] = {};
    if (read_numbers(text, text.substr(equals + 1), numbers, axis.decimals))
      check_range(text, found.knob, numbers, axis);
    if (problems.size() > before) return std::nullopt;
    return axis;
  }

  bool read_numbers(std::string_view text, std::string_view range, double (&numbers)[3],
                    int& decimals) {
    for (std::size_t i = 0; i < 3; ++i) {
      const std::size_t colon = range.find(':');
      const bool last = colon == std::string_view::npos;
      const std::string_view digits = range.substr(0, colon);
      const std::optional<double> number = detail::to_number(digits);
      if (!number || digits.find(' ') != std::string_view::npos || last != (i == 2)) {
        refuse(text, "the range is not three numbers",
               "write FROM:TO:STEP with decimal points, for example 0.1:0.6:0.1");
        return false;
      }
      numbers[i] = *number;
      const std::size_t point = digits.find('.');
      const bool plain = digits.find_first_of("eE") == std::string_view::npos;
      const std::size_t written = point == std::string_view::npos ? 0 : digits.size() - point - 1;
      constexpr int most_decimals = 9;
      if (i != 1)
        decimals = std::max(decimals,
                            plain ? static_cast<int>(std::min<std::size_t>(written, most_decimals))
                                  : most_decimals);
      range = last ? std::string_view{} : range.substr(colon + 1);
    }
    return true;
  }

  /// What was turned for the whole series stands in the table beside what varies.
  void check_turned(std::string_view text, const KnobOf& knob) {
    for (const TurnedKnob& each : inputs.recipe->turned) {
      const FoundKnob turned_knob = find_knob(each.name, *inputs.recipe);
      if (turned_knob.knob && clash(*turned_knob.knob, knob))
        refuse(text, fmt::format("{} is turned for every cup", each.name),
               "vary it or turn it, not both");
    }
  }

  void check_range(std::string_view text, const std::optional<KnobOf>& knob,
                   const double (&numbers)[3], LadderAxis& axis) {
    const auto [from, to, step] = numbers;
    if (step == 0)
      refuse(text, "the step is 0", "give a step above 0");
    else if (step < 0 && to < from)
      refuse(text, "the range runs backwards", fmt::format("write {}:{}:{}", to, from, -step));
    else if (step < 0)
      refuse(text, "the step is negative", "give a step above 0");
    if (step >= 0 && to < from)
      refuse(text, fmt::format("the range is reversed: {} is above {}", from, to),
             fmt::format("write {}:{}:{}", to, from, step));
    if (knob) check_turned(text, *knob);
    if (knob && to >= from) {
      const KnobInfo& info = info_of(knob->knob);
      if (!within_bounds(info, from) || !within_bounds(info, to))
        refuse(text, fmt::format("{} must be {}", info.name, bounds_text(info)),
               "check the unit in the name");
    }
    axis.from = from;
    axis.step = step;
    if (step > 0 && to >= from) {
      const double steps = std::floor((to - from) / step + step_slack);
      axis.count = steps < static_cast<double>(most_ladder_cells)
                       ? static_cast<std::size_t>(steps) + 1
                       : most_ladder_cells + 1;
    }
  }
};

}  // namespace

double LadderAxis::value(std::size_t index) const {
  if (!values.empty()) return values.at(index);
  // To the decimals the user wrote, so that 0.1 + 2 x 0.1 is 0.3.
  return rounded(from + static_cast<double>(index) * step, decimals);
}

std::vector<LadderAxis> read_ladder_axes(std::span<const std::string> texts, const Inputs& inputs) {
  AxisReader reader{inputs};
  std::vector<LadderAxis> axes;
  double cells = 1;
  for (const std::string& text : texts) {
    const std::optional<LadderAxis> axis = reader.read(text);
    if (!axis) continue;
    for (const LadderAxis& each : axes)
      if (clash(each.knob, axis->knob))
        reader.refuse(text,
                      each.name == axis->name
                          ? fmt::format("{} is varied twice", axis->name)
                          : fmt::format("{} and {} vary the same thing", each.name, axis->name),
                      "keep one of them");
    cells *= static_cast<double>(axis->count);
    axes.push_back(*axis);
  }
  if (texts.empty())
    reader.problems.push_back(
        {std::string(place), "nothing to vary", "for example acid_g=0.1:0.6:0.1"});
  if (cells > static_cast<double>(most_ladder_cells))
    reader.problems.push_back({std::string(place),
                               fmt::format("more than {} cells", most_ladder_cells),
                               "take larger steps"});
  if (!reader.problems.empty()) throw InputError("", std::move(reader.problems));
  return axes;
}

}  // namespace gelwright
