// The procedure as a numbered list: weighings first, then what is done with them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gelwright/making.hpp"
#include "gelwright/procedure.hpp"
#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

/// Colder than this is a fridge, degC.
constexpr double fridge_c = 8;
/// Of a mass where no scale is named.
constexpr int usual_decimals = 2;

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

/// The name of the scale of the greatest capacity, which every weighing without another name is on.
std::optional<std::size_t> main_scale(const BatchSpec& spec) {
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < spec.scales.size(); ++i)
    if (!best || spec.scales[i].capacity_g > spec.scales[*best].capacity_g) best = i;
  return best;
}

class Words {
 public:
  Words(const Inputs& inputs, const Evaluation& evaluation, const Procedure& procedure)
      : inputs_(inputs),
        recipe_(*inputs.recipe),
        batch_(evaluation.batch),
        procedure_(procedure),
        pouch_(recipe_.form == Form::pouch) {}

  std::string of(const ProcedureStep& step) const {
    switch (step.doing) {
      case Doing::clean:
        return fmt::format("Wash hands. Scald the {}, {} and spoons; let them dry.", main_name(),
                           plural());
      case Doing::check_scale:
        return fmt::format("Check the {} scale with a known weight, such as a coin.",
                           recipe_.batch.scales[step.piece].name);
      case Doing::stock:
        return stock(batch_.stocks[step.piece]);
      case Doing::weigh:
        return weigh(batch_.lines[*step.line]);
      case Doing::blend_dry:
        return blend_dry(step);
      case Doing::dissolve:
        return fmt::format("Stir {} into {} until clear.", the(*step.vessel), the(*step.into));
      case Doing::slur:
        return fmt::format("Stir {} into {}. It does not dissolve: stir again before use.",
                           the(*step.vessel), the(*step.into));
      case Doing::put_in:
        return put_in(step);
      case Doing::wait:
        return fmt::format("Wait {:g} minutes, or overnight in the fridge: the gum swells.",
                           step.minutes);
      case Doing::heat:
        return fmt::format(
            "Weigh the full pot. Heat to {:.0f} degC, stirring, until clear{}. Top up to that "
            "weight. Hot gel scalds: keep the lid of a hot blender open.",
            step.temp_c, step.minutes > 0 ? fmt::format(", {:g} minutes", step.minutes) : "");
      case Doing::cool:
        return fmt::format("Let it cool to {:.0f} degC, {}.", step.temp_c,
                           recipe_.steps[*step.step].how == How::stirred ? "stirring all the time"
                                                                         : "without moving it");
      case Doing::let_fizz:
        return "If it fizzes, leave it open and stir until nothing fizzes any more.";
      case Doing::rest:
        if (recipe_.steps[*step.step].open)
          return fmt::format(
              "Leave it open{}, stirring now and then, until nothing fizzes any more.",
              step.hours > 0 ? " for " + hours(step.hours) : "");
        return step.temp_c <= fridge_c
                   ? fmt::format("Rest {} in the fridge.", hours(step.hours))
                   : fmt::format("Rest {} at {:.0f} degC.", hours(step.hours), step.temp_c);
      case Doing::fill:
        return fill(step);
      case Doing::read_ph:
        return pouch_ ? "Read the pH with a meter: 10 g of it in 10 g of low-mineral water."
                      : "Read the pH with a meter; strips tell it up to pH 4.0.";
      case Doing::label:
        return "Label: name, date, use-by time, allergens. Into the fridge.";
      case Doing::beside:
        return fmt::format("With each {}, not in the batch: {:g} x {}.",
                           pouch_ ? "pouch" : "bottle", step.count,
                           recipe_.pre_dosed[step.piece].name);
    }
    return "";
  }

  /// What the act is for, a phrase or a sentence.
  std::string why(const ProcedureStep& step) const {
    switch (step.doing) {
      case Doing::clean:
        return "What clings to tools grows in the gel.";
      case Doing::check_scale:
        return "A drifted scale spoils a pinch unseen.";
      case Doing::stock:
        return "The dose itself is too small for the scale.";
      case Doing::weigh:
        return why_weighed(batch_.lines[*step.line]);
      case Doing::blend_dry:
        return "Sugar keeps the grains of gum apart, so that each meets water.";
      case Doing::dissolve:
        return "Grains of it would set or sour one spot.";
      case Doing::slur:
        return "Dry powder would clump and settle.";
      case Doing::put_in:
        return recipe_.steps.empty() || !step.step ? "All of the water is there before the gum."
                                                   : why_put_in(recipe_.steps[*step.step].how);
      case Doing::wait:
        return "Acid, salt and sugar stop gum that has not swollen.";
      case Doing::heat:
        return "This gum dissolves hot; steam that leaves thickens the batch.";
      case Doing::cool:
        return "It sets as it cools: moved it flows, still it holds.";
      case Doing::let_fizz:
        return "Gas in a closed pouch bursts it.";
      case Doing::rest:
        return "The gel builds up; cold keeps it safe.";
      case Doing::fill:
        return procedure_.filled_early ? "What has set no longer flows into a pouch."
                                       : "Foam makes a full pouch light.";
      case Doing::read_ph:
        return "A computed pH is no proof; thick gel needs thinning to be read.";
      case Doing::label:
        return "Who eats it has to know.";
      case Doing::beside:
        return "A pinch of it cannot be weighed or spread evenly.";
    }
    return "";
  }

  std::string ingredient(const BatchLine& line) const {
    return line.role == LineRole::water ? "water" : recipe_.ingredients[line.ingredient].name;
  }

  const std::string& name(std::size_t vessel) const { return batch_.vessels[vessel].name; }

 private:
  /// "the bowl", "bowl 2", "cup A".
  std::string the(std::size_t vessel) const {
    const BatchVessel& each = batch_.vessels[vessel];
    const bool alone = each.use == BatchVessel::Use::main || each.name == "bowl";
    return alone ? "the " + each.name : each.name;
  }

  std::string plural() const { return pouch_ ? "pouches" : "bottles"; }

  std::string why_weighed(const BatchLine& line) const {
    const BatchVessel::Use use = batch_.vessels[line.vessel].use;
    if (use == BatchVessel::Use::set_aside) return "Set aside now; later it is all in the batch.";
    if (use == BatchVessel::Use::main && line.role == LineRole::solid)
      return "The gum would make a paste of the water alone.";
    if (line.role == LineRole::acid || line.role == LineRole::calcium_salt ||
        (line.role == LineRole::solid && recipe_.ingredients[line.ingredient].kind == Kind::gum))
      return "A little more or less of it is another gel.";
    return "A running blender cannot stand on a scale.";
  }

  static std::string why_put_in(How how) {
    switch (how) {
      case How::under_blade:
        return "Spread before it can set one spot; it stays smooth and flows.";
      case How::preblended:
      case How::dry:
      case How::shaken:
        return "Each grain is to be wet before it touches the next.";
      case How::slow:
        return "Slowly it sets evenly, all at once it sets in lumps.";
      default:
        return "Gum dissolves better before sugar, salt and acid are in.";
    }
  }

  static std::string hours(double hours) {
    return fmt::format("{:g} hour{}", hours, hours == 1 ? "" : "s");
  }

  std::string main_name() const {
    for (const BatchVessel& each : batch_.vessels)
      if (each.use == BatchVessel::Use::main) return each.name;
    return "jug";
  }

  /// "4 % solution", with the name of what is in it where there are two.
  std::string solution(std::size_t ingredient, double fraction) const {
    return fmt::format(
        "{:g} % solution{}", 100 * fraction,
        batch_.stocks.size() > 1 ? " of " + recipe_.ingredients[ingredient].name : "");
  }

  std::string stock(const StockPlan& plan) const {
    const auto grams = [&](double mass_g) {
      return plan.scale ? fixed(mass_g, display_decimals(recipe_.batch.scales[*plan.scale]))
                        : significant(mass_g, 3);
    };
    return fmt::format("Make a {:g} % solution: {} g of {} in {} g of low-mineral water.",
                       100 * plan.stock_fraction, grams(plan.solute_g),
                       recipe_.ingredients[plan.ingredient].name, grams(plan.water_g));
  }

  std::string weigh(const BatchLine& line) const {
    const BatchVessel& vessel = batch_.vessels[line.vessel];
    std::string text = capital(vessel.name);
    if (line.scale && line.scale != main_scale(recipe_.batch))
      text += fmt::format(", {} scale", recipe_.batch.scales[*line.scale].name);
    text += ": " + (line.stock_fraction > 0 ? solution(line.ingredient, line.stock_fraction)
                                            : ingredient(line));
    if (line.parts > 1) text += fmt::format(", part {} of {}", line.part, line.parts);
    if (line.role == LineRole::water && vessel.use == BatchVessel::Use::set_aside)
      text += ", set aside for later";
    if (line.role == LineRole::solid && recipe_.ingredients[line.ingredient].kind == Kind::mix)
      text += "; shake the pack first";
    if (line.role == LineRole::solid && vessel.use == BatchVessel::Use::main)
      text += "; it thins the gum";
    return text;
  }

  /// Dry sugar in the vessel for each g of gum.
  double sugar_per_gum(std::size_t vessel) const {
    double gum_g = 0;
    double sugar_g = 0;
    const std::size_t step = batch_.vessels[vessel].step;
    for (const BatchLine& line : batch_.lines) {
      if (line.role != LineRole::solid || batch_.vessels[line.vessel].step != step) continue;
      const Kind kind = recipe_.ingredients[line.ingredient].kind;
      if (kind == Kind::gum) gum_g += line.exact_g;
      if (kind == Kind::sugar || kind == Kind::mix) sugar_g += line.exact_g;
    }
    return gum_g > 0 ? sugar_g / gum_g : 0;
  }

  std::string blend_dry(const ProcedureStep& step) const {
    const std::size_t bowl = step.into.value_or(*step.vessel);
    const std::string tip =
        step.into ? fmt::format("Tip {} into {}. ", the(*step.vessel), the(bowl)) : "";
    constexpr double enough = 5;
    if (sugar_per_gum(bowl) >= enough - 1e-9)
      return fmt::format("{}Mix it dry until the gum is spread evenly.",
                         step.into ? tip : fmt::format("In {}: ", the(bowl)));
    return tip + "Mix it dry. That is little sugar for so much gum: strew it slowly.";
  }

  /// Doses from a cup of water, or dry; then what the how says.
  std::string put_in(const ProcedureStep& step) const {
    const std::string what = the(*step.vessel);
    if (batch_.vessels[*step.into].use != BatchVessel::Use::main)
      return fmt::format("Tip {} into {}.", what, the(*step.into));
    if (batch_.vessels[*step.vessel].use == BatchVessel::Use::main_too)
      return fmt::format("Pour {} into {}.", what, the(*step.into));
    const Step& from = recipe_.steps[*step.step];
    const bool liquid = batch_.vessels[*step.vessel].use == BatchVessel::Use::set_aside ||
                        holds_stock(*step.vessel);
    const std::string time =
        step.minutes > 0 ? fmt::format("{:g} minutes", step.minutes) : "1 to 3 minutes";
    switch (from.how) {
      case How::under_blade:
        return liquid
                   ? fmt::format("Blender running: pour {} in a thin stream under the blade.", what)
                   : fmt::format("Run the blender. Pour in {}; {}.", what, time);
      case How::preblended:
        if (sugar_per_gum(*step.vessel) <= 0)
          return fmt::format("No sugar parts the gum: strew {} slowly into the vortex; {}.", what,
                             time);
        return fmt::format("Stir or blend fast. Pour {} into the vortex; {}.", what, time);
      case How::shaken:
        return fmt::format("Add {}. Close it and shake hard until nothing sticks.", what);
      case How::dry:
        return fmt::format("Strew {} slowly onto the moving liquid; {}.", what, time);
      case How::slow:
        return liquid && !slurry(*step.vessel)
                   ? fmt::format("Add {} drop by drop, stirring.", what)
                   : fmt::format("Stir in {}, quickly and evenly.", what);
      case How::poured:
        return fmt::format("Pour in {}, stirring.", what);
      default:
        return fmt::format("Stir in {} until {}.", what,
                           only_salt(*step.vessel) ? "it is dissolved" : "smooth");
    }
  }

  bool slurry(std::size_t vessel) const {
    return std::any_of(procedure_.steps.begin(), procedure_.steps.end(),
                       [vessel](const ProcedureStep& each) {
                         return each.doing == Doing::slur && each.into == vessel;
                       });
  }

  bool only_salt(std::size_t vessel) const {
    return std::all_of(batch_.lines.begin(), batch_.lines.end(), [&](const BatchLine& line) {
      return line.vessel != vessel || (line.role == LineRole::solid &&
                                       recipe_.ingredients[line.ingredient].kind == Kind::salt);
    });
  }

  bool holds_stock(std::size_t vessel) const {
    return std::any_of(batch_.lines.begin(), batch_.lines.end(), [vessel](const BatchLine& line) {
      return line.vessel == vessel && line.stock_fraction > 0;
    });
  }

  bool hot() const {
    return std::any_of(recipe_.steps.begin(), recipe_.steps.end(),
                       [](const Step& step) { return step.act == Act::heat; });
  }

  /// Why it cannot wait, where it cannot.
  std::string hurry() const {
    if (procedure_.sets_below_c)
      return fmt::format(" now, hot: it sets below about {:.0f} degC", *procedure_.sets_below_c);
    if (hot()) return " now, hot: it sets as it cools";
    if (procedure_.sets_after_hours)
      return fmt::format(" now: it sets {} after the acid", hours(*procedure_.sets_after_hours));
    return " now: it may set while it stands";
  }

  std::string fill(const ProcedureStep& step) const {
    const bool early = !step.step && procedure_.filled_early;
    const bool whole = step.count == std::round(step.count);
    const std::string which = whole && step.count == 1 ? (pouch_ ? "1 pouch" : "1 bottle")
                              : whole ? fmt::format("{:.0f} {}", step.count, plural())
                                      : "the " + plural();
    return fmt::format("{}Fill {} with {} g{}{}.", early ? "" : "Tap out the foam. ", which,
                       fixed(step.grams, 0), step.count == 1 ? "" : " each", early ? hurry() : "");
  }

  const Inputs& inputs_;
  const Recipe& recipe_;
  const Batch& batch_;
  const Procedure& procedure_;
  bool pouch_;
};

std::string heading_of(const BatchSpec& spec) {
  const auto scale = main_scale(spec);
  return scale
             ? fmt::format("MAKE IT ({} scale, unless it names another)", spec.scales[*scale].name)
             : "MAKE IT (no scales named: masses are exact)";
}

Table table_of(const Inputs& inputs, const Evaluation& evaluation, const Procedure& procedure) {
  const BatchSpec& spec = inputs.recipe->batch;
  const Batch& batch = evaluation.batch;
  const Words words(inputs, evaluation, procedure);
  Table table{"procedure",
              {{"step", "", true},
               {"words", heading_of(spec), false},
               {"weigh", "weigh", true, Shown::text_only, false, true},
               {"shows", "scale shows", true, Shown::text_only},
               {"really", "really weighed", true, Shown::page_only, false, false, true},
               {"do", "", false, Shown::json_only},
               {"vessel", "", false, Shown::json_only},
               {"into", "", false, Shown::json_only},
               {"ingredient", "", false, Shown::json_only},
               {"exact_g", "", true, Shown::json_only},
               {"weigh_g", "", true, Shown::json_only},
               {"display_g", "", true, Shown::json_only},
               {"scale", "", false, Shown::json_only},
               {"error_percent", "", true, Shown::json_only},
               {"clears", "", false, Shown::json_only},
               {"stock_percent", "", true, Shown::json_only},
               {"temp_c", "", true, Shown::json_only},
               {"minutes", "", true, Shown::json_only},
               {"hours", "", true, Shown::json_only},
               {"fill_g", "", true, Shown::json_only},
               {"count", "", true, Shown::json_only},
               {"solute_g", "", true, Shown::json_only},
               {"solvent_g", "", true, Shown::json_only},
               {"why", "", false, Shown::json_only}},
              {},
              Shown::everywhere,
              true};
  int number = 0;
  for (const ProcedureStep& step : procedure.steps) {
    const BatchLine* line = step.line ? &batch.lines[*step.line] : nullptr;
    const StockPlan* stock = step.doing == Doing::stock ? &batch.stocks[step.piece] : nullptr;
    const std::optional<std::size_t> which = line != nullptr    ? line->scale
                                             : stock != nullptr ? stock->scale
                                                                : std::nullopt;
    const Scale* scale = which ? &spec.scales[*which] : nullptr;
    const int stock_decimals = scale != nullptr ? display_decimals(*scale) : usual_decimals;
    const auto where_more_than_0 = [](double amount, int decimals) {
      return amount > 0 ? Cell(amount, decimals) : Cell();
    };
    const auto grams = [&](double mass_g) {
      const int decimals = scale != nullptr ? display_decimals(*scale) : mass_decimals(mass_g);
      return Cell(mass_g, decimals);
    };
    const auto in_words = [&](double mass_g, const char* unit) {
      return Cell(
          fixed(mass_g, scale != nullptr ? display_decimals(*scale) : mass_decimals(mass_g)) +
          unit);
    };
    const bool temp =
        step.doing == Doing::heat || step.doing == Doing::cool || step.doing == Doing::rest;
    table.rows.push_back(
        {Cell(++number, 0),
         words.of(step),
         line != nullptr ? in_words(line->weigh_g, " g") : Cell(),
         line != nullptr && scale != nullptr ? in_words(line->running_total_g, "") : Cell(),
         line != nullptr ? Cell(true) : Cell(),
         to_text(step.doing),
         step.vessel ? Cell(words.name(*step.vessel)) : Cell(),
         step.into ? Cell(words.name(*step.into)) : Cell(),
         line != nullptr ? Cell(words.ingredient(*line)) : Cell(),
         line != nullptr ? Cell(line->exact_g, 9) : Cell(),
         line != nullptr ? grams(line->weigh_g) : Cell(),
         line != nullptr && scale != nullptr ? grams(line->running_total_g) : Cell(),
         scale != nullptr ? Cell(scale->name) : Cell(),
         line != nullptr && scale != nullptr ? Cell(line->error_percent, 1) : Cell(),
         line != nullptr && scale != nullptr ? Cell(line->clears) : Cell(),
         line != nullptr && line->stock_fraction > 0 ? Cell(100 * line->stock_fraction, 1) : Cell(),
         temp ? Cell(step.temp_c, 0) : Cell(),
         where_more_than_0(step.minutes, 0),
         where_more_than_0(step.hours, 2),
         where_more_than_0(step.grams, 1),
         where_more_than_0(step.count, 2),
         stock != nullptr ? Cell(stock->solute_g, stock_decimals) : Cell(),
         stock != nullptr ? Cell(stock->water_g, stock_decimals) : Cell(),
         words.why(step)});
  }
  return table;
}

}  // namespace

int detail::display_decimals(const Scale& scale) {
  int decimals = 0;
  for (double step = scale.readability_g; step < 0.9999 && decimals < 6; step *= 10) ++decimals;
  return decimals;
}

Section detail::procedure_section(const Inputs& inputs, const Evaluation& evaluation) {
  const Procedure procedure = procedure_of(inputs, evaluation);
  Section section{"procedure", "", {}, {table_of(inputs, evaluation, procedure)}, {}};
  Lines lines{"notes", {}, Lines::Style::paragraph, Shown::text_only};
  if (procedure.crowded_gum_g > 0)
    lines.items.push_back(fmt::format(
        "{} g of gum makes a paste of {} g of water: strew it slowly, or take less.",
        significant(procedure.crowded_gum_g, 2), significant(procedure.crowded_water_g, 2)));
  if (evaluation.batch.rounds > 1)
    lines.items.push_back(
        fmt::format("The vessel is too small: make {:.0f} equal rounds. These amounts are for one.",
                    evaluation.batch.rounds));
  lines.items.push_back(
      fmt::format("Start at least {:.0f} hours before you leave.", std::ceil(procedure.hours)));
  section.lines.push_back(std::move(lines));
  return section;
}

Section detail::reasons_section(const Inputs& inputs, const Evaluation& evaluation) {
  const Procedure procedure = procedure_of(inputs, evaluation);
  const Words words(inputs, evaluation, procedure);
  Table table{"reasons",
              {{"step", "step", true},
               {"exact_g", "exact g", true},
               {"error_percent", "off by up to %", true},
               {"why", "why", false}},
              {},
              Shown::text_only};
  double number = 0;
  for (const ProcedureStep& step : procedure.steps) {
    const BatchLine* line = step.line ? &evaluation.batch.lines[*step.line] : nullptr;
    table.rows.push_back({Cell(++number, 0), line != nullptr ? Cell(line->exact_g, 4) : Cell(),
                          line != nullptr && line->scale ? Cell(line->error_percent, 1) : Cell(),
                          words.why(step)});
  }
  return {"reasons", "THE SAME STEPS, EXACT, AND WHY", {}, {std::move(table)}, {}};
}

}  // namespace gelwright
