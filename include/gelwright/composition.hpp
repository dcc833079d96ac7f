// What one gram of something delivers: the one currency every part of the model is paid in.
//
// A composition is linear: a blend is the share-weighted sum of its parts, a serving the
// mass-weighted sum of its lines. Everything is per gram *as weighed* (moisture and hydrate water
// included); multiply by grams to get amounts.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "gelwright/species.hpp"

namespace gelwright {

/// Gelling and thickening polysaccharides the set rules know.
enum class Gum {
  alginate,
  hm_pectin,
  lm_pectin,
  amidated_pectin,
  gellan_low_acyl,
  gellan_high_acyl,
  xanthan,
};
inline constexpr std::size_t gum_count = 7;

/// "sodium alginate", "HM pectin", ...
std::string_view to_text(Gum gum);

/// Carbohydrates and polyols as the particles they are in solution.
enum class Saccharide {
  glucose,
  fructose,
  sucrose,
  disaccharide,  ///< maltose, isomaltulose, maltitol
  oligomer,      ///< maltodextrin, by number-average molar mass
  polyol,        ///< sorbitol, xylitol, erythritol
  glycerol,
};
inline constexpr std::size_t saccharide_count = 7;

constexpr std::size_t index_of(Component component) {
  return static_cast<std::size_t>(component);
}
constexpr std::size_t index_of(Gum gum) {
  return static_cast<std::size_t>(gum);
}
constexpr std::size_t index_of(Saccharide saccharide) {
  return static_cast<std::size_t>(saccharide);
}

/// Amounts by component, mol.
using Amounts = std::array<double, component_count>;

/// What one gram as weighed delivers. Masses in g per g, amounts in mol per g.
struct Composition {
  double water_g = 0;           ///< moisture, hydrate water and the water of syrups
  double soluble_solids_g = 0;  ///< counts towards density (a refractometer would see it)
  double carbohydrate_g = 0;    ///< label carbohydrate, fibre not included
  double sugars_g = 0;          ///< mono- and disaccharides
  double maltodextrin_g = 0;    ///< part of the carbohydrate that is starch hydrolysate
  double glucose_g = 0;         ///< glucose units of the carbohydrate
  double fructose_g = 0;        ///< fructose units of the carbohydrate
  double polyol_g = 0;  ///< polyols and glycerol: not in carbohydrate_g, though a label adds them
  double erythritol_g = 0;  ///< part of the polyols that counts as no energy
  double fibre_g = 0;
  double organic_acid_g = 0;
  double protein_g = 0;
  double fat_g = 0;
  double caffeine_mg = 0;
  double unnamed_sugars_g = 0;    ///< part of the sugars no label names; counted as sucrose
  double unnamed_sodium_mol = 0;  ///< part of the sodium of no named salt; counted as chloride
  std::array<double, saccharide_count> saccharide_mol{};
  std::array<double, gum_count> gum_g{};
  std::array<double, gum_count> carboxylate_mol{};
  double lactone_mol = 0;             ///< glucono delta-lactone, which turns to acid over hours
  double guluronate_mol = 0;          ///< guluronate share of the alginate's carboxylate
  double hm_pectin_esterified_g = 0;  ///< HM pectin mass times its degree of esterification
  Amounts dissolved_mol{};            ///< what goes into solution at once
  Amounts acid_only_mol{};            ///< what dissolves only as acid reaches it

  double dissolved(Component which) const { return dissolved_mol[index_of(which)]; }
  double& dissolved(Component which) { return dissolved_mol[index_of(which)]; }
  double acid_only(Component which) const { return acid_only_mol[index_of(which)]; }
  double& acid_only(Component which) { return acid_only_mol[index_of(which)]; }
  double gum(Gum which) const { return gum_g[index_of(which)]; }
  double carboxylate(Gum which) const { return carboxylate_mol[index_of(which)]; }

  Composition& operator+=(const Composition& other);
  Composition& operator*=(double factor);
};

inline Composition operator*(Composition composition, double factor) {
  return composition *= factor;
}
inline Composition operator+(Composition a, const Composition& b) {
  return a += b;
}

/// Sodium, mg per gram (or per whatever the composition has been multiplied by).
double sodium_mg(const Composition& composition);

}  // namespace gelwright
