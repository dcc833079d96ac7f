// Flags about calcium meeting the gum.
#include <fmt/format.h>

#include <algorithm>

#include "base/rounding.hpp"
#include "flags/gel_view.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum rows[] = {
    {"flag.calcium-too-low-r2", 0.2, "1", 0, "below it calcium alone sets nothing", "fang-2007",
     Standing::judgement},
    {"flag.alginate-too-high-r2", 1.1, "1", 0, "above it alginate gels weep", "draget-1990",
     Standing::judgement},
    {"flag.pectin-too-high-r2", 0.8, "1", 0,
     "LM pectin gels best with 80 to 90 % of its carboxyl reacted with calcium", "padival-1979",
     Standing::judgement},
    {"flag.fast-calcium-r2", 0.3, "1", 0, "a soluble salt all at once", "judgement",
     Standing::judgement},
    {"flag.hard-water-care-r2", 0.2, "1", 0, "a drink, calcium of the water alone", "judgement",
     Standing::judgement},
    {"flag.hard-water-stop-r2", 0.4, "1", 0, "a drink, calcium of the water alone", "judgement",
     Standing::judgement},
};
constexpr std::array<std::string_view, 0> borrowed = {};
constexpr Threshold too_low_r2 = place_of(rows, borrowed, "flag.calcium-too-low-r2");
constexpr Threshold alginate_too_high_r2 = place_of(rows, borrowed, "flag.alginate-too-high-r2");
constexpr Threshold pectin_too_high_r2 = place_of(rows, borrowed, "flag.pectin-too-high-r2");
constexpr Threshold fast_r2 = place_of(rows, borrowed, "flag.fast-calcium-r2");
constexpr Threshold hard_water_care_r2 = place_of(rows, borrowed, "flag.hard-water-care-r2");
constexpr Threshold hard_water_stop_r2 = place_of(rows, borrowed, "flag.hard-water-stop-r2");

bool has_alginate(const Judged& j) {
  return percent_of(j, Gum::alginate) > 0;
}

bool has_low_methoxyl(const Judged& j) {
  return percent_of(j, Gum::lm_pectin) + percent_of(j, Gum::amidated_pectin) > 0;
}

bool binds_calcium(const Judged& j) {
  return has_alginate(j) || has_low_methoxyl(j);
}

struct WaterCalcium {
  double ratio_r2;
  double tap_calcium_mg_per_l;
  double clears_at_mg_per_l;
};

void check_hard_water(const Judged& j, Raise& raise) {
  const WaterPhase& phase = j.phase();
  if (!binds_calcium(j) || !j.drink() || !j.recipe().tap) return;
  if (phase.tap_calcium_ratio_r2 <= j[hard_water_care_r2]) return;
  const Formula& formula = j.serving.formula;
  const double tap_mol = formula.tap_g / 1000 * j.inputs.tap.mol_per_kg[Ion::calcium];
  const double carboxylate_mol = phase.carboxylate_mmol_per_kg * formula.chemistry_water_g / 1e6;
  const double other_mol = phase.tap_calcium_ratio_r2 * carboxylate_mol / 2 - tap_mol;
  const double allowed_mol = j[hard_water_care_r2] * carboxylate_mol / 2 - other_mol;
  const double litres = litres_of_water(formula.tap_g);
  const double clears_at_mg_per_l =
      litres > 0 ? mg_per_l(Ion::calcium, 1000 * std::max(0.0, allowed_mol)) / litres : 0;
  raise(phase.tap_calcium_ratio_r2 > j[hard_water_stop_r2] ? Level::stop : Level::care,
        WaterCalcium{phase.tap_calcium_ratio_r2, mg_per_l(j.inputs.tap, Ion::calcium),
                     clears_at_mg_per_l});
}

std::string tell_hard_water(const Flag& flag, const Judged&) {
  const auto n = flag.numbers.as<WaterCalcium>();
  return fmt::format(
      "calcium of the water ({} mg/L) fills {:.2f} of what the gum can bind. It clears at "
      "{} mg/L",
      significant(n.tap_calcium_mg_per_l, 3), n.ratio_r2, significant(n.clears_at_mg_per_l, 2));
}

struct TooLow {
  double ratio_r2;
  double total_ratio_r2;
};

void check_too_low(const Judged& j, Raise& raise) {
  const bool wants_calcium =
      binds_calcium(j) && !j.drink() && (has_low_methoxyl(j) || j.inputs.calcium.has_value());
  if (wants_calcium && j.phase().calcium_ratio_r2 < j[too_low_r2])
    raise(Level::care, TooLow{j.phase().calcium_ratio_r2, j.phase().total_calcium_ratio_r2});
}

std::string tell_too_low(const Flag& flag, const Judged& j) {
  const auto n = flag.numbers.as<TooLow>();
  return fmt::format(
      "too little calcium for the gum: R2 {:.2f} of the {} it takes to start (total calcium would "
      "be {:.2f})",
      n.ratio_r2, j.quoted(too_low_r2), n.total_ratio_r2);
}

struct Ratio {
  double ratio_r2;
};

Threshold most_r2(const Judged& j) {
  return has_alginate(j) ? alginate_too_high_r2 : pectin_too_high_r2;
}

void check_too_high(const Judged& j, Raise& raise) {
  if (!binds_calcium(j) || j.phase().calcium_ratio_r2 <= j[most_r2(j)]) return;
  raise(Level::care, Ratio{j.phase().calcium_ratio_r2});
}

std::string tell_too_high(const Flag& flag, const Judged& j) {
  return fmt::format("too much calcium for the gum: R2 {:.2f}, over {} it weeps or sets unevenly",
                     flag.numbers.as<Ratio>().ratio_r2, j.quoted(most_r2(j)));
}

void check_shock(const Judged& j, Raise& raise) {
  if (binds_calcium(j) && gel_of(j).state.calcium == gel::Calcium::fast &&
      j.phase().calcium_ratio_r2 > j[fast_r2])
    raise(Level::care, Ratio{j.phase().calcium_ratio_r2});
}

std::string tell_shock(const Flag& flag, const Judged&) {
  return fmt::format("soluble calcium all at once with R2 {:.2f}: lumps",
                     flag.numbers.as<Ratio>().ratio_r2);
}

constexpr Turn softer[] = {Turn::softer_water};
constexpr Turn more_salt[] = {Turn::more_calcium_salt};
constexpr Turn less_calcium[] = {Turn::less_calcium_salt, Turn::softer_water};
constexpr FlagRecord records[] = {
    {.name = "hard-water",
     .called = "too hard a water for this drink",
     .when = "a drink in which calcium of water and solids fills more than "
             "{flag.hard-water-care-r2} (care) or {flag.hard-water-stop-r2} (stop) of the gum's "
             "carboxylate",
     .why = "R2 = 2 [Ca] / [COO-]. Dilute gum is used up by calcium a thick gel would not notice.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_hard_water,
     .message = tell_hard_water,
     .remedy = "blend it down: `gelwright water --bring-calcium-to`",
     .turns = softer},
    {.name = "calcium-too-low",
     .called = "too little calcium for the gum",
     .when = "a pouch meant to set with calcium has R2 under {flag.calcium-too-low-r2}",
     .why = "Too few bridges between chains. Citrate hides calcium: most of it above pH 4.2.",
     .source = "fang-2007",
     .grade = Grade::c,
     .check = check_too_low,
     .message = tell_too_low,
     .remedy = "less citrate, or `gelwright dose --to-ratio`",
     .turns = more_salt},
    {.name = "calcium-too-high",
     .called = "too much calcium for the gum",
     .when = "R2 is over {flag.alginate-too-high-r2} (alginate) or {flag.pectin-too-high-r2} (LM "
             "pectin)",
     .why = "An over-saturated gel contracts and weeps, or does not set evenly at all.",
     .source = "padival-1979",
     .grade = Grade::c,
     .check = check_too_high,
     .message = tell_too_high,
     .remedy = "more gum, or `gelwright dose --to-ratio`",
     .turns = less_calcium},
    {.name = "calcium-shock",
     .called = "calcium all at once",
     .when = "a soluble calcium salt added at once with R2 over {flag.fast-calcium-r2}",
     .why = "Gum sets around the grains before they spread: lumps in a thin liquid.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_shock,
     .message = tell_shock,
     .remedy = "use a slow salt, or drip a weak solution in",
     .turns = less_calcium},
};

}  // namespace

FlagSubject calcium_flags() {
  return {records, rows, borrowed};
}

}  // namespace gelwright::detail
