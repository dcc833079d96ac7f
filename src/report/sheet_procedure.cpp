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

/// Decimals of a scale's display.
int display_decimals(const Scale& scale) {
  int decimals = 0;
  for (double step = scale.readability_g; step < 0.9999 && decimals < 6; step *= 10) ++decimals;
  return decimals;
}

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
                           pouch_ ? "pouches" : "bottles");
      case Doing::stock:
        return stock(batch_.stocks[step.piece]);
      case Doing::weigh:
        return weigh(batch_.lines[*step.line]);
      case Doing::blend_dry:
        return blend_dry(*step.vessel);
      case Doing::dissolve:
        return fmt::format("Stir {} into {} until clear.", the(*step.vessel), the(*step.into));
      case Doing::slur:
        return fmt::format("Stir {} into {}. It does not dissolve: stir again before use.",
                           the(*step.vessel), the(*step.into));
      case Doing::put_in:
        return put_in(step);
      case Doing::wait:
        return fmt::format(
            "Wait {:g} minutes, or overnight in the fridge: the gum takes up more water.",
            step.minutes);
      case Doing::heat:
        return fmt::format(
            "Weigh the full pot. Heat to {:.0f} degC, stirring, until clear{}. Top up with water "
            "to the mass before. Hot gel scalds: never close a lid on a hot blender.",
            step.temp_c, step.minutes > 0 ? fmt::format(", {:g} minutes", step.minutes) : "");
      case Doing::cool:
        return fmt::format("Let it cool to {:.0f} degC, {}.", step.temp_c,
                           recipe_.steps[*step.step].how == How::stirred ? "stirring all the time"
                                                                         : "without moving it");
      case Doing::let_fizz:
        return "If it fizzes, leave it open and stir now and then. Fill and close only when "
               "nothing "
               "fizzes any more.";
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
        return pouch_ ? "Stir 10 g of gel into 10 g of low-mineral water. Read the pH with a meter."
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

  static std::string hours(double hours) {
    return fmt::format("{:g} hour{}", hours, hours == 1 ? "" : "s");
  }

  std::string main_name() const {
    for (const BatchVessel& each : batch_.vessels)
      if (each.use == BatchVessel::Use::main) return each.name;
    return "jug";
  }

  std::string stock(const StockPlan& plan) const {
    const double solute_g = plan.make_g * plan.stock_fraction;
    return fmt::format("Make a {:g} % solution: {} g of {} in {} g of low-mineral water.",
                       100 * plan.stock_fraction, significant(solute_g, 3),
                       recipe_.ingredients[plan.ingredient].name,
                       significant(plan.make_g - solute_g, 3));
  }

  std::string weigh(const BatchLine& line) const {
    const BatchVessel& vessel = batch_.vessels[line.vessel];
    std::string text = capital(vessel.name);
    if (line.scale && line.scale != main_scale(recipe_.batch))
      text += fmt::format(", {} scale", recipe_.batch.scales[*line.scale].name);
    text += ": " + ingredient(line);
    if (line.stock_fraction > 0)
      text += fmt::format(", {:g} % solution", 100 * line.stock_fraction);
    if (line.parts > 1) text += fmt::format(", part {} of {}", line.part, line.parts);
    if (line.role == LineRole::water && vessel.use == BatchVessel::Use::set_aside)
      text += ", set aside for later";
    if (line.role == LineRole::solid && recipe_.ingredients[line.ingredient].kind == Kind::mix)
      text += "; shake the pack first";
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

  std::string blend_dry(std::size_t vessel) const {
    constexpr double enough = 5;
    if (sugar_per_gum(vessel) >= enough - 1e-9)
      return fmt::format("Mix {} dry until the gum is spread evenly through the sugar.",
                         the(vessel));
    return fmt::format(
        "There is too little dry sugar to blend the gum with. Strew {} slowly into "
        "fast-moving water, or lumps form.",
        name(vessel));
  }

  /// Doses from a cup of water, or dry; then what the how says.
  std::string put_in(const ProcedureStep& step) const {
    const std::string what = the(*step.vessel);
    if (batch_.vessels[*step.into].use != BatchVessel::Use::main)
      return fmt::format("Tip {} into {}.", what, the(*step.into));
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
        return fmt::format("Stir or blend fast. Pour {} into the vortex in a thin stream; {}.",
                           what, time);
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

  std::string fill(const ProcedureStep& step) const {
    const bool early = !step.step && procedure_.filled_early;
    std::string text = !early  ? "Tap out the foam"
                       : hot() ? "Fill now, while it is hot: it sets as it cools"
                               : "Fill now, for it sets while it stands";
    if (early && procedure_.sets_after_hours)
      text = fmt::format("Fill now: it sets about {} after the acid",
                         hours(*procedure_.sets_after_hours));
    const bool whole = step.count == std::round(step.count);
    return fmt::format(
        "{}. {} with {} g{}.", text,
        whole ? fmt::format("Fill {:.0f} {}{}", step.count, pouch_ ? "pouch" : "bottle",
                            step.count == 1 ? ""
                            : pouch_        ? "es"
                                            : "s")
              : fmt::format("Fill the {}", pouch_ ? "pouches" : "bottles"),
        fixed(step.grams, 0), step.count == 1 ? "" : " each");
  }

  const Inputs& inputs_;
  const Recipe& recipe_;
  const Batch& batch_;
  const Procedure& procedure_;
  bool pouch_;
};

Table table_of(const Inputs& inputs, const Evaluation& evaluation, const Procedure& procedure) {
  const BatchSpec& spec = inputs.recipe->batch;
  const Batch& batch = evaluation.batch;
  const Words words(inputs, evaluation, procedure);
  Table table{"procedure",
              {{"step", "", true},
               {"words", "", false},
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
               {"count", "", true, Shown::json_only}},
              {},
              Shown::everywhere,
              true};
  int number = 0;
  for (const ProcedureStep& step : procedure.steps) {
    const BatchLine* line = step.line ? &batch.lines[*step.line] : nullptr;
    const Scale* scale = line != nullptr && line->scale ? &spec.scales[*line->scale] : nullptr;
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
         scale != nullptr ? in_words(line->running_total_g, "") : Cell(),
         line != nullptr ? Cell(true) : Cell(),
         to_text(step.doing),
         step.vessel ? Cell(words.name(*step.vessel)) : Cell(),
         step.into ? Cell(words.name(*step.into)) : Cell(),
         line != nullptr ? Cell(words.ingredient(*line)) : Cell(),
         line != nullptr ? Cell(line->exact_g, 9) : Cell(),
         line != nullptr ? grams(line->weigh_g) : Cell(),
         scale != nullptr ? grams(line->running_total_g) : Cell(),
         scale != nullptr ? Cell(scale->name) : Cell(),
         scale != nullptr ? Cell(line->error_percent, 1) : Cell(),
         scale != nullptr ? Cell(line->clears) : Cell(),
         line != nullptr && line->stock_fraction > 0 ? Cell(100 * line->stock_fraction, 1) : Cell(),
         temp ? Cell(step.temp_c, 0) : Cell(),
         where_more_than_0(step.minutes, 0),
         where_more_than_0(step.hours, 2),
         where_more_than_0(step.grams, 1),
         where_more_than_0(step.count, 2)});
  }
  return table;
}

}  // namespace

Section detail::procedure_section(const Inputs& inputs, const Evaluation& evaluation) {
  const Procedure procedure = procedure_of(inputs, evaluation);
  const BatchSpec& spec = inputs.recipe->batch;
  const auto scale = main_scale(spec);
  Section section{
      "procedure",
      scale ? fmt::format("MAKE IT ({} scale, unless it names another)", spec.scales[*scale].name)
            : "MAKE IT (no scales named: masses are exact)",
      {},
      {table_of(inputs, evaluation, procedure)},
      {}};
  Lines lines{"notes", {}, Lines::Style::paragraph, Shown::text_only};
  if (evaluation.batch.rounds > 1)
    lines.items.push_back(
        fmt::format("It takes {:.0f} equal rounds in this vessel; these amounts "
                    "are for one round.",
                    evaluation.batch.rounds));
  lines.items.push_back(
      fmt::format("Start at least {:.0f} hours before you leave.", std::ceil(procedure.hours)));
  section.lines.push_back(std::move(lines));
  return section;
}

}  // namespace gelwright
