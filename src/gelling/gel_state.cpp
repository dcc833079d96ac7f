#include "gelwright/gel_state.hpp"

#include <cmath>

#include "gelling/constant_table.hpp"

namespace gelwright::gel {

namespace {

constexpr double de_power = detail::constant("gel.syrup.maltodextrin_de");

struct Check {
  std::vector<OutOfRange>& found;

  void operator()(std::string_view what, std::string_view unit, double value, double low,
                  double high, std::size_t portion = OutOfRange{}.portion) const {
    if (!(value >= low && value <= high)) found.push_back({what, unit, value, low, high, portion});
  }
};

}  // namespace

bool add(State& state, const Portion& portion) {
  if (state.portions == max_portions) return false;
  state.portion[state.portions++] = portion;
  return true;
}

std::vector<OutOfRange> out_of_range(const State& state) {
  std::vector<OutOfRange> found;
  const Check check{found};
  const double most_hours = 24 * 366;
  for (std::size_t i = 0; i < state.portions; ++i) {
    const Portion& portion = state.portion[i];
    check("gum", "g per 100 g water", portion.g_per_100_g_water, 0, 12, i);
    check("calcium of the liquid the gum meets", "mmol/kg", portion.ca_met_mmol_per_kg, 0, 200, i);
    check("solids of the liquid the gum meets", "%", portion.solids_met_percent, 0, 78, i);
    check("pH of the liquid the gum meets", "pH", portion.ph_met, 1, 9, i);
    check("time to dissolve", "h", portion.hours, 0, most_hours, i);
    check("share of the calcium held by citrate", "1", portion.sequestered, 0, 1, i);
  }
  check("available calcium", "mmol/kg", state.ca_mmol_per_kg, 0, 200);
  check("total calcium", "mmol/kg", state.ca_total_mmol_per_kg, 0, 2000);
  check("calcium added at once", "mmol/kg", state.ca_added_mmol_per_kg, 0, 2000);
  check("magnesium", "mmol/kg", state.mg_mmol_per_kg, 0, 200);
  check("sodium", "mmol/kg", state.na_mmol_per_kg, 0, 2000);
  check("potassium", "mmol/kg", state.k_mmol_per_kg, 0, 2000);
  check("ionic strength", "mmol/kg", state.ionic_mmol_per_kg, 0, 3000);
  check("pH", "pH", state.ph, 1, 9);
  check("doubt of the pH", "pH", state.ph_sd, 0, 3);
  check("dissolved solids", "%", state.solids_percent, 0, 78);
  check("temperature where it is eaten", "degC", state.eaten_c, 0, 90);
  check("highest temperature", "degC", state.heated_c, 0, 130);
  check("time to set", "h", state.hours, 0, most_hours);
  check("guluronate share", "1", state.guluronate, 0.2, 0.8);
  check("doubt of the guluronate share", "1", state.guluronate_sd, 0, 0.3);
  check("esterification of the HM pectin", "%", state.esterification, 50, 85);
  check("dextrose equivalent", "DE", state.sugars.maltodextrin_de, 1, 30);
  check("acid demand", "mmol", state.acid_demand_mmol, 0, 1000);
  return found;
}

double mixed_dextrose_equivalent(const double* de, const double* share, std::size_t count) {
  double sum = 0, weight = 0;
  for (std::size_t i = 0; i < count; ++i) {
    sum += share[i] * std::pow(de[i], de_power);
    weight += share[i];
  }
  return weight > 0 ? std::pow(sum / weight, 1 / de_power) : 0.0;
}

}  // namespace gelwright::gel
