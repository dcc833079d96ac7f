#include "gelling/setup.hpp"

#include <algorithm>

#include "gelling/carboxylate.hpp"
#include "gelling/constant_table.hpp"
#include "gelling/mathematics.hpp"

namespace gelwright::gel::detail {

namespace {

constexpr double sugar_slows = constant("gel.hydration.sugar_slows");
constexpr double acid_slows = constant("gel.hydration.acid_slows");
constexpr double acid_slows_below = constant("gel.hydration.acid_slows_below");
constexpr double heat_makes_time = constant("gel.hydration.heat_makes_time");
constexpr double gellan_c = constant("gel.hydration.gellan_c");
constexpr double gellan_calcium = constant("gel.hydration.gellan_calcium");
constexpr double gellan_calcium_most = constant("gel.hydration.gellan_calcium_most");
constexpr double gellan_sugar = constant("gel.hydration.gellan_sugar");
constexpr double gellan_sequestered = constant("gel.hydration.gellan_sequestered");
constexpr double high_acyl_c = constant("gel.hydration.high_acyl_c");
constexpr double gellan_width = constant("gel.hydration.gellan_width");
constexpr double trace = constant("gel.hydration.trace");
constexpr double room_c = constant("gel.route.room_c");
constexpr double cold_step = constant("gel.route.cold_step");
constexpr double hot_c = constant("gel.route.hot_c");
constexpr double hot_width = constant("gel.route.hot_width");
constexpr double less_dense = constant("gel.liquid.less_dense");
constexpr double sugar_b = constant("gel.syrup.sugar_b");
constexpr double maltodextrin_a = constant("gel.syrup.maltodextrin_a");
constexpr double maltodextrin_de = constant("gel.syrup.maltodextrin_de");
constexpr double maltodextrin_b = constant("gel.syrup.maltodextrin_b");
constexpr double doubt_w = constant("gel.syrup.maltodextrin_doubt_w");

constexpr double for_ever = 1e9;

PortionSetup set_up(const Portion& portion, const State& state, double alginate_so_far) {
  PortionSetup out;
  out.gum = index_of(portion.gum);
  out.g_per_100_g_water = portion.g_per_100_g_water;
  out.late = portion.late;
  const double slower = ten(sugar_slows * portion.solids_met_percent) *
                        (1 + ten(acid_slows * (acid_slows_below - portion.ph_met)));
  out.time_ratio = state.heated_c >= heat_makes_time ? for_ever : portion.hours / slower;
  out.meets_calcium =
      portion.gum == Gum::alginate && alginate_so_far > 0 && portion.ca_met_mmol_per_kg > 0;
  if (out.meets_calcium)
    out.lg_calcium_ratio_met =
        lg(2 * portion.ca_met_mmol_per_kg / coo_mmol_per_kg(Gum::alginate, alginate_so_far));
  if (portion.gum == Gum::gellan_low_acyl) {
    const double need =
        gellan_c + gellan_calcium * std::min(portion.ca_met_mmol_per_kg, gellan_calcium_most) +
        gellan_sugar * portion.solids_met_percent - gellan_sequestered * portion.sequestered;
    out.heat_share = logistic((state.heated_c - need) / gellan_width);
  } else if (portion.gum == Gum::gellan_high_acyl) {
    out.heat_share = logistic((state.heated_c - high_acyl_c) / gellan_width);
  }
  return out;
}

void set_up_syrup(const State& state, Setup& out) {
  const Sugars& sugars = state.sugars;
  const double w = state.solids_percent / 100;
  const double small = constant("gel.syrup.sucrose_a") * (sugars.sucrose + sugars.polyol) +
                       constant("gel.syrup.glucose_a") * sugars.glucose +
                       constant("gel.syrup.fructose_a") * sugars.fructose;
  out.syrup_lg = small * w / (1 - sugar_b * w);
  if (sugars.maltodextrin > 0) {
    const double large = maltodextrin_a * std::pow(sugars.maltodextrin_de, maltodextrin_de);
    out.syrup_lg += sugars.maltodextrin * large * w / (1 - maltodextrin_b * w);
    out.syrup_doubt = sugars.maltodextrin * w / doubt_w;
  }
  out.jam_solids = state.solids_percent + constant("gel.jam.glucose") * sugars.glucose +
                   constant("gel.jam.fructose") * sugars.fructose +
                   constant("gel.jam.polyol") * sugars.polyol;
}

/// 0 where the second gum is absent, 1 once it is more than a trace.
double beside(double second, double first) {
  const double both = first + second;
  return both > 0 && first > 0 ? std::min(1.0, second / both / trace) : 0.0;
}

bool has_gum(Route route, const Setup& setup) {
  const auto in = [&setup](Gum gum) { return setup.g_per_100_g_water[index_of(gum)] > 0; };
  switch (route) {
    case Route::calcium_alginate:
    case Route::acid_alginate:
      return in(Gum::alginate);
    case Route::acid_alginate_pectin:
      return in(Gum::alginate) && in(Gum::hm_pectin);
    case Route::calcium_lm_pectin:
    case Route::acid_lm_pectin:
      return in(Gum::lm_pectin);
    case Route::calcium_amidated_pectin:
    case Route::acid_amidated_pectin:
      return in(Gum::amidated_pectin);
    case Route::sugar_acid_pectin:
      return in(Gum::hm_pectin);
    case Route::gellan_low_acyl:
      return in(Gum::gellan_low_acyl);
    case Route::gellan_high_acyl:
      return in(Gum::gellan_high_acyl);
  }
  return false;
}

}  // namespace

Setup set_up(const State& state) {
  Setup out;
  out.state = &state;
  out.portions = state.portions;
  for (std::size_t i = 0; i < state.portions; ++i) {
    const Portion& portion = state.portion[i];
    out.g_per_100_g_water[index_of(portion.gum)] += portion.g_per_100_g_water;
    out.portion[i] = set_up(portion, state, out.g_per_100_g_water[index_of(Gum::alginate)]);
  }
  const double w = state.solids_percent / 100;
  out.ml_per_g_water = (1 - less_dense * w) / (1 - w);
  out.cold = (room_c - state.eaten_c) / cold_step;
  out.never_hot = 1 - logistic((state.heated_c - hot_c) / hot_width);
  const auto added = [&out](Gum gum) { return out.g_per_100_g_water[index_of(gum)]; };
  out.alginate_beside = beside(added(Gum::alginate), added(Gum::hm_pectin));
  const double lm = added(Gum::lm_pectin) + added(Gum::amidated_pectin);
  out.alginate_of_acid =
      lm > 0 ? beside(added(Gum::alginate), lm) : (added(Gum::alginate) > 0 ? 1.0 : 0.0);
  out.blend_beside = beside(added(Gum::hm_pectin), added(Gum::alginate));
  for (std::size_t r = 0; r < route_count; ++r)
    out.has_gum[r] = has_gum(static_cast<Route>(r), out);
  set_up_syrup(state, out);
  return out;
}

}  // namespace gelwright::gel::detail
