#include "gelwright/making.hpp"

#include <algorithm>
#include <limits>

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"making.eaten-at", 15, "degC", 10, "between a warm pocket and a cold hill", "judgement",
     Standing::judgement},
    {"making.hill", 0, "degC", 5, "eaten on a cold hill", "judgement", Standing::judgement},
    {"making.pocket", 30, "degC", 3, "eaten out of a warm pocket", "judgement",
     Standing::judgement},
    {"making.room", 20, "degC", 5, "what is not heated", "judgement", Standing::judgement},
    {"making.rest", 12, "h", 0, "made in the evening, eaten in the morning", "common-practice",
     Standing::common_practice},
    {"making.rest-at", 5, "degC", 2, "in a fridge", "common-practice", Standing::common_practice},
};

/// Powders that keep the grains of a gum apart where they go in together.
bool keeps_gum_apart(const Ingredient& ingredient) {
  return ingredient.kind == Kind::mix || ingredient.kind == Kind::sugar;
}

/// A gum that does not dissolve cold.
bool needs_heat(const Ingredient& ingredient) {
  constexpr Gum such[] = {Gum::hm_pectin, Gum::lm_pectin, Gum::amidated_pectin,
                          Gum::gellan_low_acyl, Gum::gellan_high_acyl};
  return std::any_of(std::begin(such), std::end(such), [&](Gum gum) {
    return ingredient.per_g.gum(gum) > 0 ||
           (!ingredient.undeclared.empty() && ingredient.undeclared.front().has(gum));
  });
}

/// Walks through the steps of a recipe and notes what they mean.
class Walk {
 public:
  explicit Walk(const Recipe& recipe) : recipe_(recipe) {
    made_.acid_place = made_.calcium_place = std::numeric_limits<int>::max();
    made_.hottest_c = now_c_;
  }

  void take(const Step& step) {
    switch (step.act) {
      case Act::add:
        add(step);
        break;
      case Act::heat:
        warm(step.to_c);
        since_trigger();
        break;
      case Act::cool:
        if (step.how == How::stirred) made_.cooled = gel::Cooled::stirred;
        now_c_ = step.to_c;
        break;
      case Act::rest:
        rest(step);
        break;
      case Act::fill:
        break;
    }
  }

  Making finish() {
    // What lies dry meets the water when the first of it comes.
    if (!made_.water.empty())
      for (GoesIn& each : made_.solids) each.place = std::max(each.place, made_.water[0].place);
    std::stable_sort(made_.solids.begin(), made_.solids.end(),
                     [](const GoesIn& a, const GoesIn& b) {
                       return a.line != b.line ? a.line < b.line : a.place < b.place;
                     });
    made_.heated_c = heated_c();
    made_.eaten_c = recipe_.eaten_at_c.value_or(value_of(data, "making.eaten-at"));
    return std::move(made_);
  }

 private:
  const Ingredient& of(std::size_t line) const {
    return recipe_.ingredients[recipe_.solids[line].ingredient];
  }

  /// The gel model knows one temperature for all gums: the least that a gum got which needs heat;
  /// where none does, the most that any gum got.
  double heated_c() const {
    std::optional<double> least;
    double most = value_of(data, "making.room");
    for (const GoesIn& each : made_.solids) {
      if (!holds_gum(of(each.line))) continue;
      most = std::max(most, each.heated_c);
      if (needs_heat(of(each.line))) least = std::min(least.value_or(each.heated_c), each.heated_c);
    }
    return least.value_or(most);
  }

  void add(const Step& step) {
    ++place_;
    made_.gas_let_out = false;
    for (const Addition& each : step.what) {
      switch (each.item) {
        case Item::water:
          made_.water.push_back({place_, each.share});
          break;
        case Item::solid:
          made_.solids.push_back(
              {place_, dispersed(each.line, step), each.line, each.share, 0, now_c_});
          if (holds_gum(of(each.line))) since_trigger();
          break;
        case Item::acid:
          made_.acid_place = place_;
          made_.acid = step.how == How::under_blade ? gel::Acid::blade
                       : step.how == How::slow      ? gel::Acid::slow
                                                    : gel::Acid::poured;
          since_trigger();
          made_.acid_hours = 0;
          acid_in_ = true;
          break;
        case Item::calcium:
          made_.calcium_place = place_;
          made_.calcium = calcium(step.how);
          since_trigger();
          break;
      }
    }
  }

  gel::Dispersed dispersed(std::size_t line, const Step& step) const {
    if (step.how == How::under_blade) return gel::Dispersed::blender;
    if (of(line).kind == Kind::mix) return gel::Dispersed::mix;
    if (step.how == How::preblended) return gel::Dispersed::sugar;
    const bool apart = step.how != How::dry &&
                       std::any_of(step.what.begin(), step.what.end(), [&](const Addition& each) {
                         return each.item == Item::solid && keeps_gum_apart(of(each.line));
                       });
    return apart ? gel::Dispersed::mix : gel::Dispersed::dry;
  }

  gel::Calcium calcium(How how) const {
    if (!recipe_.calcium || how == How::slow ||
        waits_for_acid(recipe_.ingredients[recipe_.calcium->ingredient]))
      return gel::Calcium::slow;
    return how == How::under_blade ? gel::Calcium::blade : gel::Calcium::fast;
  }

  void warm(double to_c) {
    now_c_ = to_c;
    made_.hottest_c = std::max(made_.hottest_c, to_c);
    for (GoesIn& each : made_.solids) each.heated_c = std::max(each.heated_c, to_c);
  }

  void rest(const Step& step) {
    now_c_ = step.at_c;
    made_.gas_let_out = made_.gas_let_out || step.open;
    made_.hours += step.hours;
    if (acid_in_) made_.acid_hours += step.hours;
    for (GoesIn& each : made_.solids) each.hours += step.hours;
  }

  /// Something just happened that makes gum set: time counts anew.
  void since_trigger() { made_.hours = 0; }

  const Recipe& recipe_;
  Making made_;
  double now_c_ = value_of(data, "making.room");
  int place_ = 0;
  bool acid_in_ = false;
};

}  // namespace

Making making_of(const Recipe& recipe) {
  Walk walk(recipe);
  const std::vector<Step> usual =
      recipe.steps.empty() ? usual_steps(recipe, usual_work(recipe)) : std::vector<Step>();
  for (const Step& step : recipe.steps.empty() ? usual : recipe.steps) walk.take(step);
  return walk.finish();
}

bool rest_matters(const Recipe& recipe) {
  return std::any_of(
      recipe.ingredients.begin(), recipe.ingredients.end(),
      [](const Ingredient& each) { return holds_gum(each) || each.per_g.lactone_mol > 0; });
}

UsualWork usual_work(const Recipe& recipe) {
  UsualWork work;
  const bool pouch = recipe.form == Form::pouch;
  work.mix = pouch ? How::under_blade : How::shaken;
  work.acid = pouch ? How::under_blade : How::poured;
  work.calcium_before_acid =
      recipe.calcium && waits_for_acid(recipe.ingredients[recipe.calcium->ingredient]);
  if (rest_matters(recipe)) work.rest_hours = value_of(data, "making.rest");
  work.rest_at_c = value_of(data, "making.rest-at");
  return work;
}

EatenRange eaten_range() {
  return {value_of(data, "making.eaten-at"), value_of(data, "making.hill"),
          value_of(data, "making.pocket")};
}

double room_c() {
  return value_of(data, "making.room");
}

std::span<const Datum> making_data() {
  return data;
}

}  // namespace gelwright
