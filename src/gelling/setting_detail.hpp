// What the setting files share. Private: setting.hpp is the way in.
#pragma once

#include <array>
#include <optional>

#include "gelwright/setting.hpp"

namespace gelwright {

inline constexpr Datum setting_table[] = {
    {"pectin.hot_enough", 85.0, "degC", 0.0, "dissolves pectin and low-acyl gellan",
     "common-practice", Standing::common_practice},
    {"calcium.absent_below_r2", 0.1, "1", 0.0, "less calcium counts as none", "judgement",
     Standing::judgement},
    {"drink.hard_water_care_r2", 0.2, "1", 0.0, "calcium of the water alone", "judgement",
     Standing::judgement},
    {"drink.hard_water_stop_r2", 0.4, "1", 0.0, "calcium of the water alone", "judgement",
     Standing::judgement},
    {"drink.alginate_below", 0.3, "g/100 g water", 0.0, "so little that calcium spreads it thin",
     "judgement", Standing::judgement},
    {"stomach.fluid", 1.0, "g/g", 0.0, "per g of serving", "brodkorb-2019", Standing::from_memory},
    {"stomach.ph", 3.0, "1", 0.0, "", "brodkorb-2019", Standing::from_memory},
    {"stomach.calcium", 0.075, "mmol/kg", 0.0, "in the mixture, brought by the fluid",
     "brodkorb-2019", Standing::from_memory},
    {"stomach.acid_demand_limit", 2.0, "mmol", 0.0, "per serving, to the pH of the fluid",
     "judgement", Standing::judgement},
};

/// Throws InputError listing every number of `input` that cannot be used.
void require_usable(const SetInput& input);

/// Whether the recipe holds the gum of this route.
bool is_active(const SetInput& input, Route route);

/// What each route sees; nothing where its gum is absent.
using RoutePoints = std::array<std::optional<SetPoint>, route_count>;

/// Finds the row of each route in one pass. Throws InputError if no row of `table` covers a point.
Outlook judge(const RoutePoints& points, SetTable table);

}  // namespace gelwright
