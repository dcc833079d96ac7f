// What a recipe can be made of: the built-in table, and what a recipe defines for itself.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "gelwright/composition.hpp"
#include "gelwright/gums.hpp"
#include "gelwright/source.hpp"

namespace gelwright {

/// Decides where an ingredient stands in the working order and where it may be used.
enum class Kind { gum, sugar, mix, syrup, salt, acid, calcium_salt };

/// "gum", "sugar", "bought mix", "syrup", "salt", "acid", "calcium salt".
std::string_view to_text(Kind kind);

/// One thing that can be weighed.
struct Ingredient {
  std::string name;
  Kind kind = Kind::sugar;
  Composition per_g = {};                   ///< what 1 g as weighed delivers
  std::string basis = {};                   ///< hydrate, moisture or label basis, in words
  std::string source = {};                  ///< Source::id; "recipe" when the recipe defines it
  std::vector<std::string> parts = {};      ///< what the recipe says it contains, by name
  std::vector<std::string> allergens = {};  ///< as printed on the pack
  double strongest_stock = 1;  ///< g in 1 g of stock solution that stays dissolved; 0 = none
  /// A bought mix may not say how much gum it holds: the plausible band, g per g.
  std::optional<Gum> undeclared_gum = {};
  Composition undeclared_gum_per_g = {};  ///< what 1 g of that gum delivers
  /// What else it may be, each as likely as `undeclared_gum_per_g`: what 1 g of that delivers.
  std::vector<Composition> undeclared_gum_or = {};
  double gum_share_low = 0;
  double gum_share_high = 0;
  GumFacts gum_facts = {};  ///< what is stated of the gum in it; what is not stated is unknown
  /// Every acid, salt and gum in it is known (always so for what is built in).
  bool fully_declared = true;
  bool sodium_stated = true;  ///< false: a label gives none, so what is known is the least
  /// Whether it fizzed when it met acid: decides whether its sodium may be bicarbonate.
  std::optional<bool> fizzed = {};
  /// The mix's fitted buffer: carboxylate-like sites with one pKa (mol per g in `per_g.dissolved`).
  std::optional<double> buffer_pka = {};
  double buffer_mmol_per_g_sd = 0;
  /// `per_g` before the fitted buffer went in; absent where there is none.
  std::optional<Composition> unbuffered_per_g = {};
};

/// Adds buffer sites (mol per g), the share `neutralised_fraction` of them (0 to 1) as a salt.
/// Their counter-ion is one the label already declared (its anion was counted as chloride until
/// now); what is left over is counted as potassium, so the label sodium stays true.
void add_buffer(Composition& per_g, double sites_mol, double neutralised_fraction);

/// Every built-in ingredient, in the order `gelwright ingredients` lists them.
const std::vector<Ingredient>& builtin_ingredients();

/// The built-in ingredient called `name`, or nothing. "maltodextrin DE 12" is made for any DE from
/// 3 to 20, "glucose syrup DE 42" for any DE from 20 to 98 with the usual 80 % solids.
std::optional<Ingredient> find_ingredient(std::string_view name);

/// A glucose syrup of this dextrose equivalent (20 to 98) and solids in g per g (above 0, at most
/// 1; a dried syrup has 0.95 or more). Its particles follow from the DE; its glucose and maltose
/// are those of usual acid or acid-enzyme syrups of that DE, good to 0.05 of the solids. A
/// high-maltose syrup holds three times the maltose: describe that one. Throws InputError outside.
Ingredient glucose_syrup(double dextrose_equivalent, double solids_fraction);

/// Composition of maltodextrin with this dextrose equivalent (3 to 20), as weighed.
Ingredient maltodextrin(double dextrose_equivalent);

/// What 1 g of a mix delivers if `gum_share` (g per g) of it is its undeclared gum. The label
/// already counts that gum's sodium, fibre and mass, so those stay as labelled. `identity` chooses
/// among `undeclared_identities`, 0 the gum named first.
Composition with_gum_share(const Ingredient& mix, double gum_share, std::size_t identity = 0);

/// How many gums it may be; 0 where none is undeclared.
std::size_t undeclared_identities(const Ingredient& mix);

/// Stand-in for the carbohydrate of a label that does not say what it is: dextrose equivalent.
extern const double unlabelled_dextrose_equivalent;

/// Moistures, equivalent weights and strengths the table is built from.
std::span<const Datum> ingredient_data();

}  // namespace gelwright
