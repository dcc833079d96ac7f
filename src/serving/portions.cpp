#include "serving/portions.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "gelwright/making.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum data[] = {
    {"portion.acid-water", 5, "g/g", 0, "water an acid is dissolved in", "judgement",
     Standing::judgement},
    {"portion.salt-water", 10, "g/g", 0, "water a calcium salt is dissolved or slurred in",
     "judgement", Standing::judgement},
    {"portion.least-water", 10, "g", 0, "water set aside, where there is enough", "judgement",
     Standing::judgement},
    {"portion.most-water-share", 0.15, "1", 0, "of the water, set aside for one dose", "judgement",
     Standing::judgement},
    {"portion.blend-least", 5, "g/g", 0, "sugar to blend gum with", "common-practice",
     Standing::common_practice},
    {"portion.blend-usual", 8, "g/g", 0, "sugar to blend gum with", "common-practice",
     Standing::common_practice},
    {"portion.most-gum", 0.06, "g/g", 0, "gum in the water it meets; with more it is a stiff paste",
     "judgement", Standing::judgement},
    {"portion.thins", 0.5, "g/g", 0, "water in a juice or syrup that thins a paste of gum",
     "judgement", Standing::judgement},
};
/// Less water than this is not worth a cup of its own, g.
constexpr double least_set_aside_g = 2;

bool any_step(const Recipe& recipe, Act act) {
  return std::any_of(recipe.steps.begin(), recipe.steps.end(),
                     [act](const Step& step) { return step.act == act; });
}

bool any_added(const Recipe& recipe, How how) {
  return std::any_of(recipe.steps.begin(), recipe.steps.end(),
                     [how](const Step& step) { return step.act == Act::add && step.how == how; });
}

std::string_view main_name(const Recipe& recipe) {
  if (any_step(recipe, Act::heat)) return "pot";
  if (any_added(recipe, How::under_blade)) return "blender jug";
  return any_added(recipe, How::shaken) ? "bottle" : "jug";
}

double set_aside_g(double dose_g, double per_g, double water_g) {
  const double wanted_g = std::max(per_g * dose_g, value_of(data, "portion.least-water"));
  const double mass_g =
      std::floor(std::min(wanted_g, value_of(data, "portion.most-water-share") * water_g));
  return mass_g < least_set_aside_g ? 0 : mass_g;
}

class Spreading {
 public:
  Spreading(const Inputs& inputs, double factor, double water_g, const Doses& doses)
      : inputs_(inputs), recipe_(*inputs.recipe), doses_(doses), water_g_(water_g) {
    left_g_.reserve(inputs.solids.size());
    for (const InputLine& line : inputs.solids) left_g_.push_back(line.mass_g * factor);
    whole_g_ = left_g_;
  }

  PortionPlan spread() {
    plan_.vessels.push_back({BatchVessel::Use::main, std::string(main_name(recipe_)), 0});
    double in_main_g = water_g_;
    for (std::size_t s = 0; s < recipe_.steps.size(); ++s) in_main_g -= set_aside(s);
    add({LineRole::water, 0, in_main_g, water_g_, 0, 0, 0, false});
    water_in_main_g_ = in_main_g;
    for (std::size_t s = 0; s < recipe_.steps.size(); ++s) take(s);
    // What no step names (a study may have added it) goes in with the last.
    const std::size_t last = recipe_.steps.empty() ? 0 : recipe_.steps.size() - 1;
    for (std::size_t line = 0; line < left_g_.size(); ++line) add_solid(line, left_g_[line], last);
    return std::move(plan_);
  }

 private:
  const Ingredient& of(std::size_t line) const {
    return recipe_.ingredients[inputs_.solids[line].ingredient];
  }

  void add(Portion portion) {
    if (portion.exact_g > 0) plan_.portions.push_back(portion);
  }

  std::size_t new_vessel(BatchVessel::Use use, std::size_t step) {
    plan_.vessels.push_back({use, "", step});
    return plan_.vessels.size() - 1;
  }

  /// The bowl of a step, made when it is first needed.
  std::size_t bowl_of(std::size_t step) {
    for (std::size_t v = 0; v < plan_.vessels.size(); ++v)
      if (plan_.vessels[v].use == BatchVessel::Use::dry && plan_.vessels[v].step == step) return v;
    return new_vessel(BatchVessel::Use::dry, step);
  }

  void add_solid(std::size_t line, double mass_g, std::size_t step) {
    if (mass_g <= 0) return;
    left_g_[line] = std::max(0.0, left_g_[line] - mass_g);
    add({LineRole::solid, inputs_.solids[line].ingredient, mass_g, whole_g_[line], 0, 0,
         bowl_of(step), of(line).kind == Kind::gum});
  }

  /// Water set aside for what a step brings, g.
  double set_aside(std::size_t s) {
    double all_g = 0;
    for (const Addition& each : recipe_.steps[s].what) {
      double mass_g = 0;
      if (each.item == Item::water && each.share < 1 && s > 0) mass_g = each.share * water_g_;
      if (each.item == Item::acid && doses_.acid) mass_g = water_for(*doses_.acid);
      if (each.item == Item::calcium && doses_.calcium) mass_g = water_for(*doses_.calcium);
      if (mass_g <= 0) continue;
      const std::size_t vessel = new_vessel(BatchVessel::Use::set_aside, s);
      add({LineRole::water, 0, mass_g, water_g_, 0, 0, vessel, false});
      all_g += mass_g;
    }
    return all_g;
  }

  /// A stock brings its own water; a lactone is stirred in dry, so that it turns sour slowly.
  double water_for(const Portion& dose) const {
    if (dose.stock_fraction > 0) return 0;
    if (dose.role == LineRole::calcium_salt) return salt_water_g(dose.exact_g, water_g_);
    return inputs_.acid->line.per_g.lactone_mol > 0 ? 0 : acid_water_g(dose.exact_g, water_g_);
  }

  void take(std::size_t s) {
    const Step& step = recipe_.steps[s];
    double gum_g = 0;
    double dry_g = 0;
    const auto taken_g = [this](const Addition& each) {
      return std::min(left_g_[each.line], each.share * whole_g_[each.line]);
    };
    for (const Addition& each : step.what)
      if (each.item == Item::solid && of(each.line).kind == Kind::gum) gum_g += taken_g(each);
    thin_for(gum_g);
    for (const Addition& each : step.what)
      if (each.item == Item::solid) {
        const double mass_g = taken_g(each);
        if (of(each.line).kind != Kind::gum) dry_g += mass_g;
        water_in_main_g_ += mass_g * inputs_.solids[each.line].per_g.water_g;
        add_solid(each.line, mass_g, s);
      }
    if (step.how == How::preblended && gum_g > 0) add_companions(s, gum_g, dry_g);
    for (const Addition& each : step.what) {
      if (each.item == Item::acid && doses_.acid) add_dose(*doses_.acid, s);
      if (each.item == Item::calcium && doses_.calcium) add_dose(*doses_.calcium, s);
    }
  }

  /// Juice of later steps goes in with the water where gum would make a paste of the water alone.
  void thin_for(double gum_g) {
    for (std::size_t line = 0; line < left_g_.size(); ++line) {
      if (gum_g <= value_of(data, "portion.most-gum") * water_in_main_g_) return;
      const double water_share = inputs_.solids[line].per_g.water_g;
      if (of(line).kind != Kind::syrup || water_share < value_of(data, "portion.thins")) continue;
      const double mass_g = std::exchange(left_g_[line], 0);
      add({LineRole::solid, inputs_.solids[line].ingredient, mass_g, whole_g_[line], 0, 0, 0,
           false});
      water_in_main_g_ += mass_g * water_share;
    }
  }

  /// Dry sugar of later steps, moved forward to blend gum with.
  void add_companions(std::size_t s, double gum_g, double dry_g) {
    double wanted_g = value_of(data, "portion.blend-usual") * gum_g - dry_g;
    if (dry_g >= value_of(data, "portion.blend-least") * gum_g) return;
    for (std::size_t line = 0; line < left_g_.size() && wanted_g > 0; ++line) {
      if (of(line).kind != Kind::sugar) continue;
      const double taken_g = std::min(wanted_g, left_g_[line]);
      add_solid(line, taken_g, s);
      wanted_g -= taken_g;
    }
  }

  void add_dose(Portion dose, std::size_t s) {
    dose.vessel = new_vessel(BatchVessel::Use::apart, s);
    dose.decides = true;
    add(dose);
  }

  const Inputs& inputs_;
  const Recipe& recipe_;
  const Doses& doses_;
  double water_g_;
  double water_in_main_g_ = 0;   // by the step that is taken, that of juices counted
  std::vector<double> left_g_;   // of each solid, not yet in a vessel
  std::vector<double> whole_g_;  // of each solid
  PortionPlan plan_;
};

}  // namespace

PortionPlan portions_of(const Inputs& inputs, double factor, double water_g, const Doses& doses) {
  return Spreading(inputs, factor, water_g, doses).spread();
}

double acid_water_g(double acid_g, double water_g) {
  return set_aside_g(acid_g, value_of(data, "portion.acid-water"), water_g);
}

double salt_water_g(double salt_g, double water_g) {
  return set_aside_g(salt_g, value_of(data, "portion.salt-water"), water_g);
}

double most_gum_per_water() {
  return value_of(data, "portion.most-gum");
}

std::span<const Datum> portion_data() {
  return data;
}

}  // namespace gelwright::detail
