// What a serving feeds, in the terms of a food label.
#pragma once

#include <optional>

#include "gelwright/formula.hpp"

namespace gelwright {

/// For one serving as eaten. Carbohydrate as on a label: moisture left out, no monosaccharide
/// factor. Energy by the factors of Regulation (EU) 1169/2011 Annex XIV.
struct Nutrition {
  double carbohydrate_g = 0;
  double sugars_g = 0;
  double fibre_g = 0;
  double polyols_g = 0;  ///< with glycerol; not part of the carbohydrate here
  double protein_g = 0;
  double fat_g = 0;
  double energy_kj = 0;
  double energy_kcal = 0;
  double sodium_mg = 0;          ///< what is known of
  bool sodium_at_least = false;  ///< a label gives none, so there may be more
  double salt_g = 0;
  double caffeine_mg = 0;
  double gum_g = 0;                           ///< active gum of every kind
  double glucose_g = 0;                       ///< glucose units of the carbohydrate
  double fructose_g = 0;                      ///< fructose units of the carbohydrate
  std::optional<double> glucose_to_fructose;  ///< absent without fructose
  /// With every unnamed sugar of a label as fructose; the same where there is none.
  double fructose_most_g = 0;
  double glucose_least_g = 0;
  std::optional<double> glucose_to_fructose_least;
};

/// The tap brings the sodium its report states; a report without it brings none, which is little.
Nutrition nutrition_of(const Formula& formula, const Inputs& inputs);

}  // namespace gelwright
