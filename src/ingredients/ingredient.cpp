#include "gelwright/ingredient.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "base/number.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/gums.hpp"
#include "gelwright/properties.hpp"
#include "ingredients/ingredient_table.hpp"

namespace gelwright {

namespace {

constexpr double water_g_per_mol = molar_mass_g_per_mol("H2O");
constexpr double lowest_dextrose_equivalent = 3;
constexpr double highest_dextrose_equivalent = 20;
constexpr double highest_syrup_equivalent = 98;
constexpr std::string_view maltodextrin_prefix = "maltodextrin DE ";
constexpr std::string_view syrup_prefix = "glucose syrup DE ";
constexpr double usual_syrup_solids = value_of(ingredient_rows, "glucose-syrup.solids");

Ingredient make_sugar(const SugarRow& row) {
  const double molar_mass = molar_mass_g_per_mol(row.formula);
  Composition per_g;
  per_g.water_g = row.hydrate_water * water_g_per_mol / molar_mass;
  per_g.soluble_solids_g = 1 - per_g.water_g;
  per_g.carbohydrate_g = per_g.soluble_solids_g;
  per_g.sugars_g = per_g.carbohydrate_g;
  per_g.fructose_g = row.fructose_share * per_g.carbohydrate_g;
  per_g.glucose_g = per_g.carbohydrate_g - per_g.fructose_g;
  per_g.saccharide_mol[index_of(row.particle)] = 1 / molar_mass;
  return {.name = std::string(row.name),
          .kind = Kind::sugar,
          .per_g = per_g,
          .basis = std::string(row.formula),
          .source = "iupac-2021"};
}

Ingredient make_polyol(const PolyolRow& row) {
  Composition per_g;
  per_g.soluble_solids_g = 1;
  per_g.polyol_g = 1;
  if (row.without_energy) per_g.erythritol_g = 1;
  per_g.saccharide_mol[index_of(row.particle)] = 1 / molar_mass_g_per_mol(row.formula);
  return {.name = std::string(row.name),
          .kind = row.kind,
          .per_g = per_g,
          .basis = std::string(row.formula),
          .source = "iupac-2021"};
}

Ingredient make_gum(const GumRow& row) {
  const double carboxylate_mol = carboxylate_mmol_per_g(row.gum) / 1000;
  Composition per_g;
  per_g.water_g = row.moisture_g;
  per_g.soluble_solids_g = 1 - per_g.water_g;
  per_g.fibre_g = 1 - per_g.water_g;
  per_g.gum_g[index_of(row.gum)] = 1;
  per_g.carboxylate_mol[index_of(row.gum)] = carboxylate_mol;
  per_g.dissolved(Component::uronate) = carboxylate_mol;
  per_g.dissolved(row.counter_ion) = carboxylate_mol * neutralised_fraction(row.gum);
  if (row.gum == Gum::alginate)
    per_g.guluronate_mol = carboxylate_mol * gum_defaults().guluronate_share;
  if (row.gum == Gum::hm_pectin)
    per_g.hm_pectin_esterified_g = gum_defaults().hm_pectin_esterification;
  return {
      .name = std::string(row.name),
      .kind = Kind::gum,
      .per_g = per_g,
      .basis = fmt::format("{:.2f} mmol carboxylate in 1 g as weighed, {:.0f} % of it neutralised",
                           1000 * carboxylate_mol, 100 * neutralised_fraction(row.gum)),
      .source = "eu-231-2012"};
}

Ingredient make_substance(const SubstanceRow& row) {
  const double molar_mass = molar_mass_g_per_mol(row.formula);
  Composition per_g;
  per_g.water_g = row.hydrate_water * water_g_per_mol / molar_mass;
  per_g.soluble_solids_g = 1 - per_g.water_g;
  if (!row.anhydrous_acid.empty()) per_g.organic_acid_g = per_g.soluble_solids_g;
  for (const SubstanceRow::Delivered& part : row.delivers)
    (row.acid_only ? per_g.acid_only_mol : per_g.dissolved_mol)[index_of(part.component)] +=
        part.mol / molar_mass;
  if (row.name == "glucono delta-lactone") per_g.lactone_mol = 1 / molar_mass;
  return {.name = std::string(row.name),
          .kind = row.kind,
          .per_g = per_g,
          .basis = std::string(row.formula),
          .source = "iupac-2021",
          .strongest_stock = row.strongest_stock};
}

Ingredient make_solution(const SolutionRow& row, std::span<const Ingredient> made) {
  const auto substance = std::find_if(made.begin(), made.end(), [&row](const Ingredient& each) {
    return each.name == row.substance;
  });
  Ingredient solution = *substance;
  solution.name = row.name;
  solution.per_g *= row.strength;
  solution.per_g.water_g += 1 - row.strength;
  solution.basis = row.basis;
  solution.source = "eu-231-2012";
  return solution;
}

std::vector<Ingredient> make_all() {
  std::vector<Ingredient> all;
  for (const double dextrose_equivalent : {5, 10, 12, 15, 18, 20})
    all.push_back(maltodextrin(dextrose_equivalent));
  for (const SugarRow& row : sugar_rows()) all.push_back(make_sugar(row));
  all.push_back(
      {.name = "highly branched cyclic dextrin",
       .kind = Kind::sugar,
       .per_g = starch_hydrolysate(value_of(ingredient_rows, "cyclic-dextrin.moisture"),
                                   value_of(ingredient_rows, "cyclic-dextrin.molar-mass")),
       .basis = "5 % moisture",
       .source = "takata-1996"});
  for (const double dextrose_equivalent : {28, 42, 63})
    all.push_back(glucose_syrup(dextrose_equivalent, usual_syrup_solids));
  all.push_back(honey());
  for (const PolyolRow& row : polyol_rows()) all.push_back(make_polyol(row));
  for (const GumRow& row : gum_rows()) all.push_back(make_gum(row));
  for (const SubstanceRow& row : substance_rows()) all.push_back(make_substance(row));
  for (const SolutionRow& row : solution_rows()) all.push_back(make_solution(row, all));
  return all;
}

/// The number that is all there is after `prefix`.
std::optional<double> number_after(std::string_view prefix, std::string_view name) {
  if (name.substr(0, prefix.size()) != prefix) return std::nullopt;
  return detail::to_number(name.substr(prefix.size()));
}

}  // namespace

const double unlabelled_dextrose_equivalent =
    value_of(ingredient_rows, "maltodextrin.unlabelled-de");

std::string_view to_text(Kind kind) {
  switch (kind) {
    case Kind::gum:
      return "gum";
    case Kind::sugar:
      return "sugar";
    case Kind::mix:
      return "bought mix";
    case Kind::syrup:
      return "syrup";
    case Kind::salt:
      return "salt";
    case Kind::acid:
      return "acid";
    case Kind::calcium_salt:
      return "calcium salt";
  }
  return "";
}

Ingredient maltodextrin(double dextrose_equivalent) {
  return {.name = fmt::format("{}{:g}", maltodextrin_prefix, dextrose_equivalent),
          .kind = Kind::sugar,
          .per_g = starch_hydrolysate(value_of(ingredient_rows, "maltodextrin.moisture"),
                                      maltodextrin_molar_mass_g_per_mol(dextrose_equivalent)),
          .basis = "5 % moisture; its own sugars are not counted",
          .source = "usp-nf-maltodextrin"};
}

const std::vector<Ingredient>& builtin_ingredients() {
  static const std::vector<Ingredient> all = make_all();
  return all;
}

std::optional<Ingredient> find_ingredient(std::string_view name) {
  for (const Ingredient& each : builtin_ingredients())
    if (each.name == name) return each;
  if (const auto de = number_after(maltodextrin_prefix, name))
    if (*de >= lowest_dextrose_equivalent && *de <= highest_dextrose_equivalent)
      return maltodextrin(*de);
  if (const auto de = number_after(syrup_prefix, name))
    if (*de >= highest_dextrose_equivalent && *de <= highest_syrup_equivalent)
      return glucose_syrup(*de, usual_syrup_solids);
  return std::nullopt;
}

std::string UndeclaredGums::name() const {
  std::string names;
  for (const UndeclaredGum& each : gums) names += (names.empty() ? "" : " and ") + each.name;
  return names;
}

bool UndeclaredGums::has(Gum gum) const {
  return std::any_of(gums.begin(), gums.end(),
                     [gum](const UndeclaredGum& each) { return each.per_g.gum(gum) > 0; });
}

double UndeclaredGums::share_low() const {
  double sum = 0;
  for (const UndeclaredGum& each : gums) sum += each.share_low;
  return sum;
}

double UndeclaredGums::share_high() const {
  double sum = 0;
  for (const UndeclaredGum& each : gums) sum += each.share_high;
  return sum;
}

Composition UndeclaredGums::in_mix(double at) const {
  Composition all;
  for (const UndeclaredGum& each : gums)
    all += each.per_g * (each.share_low + at * (each.share_high - each.share_low));
  return all;
}

Composition with_undeclared_gum(const Ingredient& mix, double at, std::size_t identity) {
  if (mix.undeclared.empty()) return mix.per_g;
  const Composition gum = mix.undeclared.at(identity).in_mix(at);
  Composition per_g = mix.per_g + gum;
  per_g.water_g = mix.per_g.water_g;
  per_g.soluble_solids_g = mix.per_g.soluble_solids_g;
  per_g.fibre_g = std::max(mix.per_g.fibre_g, gum.fibre_g);
  // The anion of the labelled sodium was counted as chloride; part of it is the gum after all.
  const double moved_mol =
      std::min(gum.dissolved(Component::sodium), mix.per_g.dissolved(Component::chloride));
  per_g.dissolved(Component::sodium) -= moved_mol;
  per_g.dissolved(Component::chloride) -= moved_mol;
  per_g.unnamed_sodium_mol = std::max(0.0, per_g.unnamed_sodium_mol - moved_mol);
  return per_g;
}

Composition acid_beside_middle(const Ingredient& mix, double at) {
  Composition more;
  if (mix.buffer_pka) return more;
  constexpr double middle = 0.5;
  for (const UndeclaredAcid& each : mix.undeclared_acids)
    more += each.per_g * ((at - middle) * (each.share_high - each.share_low));
  return more;
}

void add_buffer(Composition& per_g, double sites_mol, double neutralised_fraction) {
  const double neutralised_mol = sites_mol * neutralised_fraction;
  const double from_label_mol = std::min(neutralised_mol, per_g.dissolved(Component::chloride));
  per_g.dissolved(Component::buffer) += sites_mol;
  per_g.dissolved(Component::chloride) -= from_label_mol;
  per_g.dissolved(Component::potassium) += neutralised_mol - from_label_mol;
  per_g.unnamed_sodium_mol = 0;  // the readings behind a fit have settled what it is
}

std::span<const Datum> ingredient_data() {
  return ingredient_rows;
}

}  // namespace gelwright
