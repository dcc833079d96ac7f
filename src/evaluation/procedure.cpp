#include "gelwright/procedure.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "gelwright/making.hpp"
#include "serving/portions.hpp"

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"procedure.sets-from", 0.5, "1", 0, "chance of soft or firmer at which it counts as set",
     "judgement", Standing::judgement},
    {"procedure.may-set", 0.2, "1", 0,
     "chance of soft or firmer at which it is filled before it rests", "judgement",
     Standing::judgement},
    {"procedure.pinch", 5, "g", 0, "less of what decides calls for a check of the scale",
     "judgement", Standing::judgement},
    {"procedure.work", 1, "h", 0, "weighing, blending and filling", "judgement",
     Standing::judgement},
    {"procedure.wait", 30, "min", 0, "gum in plain water before the next thing goes in",
     "common-practice", Standing::common_practice},
};

constexpr EvaluateParts texture_only{
    .batch = false, .flags = false, .gel = {.detail = GelDetail::chances, .stomach = false}};

/// Whether it holds its shape with at least this chance. A gel that is sheared while it sets flows,
/// and can be filled at any time.
bool sets_still(const GelForecast& gel, double chance) {
  const double holds = gel.chance(gel::Texture::soft) + gel.chance(gel::Texture::firm) +
                       gel.chance(gel::Texture::hard);
  return gel.made && gel.any_gum() && holds >= chance;
}

/// The first of some hours after the acid at which it is more likely than not set.
std::optional<double> hours_to_set(const Inputs& inputs) {
  constexpr std::array<double, 9> tried_hours = {0.25, 0.5, 1, 2, 3, 4, 6, 8, 12};
  for (const double hours : tried_hours) {
    if (hours > inputs.making.hours) break;
    Inputs early = inputs;
    early.making.hours = hours;
    early.making.acid_hours = hours;
    // A gum has been in that much longer as it was before the acid.
    for (GoesIn& each : early.making.solids)
      each.hours = std::max(0.0, each.hours - (inputs.making.hours - hours));
    if (sets_still(evaluate(early, texture_only).gel, value_of(data, "procedure.sets-from")))
      return hours;
  }
  return std::nullopt;
}

class Planner {
 public:
  Planner(const Inputs& inputs, const Evaluation& evaluation)
      : inputs_(inputs),
        recipe_(*inputs.recipe),
        batch_(evaluation.batch),
        gel_(evaluation.gel),
        may_burst_(
            std::any_of(evaluation.flags.begin(), evaluation.flags.end(),
                        [](const Flag& flag) { return name_of(flag.id) == "gas-in-pouch"; })) {}

  Procedure plan() {
    const bool holds = sets_still(gel_, value_of(data, "procedure.may-set"));
    if (holds && gel_.state.acid == gel::Acid::slow)
      procedure_.sets_after_hours = hours_to_set(inputs_);
    add({.doing = Doing::clean});
    check_scale_for_pinches();
    for (std::size_t stock = 0; stock < batch_.stocks.size(); ++stock)
      add({.doing = Doing::stock, .piece = stock});
    for (std::size_t line = 0; line < batch_.lines.size(); ++line)
      add({.doing = Doing::weigh, .line = line, .vessel = batch_.lines[line].vessel});
    for (std::size_t v = 0; v < batch_.vessels.size(); ++v)
      if (batch_.vessels[v].use == BatchVessel::Use::main_too)
        add({.doing = Doing::put_in, .vessel = v, .into = main_vessel()});
    water_g_ = water_in_main_g();
    const std::size_t last = last_of_work();
    for (std::size_t s = 0; s < recipe_.steps.size(); ++s) {
      take(s);
      // What sets while it stands goes into its pouches now, hot where it was heated.
      if (holds && s == last) fill_early();
    }
    finish();
    return std::move(procedure_);
  }

 private:
  /// What a step brings, by the kind of vessel it stands in.
  struct Brought {
    std::vector<std::size_t> waters;
    std::vector<std::size_t> bowls;
    std::vector<std::size_t> cups;
  };

  void add(ProcedureStep step) { procedure_.steps.push_back(step); }

  bool decides(const BatchLine& line) const {
    return line.role == LineRole::acid || line.role == LineRole::calcium_salt ||
           (line.role == LineRole::solid && recipe_.ingredients[line.ingredient].kind == Kind::gum);
  }

  /// The scale of the first pinch that decides what comes of it, where it can weigh one.
  void check_scale_for_pinches() {
    for (const StockPlan& stock : batch_.stocks)
      if (stock.scale && stock.solute_g < value_of(data, "procedure.pinch"))
        return add({.doing = Doing::check_scale, .piece = *stock.scale});
    for (const BatchLine& line : batch_.lines)
      if (line.scale && line.clears && decides(line) &&
          line.weigh_g < value_of(data, "procedure.pinch"))
        return add({.doing = Doing::check_scale, .piece = *line.scale});
  }

  /// Water there from the start, that of juices counted, g.
  double water_in_main_g() const {
    double water_g = 0;
    for (const BatchLine& line : batch_.lines) {
      const BatchVessel::Use use = batch_.vessels[line.vessel].use;
      if (use == BatchVessel::Use::main || use == BatchVessel::Use::main_too)
        water_g += line.role == LineRole::water
                       ? line.exact_g
                       : line.exact_g * recipe_.ingredients[line.ingredient].per_g.water_g;
    }
    return water_g;
  }

  /// Notes gum that is too much for the water it meets.
  void note_crowding(const Brought& brought) {
    double gum_g = 0;
    double water_g = 0;
    for (const BatchLine& line : batch_.lines) {
      const auto in = [&line](const std::vector<std::size_t>& vessels) {
        return std::find(vessels.begin(), vessels.end(), line.vessel) != vessels.end();
      };
      if (line.role != LineRole::solid || !(in(brought.bowls) || in(brought.cups))) continue;
      const Ingredient& what = recipe_.ingredients[line.ingredient];
      if (what.kind == Kind::gum)
        gum_g += line.exact_g;
      else
        water_g += line.exact_g * what.per_g.water_g;
    }
    water_g_ += water_g;
    if (gum_g <= detail::most_gum_per_water() * water_g_) return;
    procedure_.crowded_gum_g = gum_g;
    procedure_.crowded_water_g = water_g_;
  }

  /// The last step that adds, heats or lets gas out; what follows is cooling, resting and filling.
  std::size_t last_of_work() const {
    std::size_t last = 0;
    for (std::size_t s = 0; s < recipe_.steps.size(); ++s) {
      const Step& step = recipe_.steps[s];
      if (step.act == Act::add || step.act == Act::heat || step.open) last = s;
    }
    return last;
  }

  std::size_t main_vessel() const {
    for (std::size_t v = 0; v < batch_.vessels.size(); ++v)
      if (batch_.vessels[v].use == BatchVessel::Use::main) return v;
    return 0;
  }

  void fill(std::optional<std::size_t> step) {
    // Nobody has said that it stands open; whoever follows the list is to be safe all the same.
    if (may_burst_) add({.doing = Doing::let_fizz});
    add({.doing = Doing::fill,
         .step = step,
         .grams = batch_.yield_g / inputs_.servings,
         .count = inputs_.servings / batch_.rounds});
    filled_ = true;
  }

  void fill_early() {
    if (filled_) return;
    fill(std::nullopt);
    procedure_.filled_early = true;
    if (const double below_c = gel_.outlook.centre.setting_c; below_c > 0)
      procedure_.sets_below_c = below_c;
  }

  void take(std::size_t s) {
    const Step& step = recipe_.steps[s];
    switch (step.act) {
      case Act::add:
        put_in(s);
        break;
      case Act::heat:
        add({.doing = Doing::heat,
             .step = s,
             .temp_c = step.to_c,
             .minutes = step.minutes.value_or(0)});
        break;
      case Act::cool:
        add({.doing = Doing::cool, .step = s, .temp_c = step.to_c});
        break;
      case Act::rest:
        if (step.hours > 0 || step.open)
          add({.doing = Doing::rest, .step = s, .temp_c = step.at_c, .hours = step.hours});
        procedure_.hours += step.hours;
        break;
      case Act::fill:
        if (!filled_) fill(s);
        break;
    }
  }

  Brought brought_by(std::size_t s) const {
    Brought found;
    for (std::size_t v = 0; v < batch_.vessels.size(); ++v) {
      if (batch_.vessels[v].step != s) continue;
      switch (batch_.vessels[v].use) {
        case BatchVessel::Use::main:
        case BatchVessel::Use::main_too:
          break;
        case BatchVessel::Use::set_aside:
          found.waters.push_back(v);
          break;
        case BatchVessel::Use::dry:
          found.bowls.push_back(v);
          break;
        case BatchVessel::Use::apart:
          found.cups.push_back(v);
          break;
      }
    }
    return found;
  }

  void put_in(std::size_t s) {
    const Step& step = recipe_.steps[s];
    const std::size_t main = main_vessel();
    const auto into_main = [&](std::size_t vessel) {
      add({.doing = Doing::put_in,
           .vessel = vessel,
           .into = main,
           .step = s,
           .minutes = step.minutes.value_or(0)});
    };
    Brought brought = brought_by(s);
    note_crowding(brought);
    if (step.how == How::preblended) blend_dry(brought, s);
    for (const std::size_t bowl : brought.bowls) into_main(bowl);
    for (const std::size_t cup : brought.cups) {
      if (!is_dose(cup) || brought.waters.empty()) {
        into_main(cup);
        continue;
      }
      const std::size_t water = brought.waters.front();
      brought.waters.erase(brought.waters.begin());
      add({.doing = slurred(cup) ? Doing::slur : Doing::dissolve,
           .vessel = cup,
           .into = water,
           .step = s});
      into_main(water);
    }
    for (const std::size_t water : brought.waters) into_main(water);
    if (gum_only(step) && s + 1 < recipe_.steps.size() && recipe_.steps[s + 1].act == Act::add)
      add({.doing = Doing::wait, .step = s, .minutes = value_of(data, "procedure.wait")});
  }

  /// Everything of a pre-blend comes together dry in one bowl, if there is sugar to blend with.
  void blend_dry(Brought& brought, std::size_t s) {
    if (brought.bowls.empty() || !any_sugar_beside(s)) return;
    const std::size_t bowl = brought.bowls.front();
    if (brought.cups.empty()) return add({.doing = Doing::blend_dry, .vessel = bowl, .step = s});
    for (std::size_t i = 0; i < brought.cups.size(); ++i)
      add({.doing = i + 1 < brought.cups.size() ? Doing::put_in : Doing::blend_dry,
           .vessel = brought.cups[i],
           .into = bowl,
           .step = s});
    brought.cups.clear();
  }

  bool any_sugar_beside(std::size_t s) const {
    return std::any_of(batch_.lines.begin(), batch_.lines.end(), [&](const BatchLine& line) {
      const BatchVessel& vessel = batch_.vessels[line.vessel];
      return vessel.step == s && vessel.use == BatchVessel::Use::dry &&
             line.role == LineRole::solid && recipe_.ingredients[line.ingredient].kind != Kind::gum;
    });
  }

  bool is_dose(std::size_t vessel) const {
    return std::any_of(batch_.lines.begin(), batch_.lines.end(), [vessel](const BatchLine& line) {
      return line.vessel == vessel &&
             (line.role == LineRole::acid || line.role == LineRole::calcium_salt);
    });
  }

  bool slurred(std::size_t vessel) const {
    return std::any_of(batch_.lines.begin(), batch_.lines.end(), [&](const BatchLine& line) {
      return line.vessel == vessel && line.role == LineRole::calcium_salt &&
             waits_for_acid(recipe_.ingredients[line.ingredient]);
    });
  }

  /// Gum brought alone takes up water better before anything else competes for it.
  bool gum_only(const Step& step) const {
    bool any = false;
    for (const Addition& each : step.what) {
      if (each.item != Item::solid) return false;
      const Kind kind = recipe_.ingredients[recipe_.solids[each.line].ingredient].kind;
      if (kind == Kind::gum) any = true;
      if (kind == Kind::mix || kind == Kind::syrup) return false;
    }
    return any;
  }

  void finish() {
    if (!filled_) fill(std::nullopt);
    for (std::size_t p = 0; p < recipe_.pre_dosed.size(); ++p)
      add({.doing = Doing::beside, .count = recipe_.pre_dosed[p].per_serving, .piece = p});
    add({.doing = Doing::read_ph});
    add({.doing = Doing::label});
    procedure_.hours += value_of(data, "procedure.work");
  }

  const Inputs& inputs_;
  const Recipe& recipe_;
  const Batch& batch_;
  const GelForecast& gel_;
  bool may_burst_;
  Procedure procedure_;
  double water_g_ = 0;  // in the main vessel by now
  bool filled_ = false;
};

}  // namespace

std::string_view to_text(Doing doing) {
  switch (doing) {
    case Doing::clean:
      return "clean";
    case Doing::check_scale:
      return "check_scale";
    case Doing::stock:
      return "stock";
    case Doing::weigh:
      return "weigh";
    case Doing::blend_dry:
      return "blend_dry";
    case Doing::dissolve:
      return "dissolve";
    case Doing::slur:
      return "slur";
    case Doing::put_in:
      return "put_in";
    case Doing::wait:
      return "wait";
    case Doing::heat:
      return "heat";
    case Doing::cool:
      return "cool";
    case Doing::rest:
      return "rest";
    case Doing::let_fizz:
      return "let_fizz";
    case Doing::fill:
      return "fill";
    case Doing::read_ph:
      return "read_ph";
    case Doing::label:
      return "label";
    case Doing::beside:
      return "beside";
  }
  return "";
}

Procedure procedure_of(const Inputs& inputs, const Evaluation& evaluation) {
  return Planner(inputs, evaluation).plan();
}

std::span<const Datum> procedure_data() {
  return data;
}

}  // namespace gelwright
