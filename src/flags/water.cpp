// Flags about the water and the recipe's own limits.
#include "gelwright/water.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "base/dust.hpp"
#include "base/rounding.hpp"
#include "flags/record.hpp"

namespace gelwright::detail {

namespace {

bool limits_calcium(const Judged& j) {
  const Limit& limit = j.recipe().limits.calcium_mg_per_l;
  return limit.at_least || limit.at_most;
}

/// Calcium of the water as used; absent where no report gives it. The inputs own the water: a study
/// or a remedy may have thinned or hardened it.
std::optional<double> calcium_mg_per_l(const Judged& j) {
  if (!j.recipe().tap || !calcium_and_magnesium(j.recipe().tap->water, nullptr))
    return std::nullopt;
  return mg_per_l(j.inputs.tap, Ion::calcium);
}

void check_tap_unknown(const Judged& j, Raise& raise) {
  if (!j.recipe().tap) raise(Level::care);
}

struct Implausible {
  std::size_t finding;  ///< in `plausibility` of the water
};

void check_tap_implausible(const Judged& j, Raise& raise) {
  if (!j.recipe().tap) return;
  const std::size_t count = plausibility(j.recipe().tap->water).size();
  for (std::size_t i = 0; i < count; ++i) raise(Level::care, Implausible{i});
}

std::string tell_tap_implausible(const Flag& flag, const Judged& j) {
  const auto odd = plausibility(j.recipe().tap->water);
  return "water report: " + describe(odd[flag.numbers.as<Implausible>().finding]);
}

void check_calcium_unjudged(const Judged& j, Raise& raise) {
  if (limits_calcium(j) && !calcium_mg_per_l(j)) raise(Level::care);
}

struct CalciumLimit {
  double calcium_mg_per_l;
  double limit_mg_per_l;
};

Level calcium_level(const Judged& j) {
  return j.drink() ? Level::stop : Level::care;
}

void check_calcium_below(const Judged& j, Raise& raise) {
  const auto& least = j.recipe().limits.calcium_mg_per_l.at_least;
  if (!least) return;
  const auto calcium = calcium_mg_per_l(j);
  if (calcium && is_under(*calcium, *least))
    raise(calcium_level(j), CalciumLimit{*calcium, *least});
}

void check_calcium_above(const Judged& j, Raise& raise) {
  const auto& most = j.recipe().limits.calcium_mg_per_l.at_most;
  if (!most) return;
  const auto calcium = calcium_mg_per_l(j);
  if (calcium && is_over(*calcium, *most)) raise(calcium_level(j), CalciumLimit{*calcium, *most});
}

std::string tell_calcium(const Flag& flag, std::string_view side, std::string_view then) {
  const auto n = flag.numbers.as<CalciumLimit>();
  return fmt::format("calcium of the water is {} mg/L, {} mg/L {} the limit of {:g}. {}",
                     significant(n.calcium_mg_per_l, 3),
                     significant(std::abs(n.calcium_mg_per_l - n.limit_mg_per_l), 3), side,
                     n.limit_mg_per_l, then);
}

std::string tell_calcium_below(const Flag& flag, const Judged& j) {
  return tell_calcium(flag, "under",
                      j.drink() ? "A drink does not need it; check what the limit is for"
                                : "A pouch that sets with calcium stays soft or runny");
}

std::string tell_calcium_above(const Flag& flag, const Judged& j) {
  return tell_calcium(flag, "over",
                      j.drink() ? "It gels in the bottle, not in the stomach"
                                : "It may lump where calcium meets the gum, and weep");
}

std::string mend_calcium_below(const Flag&, const Judged& j) {
  return j.drink()
             ? "take the limit out, or check which side it is meant for"
             : "a harder water; the recipe's calcium salt does not count here, this limit is of "
               "the water before it (for a salt, `gelwright dose --to-ratio`)";
}

struct PhLimit {
  double ph;
  double limit_ph;
  double half_width;
};

void check_ph_below(const Judged& j, Raise& raise) {
  const auto& least = j.recipe().limits.ph.at_least;
  const JudgedPh found = j.ph();
  if (least && is_under(found.ph, *least))
    raise(Level::care, PhLimit{found.ph, *least, found.half_width});
}

void check_ph_above(const Judged& j, Raise& raise) {
  const auto& most = j.recipe().limits.ph.at_most;
  const JudgedPh found = j.ph();
  if (most && is_over(found.ph, *most))
    raise(Level::care, PhLimit{found.ph, *most, found.half_width});
}

std::string tell_ph(const Flag& flag, std::string_view side) {
  const auto n = flag.numbers.as<PhLimit>();
  // A limit missed by less than the pH is sure of is not certainly missed.
  const bool certain = std::abs(n.ph - n.limit_ph) >= n.half_width;
  return fmt::format("pH {:.1f} is {} the recipe's limit of {:g}{}", n.ph, side, n.limit_ph,
                     certain ? "" : fmt::format(" (+- {:.1f}, so not for certain)", n.half_width));
}

std::string tell_ph_below(const Flag& flag, const Judged&) {
  return tell_ph(flag, "under");
}

std::string tell_ph_above(const Flag& flag, const Judged&) {
  return tell_ph(flag, "over");
}

struct Disagreement {
  double measured_ph;
  double computed_ph;
  double allowed;
};

void check_ph_disagrees(const Judged& j, Raise& raise) {
  const JudgedPh read = j.ph();
  if (!read.measured) return;
  const double allowed = std::hypot(read.half_width, j.phase().ph_uncertainty);
  if (std::abs(read.ph - j.phase().ph) > allowed)
    raise(Level::care, Disagreement{read.ph, j.phase().ph, allowed});
}

std::string tell_ph_disagrees(const Flag& flag, const Judged&) {
  const auto n = flag.numbers.as<Disagreement>();
  return fmt::format("measured pH {:.1f}, computed {:.1f}: further apart than {:.1f}",
                     n.measured_ph, n.computed_ph, n.allowed);
}

struct StockWater {
  double stock_g;
  double water_g;
};

void check_stock_exceeds_water(const Judged& j, Raise& raise) {
  const Formula& formula = j.serving.formula;
  if (formula.tap_g < 0)
    raise(Level::stop, StockWater{formula.water_g - formula.tap_g, formula.water_g});
}

std::string tell_stock_exceeds_water(const Flag& flag, const Judged&) {
  const auto n = flag.numbers.as<StockWater>();
  return fmt::format("the stock brings {:.1f} g of water, the serving has {:.1f} g", n.stock_g,
                     n.water_g);
}

constexpr Turn less_acid[] = {Turn::less_acid};
constexpr Turn more_acid[] = {Turn::more_acid};
constexpr Turn harder[] = {Turn::harder_water};
constexpr Turn softer[] = {Turn::softer_water};
constexpr FlagRecord records[] = {
    {.name = "tap-unknown",
     .called = "an unknown water",
     .when = "the recipe has no water report",
     .why = "Tap water brings calcium, which sets or spoils gum, and alkalinity, which eats acid. "
            "Without a report both count as zero.",
     .source = "common-practice",
     .grade = Grade::c,
     .check = check_tap_unknown,
     .message = "no water report: calcium and alkalinity of the tap count as zero",
     .remedy = "take calcium and alkalinity from the supplier's report",
     .by_plan = true},
    {.name = "tap-implausible",
     .called = "a water report that does not add up",
     .when = "the water report does not add up",
     .why = "Positive and negative ions of a good report balance within a tenth, and calcium "
            "cannot exceed the total hardness.",
     .source = "sm-1030e",
     .grade = Grade::b,
     .check = check_tap_implausible,
     .message = tell_tap_implausible,
     .remedy = "check units and figures against the report",
     .by_plan = true},
    {.name = "calcium-limit-unjudged",
     .called = "a calcium limit that cannot be judged",
     .when = "the recipe limits the water's calcium and no report gives it",
     .why = "A limit that cannot be checked protects nobody.",
     .source = "common-practice",
     .grade = Grade::c,
     .check = check_calcium_unjudged,
     .message = "the recipe limits calcium, and no water report gives it",
     .remedy = "take calcium from the supplier's report"},
    {.name = "calcium-below-limit",
     .called = "less calcium in the water than the recipe asks",
     .when = "calcium of the water as used is under the recipe's `at_least`",
     .why = "A pouch that leans on calcium to set stays soft or runny with too little. A drink "
            "does not need calcium from the water.",
     .source = "common-practice",
     .grade = Grade::c,
     .check = check_calcium_below,
     .message = tell_calcium_below,
     .remedy = mend_calcium_below,
     .turns = harder},
    {.name = "calcium-above-limit",
     .called = "more calcium in the water than the recipe allows",
     .when = "calcium of the water as used is over the recipe's `at_most`",
     .why = "Calcium meets the gum before any acid does. In a drink it gels or ties up the gum in "
            "the bottle, and less is left to set in the stomach; a pouch may lump and weep. "
            "Packets of drink gum often give 40 mg/L as the limit.",
     .source = "common-practice",
     .grade = Grade::c,
     .check = check_calcium_above,
     .message = tell_calcium_above,
     .remedy = "blend with low-mineral water: `gelwright water --bring-calcium-to`",
     .turns = softer},
    {.name = "ph-below-limit",
     .called = "a pH under the recipe's limit",
     .when = "pH is under the recipe's `at_least`",
     .why = "More acid than the recipe wants: acid-set gels turn crumbly, teeth and stomach "
            "notice.",
     .source = "common-practice",
     .grade = Grade::c,
     .check = check_ph_below,
     .message = tell_ph_below,
     .remedy = "`gelwright dose --to-ph` finds the dose",
     .turns = less_acid},
    {.name = "ph-above-limit",
     .called = "a pH over the recipe's limit",
     .when = "pH is over the recipe's `at_most`",
     .why = "Less acid than the recipe wants: an acid-set gel stays runny and keeps badly.",
     .source = "common-practice",
     .grade = Grade::c,
     .check = check_ph_above,
     .message = tell_ph_above,
     .remedy = "`gelwright dose --to-ph` finds the dose",
     .turns = more_acid},
    {.name = "ph-disagrees",
     .called = "a reading that disagrees with the recipe",
     .when = "the measured pH and the computed one differ by more than both allow",
     .why = "Something in the recipe is not as stated, or the reading is off. The sheet goes by "
            "the reading; doses computed for another pH do not.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_ph_disagrees,
     .message = tell_ph_disagrees,
     .remedy = "calibrate and read again; `gelwright fit` finds what is undeclared"},
    {.name = "stock-exceeds-water",
     .called = "a solution with more water than there is",
     .when = "the stock solution alone brings more water than the serving has",
     .why = "The sum of waters would be wrong from the start.",
     .source = "arithmetic",
     .grade = Grade::a,
     .check = check_stock_exceeds_water,
     .message = tell_stock_exceeds_water,
     .remedy = "make the stock stronger, or weigh the dose neat"},
};

}  // namespace

FlagSubject water_flags() {
  return {records, {}, {}};
}

}  // namespace gelwright::detail
