// What is known of each gum. Private: gums.hpp is the way in.
#pragma once

#include "gelwright/source.hpp"

namespace gelwright {

inline constexpr Datum gum_table[] = {
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
};

}  // namespace gelwright
