// What the setting files share. Private: setting.hpp is the way in.
#pragma once

#include <array>
#include <optional>

#include "gelwright/setting.hpp"

namespace gelwright {

inline constexpr Datum setting_table[] = {
    {"alginate.equivalent_weight", 222.0, "g/mol", 0.0, "actual average, moisture included",
     "eu-231-2012", Standing::confirmed},
    {"alginate.guluronate_share", 0.50, "1", 0.10, "where the pack does not say", "judgement",
     Standing::judgement},
    {"alginate.guluronate_share_low", 0.35, "1", 0.0, "lowest of usual food grades",
     "draget-handbook", Standing::from_memory},
    {"alginate.guluronate_share_high", 0.70, "1", 0.0, "highest of usual food grades",
     "draget-handbook", Standing::from_memory},
    {"alginate.neutralised_fraction", 1.0, "1", 0.0, "sodium alginate", "eu-231-2012",
     Standing::confirmed},
    {"alginate.magnesium_weight", 0.0, "1", 0.0, "gels only at 5 to 10 times the calcium, in hours",
     "topuz-2012", Standing::from_memory},
    {"alginate.dimers_from_guluronate_ratio", 0.25, "1", 0.0, "dilute solution", "fang-2007",
     Standing::from_memory},
    {"alginate.multimers_from_guluronate_ratio", 0.55, "1", 0.0, "dilute solution", "fang-2007",
     Standing::from_memory},

    {"pectin.galacturonic_acid", 194.14, "g/mol", 0.0, "free acid, the basis of assays",
     "iupac-2021", Standing::computed},
    {"pectin.galacturonic_share", 0.65, "g/g", 0.05, "least a food grade may hold", "eu-231-2012",
     Standing::from_memory},
    {"pectin.neutralised_fraction", 0.2, "1", 0.15, "retail pectin, largely acid form", "judgement",
     Standing::judgement},
    {"pectin.magnesium_weight", 0.0, "1", 0.0, "as for alginate", "judgement", Standing::judgement},
    {"pectin.hm.esterification", 0.70, "1", 0.05, "where the pack does not say", "judgement",
     Standing::judgement},
    {"pectin.lm.esterification", 0.35, "1", 0.05, "where the pack does not say", "judgement",
     Standing::judgement},
    {"pectin.amidated.esterification", 0.30, "1", 0.05, "where the pack does not say", "judgement",
     Standing::judgement},
    {"pectin.amidated.amidation", 0.20, "1", 0.03, "where the pack does not say", "judgement",
     Standing::judgement},
    {"pectin.hot_enough", 85.0, "degC", 0.0, "dissolves pectin and low-acyl gellan",
     "common-practice", Standing::common_practice},

    {"gellan.low_acyl.carboxylate", 1.50, "mmol/g", 0.05,
     "one glucuronate in the four sugars of the repeat, sodium salt", "morris-2012",
     Standing::computed},
    {"gellan.high_acyl.carboxylate", 1.29, "mmol/g", 0.05,
     "same repeat with one glycerate and half an acetate", "morris-2012", Standing::from_memory},
    {"gellan.neutralised_fraction", 1.0, "1", 0.0, "sold as a salt", "morris-2012",
     Standing::from_memory},
    {"gellan.magnesium_weight", 0.5, "1", 0.25, "beside calcium", "judgement", Standing::judgement},
    {"xanthan.carboxylate", 2.0, "mmol/g", 0.3, "usual food grades", "judgement",
     Standing::from_memory},
    {"xanthan.neutralised_fraction", 1.0, "1", 0.0, "sold as a salt", "judgement",
     Standing::from_memory},

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
    {"stomach.temperature", 37.0, "degC", 0.0, "", "brodkorb-2019", Standing::from_memory},
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
