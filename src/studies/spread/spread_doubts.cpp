// What is in doubt about a batch, how wide, and where the width comes from.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "gelwright/elements.hpp"
#include "gelwright/gums.hpp"
#include "gelwright/weighing.hpp"
#include "ingredients/gum_table.hpp"
#include "ingredients/ingredient_table.hpp"
#include "serving/ph_error.hpp"
#include "statistics/random.hpp"
#include "studies/spread/spread_detail.hpp"

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"spread.crystalline-purity", 1.0, "1", 0.005,
     "sugars, salts and acids of food grade, relative", "judgement", Standing::judgement},
    {"spread.calcium-salt-purity", 1.0, "1", 0.01, "food grade, hydrate water included, relative",
     "judgement", Standing::judgement},
    {"spread.label-carbohydrate", 1.0, "1", 0.045,
     "8 g in 100 g allowed, taken as 95 % of packs, above 40 g in 100 g", "ec-tolerances-2012",
     Standing::from_memory},
    {"spread.mix-parting", 1.0, "1", 0.1,
     "gum of a bought mix, relative: a part-used pack parts on standing", "judgement",
     Standing::judgement},
    {"spread.syrup-water", 0.0, "g/g", 0.01, "beside the water fraction stated", "judgement",
     Standing::judgement},
    {"spread.dextrose-equivalent", 0.0, "1", 1.0, "beside the DE in the name", "judgement",
     Standing::judgement},
    {"spread.stated-esterification", 0.0, "1", 0.03, "beside a degree the seller states",
     "judgement", Standing::judgement},
    {"spread.stock-strength", 1.0, "1", 0.02, "made at home by weight, relative", "judgement",
     Standing::judgement},
    {"spread.tap-report", 1.0, "1", 0.1,
     "all figures of a report without a stated uncertainty, relative; supplies drift", "judgement",
     Standing::judgement},
};

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Half of a 95 % interval over the standard deviation.
double normal_half_width() {
  static const double factor = inverse_normal(0.975);
  return factor;
}

/// A row that is known to be there; only this file's own keys are looked up.
const Datum& row(std::span<const Datum> table, std::string_view key) {
  for (const Datum& each : table)
    if (each.key == key) return each;
  throw NoSuchDatum{};
}

std::string origin(const Datum& datum) {
  if (datum.standing == Standing::judgement) return "judgement";
  return fmt::format("{} ({})", datum.source, to_text(datum.standing));
}

/// What an ingredient's moisture is in the tables; null for what has none or states its own.
const Datum* moisture_row(const Ingredient& ingredient) {
  if (ingredient.source == "recipe") return nullptr;
  if (ingredient.name == "highly branched cyclic dextrin")
    return &row(ingredient_data(), "cyclic-dextrin.moisture");
  if (ingredient.per_g.maltodextrin_g > 0) return &row(ingredient_data(), "maltodextrin.moisture");
  if (ingredient.kind != Kind::gum) return nullptr;
  if (ingredient.per_g.gum(Gum::alginate) > 0) return &row(ingredient_data(), "alginate.moisture");
  if (ingredient.per_g.gum(Gum::xanthan) > 0) return &row(ingredient_data(), "xanthan.moisture");
  for (const Gum gum : {Gum::gellan_low_acyl, Gum::gellan_high_acyl})
    if (ingredient.per_g.gum(gum) > 0) return &row(ingredient_data(), "gellan.moisture");
  return &row(ingredient_data(), "pectin.moisture");
}

/// Collects doubts; one without width is no doubt.
struct Collector {
  const Inputs& inputs;
  const Evaluation& point;
  double widths;
  Doubts doubts = {};

  const Ingredient& ingredient(const InputLine& line) const {
    return inputs.recipe->ingredients[line.ingredient];
  }

  void add(DoubtTarget target, std::size_t index, DoubtKind kind, std::string what, double value,
           double width, std::string unit, std::string from, double low = -infinity,
           double high = infinity, bool rectangular = false) {
    width *= widths;
    if (!(width > 0)) return;
    doubts.drawn.push_back({target, index, width, rectangular, low, high, value, kind});
    doubts.described.push_back(
        {std::move(what), kind, value, width, rectangular, std::move(unit), std::move(from), {}});
  }

  /// All lines with their place in `Trial::line`.
  template <class Visit>
  void for_each_line(Visit visit) const {
    std::size_t index = 0;
    for (const InputLine& line : inputs.solids) visit(index++, line);
    if (inputs.acid) visit(index, inputs.acid->line);
    ++index;
    if (inputs.calcium) visit(index, inputs.calcium->line);
  }

  void weighing(const Batch& batch);
  void stated();
  void ingredients();
  void tap();
  void gums();
  /// A figure the recipe states of all there is of a gum is surer than the table's middle.
  bool all_stated(Gum gum, std::optional<double> GumFacts::*figure) const {
    bool all = true;
    for_each_line([&](std::size_t, const InputLine& line) {
      if (line.mass_g > 0 && line.per_g.gum(gum) > 0)
        all = all && ingredient(line).gum_facts.*figure;
    });
    return all;
  }
  /// The mean of what the recipe states of a gum, by its mass; all of it is stated.
  double stated_mean(Gum gum, std::optional<double> GumFacts::*figure) const {
    double sum = 0;
    double mass_g = 0;
    for_each_line([&](std::size_t, const InputLine& line) {
      const double here_g = line.mass_g * line.per_g.gum(gum);
      if (here_g <= 0) return;
      sum += here_g * (ingredient(line).gum_facts.*figure).value_or(0);
      mass_g += here_g;
    });
    return sum / mass_g;
  }
  void model();
  void gel();
};

/// All weighings of one thing in one round: every part and every vessel is a weighing of its own.
double weighings_of(const BatchLine& line, const Batch& batch) {
  int count = 0;
  for (const BatchLine& each : batch.lines)
    if (each.role == line.role && each.ingredient == line.ingredient && each.scale == line.scale)
      ++count;
  return count;
}

/// Whether the same thing stood earlier in the list.
bool seen_before(std::size_t number, const Batch& batch) {
  const BatchLine& line = batch.lines[number];
  return std::any_of(batch.lines.begin(), batch.lines.begin() + static_cast<std::ptrdiff_t>(number),
                     [&line](const BatchLine& each) {
                       return each.role == line.role && each.ingredient == line.ingredient;
                     });
}

void Collector::weighing(const Batch& batch) {
  const std::vector<Scale>& scales = inputs.recipe->batch.scales;
  for (std::size_t number = 0; number < batch.lines.size(); ++number) {
    const BatchLine& line = batch.lines[number];
    if (seen_before(number, batch) || !line.scale) continue;
    const Scale& scale = scales[*line.scale];
    // A serving gets its share of the batch's error.
    const double width_g = standard_uncertainty_g(scale) *
                           std::sqrt(weighings_of(line, batch) * batch.rounds) / batch.factor;
    const std::string from =
        fmt::format("{}, {:g} g a division{}", scale.name, scale.readability_g,
                    scale.repeatability_g ? "" : ", repeats to one (judgement)");
    const auto weighed = [&](DoubtTarget target, std::size_t index, const std::string& what,
                             double value_g) {
      add(target, index, DoubtKind::weighing, "weighing " + what, value_g, width_g, "g", from);
    };
    switch (line.role) {
      case LineRole::water:
        weighed(DoubtTarget::water_mass, 0, "water", point.formula.tap_g);
        break;
      case LineRole::solid:
        for (std::size_t i = 0; i < inputs.solids.size(); ++i)
          if (inputs.solids[i].ingredient == line.ingredient)
            weighed(DoubtTarget::solid_mass, i, ingredient(inputs.solids[i]).name,
                    inputs.solids[i].mass_g);
        break;
      case LineRole::acid:
        weighed(DoubtTarget::acid_mass, 0,
                ingredient(inputs.acid->line).name + (line.stock_fraction > 0 ? " stock" : ""),
                inputs.acid->line.mass_g / (line.stock_fraction > 0 ? line.stock_fraction : 1));
        break;
      case LineRole::calcium_salt:
        weighed(DoubtTarget::calcium_mass, 0,
                ingredient(inputs.calcium->line).name + (line.stock_fraction > 0 ? " stock" : ""),
                inputs.calcium->line.mass_g / (line.stock_fraction > 0 ? line.stock_fraction : 1));
        break;
    }
  }
  const Datum& strength = row(data, "spread.stock-strength");
  constexpr double far_off = 0.5;  // no strength is drawn outside half to one and a half times
  const auto stock = [&](const std::optional<InputDose>& dose, DoubtTarget target) {
    if (dose && dose->stock_fraction > 0 && dose->line.mass_g > 0)
      add(target, 0, DoubtKind::weighing,
          fmt::format("strength of the {} stock", ingredient(dose->line).name), strength.value,
          strength.uncertainty, "relative", origin(strength), 1 - far_off,
          std::min(1 + far_off, 1 / dose->stock_fraction));
  };
  stock(inputs.acid, DoubtTarget::acid_strength);
  stock(inputs.calcium, DoubtTarget::calcium_strength);
}

void Collector::stated() {
  const Recipe& recipe = *inputs.recipe;
  const auto add_stated = [&](DoubtTarget target, std::size_t index, const std::string& name,
                              const Measured& mass_g) {
    add(target, index, DoubtKind::weighing, "dose of " + name, mass_g.value, mass_g.sd, "g",
        "the recipe");
  };
  for (std::size_t i = 0; i < recipe.solids.size() && i < inputs.solids.size(); ++i)
    add_stated(DoubtTarget::solid_stated, i, ingredient(inputs.solids[i]).name,
               recipe.solids[i].mass_g);
  if (recipe.acid && inputs.acid)
    add_stated(DoubtTarget::acid_stated, 0, ingredient(inputs.acid->line).name,
               recipe.acid->mass_g);
  if (recipe.calcium && inputs.calcium)
    add_stated(DoubtTarget::calcium_stated, 0, ingredient(inputs.calcium->line).name,
               recipe.calcium->mass_g);
}

void Collector::ingredients() {
  const double glucose_g_per_mol = molar_mass_g_per_mol("C6H12O6");
  constexpr double wettest_g = 0.3;  // no powder that still pours holds more
  for_each_line([&](std::size_t index, const InputLine& line) {
    if (line.mass_g <= 0) return;
    const Ingredient& what = ingredient(line);
    if (const Datum* moisture = moisture_row(what)) {
      add(DoubtTarget::moisture, index, DoubtKind::ingredients, "moisture of " + what.name,
          line.per_g.water_g, moisture->uncertainty, "g/g", origin(*moisture), 0, wettest_g);
    } else if (what.kind == Kind::syrup) {
      const Datum& water = row(data, "spread.syrup-water");
      if (line.per_g.water_g < 1)
        add(DoubtTarget::moisture, index, DoubtKind::ingredients, "water of " + what.name,
            line.per_g.water_g, water.uncertainty, "g/g", origin(water), 0,
            (1 + line.per_g.water_g) / 2);
    } else if (what.source == "recipe" && line.per_g.carbohydrate_g > 0) {
      const Datum& label = row(data, "spread.label-carbohydrate");
      add(DoubtTarget::label, index, DoubtKind::ingredients, "label of " + what.name, label.value,
          label.uncertainty, "relative", origin(label), 0, 2);
    } else {
      const Datum& purity =
          row(data, what.kind == Kind::calcium_salt ? "spread.calcium-salt-purity"
                                                    : "spread.crystalline-purity");
      add(DoubtTarget::purity, index, DoubtKind::ingredients, "purity of " + what.name,
          purity.value, purity.uncertainty, "relative", origin(purity), 0, 2);
    }
    const double molecules = line.per_g.saccharide_mol[index_of(Saccharide::oligomer)];
    if (what.source != "recipe" && what.name.starts_with("maltodextrin") && molecules > 0) {
      const Datum& de = row(data, "spread.dextrose-equivalent");
      const double value = 100 * glucose_g_per_mol * molecules / line.per_g.maltodextrin_g;
      add(DoubtTarget::dextrose_equivalent, index, DoubtKind::ingredients,
          "dextrose equivalent of " + what.name, value, de.uncertainty, "DE", origin(de), 1, 100);
    }
  });
}

void Collector::tap() {
  if (!inputs.recipe->tap) return;
  const Water& water = inputs.recipe->tap->water;
  const Water& sd = inputs.recipe->tap->sd;
  const Datum& usual = row(data, "spread.tap-report");
  // Figures of one report drift together: a wet season thins them all.
  bool any_unstated = false;
  const auto figure = [&](DoubtTarget target, std::size_t index, const std::string& what,
                          const std::optional<double>& value, const std::optional<double>& stated,
                          const std::string& unit) {
    if (!value) return;
    if (stated)
      add(target, index, DoubtKind::tap_water, "tap water's " + what, *value, *stated, unit,
          "the recipe", 0, infinity);
    else
      any_unstated = any_unstated || *value > 0;
  };
  for (const IonInfo& ion : ions())
    figure(DoubtTarget::tap_ion, static_cast<std::size_t>(ion.ion), std::string(ion.key_stem),
           water.mg_per_l[ion.ion], sd.mg_per_l[ion.ion], "mg/L");
  figure(DoubtTarget::tap_alkalinity, 0, "alkalinity", water.alkalinity_meq_per_l,
         sd.alkalinity_meq_per_l, "meq/L");
  // Where both ions are reported the hardness says nothing new.
  if (!water.mg_per_l[Ion::calcium] || !water.mg_per_l[Ion::magnesium])
    figure(DoubtTarget::tap_hardness, 0, "hardness", water.hardness_mmol_per_l,
           sd.hardness_mmol_per_l, "mmol/L");
  if (any_unstated)
    add(DoubtTarget::tap_report, 0, DoubtKind::tap_water, "tap water's report, all of it",
        usual.value, usual.uncertainty, "relative", origin(usual), 0, 2);
}

void Collector::gums() {
  const Composition& delivered = point.formula.delivered;
  for (std::size_t i = 0; i < inputs.solids.size(); ++i) {
    const InputLine& line = inputs.solids[i];
    const Ingredient& what = ingredient(line);
    if (line.mass_g <= 0) continue;
    // Which gum it is comes before how much: the share is drawn of that gum.
    if (const std::size_t kinds = what.undeclared.size(); kinds > 1) {
      // One number, evenly drawn: each kind has its own piece of it, as long as it is likely.
      const auto most = static_cast<double>(kinds) - 1;
      add(DoubtTarget::gum_identity, i, DoubtKind::gum,
          fmt::format("which of {} gums {} holds", kinds, what.name), most / 2, (most + 1) / 2, "",
          "the recipe", -0.5, most + 0.5, true);
    }
    // Where cups were made of it, what they taught stands in for the share.
    if (!what.undeclared.empty() && learned_of(inputs) == nullptr)
      add(DoubtTarget::gum_share, i, DoubtKind::gum, "gum in " + what.name,
          (what.gum_share_low + what.gum_share_high) / 2,
          (what.gum_share_high - what.gum_share_low) / 2, "g/g", "the recipe", what.gum_share_low,
          what.gum_share_high, true);
    if (!what.undeclared_acids.empty() && !what.buffer_pka)
      add(DoubtTarget::acid_share, i, DoubtKind::ingredients,
          fmt::format("acid in {}, in its band", what.name), 0.5, 0.5, "1", "judgement", 0, 1,
          true);
    const bool has_gum = std::any_of(line.per_g.gum_g.begin(), line.per_g.gum_g.end(),
                                     [](double g) { return g > 0; });
    if (what.kind == Kind::mix && has_gum) {
      const Datum& parting = row(data, "spread.mix-parting");
      add(DoubtTarget::mix_gum, i, DoubtKind::gum, "even mixing of " + what.name, parting.value,
          parting.uncertainty, "relative", origin(parting), 0, 2);
    }
    if (what.unbuffered_per_g && what.buffer_mmol_per_g_sd > 0) {
      const double sites = 1000 * what.per_g.dissolved(Component::buffer);
      if (sites > 0)
        add(DoubtTarget::buffer, i, DoubtKind::buffer, "fitted buffer of " + what.name, 1,
            what.buffer_mmol_per_g_sd / sites, "relative", "the recipe", 0, infinity);
    }
  }
  struct PectinRow {
    Gum gum;
    std::string_view esterification;
    std::string_view neutralised;
    std::optional<double> GumFacts::*stated;
  };
  constexpr PectinRow pectins[] = {
      {Gum::hm_pectin, "pectin.hm.esterification", "pectin.hm.neutralised_fraction",
       &GumFacts::esterification},
      {Gum::lm_pectin, "pectin.lm.esterification", "pectin.lm.neutralised_fraction",
       &GumFacts::lm_esterification},
      {Gum::amidated_pectin, "pectin.amidated.esterification",
       "pectin.amidated.neutralised_fraction", &GumFacts::amidated_esterification}};
  for (const PectinRow& pectin : pectins) {
    if (delivered.carboxylate(pectin.gum) <= 0) continue;
    const Datum& usual = row(gum_table, pectin.esterification);
    const bool stated = all_stated(pectin.gum, pectin.stated);
    const double degree = pectin.gum == Gum::hm_pectin
                              ? delivered.hm_pectin_esterified_g / delivered.gum(Gum::hm_pectin)
                          : stated ? stated_mean(pectin.gum, pectin.stated)
                                   : usual.value;
    const Datum& width = stated ? row(data, "spread.stated-esterification") : usual;
    const double amide =
        pectin.gum == Gum::amidated_pectin ? value_of(gum_table, "pectin.amidated.amidation") : 0;
    add(DoubtTarget::esterification, index_of(pectin.gum), DoubtKind::gum,
        fmt::format("esterification of {}", to_text(pectin.gum)), degree, width.uncertainty, "1",
        stated ? "the recipe; width " + origin(width) : origin(usual), 0.01, 0.99 - amide);
    const Datum& sold = row(gum_table, pectin.neutralised);
    add(DoubtTarget::neutralised, index_of(pectin.gum), DoubtKind::gum,
        fmt::format("part of the {} sold neutralised", to_text(pectin.gum)), sold.value,
        sold.uncertainty, "1", origin(sold), 0, 1);
  }
}

/// `chemistry.ph_uncertainty` is made of the model, the gum's pKa, stray acid and unknown buffers;
/// the pKa is drawn on its own here, so it is left out of the rest.
void Collector::model() {
  const WaterPhase& phase = point.water_phase;
  const Datum& pka_width = row(ph_error_data(), "ph-error.gum-pka");
  if (phase.carboxylate_mmol_per_kg > 0)
    add(DoubtTarget::gum_pka, 0, DoubtKind::ph_model, "effective pKa of the gum",
        *gum_pka_of(point.formula, inputs), pka_width.value / normal_half_width(), "1",
        origin(pka_width));
  const double all =
      ph_error_parts({.soluble_solids_percent = point.formula.soluble_solids_percent(),
                      .buffer_capacity_mol_per_kg_per_ph = phase.buffer_capacity_mol_per_kg_per_ph,
                      .pairs_ph = phase.pairs_ph,
                      .buffer_unknown = phase.buffer_unknown})
          .together();
  add(DoubtTarget::ph_bias, 0, DoubtKind::ph_model,
      phase.buffer_unknown ? "pH model and undeclared acids" : "pH model", inputs.ph_bias,
      all / normal_half_width(), "pH", "judgement");
  add(DoubtTarget::calcium_complexes, 0, DoubtKind::ph_model,
      "free calcium, by the constants of citrate's complexes", inputs.calcium_lg_bias,
      phase.free_calcium_decades / normal_half_width(), "log10", "judgement");
  if (point.formula.delivered.unnamed_sodium_mol > 0)
    add(DoubtTarget::sodium_salt, 0, DoubtKind::ph_model,
        "which salt the label's sodium is, by cumulated weight", 0.5, 0.5, "1", "judgement", 0, 1,
        true);
}

/// What the masses, the water and the pH above do not draw already.
void Collector::gel() {
  const gel::State& state = point.gel.state;
  if (!point.gel.made || !point.gel.any_gum()) return;
  const gel::Learnt* learnt = point.gel.learnt ? &*point.gel.learnt : nullptr;
  if (learnt != nullptr) {
    for (std::size_t i = 0; i < learned_shift_count; ++i)
      add(DoubtTarget::learned, i, DoubtKind::gel_model,
          fmt::format("what {} cups leave unsure, {} of 4", point.gel.learned->cups, i + 1), 0, 1,
          "sd", "the recipe");
    const Datum& between = row(gel::gel_constant_data(), "gel.doubt.cup_to_cup");
    add(DoubtTarget::gel_parameter, static_cast<std::size_t>(gel::Id::res), DoubtKind::gel_model,
        "one cup against the next", 0, between.value, std::string(between.unit), origin(between));
  }
  for (std::size_t i = 0; i < gel::value_count; ++i) {
    const auto id = static_cast<gel::Id>(i);
    if (id == gel::Id::in_ph || id == gel::Id::in_c || !gel::matters(id, state)) continue;
    if (gel::stands_in_for(learnt, id)) continue;
    const bool parameter = i < gel::parameter_count;
    std::string what, unit, from = "judgement";
    if (parameter) {
      const gel::Parameter& row = gel::parameters()[i];
      what = row.means.substr(0, row.means.find(':'));
      unit = row.unit;
      if (row.known != gel::Known::judgement)
        from = fmt::format("{} ({})", row.source, to_text(row.known));
    } else {
      const bool guluronate = id == gel::Id::in_fg;
      what = guluronate ? "guluronate share of the alginate" : "calcium a gum can find";
      unit = guluronate ? "1" : "log10";
      if (guluronate && all_stated(Gum::alginate, &GumFacts::guluronate_share))
        from = "the recipe; width judgement";
    }
    add(DoubtTarget::gel_parameter, i, parameter ? DoubtKind::gel_model : DoubtKind::gum,
        std::move(what), gel::central_values()[id],
        id == gel::Id::in_ca ? gel::State{}.ca_lg_sd : gel::sd_of(id, state), std::move(unit),
        std::move(from));  // what water and complexes leave in doubt is drawn with them
    // It is drawn as a deviation, and told as the share it deviates from.
    if (id == gel::Id::in_fg && !doubts.drawn.empty() && doubts.drawn.back().index == i)
      doubts.described.back().value = state.guluronate;
  }
}

}  // namespace

Doubts doubts_of(const Inputs& weighed, const Evaluation& point, const Batch& batch,
                 double widths) {
  Collector collector{weighed, point, widths};
  collector.weighing(batch);
  collector.stated();
  collector.gums();
  collector.ingredients();
  collector.tap();
  collector.model();
  collector.gel();
  // Shares of a mix are set before they are scaled, compositions before doses.
  std::vector<std::size_t> order(collector.doubts.drawn.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  const auto& drawn = collector.doubts.drawn;
  std::stable_sort(order.begin(), order.end(), [&drawn](std::size_t a, std::size_t b) {
    return drawn[a].target < drawn[b].target;
  });
  Doubts sorted;
  for (const std::size_t i : order) {
    sorted.drawn.push_back(drawn[i]);
    sorted.described.push_back(std::move(collector.doubts.described[i]));
  }
  return sorted;
}

std::span<const Datum> spread_data() {
  return data;
}

}  // namespace gelwright
