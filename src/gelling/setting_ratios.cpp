// The figures of each gum, and the ratios of calcium to it.
#include "gelling/setting_detail.hpp"
#include "gelwright/composition.hpp"
#include "gelwright/error.hpp"

namespace gelwright {
namespace {

constexpr SettingConstants constants = {
    .hot_enough_c = value_of(setting_table, "pectin.hot_enough"),
    .hard_water_care_r2 = value_of(setting_table, "drink.hard_water_care_r2"),
    .hard_water_stop_r2 = value_of(setting_table, "drink.hard_water_stop_r2"),
    .acid_demand_limit_mmol = value_of(setting_table, "stomach.acid_demand_limit"),
    .stomach_fluid_g_per_g_serving = value_of(setting_table, "stomach.fluid"),
    .stomach_ph = value_of(setting_table, "stomach.ph"),
    .stomach_calcium_mmol_per_kg_water = value_of(setting_table, "stomach.calcium"),
};
}  // namespace

double guluronate_ratio_from_r2(double r2, double guluronate_share) {
  if (!(guluronate_share > 0 && guluronate_share <= 1))
    throw InputError("", {{"guluronate_share", "must be above 0 and at most 1", ""}});
  return r2 / (2.0 * guluronate_share);
}

HardWater hard_water(double r2_from_water) {
  if (r2_from_water > constants.hard_water_stop_r2) return HardWater::stop;
  return r2_from_water > constants.hard_water_care_r2 ? HardWater::care : HardWater::fine;
}

const SettingConstants& setting_constants() {
  return constants;
}
std::span<const Datum> setting_data() {
  return setting_table;
}

}  // namespace gelwright
