// What a recipe can be made of: the built-in table, and what a recipe defines for itself.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "gelwright/composition.hpp"
#include "gelwright/gums.hpp"
#include "gelwright/learned.hpp"
#include "gelwright/source.hpp"

namespace gelwright {

/// Decides where an ingredient stands in the working order and where it may be used.
enum class Kind { gum, sugar, mix, syrup, salt, acid, calcium_salt };

/// "gum", "sugar", "bought mix", "syrup", "salt", "acid", "calcium salt".
std::string_view to_text(Kind kind);

/// One of the gums a pack names without saying how much.
struct UndeclaredGum {
  std::string name = {};   ///< as the recipe calls it
  Composition per_g = {};  ///< what 1 g of it delivers
  double share_low = 0;    ///< plausible band, g in 1 g of the mix
  double share_high = 0;
};

/// One way to read such a pack: the gums that are in it together. Their shares are low, middling or
/// high together, which is the widest the doubt can be.
struct UndeclaredGums {
  std::vector<UndeclaredGum> gums = {};

  std::string name() const;  ///< "sodium alginate and HM pectin"
  bool has(Gum gum) const;
  double share_low() const;
  double share_high() const;
  /// What they bring to 1 g of the mix, `at` 0 at the low ends of the bands, 1 at the high ends.
  Composition in_mix(double at) const;
};

/// An acid a pack names without saying how much.
struct UndeclaredAcid {
  std::string name = {};
  Composition per_g = {};  ///< what 1 g of it delivers
  double share_low = 0;    ///< plausible band, g in 1 g of the mix
  double share_high = 0;
};

/// A part of a mix that is known by name and amount, and may crystallise.
struct DryPart {
  std::string name = {};
  double g_per_g = 0;  ///< without its hydrate water and moisture, in 1 g of the mix
};

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
  /// A bought mix may not say how much gum it holds, or which: what it may be, each as likely as
  /// the others. Empty where nothing is undeclared.
  std::vector<UndeclaredGums> undeclared = {};
  double gum_share_low = 0;  ///< plausible band of the first of them, all its gums, g per g
  double gum_share_high = 0;
  /// Acids it is said to hold without an amount; `per_g` counts the middle of each band.
  std::vector<UndeclaredAcid> undeclared_acids = {};
  std::vector<DryPart> dry_parts = {};  ///< of what the recipe defines by fractions
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
  std::optional<Learned> learned = {};  ///< what test cups of it taught the gel model
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

/// What 1 g of a mix delivers if its undeclared gum is `identity` (in `undeclared`), at `at` of its
/// band: 0 the low end, 0.5 the middle, 1 the high end. The label already counts that gum's sodium,
/// fibre and mass, so those stay as labelled.
Composition with_undeclared_gum(const Ingredient& mix, double at, std::size_t identity = 0);

/// Stand-in for the carbohydrate of a label that does not say what it is: dextrose equivalent.
extern const double unlabelled_dextrose_equivalent;

/// What 1 g of a mix delivers more, or less, with its undeclared acids at `at` of their bands in
/// place of the middle. Nothing where there are none, or where a fitted buffer has settled them.
Composition acid_beside_middle(const Ingredient& mix, double at);

/// Moistures, equivalent weights and strengths the table is built from.
std::span<const Datum> ingredient_data();

}  // namespace gelwright
