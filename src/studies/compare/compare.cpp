#include "gelwright/compare.hpp"

#include <algorithm>
#include <array>

#include "base/rounding.hpp"
#include "gelwright/carry.hpp"
#include "gelwright/error.hpp"
#include "serving/ph_error.hpp"
#include "studies/compare/reason.hpp"

namespace gelwright {

namespace {

constexpr double percent = 100;
constexpr double usual_portion_g = 60;  // of carbohydrate, the portion costs are told for

/// Amounts below 10 g are weighed on the fine scale.
int decimals_of(double largest_g) {
  return largest_g < 10 ? 2 : 1;
}

class Table {
 public:
  Table(const std::vector<CompareSide>& sides, Comparison& made) : sides_(sides), made_(made) {}

  /// A row of what `value` finds in each side; left out where no side has it.
  template <class Value>
  void row(ComparePart part, std::string key, std::string label, std::string unit, int decimals,
           Value value) {
    CompareRow row{part, std::move(key), std::move(label), std::move(unit), decimals, {}, false};
    bool any = false;
    for (const CompareSide& side : sides_) {
      row.values.push_back(value(side));
      any = any || row.values.back();
    }
    if (!any) return;
    for (const std::optional<double>& each : row.values) {
      const std::optional<double>& first = row.values.front();
      row.differs = row.differs || each.has_value() != first.has_value() ||
                    (each && rounded(*each, decimals) != rounded(*first, decimals));
    }
    made_.rows.push_back(std::move(row));
  }

  /// A row that only recipes have.
  template <class Value>
  void of_recipes(ComparePart part, std::string key, std::string label, std::string unit,
                  int decimals, Value value) {
    row(part, std::move(key), std::move(label), std::move(unit), decimals,
        [&](const CompareSide& side) -> std::optional<double> {
          if (side.inputs == nullptr) return std::nullopt;
          return value(side);
        });
  }

  template <class Value>
  void word(std::string key, std::string label, Value value) {
    CompareWord word{std::move(key), std::move(label), {}, false};
    for (const CompareSide& side : sides_) {
      word.values.push_back(value(side));
      word.differs = word.differs || word.values.back() != word.values.front();
    }
    made_.words.push_back(std::move(word));
  }

 private:
  const std::vector<CompareSide>& sides_;
  Comparison& made_;
};

/// Names of all that goes in, in the order the sides first name them.
std::vector<std::string> ingredient_names(const std::vector<CompareSide>& sides) {
  std::vector<std::string> names;
  const auto add = [&names](const std::string& name) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  };
  for (const CompareSide& side : sides) {
    if (side.inputs == nullptr) continue;
    const auto& ingredients = side.inputs->recipe->ingredients;
    for (const InputLine& line : side.inputs->solids) add(ingredients[line.ingredient].name);
    if (side.inputs->acid) add(ingredients[side.inputs->acid->line.ingredient].name);
    if (side.inputs->calcium) add(ingredients[side.inputs->calcium->line.ingredient].name);
  }
  return names;
}

std::optional<double> mass_g_of(const std::string& name, const CompareSide& side) {
  if (side.inputs == nullptr) return std::nullopt;
  double mass_g = 0;
  const auto add = [&](const InputLine& line) {
    if (side.inputs->recipe->ingredients[line.ingredient].name == name) mass_g += line.mass_g;
  };
  for (const InputLine& line : side.inputs->solids) add(line);
  if (side.inputs->acid) add(side.inputs->acid->line);
  if (side.inputs->calcium) add(side.inputs->calcium->line);
  return mass_g;
}

void add_amounts(const std::vector<CompareSide>& sides, Table& table) {
  table.row(ComparePart::amounts, "total_g", "serving or piece", "g", 0,
            [](const CompareSide& side) {
              return std::optional(side.inputs != nullptr ? side.evaluation->formula.total_g
                                                          : side.piece_g);
            });
  table.of_recipes(ComparePart::amounts, "water_g", "water", "g", 1,
                   [](const CompareSide& side) { return side.evaluation->formula.water_g; });
  for (const std::string& name : ingredient_names(sides)) {
    double largest_g = 0;
    for (const CompareSide& side : sides)
      largest_g = std::max(largest_g, mass_g_of(name, side).value_or(0));
    table.row(ComparePart::amounts, name, name, "g", decimals_of(largest_g),
              [&name](const CompareSide& side) { return mass_g_of(name, side); });
  }
}

void add_water(Table& table) {
  table.of_recipes(
      ComparePart::water, "water_per_g_solids", "water for 1 g of solids", "g", 2,
      [](const CompareSide& side) { return side.evaluation->formula.water_per_g_solids(); });
  table.of_recipes(ComparePart::water, "water_percent_of_total", "water of all of it", "%", 1,
                   [](const CompareSide& side) {
                     return percent * side.evaluation->formula.water_fraction_of_total();
                   });
  const auto tap = [](const CompareSide& side, auto value) -> std::optional<double> {
    if (side.inputs == nullptr || !side.inputs->recipe->tap) return std::nullopt;
    return value(side.inputs->recipe->tap->water);
  };
  table.row(ComparePart::water, "tap_calcium_mg_per_l", "calcium of the tap water", "mg/L", 0,
            [&](const CompareSide& side) {
              return tap(side, [](const Water& water) { return calcium_mg_per_l(water); });
            });
  table.row(ComparePart::water, "tap_alkalinity_meq_per_l", "alkalinity of it", "meq/L", 2,
            [&](const CompareSide& side) {
              return tap(side, [](const Water& water) { return water.alkalinity_meq_per_l; });
            });
}

bool foretold(const CompareSide& side) {
  return side.inputs != nullptr && side.evaluation->gel.made && side.evaluation->gel.any_gum();
}

void add_outcome(Table& table) {
  table.word("outlook", "likeliest", [](const CompareSide& side) {
    return foretold(side) ? std::string(gel::to_text(side.evaluation->gel.likeliest())) : "";
  });
  table.of_recipes(ComparePart::outcome, "ph", "pH", "", 1, [](const CompareSide& side) {
    return judged_ph(side.evaluation->water_phase, usable_reading(*side.inputs->recipe)).ph;
  });
  const auto chance = [&table](std::string key, std::string label, auto value) {
    table.row(ComparePart::outcome, std::move(key), std::move(label), "%", 0,
              [value](const CompareSide& side) -> std::optional<double> {
                if (!foretold(side)) return std::nullopt;
                return percent * value(side.evaluation->gel);
              });
  };
  chance("chance_set_percent", "chance that it sets",
         [](const GelForecast& gel) { return gel.chance_set(); });
  for (std::size_t i = 0; i < gel::texture_count; ++i) {
    const auto texture = static_cast<gel::Texture>(i);
    const std::string name(gel::to_text(texture));
    chance("chance_" + name + "_percent", "chance of " + name,
           [texture](const GelForecast& gel) { return gel.chance(texture); });
  }
  chance("lumps_percent", "chance of lumps",
         [](const GelForecast& gel) { return gel.all.defects.lumps; });
  chance("weeps_percent", "chance that it weeps",
         [](const GelForecast& gel) { return gel.all.defects.weeps; });
}

/// A side as a piece that is carried: one reading of its label for recipes and bought things.
CarryAmounts eaten_of(const CompareSide& side) {
  if (side.bought) return carry_item(*side.bought, side.piece_g, side.sugars_stated).holds;
  return carry_item(*side.inputs, *side.evaluation).holds;
}

void add_label(const std::vector<CompareSide>& sides, Table& table) {
  std::vector<CarryAmounts> eaten;
  for (const CompareSide& side : sides) eaten.push_back(eaten_of(side));
  const auto add = [&](std::string key, std::string label, std::string unit, int decimals,
                       auto value) {
    table.row(ComparePart::label, std::move(key), std::move(label), std::move(unit), decimals,
              [&, value](const CompareSide& side) {
                return std::optional<double>(
                    value(eaten[static_cast<std::size_t>(&side - sides.data())]));
              });
  };
  add("carbohydrate_g", "carbohydrate", "g", 0,
      [](const CarryAmounts& each) { return each.carbohydrate_g; });
  add("glucose_low_g", "glucose, at least", "g", 0,
      [](const CarryAmounts& each) { return each.glucose_g.low; });
  add("glucose_high_g", "glucose, at most", "g", 0,
      [](const CarryAmounts& each) { return each.glucose_g.high; });
  add("fructose_low_g", "fructose, at least", "g", 0,
      [](const CarryAmounts& each) { return each.fructose_g.low; });
  add("fructose_high_g", "fructose, at most", "g", 0,
      [](const CarryAmounts& each) { return each.fructose_g.high; });
  add("sodium_mg", "sodium known of", "mg", 0,
      [](const CarryAmounts& each) { return each.sodium_mg; });
  add("caffeine_mg", "caffeine", "mg", 0,
      [](const CarryAmounts& each) { return each.caffeine_mg; });
}

void add_cost(const std::vector<CompareSide>& sides, Table& table, Comparison& made) {
  table.row(ComparePart::cost, "cost_per_60_g", "cost of 60 g of carbohydrate", "", 2,
            [](const CompareSide& side) -> std::optional<double> {
              if (side.bought) return side.cost_per_60_g;
              if (!side.evaluation->cost || !side.evaluation->cost->complete()) return std::nullopt;
              return usual_portion_g * side.evaluation->cost->per_g_carbohydrate;
            });
  for (const CompareSide& side : sides)
    made.currencies.push_back(side.inputs != nullptr ? side.inputs->recipe->currency
                                                     : side.currency);
}

void add_dangers(const std::vector<CompareSide>& sides, Comparison& made) {
  for (const FlagInfo& info : flag_catalogue()) {
    CompareDanger danger{std::string(info.name), std::string(called(info.id)), {}, false};
    bool any = false;
    for (const CompareSide& side : sides) {
      std::optional<Level> level;
      if (side.evaluation != nullptr)
        for (const Flag& flag : side.evaluation->flags)
          if (flag.id == info.id && flag.level != Level::note) level = flag.level;
      any = any || level;
      danger.levels.push_back(level);
      danger.differs = danger.differs || level != danger.levels.front();
    }
    if (any) made.dangers.push_back(std::move(danger));
  }
}

}  // namespace

Comparison compare(const std::vector<CompareSide>& sides) {
  if (sides.size() < 2)
    throw InputError("", {{"sides", "there is nothing to compare it with", "name one more"}});
  Comparison made;
  for (const CompareSide& side : sides) made.names.push_back(side.name);
  Table table(sides, made);
  add_amounts(sides, table);
  add_water(table);
  add_outcome(table);
  add_label(sides, table);
  add_cost(sides, table, made);
  add_dangers(sides, made);
  for (std::size_t i = 1; i < sides.size(); ++i)
    if (std::optional<CompareReason> reason = reason_of(sides.front(), sides[i])) {
      reason->second = i;
      made.reasons.push_back(std::move(*reason));
    }
  return made;
}

std::span<const Datum> compare_data() {
  return reason_data();
}

}  // namespace gelwright
