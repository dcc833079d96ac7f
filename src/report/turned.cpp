#include "report/turned.hpp"

#include <cmath>

namespace gelwright {

namespace {

/// An amount that is only repeated, not computed: the digits it has, six decimals at most.
Cell repeated(const std::optional<double>& amount) {
  if (!amount) return {};
  constexpr int most_decimals = 6;
  int decimals = 0;
  for (double scale = 1; decimals < most_decimals; ++decimals, scale *= 10)
    if (std::abs(std::round(*amount * scale) / scale - *amount) <= 1e-9 * std::abs(*amount)) break;
  return Cell(*amount, decimals);
}

}  // namespace

void detail::add_turned(Report& report, const Recipe& recipe) {
  if (recipe.turned.empty()) return;
  Section section{"turned", "TURNED HERE, not as the recipe file says", {}, {}, {}};
  Table table{"turned",
              {{"knob", "knob", false},
               {"value", "here", true},
               {"recipe_value", "in the file", true},
               {"unit", "", false}},
              {}};
  for (const TurnedKnob& each : recipe.turned)
    table.rows.push_back(
        {each.name, repeated(each.amount), repeated(each.document_amount), each.unit});
  section.tables.push_back(std::move(table));
  report.sections.push_back(std::move(section));
}

}  // namespace gelwright
