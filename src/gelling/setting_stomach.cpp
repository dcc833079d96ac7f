// The stomach rules and the standard stomach test.
#include <cmath>
#include <utility>
#include <vector>

#include "gelling/setting_detail.hpp"
#include "gelwright/error.hpp"

namespace gelwright {
namespace {

using enum Defect;
using enum Texture;

constexpr Standing own = Standing::judgement;
constexpr Standing seen = Standing::confirmed;
constexpr Standing recalled = Standing::from_memory;
constexpr std::string_view judged = "judgement", trial = "marciani-2019", blends = "toft-1986";

constexpr Route ca = Route::calcium_alginate, lp = Route::calcium_pectin, aa = Route::acid_alginate,
                ap = Route::acid_alginate_pectin, sp = Route::sugar_acid_pectin,
                gl = Route::gellan_low_acyl, gh = Route::gellan_high_acyl, th = Route::thickener;

// Gum here is g per 100 g of water after the fluid has come in; only `alginate_percent` is as
// eaten.
constexpr double three_quarters = 0.75 + 1e-9;  // 3 to 1 itself belongs to the window
constexpr SetRange share{0.25, three_quarters};
// A drink: so little alginate, as eaten, that calcium in the bottle spreads it thin.
constexpr double drink_edge = value_of(setting_table, "drink.alginate_below");
constexpr SetRange drink{.below = drink_edge}, thick_enough{.from = drink_edge};
constexpr std::string_view softening = "already set by calcium: softens slowly, unlike a drink";
constexpr std::string_view bound = "the alginate is already bound by calcium";

// clang-format off
constexpr SetRule rules[] = {
    {"stomach.calcium-alginate.0", ca, {.alginate_percent = thick_enough,
     .set_by_calcium = Need::yes}, soft, {}, Grade::c, own, judged, softening},
    {"stomach.calcium-alginate.drink", ca, {.alginate_percent = drink, .set_by_calcium = Need::yes},
     pours, specks, Grade::c, own, judged,
     "a drink that set in the bottle: shreds, little or nothing more sets later"},
    {"stomach.calcium-alginate.1", ca, {.gum_percent = {.below = 0.3}, .set_by_calcium = Need::no},
     pours, {}, Grade::c, own, judged, "too little alginate to set with food calcium"},
    {"stomach.calcium-alginate.2", ca, {.gum_percent = {.from = 0.3}, .ratio_r2 = {.below = 0.3},
     .set_by_calcium = Need::no}, pours, {}, Grade::c, own, judged, "too little calcium"},
    {"stomach.calcium-alginate.3", ca, {.gum_percent = {.from = 0.3}, .ratio_r2 = {.from = 0.3},
     .guluronate_share = {.from = 0.45}, .set_by_calcium = Need::no}, firm, lumps, Grade::b,
     recalled, "peters-2011", "firm lumps and fullness, unwelcome on a run"},
    {"stomach.calcium-alginate.4", ca, {.gum_percent = {.from = 0.3}, .ratio_r2 = {.from = 0.3},
     .guluronate_share = {.below = 0.45}, .set_by_calcium = Need::no}, soft, lumps, Grade::c, own,
     judged, "alginate poor in guluronate: softer lumps"},

    {"stomach.calcium-pectin.0", lp, {.set_by_calcium = Need::yes}, soft, {}, Grade::c, own, judged,
     softening},
    {"stomach.calcium-pectin.1", lp, {.gum_percent = {.below = 0.2}, .set_by_calcium = Need::no},
     pours, {}, Grade::c, own, judged, ""},
    {"stomach.calcium-pectin.2", lp, {.gum_percent = {.from = 0.2}, .set_by_calcium = Need::no},
     soft, fragile, Grade::c, own, judged, "weak gel"},

    {"stomach.acid-alginate.0", aa, {.set_by_calcium = Need::yes}, pours, {}, Grade::c, own, judged,
     bound},
    {"stomach.acid-alginate.1", aa, {.gum_percent = {.below = 0.25}, .set_by_calcium = Need::no},
     pours, {}, Grade::c, own, judged, ""},
    {"stomach.acid-alginate.2", aa, {.gum_percent = {.from = 0.25}, .alginate_share = share,
     .set_by_calcium = Need::no}, pours, {}, Grade::c, own, judged,
     "judged together with the pectin"},
    {"stomach.acid-alginate.3", aa, {.gum_percent = {.from = 0.25},
     .alginate_share = {.from = three_quarters}, .set_by_calcium = Need::no}, soft, lumps, Grade::c,
     own, judged, "soft lumps"},
    {"stomach.acid-alginate.4", aa, {.gum_percent = {.from = 0.25},
     .alginate_share = {.below = 0.25}, .set_by_calcium = Need::no}, soft, lumps, Grade::c, own,
     judged, "soft lumps"},

    {"stomach.acid-alginate-pectin.0", ap, {.set_by_calcium = Need::yes}, pours, {}, Grade::c, own,
     judged, bound},
    {"stomach.acid-alginate-pectin.1", ap, {.gum_percent = {.below = 0.1},
     .set_by_calcium = Need::no}, pours, {}, Grade::b, seen, trial, "too little gum after mixing"},
    {"stomach.acid-alginate-pectin.2", ap, {.gum_percent = {.from = 0.1},
     .alginate_share = {.below = 0.25}, .set_by_calcium = Need::no}, pours, {}, Grade::b, recalled,
     blends, "too little alginate beside the pectin"},
    {"stomach.acid-alginate-pectin.3", ap, {.gum_percent = {.from = 0.1},
     .alginate_share = {.from = three_quarters}, .set_by_calcium = Need::no}, pours, {}, Grade::b,
     recalled, blends, "too little pectin beside the alginate"},
    {"stomach.acid-alginate-pectin.4", ap, {.gum_percent = {.from = 0.1}, .alginate_share = share,
     .set_by_calcium = Need::no}, soft, fragile, Grade::b, seen, trial,
     "weak gel, gone within an hour"},

    {"stomach.sugar-acid-pectin", sp, {}, pours, {}, Grade::a, recalled, "thakur-1997",
     "the fluid brings the solids far below 55 %: HM pectin alone does not set"},
    {"stomach.gellan-low-acyl.0", gl, {.hydrated = Need::no}, pours, {}, Grade::c, own, judged,
     "gum not hydrated"},
    {"stomach.gellan-low-acyl.1", gl, {.gum_percent = {.below = 0.05}, .hydrated = Need::yes},
     pours, {}, Grade::c, own, judged, ""},
    {"stomach.gellan-low-acyl.2", gl, {.gum_percent = {.from = 0.05}, .hydrated = Need::yes}, soft,
     {}, Grade::c, own, judged, ""},
    {"stomach.gellan-high-acyl.0", gh, {.hydrated = Need::no}, pours, {}, Grade::c, own, judged,
     "gum not hydrated"},
    {"stomach.gellan-high-acyl.1", gh, {.gum_percent = {.below = 0.2}, .hydrated = Need::yes},
     pours, {}, Grade::c, own, judged, ""},
    {"stomach.gellan-high-acyl.2", gh, {.gum_percent = {.from = 0.2}, .hydrated = Need::yes}, soft,
     {}, Grade::c, own, judged, ""},
    {"stomach.thickener.1", th, {.gum_percent = {.below = 0.1}}, pours, {}, Grade::c, own, judged,
     ""},
    {"stomach.thickener.2", th, {.gum_percent = {.from = 0.1}}, thick, {}, Grade::c, own, judged,
     "thickens, never sets"},
};
// clang-format on

constexpr double present = value_of(setting_table, "calcium.absent_below_r2");
constexpr double too_much = value_of(setting_table, "drink.hard_water_stop_r2");
constexpr SetRange slow_acid{.from = value_of(setting_table, "stomach.acid_demand_limit")};
constexpr std::string_view slow_note =
    "takes much acid to reach the pH of the stomach: slow or patchy";
constexpr std::string_view medicine_note = "with acid-reducing medicine it may not gel";

// clang-format off
constexpr SetAdjustment adjustments[] = {
    {"stomach.acid-alginate-pectin.calcium-first", ap, {.gum_percent = {.from = 0.1},
     .alginate_percent = drink, .alginate_share = share, .early_ratio_r2 = {present, too_much},
     .set_by_calcium = Need::no}, -1, hard, {}, false, Grade::c, own, judged,
     "calcium in the bottle has spread the gum thin: less gel in the stomach"},
    {"stomach.acid-alginate-pectin.too-much-calcium", ap, {.gum_percent = {.from = 0.1},
     .alginate_percent = drink, .alginate_share = share, .early_ratio_r2 = {.from = too_much},
     .set_by_calcium = Need::no}, 0, pours, specks, true, Grade::c, own, judged,
     "too much calcium in the drink: it gelled or bound in the bottle, little is left to set"},
    {"stomach.acid-alginate-pectin.low-guluronate", ap, {.guluronate_share = {.below = 0.45}}, -1,
     hard, {}, false, Grade::b, recalled, blends, "alginate poor in guluronate: weak or none"},
    {"stomach.acid-alginate-pectin.low-ester", ap, {.hm_pectin_esterification = {.below = 0.6}}, -1,
     hard, {}, false, Grade::b, recalled, blends, "pectin with too few ester groups: weak or none"},
    {"stomach.acid-alginate-pectin.slow", ap, {.gum_percent = {.from = 0.1},
     .alginate_share = share, .acid_demand_mmol = slow_acid, .set_by_calcium = Need::no}, 0, hard,
     patchy, false, Grade::c, own, judged, slow_note},
    {"stomach.acid-alginate-pectin.medicine", ap, {.gum_percent = {.from = 0.1},
     .alginate_share = share, .set_by_calcium = Need::no, .acid_reducing_medicine = Need::yes}, 0,
     hard, may_fail, false, Grade::c, own, judged, medicine_note},
    {"stomach.acid-alginate.slow", aa, {.gum_percent = {.from = 0.25},
     .acid_demand_mmol = slow_acid, .set_by_calcium = Need::no}, 0, hard, patchy, false, Grade::c,
     own, judged, slow_note},
    {"stomach.acid-alginate.medicine", aa, {.gum_percent = {.from = 0.25},
     .set_by_calcium = Need::no, .acid_reducing_medicine = Need::yes}, 0, hard, may_fail, false,
     Grade::c, own, judged, medicine_note},
};
// clang-format on

/// What calcium has set before it is eaten.
struct SetBefore {
  bool alginate = false;
  bool pectin = false;
};

SetBefore set_before_eaten(const SetInput& eaten) {
  RoutePoints calcium;
  for (const Route route : {Route::calcium_alginate, Route::calcium_pectin})
    if (is_active(eaten, route))
      calcium[static_cast<std::size_t>(route)] = pouch_point(eaten, route);
  SetBefore set;
  const Outlook outlook = judge(calcium, pouch_table());
  for (std::size_t i = 0; i < outlook.count; ++i)
    if (outlook.verdicts[i].texture >= Texture::soft)
      (outlook.verdicts[i].route == Route::calcium_pectin ? set.pectin : set.alginate) = true;
  return set;
}

SetPoint stomach_point(const StomachInput& input, Route route, const SetBefore& set) {
  const SettingConstants& k = setting_constants();
  const double water = input.water_fraction;
  const double mixed_water = water + k.stomach_fluid_g_per_g_serving;
  const double ca_mmol =
      (input.calcium_mmol_per_kg_water + input.food_calcium_mmol_per_kg_water) * water +
      k.stomach_calcium_mmol_per_kg_water * mixed_water;
  SetPoint point = pouch_point(input.eaten, route);
  point.gum_percent *= water / mixed_water;
  point.soluble_solids_percent /= 1.0 + k.stomach_fluid_g_per_g_serving;
  point.ph = k.stomach_ph;
  point.ratio_r2 = saturation_ratio_r2(ca_mmol, input.carboxylate_mmol_per_kg_water * water);
  point.acid = AcidDelivery::slow;
  point.set_by_calcium = route == Route::calcium_pectin ? set.pectin : set.alginate;
  point.acid_demand_mmol = input.acid_demand_mmol;
  point.acid_reducing_medicine = input.acid_reducing_medicine;
  return point;
}

void require_serving(const StomachInput& input) {
  std::vector<Problem> problems;
  if (!(input.water_fraction > 0 && input.water_fraction <= 1))
    problems.push_back({"water_fraction", "must be above 0 and at most 1", ""});
  const auto at_least_0 = [&](double x, const char* where) {
    if (!(std::isfinite(x) && x >= 0))
      problems.push_back({where, "must be a number, 0 or more", ""});
  };
  at_least_0(input.calcium_mmol_per_kg_water, "calcium_mmol_per_kg_water");
  at_least_0(input.food_calcium_mmol_per_kg_water, "food_calcium_mmol_per_kg_water");
  at_least_0(input.carboxylate_mmol_per_kg_water, "carboxylate_mmol_per_kg_water");
  if (!std::isfinite(input.acid_demand_mmol))
    problems.push_back({"acid_demand_mmol", "must be a number", ""});
  if (!problems.empty()) throw InputError("", std::move(problems));
}

}  // namespace

SetTable stomach_table() {
  return {rules, adjustments};
}
std::span<const SetRule> stomach_rules() {
  return rules;
}

SetPoint stomach_point(const StomachInput& input, Route route) {
  return stomach_point(input, route, set_before_eaten(input.eaten));
}

Outlook predict_stomach(const StomachInput& input, SetTable table) {
  require_usable(input.eaten);
  require_serving(input);
  const SetBefore set = set_before_eaten(input.eaten);
  RoutePoints points;
  for (std::size_t at = 0; at < route_count; ++at) {
    const auto route = static_cast<Route>(at);
    if (is_active(input.eaten, route)) points[at] = stomach_point(input, route, set);
  }
  return judge(points, table);
}

}  // namespace gelwright
