// What is known of each gum. Private: gums.hpp is the way in.
#pragma once

#include "gelwright/source.hpp"

namespace gelwright::detail {

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
    {"alginate.grade.very_low_below", 15, "mPa s", 0.0, "1 % solution, 20 degC", "common-practice",
     Standing::common_practice},
    {"alginate.grade.low_below", 100, "mPa s", 0.0, "1 % solution, 20 degC", "common-practice",
     Standing::common_practice},
    {"alginate.grade.medium_below", 550, "mPa s", 0.0, "1 % solution, 20 degC", "common-practice",
     Standing::common_practice},
    {"alginate.pka.mannuronate", 3.38, "1", 0.1, "25 degC, concentration constant, 0.1 M NaCl",
     "haug-1964", Standing::from_memory},
    {"alginate.pka.guluronate", 3.65, "1", 0.1, "25 degC, concentration constant, 0.1 M NaCl",
     "haug-1964", Standing::from_memory},
    {"alginate.magnesium_weight", 0.0, "1", 0.0, "gels only at 5 to 10 times the calcium, in hours",
     "topuz-2012", Standing::from_memory},
    {"pectin.galacturonic_acid", 194.14, "g/mol", 0.0, "free acid, the basis of assays",
     "iupac-2021", Standing::computed},
    {"pectin.galacturonic_share", 0.65, "g/g", 0.05, "least a food grade may hold", "eu-231-2012",
     Standing::from_memory},
    // By charge balance from the pH of solutions on trade sheets: HM 1 % 2.8 to 3.8, LM of DE 35
    // 2.5 % 4.5 to 5.0, amidated 1 % 4.0 to 5.0.
    {"pectin.hm.neutralised_fraction", 0.25, "1", 0.15, "pH 2.8 to 3.8 at 1 %", "trade-pectin-ph",
     Standing::computed},
    {"pectin.lm.neutralised_fraction", 0.90, "1", 0.05, "pH 4.5 to 5.0 at 2.5 %", "trade-pectin-ph",
     Standing::computed},
    {"pectin.amidated.neutralised_fraction", 0.85, "1", 0.10, "pH 4.0 to 5.0 at 1 %",
     "trade-pectin-ph", Standing::computed},
    {"pectin.pka.not_esterified", 4.10, "1", 0.2, "DE 0, concentration constant in salt",
     "plaschina-1978", Standing::from_memory},
    {"pectin.pka.esterified", 3.55, "1", 0.2, "DE 65, concentration constant in salt",
     "plaschina-1978", Standing::from_memory},
    {"pectin.pka.esterification", 0.65, "1", 0.0, "of the row above", "plaschina-1978",
     Standing::from_memory},
    {"pectin.magnesium_weight", 0.0, "1", 0.0, "as for alginate", "judgement", Standing::judgement},
    {"pectin.hm.esterification", 0.70, "1", 0.05, "where the pack does not say", "thakur-1997",
     Standing::from_memory},
    {"pectin.lm.esterification", 0.35, "1", 0.05, "where the pack does not say", "thakur-1997",
     Standing::from_memory},
    {"pectin.amidated.esterification", 0.30, "1", 0.05, "where the pack does not say", "thakur-1997",
     Standing::from_memory},
    {"pectin.amidated.amidation", 0.20, "1", 0.03, "where the pack does not say", "judgement",
     Standing::judgement},
    {"gellan.low_acyl.carboxylate", 1.50, "mmol/g", 0.05,
     "one glucuronate in the four sugars of the repeat, sodium salt", "morris-2012",
     Standing::computed},
    {"gellan.high_acyl.carboxylate", 1.29, "mmol/g", 0.05,
     "same repeat with one glycerate and half an acetate", "morris-2012", Standing::from_memory},
    {"gellan.neutralised_fraction", 1.0, "1", 0.0, "sold as a salt", "morris-2012",
     Standing::from_memory},
    {"gellan.pka", 3.5, "1", 0.3, "as the other uronates", "judgement", Standing::judgement},
    {"gellan.magnesium_weight", 0.5, "1", 0.25, "beside calcium", "judgement", Standing::judgement},
    {"xanthan.carboxylate", 2.0, "mmol/g", 0.3, "usual food grades", "judgement",
     Standing::from_memory},
    {"xanthan.neutralised_fraction", 1.0, "1", 0.0, "sold as a salt", "judgement",
     Standing::from_memory},
    {"xanthan.pka", 3.5, "1", 0.5, "as the other uronates; its pyruvate is stronger", "judgement",
     Standing::judgement},
};

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
