#include "gelwright/ladder_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/harmless.hpp"
#include "base/text.hpp"
#include "gelwright/error.hpp"
#include "report/sheet_parts.hpp"
#include "report/turned.hpp"
#include "serving/portions.hpp"

namespace gelwright {

namespace {

/// What is made of a base or a stock comes in steps of this, the next above what the cups need.
constexpr double make_step_g = 10;
constexpr double sample_water_g = 10;  ///< low-mineral water for one diluted pH reading
constexpr int usual_decimals = 2;

const std::string& ingredient_name(const Ladder& ladder, const InputLine& line) {
  return ladder.inputs.recipe->ingredients[line.ingredient].name;
}

std::string axis_label(const Ladder& ladder, const LadderAxis& axis) {
  const KnobInfo& info = info_of(axis.knob.knob);
  const char* star = info.per_serving ? "*" : "";
  if (info.needs != KnobNeeds::solid) return fmt::format("{}{}", info.heading, star);
  return fmt::format("{} {}{}", ingredient_name(ladder, ladder.inputs.solids[axis.knob.solid]),
                     info.heading, star);
}

/// The axis of a gum, which no cup can take dry: each of its amounts is a base of its own.
std::optional<std::size_t> gum_axis(const Ladder& ladder) {
  for (std::size_t a = 0; a < ladder.axes.size(); ++a) {
    const KnobOf& knob = ladder.axes[a].knob;
    if (knob.knob != Knob::mass_g) continue;
    const std::size_t ingredient = ladder.inputs.solids[knob.solid].ingredient;
    if (ladder.inputs.recipe->ingredients[ingredient].kind == Kind::gum) return a;
  }
  return std::nullopt;
}

std::size_t bases(const Ladder& ladder) {
  const auto axis = gum_axis(ladder);
  return axis ? ladder.axes[*axis].count : 1;
}

/// Which of the bases a cup is filled from, from 0.
std::size_t base_of(const Ladder& ladder, std::size_t cup) {
  const auto axis = gum_axis(ladder);
  if (!axis) return 0;
  const LadderAxis& gum = ladder.axes[*axis];
  return static_cast<std::size_t>(
      std::lround((axis_value(ladder, cup, *axis) - gum.from) / gum.step));
}

/// Of the varied solids of CupWeights, the gum that goes into the base instead.
std::optional<std::size_t> gum_of_weights(const Ladder& ladder) {
  const auto axis = gum_axis(ladder);
  if (!axis) return std::nullopt;
  std::size_t at = 0;
  for (std::size_t a = 0; a < *axis; ++a)
    if (ladder.axes[a].knob.knob == Knob::mass_g) ++at;
  return at;
}

/// The scale a mass goes on and its decimals; two where there are no scales.
struct OnScale {
  std::string name;
  int decimals = usual_decimals;
};
OnScale on_scale(double mass_g, bool decides, const Recipe& recipe) {
  const auto scale = scale_for(mass_g, decides, recipe.batch, recipe.document);
  if (!scale) return {};
  const Scale& found = recipe.batch.scales[*scale];
  return {found.name, display_decimals(found)};
}

double made_g(double needed_g) {
  return needed_g > 0 ? (std::floor(needed_g / make_step_g) + 1) * make_step_g : 0;
}

/// One column of what goes into the cups.
struct Added {
  std::string key;
  std::string label;
  std::vector<double> cups_g = {};
  double total_g() const {
    double sum = 0;
    for (const double each : cups_g) sum += each;
    return sum;
  }
  /// Its own scale is the one for the least of it, where that decides, else for the most.
  OnScale scale(const Recipe& recipe) const {
    const bool decides = key.starts_with("acid") || key.starts_with("calcium");
    double mass_g = 0;
    for (const double each : cups_g)
      if (each > 0 && (mass_g <= 0 || (decides ? each < mass_g : each > mass_g))) mass_g = each;
    return on_scale(mass_g, decides, recipe);
  }
};

std::vector<Added> added_to_cups(const Ladder& ladder) {
  const bool calcium_stock = ladder.calcium_varies && ladder.inputs.calcium->stock_fraction > 0;
  const bool neat = ladder.acid_varies && ladder.inputs.acid->stock_fraction <= 0;
  std::vector<Added> added = {{"base_g", ladder.dry_base ? "dry base" : "base"},
                              {"acid_stock_g", neat ? "acid" : "acid solution"},
                              {"calcium_salt_g", calcium_stock ? "Ca solution" : "Ca salt"},
                              {"low_mineral_water_g", "low-min. water"},
                              {"tap_water_g", ladder.dry_base ? "its water" : "tap water"}};
  if (neat) added[1].key = "acid_neat_g";
  const auto gum = gum_of_weights(ladder);
  for (const LadderAxis& axis : ladder.axes)
    if (axis.knob.knob == Knob::mass_g) {
      const std::string& name = ingredient_name(ladder, ladder.inputs.solids[axis.knob.solid]);
      added.push_back({name + "_g", name});
    }
  for (std::size_t cup = 0; cup < ladder.cells; ++cup) {
    CupWeights weights = cup_weights(ladder, cup);
    if (gum) weights.base_g += std::exchange(weights.solids_g[*gum], 0);
    std::size_t at = 0;
    for (const double each : {weights.base_g, weights.acid_stock_g, weights.calcium_salt_g,
                              weights.low_mineral_g, weights.tap_g})
      added[at++].cups_g.push_back(each);
    for (const double each : weights.solids_g) added[at++].cups_g.push_back(each);
  }
  // A column in which nothing is ever weighed is left out.
  constexpr double nothing_g = 1e-9;
  std::erase_if(added, [](const Added& each) {
    return std::all_of(each.cups_g.begin(), each.cups_g.end(),
                       [](double g) { return g < nothing_g; });
  });
  return added;
}

double total_of(const std::vector<Added>& added, std::string_view key) {
  for (const Added& each : added)
    if (each.key == key) return each.total_g();
  return 0;
}

/// What goes into one base of `mass_g`, its own gum included.
struct OneBase {
  BaseWeights weights;
  double gum_g = 0;
};
OneBase one_base(const Ladder& ladder, std::size_t base, double mass_g) {
  const auto gum = gum_of_weights(ladder);
  for (std::size_t cup = 0; gum && cup < ladder.cells; ++cup) {
    if (base_of(ladder, cup) != base) continue;
    const CupWeights weights = cup_weights(ladder, cup);
    const double share = weights.solids_g[*gum] / (weights.base_g + weights.solids_g[*gum]);
    return {base_weights(ladder, mass_g * (1 - share)), mass_g * share};
  }
  return {base_weights(ladder, mass_g), 0};
}

/// The bases side by side, and what to have ready for all of them and the cups.
class BaseTable {
 public:
  BaseTable(const Ladder& ladder, const std::vector<Added>& added)
      : ladder_(ladder), recipe_(*ladder.inputs.recipe), added_(added), count_(bases(ladder)) {
    std::vector<double> needed_g(count_, 0);
    for (const Added& each : added_)
      if (each.key == "base_g")
        for (std::size_t cup = 0; cup < ladder.cells; ++cup)
          needed_g[base_of(ladder, cup)] += each.cups_g[cup];
    const double most_g = *std::max_element(needed_g.begin(), needed_g.end());
    make_g_ = made_g(most_g / (1 - recipe_.batch.loss_percent / 100));
    for (std::size_t base = 0; base < count_; ++base)
      made_.push_back(one_base(ladder, base, make_g_));
    parts_ = {"weigh", {{"item", "what", false}}, {}, Shown::everywhere, true};
    for (std::size_t base = 0; base < count_; ++base)
      parts_.columns.push_back({base == 0 ? "weigh_g" : fmt::format("base_{}_g", base + 1),
                                count_ == 1 ? "g" : fmt::format("base {}, g", base + 1), true,
                                Shown::everywhere, base > 0});
    parts_.columns.push_back({"scale", "scale", false});
  }

  double make_g() const { return make_g_; }
  std::size_t count() const { return count_; }
  Table take() { return std::move(parts_); }

  /// One line of the table; gives what all bases take of it.
  template <class AmountOf>
  double part(const std::string& item, bool decides, AmountOf amount_of) {
    double all_g = 0;
    double most_g = 0;
    for (const OneBase& base : made_) {
      all_g += amount_of(base);
      most_g = std::max(most_g, amount_of(base));
    }
    if (most_g <= 0) return 0;
    const OnScale scale = on_scale(most_g, decides, recipe_);
    std::vector<Cell> row = {item};
    for (const OneBase& base : made_) row.emplace_back(amount_of(base), scale.decimals);
    row.emplace_back(scale.name.empty() ? Cell() : Cell(scale.name));
    parts_.rows.push_back(std::move(row));
    return all_g;
  }

  /// The water, with what an acid or a salt of the base is dissolved in set aside first.
  double water() {
    const auto& acid = ladder_.inputs.acid;
    const bool lactone = acid && acid->line.per_g.lactone_mol > 0;
    const auto for_acid = [&](const OneBase& base) {
      return lactone || base.weights.acid_g <= 0
                 ? 0
                 : acid_water_g(base.weights.acid_g, base.weights.tap_g);
    };
    const auto for_salt = [&](const OneBase& base) {
      return base.weights.calcium_salt_g <= 0
                 ? 0
                 : salt_water_g(base.weights.calcium_salt_g, base.weights.tap_g);
    };
    double all_g = part("tap water, set aside for the acid", false, for_acid);
    all_g += part("tap water, set aside for the calcium salt", false, for_salt);
    return all_g + part("tap water", false, [&](const OneBase& base) {
             return base.weights.tap_g - for_acid(base) - for_salt(base);
           });
  }

 private:
  const Ladder& ladder_;
  const Recipe& recipe_;
  const std::vector<Added>& added_;
  std::size_t count_;
  double make_g_ = 0;
  std::vector<OneBase> made_;
  Table parts_;
};

Section base_section(const Ladder& ladder, const std::vector<Added>& added) {
  const Recipe& recipe = *ladder.inputs.recipe;
  BaseTable table(ladder, added);
  const double stock_g = made_g(total_of(added, "acid_stock_g"));
  const double stock_fraction = ladder.acid_varies ? ladder.inputs.acid->stock_fraction : 0;
  const auto grams = [&recipe](double mass_g, bool decides) {
    return fixed(mass_g, on_scale(mass_g, decides, recipe).decimals);
  };
  Table ready{"needed", {{"item", "to have ready in all", false}, {"needed_g", "g", true}}};
  const auto need = [&](const std::string& item, double mass_g) {
    if (mass_g > 0)
      ready.rows.push_back({item, Cell(mass_g, on_scale(mass_g, false, recipe).decimals)});
  };
  const double tap_g = table.water();
  const auto gum = gum_axis(ladder);
  for (std::size_t i = 0; i < ladder.inputs.solids.size(); ++i) {
    const std::string& name = ingredient_name(ladder, ladder.inputs.solids[i]);
    const bool is_gum = recipe.ingredients[ladder.inputs.solids[i].ingredient].kind == Kind::gum;
    const bool varied = gum && ladder.axes[*gum].knob.solid == i;
    const double in_bases_g = table.part(name, is_gum, [&](const OneBase& base) {
      return varied ? base.gum_g : base.weights.solids_g[i];
    });
    need(name, in_bases_g + (varied ? 0 : total_of(added, name + "_g")));
  }
  const auto dose = [&](const std::optional<InputDose>& which, double BaseWeights::*neat,
                        double BaseWeights::*from_stock, double in_cups_g) {
    if (!which) return;
    const std::string& name = ingredient_name(ladder, which->line);
    const double neat_g =
        table.part(name, true, [&](const OneBase& base) { return base.weights.*neat; });
    const double stock =
        table.part(fmt::format("{:g} % solution of {}", 100 * which->stock_fraction, name), true,
                   [&](const OneBase& base) { return base.weights.*from_stock; });
    need(name, neat_g + stock * which->stock_fraction + in_cups_g);
  };
  dose(ladder.inputs.acid, &BaseWeights::acid_g, &BaseWeights::acid_stock_g,
       stock_g * stock_fraction + total_of(added, "acid_neat_g"));
  const bool calcium_stock = ladder.inputs.calcium && ladder.inputs.calcium->stock_fraction > 0;
  dose(ladder.inputs.calcium, &BaseWeights::calcium_salt_g, &BaseWeights::calcium_stock_g,
       total_of(added, "calcium_salt_g") *
           (calcium_stock ? ladder.inputs.calcium->stock_fraction : 1));
  need("tap water", tap_g + total_of(added, "tap_water_g"));
  const double calcium_stock_g = calcium_stock ? total_of(added, "calcium_salt_g") : 0;
  const double calcium_fraction = calcium_stock ? ladder.inputs.calcium->stock_fraction : 0;
  need("low-mineral water (solutions, cups, 10 g for each diluted reading)",
       total_of(added, "low_mineral_water_g") + stock_g * (1 - stock_fraction) +
           calcium_stock_g * (1 - calcium_fraction) +
           sample_water_g * static_cast<double>(ladder.cells));

  const std::string base_word = ladder.dry_base ? "DRY BASE" : "BASE";
  Section section{"base",
                  table.count() == 1
                      ? fmt::format("{}, make {} g", base_word, fixed(table.make_g(), 0))
                      : fmt::format("{} {}S, make {} g of each", table.count(), base_word,
                                    fixed(table.make_g(), 0)),
                  {},
                  {},
                  {}};
  const auto solution = [&](const std::optional<InputDose>& which, double all_g, double fraction) {
    return fmt::format("{}: {} g in {} g of low-mineral water",
                       ingredient_name(ladder, which->line), grams(all_g * fraction, true),
                       grams(all_g * (1 - fraction), true));
  };
  if (stock_g > 0)
    section.figures = {{"stock_percent", "Acid solution", Cell(100 * stock_fraction, 1), "%", "",
                        solution(ladder.inputs.acid, stock_g, stock_fraction)},
                       {"stock_make_g", "", Cell(stock_g, 0), "g", "", "", Shown::json_only}};
  if (calcium_stock_g > 0)
    section.figures.push_back({"calcium_stock_percent", "Calcium solution",
                               Cell(100 * calcium_fraction, 1), "%", "",
                               solution(ladder.inputs.calcium, calcium_stock_g, calcium_fraction)});
  section.figures.push_back(
      {"base_make_g", "", Cell(table.make_g(), 0), "g", "", "", Shown::json_only});
  section.tables.push_back(table.take());
  section.tables.push_back(std::move(ready));
  return section;
}

Section weights_section(const Ladder& ladder, const std::vector<Added>& added) {
  const Recipe& recipe = *ladder.inputs.recipe;
  Section section{"cups", "WEIGH INTO EACH CUP, g", {}, {}, {}};
  Table table{"cups", {{"cup", "cup", true}}, {}, Shown::everywhere, true};
  const bool many_bases = bases(ladder) > 1;
  if (many_bases)
    table.columns.push_back({"from_base", "from base", true, Shown::everywhere, true});
  for (const LadderAxis& axis : ladder.axes)
    table.columns.push_back({axis.name, axis_label(ladder, axis), true, Shown::everywhere, true});
  for (const Added& each : added)
    table.columns.push_back({each.key, each.label, true, Shown::everywhere, true});
  for (std::size_t cup = 0; cup < ladder.cells; ++cup) {
    std::vector<Cell> row = {Cell(static_cast<double>(cup + 1), 0)};
    if (many_bases) row.emplace_back(static_cast<double>(base_of(ladder, cup) + 1), 0);
    for (std::size_t a = 0; a < ladder.axes.size(); ++a)
      row.emplace_back(axis_value(ladder, cup, a), ladder.axes[a].decimals);
    for (const Added& each : added) row.emplace_back(each.cups_g[cup], each.scale(recipe).decimals);
    table.rows.push_back(std::move(row));
  }
  section.tables.push_back(std::move(table));

  Lines notes{"notes",
              {"* in one serving; each cup holds " + fixed(ladder.servings_per_cup, 3) +
               " of a serving's base."},
              Lines::Style::paragraph,
              Shown::text_only};
  for (const Added& each : added)
    if (const OnScale scale = each.scale(recipe); !scale.name.empty())
      notes.items.push_back(fmt::format("{}: on the {} scale.", each.label, scale.name));
  const double tolerance = recipe.batch.dose_tolerance_percent / 100;
  for (const Added& each : added) {
    // A little top-up water need not be known well: it joins a lot of water.
    if (each.key == "low_mineral_water_g" || each.key == "tap_water_g") continue;
    const auto too_small = std::count_if(each.cups_g.begin(), each.cups_g.end(), [&](double g) {
      return g > 0 && std::none_of(recipe.batch.scales.begin(), recipe.batch.scales.end(),
                                   [&](const Scale& scale) { return clears(g, scale, tolerance); });
    });
    if (!recipe.batch.scales.empty() && too_small > 0)
      notes.items.push_back(fmt::format(
          "{} in {} of the cups: none of your scales holds it within {:g} %. Take larger cups"
          "{}, or a syringe.",
          each.label, too_small, 100 * tolerance,
          each.key == "acid_stock_g" ? " or a weaker solution" : ""));
  }
  section.lines.push_back(std::move(notes));
  return section;
}

Section readings_section(const Ladder& ladder) {
  Section section{"readings", "EXPECT, AND READ", {}, {}, {}};
  Table table{"expected",
              {{"cup", "cup", true},
               {"acid_g", "", true, Shown::json_only},
               {"predicted_ph", "pH~", true},
               {"predicted_ph_diluted", "1:1~", true},
               {"outlook", "outlook~", false},
               {"ph", "pH", false, Shown::text_only},
               {"ph_diluted", "pH 1:1", false, Shown::text_only},
               {"syringe_ml", "mL left", false, Shown::text_only},
               {"cup_turn", "turned", false, Shown::text_only},
               {"spoon", "spoon", false, Shown::text_only},
               {"ring_ml", "ring mL", false, Shown::text_only}}};
  double widest = 0;
  for (std::size_t cup = 0; cup < ladder.cells; ++cup) {
    const CupPrediction expected = predict_cup(ladder, cup);
    widest = std::max(widest, expected.ph_uncertainty);
    std::vector<Cell> row = {Cell(static_cast<double>(cup + 1), 0), Cell(expected.acid_g, 4),
                             Cell(expected.ph, 1), Cell(diluted_ph(cup_inputs(ladder, cup)), 1),
                             outlook_words(expected.any_gum, expected.textures)};
    for (int blank = 0; blank < 6; ++blank) row.emplace_back("......");
    table.rows.push_back(std::move(row));
  }
  section.tables.push_back(std::move(table));
  section.figures.push_back({"ph_uncertainty", "Predicted pH", Cell(widest, 1), "", "",
                             "either way, about 95 %, an estimate"});
  section.lines.push_back(
      {"how_to_read",
       {"~ predicted, textures with their chance. 1:1: 10 g of gel stirred into 10 g of "
        "low-mineral water, the way to read a "
        "thick gel; the prediction counts that water.",
        "mL left: 10 mL in a slip-tip syringe, let go for 10 s, read what is left. Turned: upside "
        "down for 10 s, holds or falls. Spoon: smears or cracks; a groove 2 mm deep stands or "
        "closes. "
        "Lumps that can be lifted out: yes or no. Ring: liquid around it after "
        "12 h, mL for 50 g. None of this is a swallowing test.",
        "Same room, same stirring, same rest for every cup. `--format csv` gives the table to type "
        "the readings into."},
       Lines::Style::bullets,
       Shown::text_only});
  return section;
}

/// What was turned for the whole series, beside the acid, which has a column of its own: the
/// readings belong to it.
std::vector<const TurnedKnob*> turned_columns(const Ladder& ladder) {
  std::vector<const TurnedKnob*> columns;
  for (const TurnedKnob& each : ladder.inputs.recipe->turned)
    if (each.name != info_of(Knob::acid_g).name) columns.push_back(&each);
  return columns;
}

std::string csv_header(const Ladder& ladder) {
  std::string header = "cup";
  for (const LadderAxis& axis : ladder.axes) header += ',' + csv_cell(visible(axis.name));
  for (const TurnedKnob* each : turned_columns(ladder))
    header += ',' + csv_cell(visible(each->name));
  if (!ladder.acid_varies) header += ",acid_g";
  return header +
         ",predicted_ph,outlook,ph,ph_diluted,syringe_ml,cup_turn,groove,lumps,spoon,"
         "ring_ml\n";
}

void append_row(const Ladder& ladder, const CupPrediction& expected, std::string& out) {
  const auto to = std::back_inserter(out);
  fmt::format_to(to, "{}", expected.cup + 1);
  for (std::size_t a = 0; a < ladder.axes.size(); ++a)
    fmt::format_to(to, ",{}", fixed(axis_value(ladder, expected.cup, a), ladder.axes[a].decimals));
  for (const TurnedKnob* each : turned_columns(ladder)) fmt::format_to(to, ",{}", each->amount);
  if (!ladder.acid_varies) fmt::format_to(to, ",{}", fixed(expected.acid_g, 4));
  fmt::format_to(to, ",{},{},,,,,,,,\n", fixed(expected.ph, 2),
                 csv_cell(outlook_words(expected.any_gum, expected.textures)));
}

/// What each cup could tell, and how much the series is worth.
Section teaching_section(const Ladder& ladder, const Teaching& teaching) {
  Section section{"teach", "WHY THESE CUPS", {}, {}, {}};
  Table table{"teach",
              {{"cup", "cup", true},
               {"amount", ladder.axes.front().name + "*", true},
               {"chance_groove", "", true, Shown::json_only},
               {"chance_holds", "", true, Shown::json_only},
               {"groove", "a groove stands", false, Shown::text_only},
               {"holds", "turned over, it holds", false, Shown::text_only}}};
  for (std::size_t cup = 0; cup < ladder.cells; ++cup) {
    const double amount = axis_value(ladder, cup, 0);
    const auto step =
        std::find_if(teaching.cups.begin(), teaching.cups.end(),
                     [amount](const TeachingStep& each) { return each.amount == amount; });
    table.rows.push_back({Cell(static_cast<double>(cup + 1), 0),
                          Cell(amount, ladder.axes.front().decimals), Cell(step->chance_groove, 3),
                          Cell(step->chance_holds, 3),
                          fmt::format("in {:.0f} of 20", 20 * step->chance_groove),
                          fmt::format("in {:.0f} of 20", 20 * step->chance_holds)});
  }
  section.tables.push_back(std::move(table));
  constexpr int decimals = 2;
  section.figures = {
      {"sd_before", "Doubt of the stiffness now", Cell(teaching.sd_before, decimals), "log10 Pa"},
      {"sd_after", "With these cups, on average", Cell(teaching.sd_after, decimals), "log10 Pa"},
      {"sd_after_even", "With as many, evenly spread", Cell(teaching.sd_after_even, decimals),
       "log10 Pa"}};
  section.lines.push_back(
      {"how",
       {"Chosen together for what they would tell of the recipe as it stands, counted over all "
        "that is not known. A cup that is sure to hold or sure to fall tells little alone, and "
        "much beside one that is not: read every cup, with the syringe too.",
        "Type the readings in, let `gelwright fit --write` learn from them, and ask again: the "
        "next "
        "cups build on these."},
       Lines::Style::bullets,
       Shown::text_only});
  return section;
}

}  // namespace

Report ladder_report(const Ladder& ladder, const Teaching* teaching) {
  if (ladder.cells > most_ladder_cups)
    throw InputError("", {{"axes",
                           fmt::format("{} cups are too many for a bench sheet; {} fit",
                                       ladder.cells, most_ladder_cups),
                           "take larger steps, or map the whole grid with --format csv"}});
  Report report{"gelwright/ladder-1", "Bench series: " + ladder.inputs.recipe->name, {}, ""};
  add_turned(report, *ladder.inputs.recipe);
  const std::vector<Added> added = added_to_cups(ladder);
  report.sections.push_back(base_section(ladder, added));
  report.sections.push_back(weights_section(ladder, added));
  report.sections.push_back(readings_section(ladder));
  if (teaching != nullptr) report.sections.push_back(teaching_section(ladder, *teaching));
  const Making& making = ladder.inputs.making;
  const std::string salt = ladder.inputs.recipe->calcium && making.calcium_place < making.acid_place
                               ? "the calcium salt before the acid"
                               : "a calcium salt last";
  std::vector<std::string> method = {
      "Make the base the way the recipe is made, leaving out what the table adds. Let it rest if "
      "neither acid nor calcium is in it, else go on at once.",
      "Weigh the base into the cups, then the waters, then the acid, stirring it in the same way "
      "in every cup; " +
          salt + ".",
  };
  if (bases(ladder) > 1)
    method[0] =
        "Make each base by itself, the way the recipe is made: gum never goes dry into a cup. "
        "Leave "
        "out what the table adds. Let them rest if neither acid nor calcium is in them.";
  if (ladder.dry_base)
    method = {
        "Blend the dry base well; it parts again on standing, so stir before every portion.",
        "Make each cup's water first; weigh it, then the dry base under stirring, then the acid, "
        "stirring it in the same way in every cup; " +
            salt + ".",
    };
  if (ladder.options.shuffle)
    method.push_back(
        fmt::format("Make and read the cups in the order listed: it is random (seed "
                    "{}), so that drift does not look like an effect.",
                    ladder.options.seed));
  report.sections.push_back(
      {"method", "METHOD", {}, {}, {{"method", std::move(method), Lines::Style::steps}}});
  report.sections.push_back(
      {"cautions", "CAUTIONS", {}, {}, {{"cautions", standing_cautions(), Lines::Style::bullets}}});
  return report;
}

void write_ladder_csv(const Ladder& ladder, unsigned threads,
                      const std::function<void(std::string_view)>& sink) {
  const auto rows_of = [&ladder](std::span<const CupPrediction> cups) {
    std::string rows;
    for (const CupPrediction& each : cups) append_row(ladder, each, rows);
    return rows;
  };
  // The header goes out with the first cups: where they cannot be evaluated, nothing does.
  std::string header = csv_header(ladder);
  write_grid(ladder, threads, rows_of, [&](std::string_view rows) {
    if (!header.empty()) sink(std::exchange(header, {}));
    sink(rows);
  });
}

}  // namespace gelwright
