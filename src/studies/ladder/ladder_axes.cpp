#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "base/rounding.hpp"
#include "base/text.hpp"
#include "gelwright/error.hpp"
#include "gelwright/ladder.hpp"

namespace gelwright {

namespace {

constexpr std::string_view option = "--vary";
constexpr std::string_view mass_prefix = "mass_g:";
/// A range that misses its end by less than this share of a step still reaches it.
constexpr double step_slack = 1e-9;

struct KnobRow {
  std::string_view name;
  LadderKnob knob;
  double low;  ///< in the unit of the name
  double high;
  bool low_counts;  ///< whether `low` itself is allowed
};

// The upper bounds only catch a slip of the unit; what a water phase cannot hold is found later.
constexpr KnobRow knobs[] = {
    {"acid_g", LadderKnob::acid_g, 0, 1e4, true},
    {"calcium_salt_g", LadderKnob::calcium_salt_g, 0, 1e4, true},
    {"water_g", LadderKnob::water_g, 0, 1e6, false},
    {"water_per_g_solids", LadderKnob::water_per_g_solids, 0, 1000, false},
    {"water_fraction_of_total", LadderKnob::water_fraction_of_total, 0, 0.999, false},
    {"tap_calcium_mg_per_l", LadderKnob::tap_calcium_mg_per_l, 0, 2000, true},
    {"alkalinity_meq_per_l", LadderKnob::alkalinity_meq_per_l, 0, 100, true},
};
constexpr KnobRow mass_knob{"mass_g", LadderKnob::mass_g, 0, 1e6, true};

bool is_water(LadderKnob knob) {
  return knob == LadderKnob::water_g || knob == LadderKnob::water_per_g_solids ||
         knob == LadderKnob::water_fraction_of_total;
}

const std::string& name_of(const InputLine& line, const Inputs& inputs) {
  return inputs.recipe->ingredients[line.ingredient].name;
}

/// Reads one axis after another and keeps everything that is wrong.
struct AxisReader {
  const Inputs& inputs;
  std::vector<Problem> problems = {};

  void refuse(std::string_view text, std::string what, std::string remedy) {
    problems.push_back({fmt::format("{} {}", option, text), std::move(what), std::move(remedy)});
  }

  std::string did_you_mean(std::string_view name) const {
    std::vector<std::string> names;
    for (const KnobRow& row : knobs) names.emplace_back(row.name);
    for (const InputLine& line : inputs.solids)
      names.push_back(fmt::format("{}{}", mass_prefix, name_of(line, inputs)));
    const std::vector<std::string> close = similar_names(name, names);
    if (close.empty()) return fmt::format("choose one of {}", fmt::join(names, ", "));
    return fmt::format("did you mean {}?", fmt::join(close, " or "));
  }

  /// The bounds of the knob called `name`, and the knob itself put into `axis`.
  const KnobRow* find_knob(std::string_view text, std::string_view name, LadderAxis& axis) {
    axis.name = std::string(name);
    for (const KnobRow& row : knobs)
      if (row.name == name) {
        axis.knob = row.knob;
        return &row;
      }
    if (name.starts_with(mass_prefix))
      for (std::size_t i = 0; i < inputs.solids.size(); ++i)
        if (name_of(inputs.solids[i], inputs) == name.substr(mass_prefix.size())) {
          axis.knob = LadderKnob::mass_g;
          axis.solid = i;
          return &mass_knob;
        }
    refuse(text, fmt::format("\"{}\" cannot be varied", name), did_you_mean(name));
    return nullptr;
  }

  std::optional<LadderAxis> read(std::string_view text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string_view::npos) {
      refuse(text, "no range", "write KNOB=FROM:TO:STEP, for example acid_g=0.1:0.6:0.1");
      return std::nullopt;
    }
    LadderAxis axis;
    const std::size_t before = problems.size();
    const KnobRow* knob = find_knob(text, text.substr(0, equals), axis);
    double numbers[3] = {};
    if (read_numbers(text, text.substr(equals + 1), numbers, axis.decimals))
      check_range(text, knob, numbers, axis);
    if (knob != nullptr) check_recipe(text, *knob);
    if (problems.size() > before) return std::nullopt;
    return axis;
  }

  bool read_numbers(std::string_view text, std::string_view range, double (&numbers)[3],
                    int& decimals) {
    for (std::size_t i = 0; i < 3; ++i) {
      const std::size_t colon = range.find(':');
      const bool last = colon == std::string_view::npos;
      const std::string_view digits = range.substr(0, colon);
      const auto [end, error] =
          std::from_chars(digits.data(), digits.data() + digits.size(), numbers[i]);
      const bool whole = error == std::errc() && end == digits.data() + digits.size();
      if (!whole || !std::isfinite(numbers[i]) || last != (i == 2)) {
        refuse(text, "the range is not three numbers",
               "write FROM:TO:STEP with decimal points, for example 0.1:0.6:0.1");
        return false;
      }
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

  void check_range(std::string_view text, const KnobRow* knob, const double (&numbers)[3],
                   LadderAxis& axis) {
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
    if (knob != nullptr && to >= from) {
      const bool low_ok = knob->low_counts ? from >= knob->low : from > knob->low;
      if (!low_ok || to > knob->high)
        refuse(text,
               fmt::format("{} must be {} {} and at most {}", knob->name,
                           knob->low_counts ? "at least" : "above", knob->low, knob->high),
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

  void check_recipe(std::string_view text, const KnobRow& knob) {
    if (knob.knob == LadderKnob::acid_g && !inputs.acid)
      refuse(text, "this recipe has no acid to vary",
             "name the acid in the recipe: \"acid\": {\"ingredient\": ..., \"mass_g\": 0.3}");
    if (knob.knob == LadderKnob::calcium_salt_g && !inputs.calcium)
      refuse(text, "this recipe has no calcium salt to vary",
             "name it in the recipe: \"calcium\": {\"ingredient\": ..., \"mass_g\": 0.1, ...}");
  }
};

}  // namespace

double LadderAxis::value(std::size_t index) const {
  // To the decimals the user wrote, so that 0.1 + 2 x 0.1 is 0.3.
  return rounded(from + static_cast<double>(index) * step, decimals);
}

std::vector<LadderAxis> read_ladder_axes(std::span<const std::string> texts, const Inputs& inputs) {
  AxisReader reader{inputs};
  std::vector<LadderAxis> axes;
  bool water = false;
  double cells = 1;
  for (const std::string& text : texts) {
    const std::optional<LadderAxis> axis = reader.read(text);
    if (!axis) continue;
    const bool twice = std::any_of(axes.begin(), axes.end(), [&axis](const LadderAxis& each) {
      return each.name == axis->name;
    });
    if (twice)
      reader.refuse(text, fmt::format("{} is varied twice", axis->name), "keep one range");
    else if (is_water(axis->knob) && water)
      reader.refuse(text, "the water is varied in two ways at once", "keep one of them");
    water = water || is_water(axis->knob);
    cells *= static_cast<double>(axis->count);
    axes.push_back(*axis);
  }
  if (texts.empty())
    reader.problems.push_back(
        {std::string(option), "nothing to vary", "for example --vary acid_g=0.1:0.6:0.1"});
  if (cells > static_cast<double>(most_ladder_cells))
    reader.problems.push_back({std::string(option),
                               fmt::format("more than {} cells", most_ladder_cells),
                               "take larger steps"});
  if (!reader.problems.empty()) throw InputError("", std::move(reader.problems));
  return axes;
}

}  // namespace gelwright
