// The steps of the work, checked against one another.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gelwright/making.hpp"
#include "gelwright/names.hpp"
#include "read/readers.hpp"

namespace gelwright::detail {

namespace {

constexpr double share_rounding = 1e-6;

bool is_dose(const Addition& added) {
  return added.item == Item::acid || added.item == Item::calcium;
}

/// Reads step after step and remembers what is in by then.
class StepReader {
 public:
  StepReader(Recipe& recipe, bool has_acid, bool has_calcium)
      : recipe_(recipe),
        work_(usual_work(recipe)),
        has_acid_(has_acid),
        has_calcium_(has_calcium),
        solid_share_(recipe.solids.size(), 0.0) {}

  void read(ObjectReader& body) {
    const std::optional<Act> act = body.word<Act>("do");
    Step step;
    const bool said_how = body.has("how");
    if (const auto how = body.word<How>("how")) step.how = *how;
    step.minutes = body.number("minutes");
    const auto to_c = body.number("to_c");
    step.hours = body.number("hours").value_or(0);
    step.at_c = body.number_or("at_c");
    step.open = body.boolean("open").value_or(false);
    const auto into = body.text("into");
    step.what = read_what(body);
    if (!act) {
      doubtful_ = true;
      return;
    }
    step.act = *act;
    switch (step.act) {
      case Act::add:
        if (into) check_into(body, *into);
        if (said_how)
          check_how(body, step);
        else
          take_usual_how(body, step);
        count(body, step);
        break;
      case Act::heat:
        if (to_c) change_temperature(body, *to_c, true);
        step.to_c = to_c.value_or(0);
        break;
      case Act::cool:
        if (to_c) change_temperature(body, *to_c, false);
        step.to_c = to_c.value_or(0);
        if (!said_how) step.how = How::still;
        if (step.how != How::still && step.how != How::stirred)
          body.refuse("how", "this is not a way to cool", "use \"still\" or \"stirred\"");
        break;
      case Act::rest:
        rested_ = true;
        now_c_ = step.at_c;
        break;
      case Act::fill:
        break;
    }
    const bool handles_the_vessel =
        step.act == Act::add || step.act == Act::heat || step.act == Act::fill;
    if (filled_ && handles_the_vessel)
      body.refuse("do", "it is filled by then", "move this step to before \"fill\"");
    if (filled_ && step.act == Act::rest && step.open)
      body.refuse("open", "it is filled by then, and gas stays in",
                  "move this step to before \"fill\"");
    filled_ = filled_ || step.act == Act::fill;
    recipe_.steps.push_back(std::move(step));
  }

  /// What must be in, must be in by now.
  void finish(ObjectReader& document) {
    if (!doubtful_) check_all_in(document);
    if (!rested_ && work_.rest_hours) {
      recipe_.steps.push_back(
          {.act = Act::rest, .hours = *work_.rest_hours, .at_c = work_.rest_at_c});
      document.assume("process", "how long it rests before it is eaten",
                      fmt::format("{:g} h at {:g} degC", *work_.rest_hours, work_.rest_at_c), {});
    }
    if (!filled_) recipe_.steps.push_back({.act = Act::fill});
  }

 private:
  const Ingredient& of(const Addition& added) const {
    return recipe_.ingredients[recipe_.solids[added.line].ingredient];
  }
  bool brings_gum(const Addition& added) const {
    return added.item == Item::solid && holds_gum(of(added));
  }

  std::vector<Addition> read_what(ObjectReader& body) {
    std::vector<Addition> what;
    const auto take = [&](std::optional<Addition> added, double share) {
      if (!added) {
        doubtful_ = true;
        return;
      }
      added->share = share;
      what.push_back(*added);
    };
    body.additions(
        "what",
        [&](const std::string& name, std::size_t i) {
          take(find(body, name, fmt::format("what/{}", i)), 1);
        },
        [&](ObjectReader& part, std::size_t) {
          const auto name = part.text("ingredient");
          const double share = part.number_or("share");
          if (!name) {
            doubtful_ = true;
            return;
          }
          const std::optional<Addition> found = find(part, *name, "ingredient");
          if (found && is_dose(*found) && share < 1)
            part.refuse("share", fmt::format("\"{}\" goes in whole", *name),
                        "leave the share out; at the bench, \"additions_g\" lists the pinches");
          take(found, found && is_dose(*found) ? 1 : share);
        });
    return what;
  }

  /// What a name of a step means in this recipe, or nothing.
  std::optional<Addition> meant_by(const std::string& name) const {
    if (name == "water") return Addition{Item::water, 0, 1};
    if (name == "acid" && has_acid_) return Addition{Item::acid, 0, 1};
    if (name == "calcium" && has_calcium_) return Addition{Item::calcium, 0, 1};
    std::vector<std::string> names;
    for (const Ingredient& each : recipe_.ingredients) names.push_back(each.name);
    const std::optional<std::size_t> known = which_of(names, name);
    if (!known) return std::nullopt;
    for (std::size_t line = 0; line < recipe_.solids.size(); ++line)
      if (recipe_.solids[line].ingredient == *known) return Addition{Item::solid, line, 1};
    if (recipe_.acid && recipe_.acid->ingredient == *known) return Addition{Item::acid, 0, 1};
    if (recipe_.calcium && recipe_.calcium->ingredient == *known)
      return Addition{Item::calcium, 0, 1};
    return std::nullopt;
  }

  std::string similar_to(const std::string& name) const {
    std::vector<std::string> names = {"water", "acid", "calcium"};
    for (const RecipeLine& line : recipe_.solids)
      names.push_back(recipe_.ingredients[line.ingredient].name);
    return did_you_mean(name, names);
  }

  std::optional<Addition> find(ObjectReader& where, const std::string& name,
                               const std::string& key) const {
    const std::optional<Addition> meant = meant_by(name);
    if (meant) return meant;
    if (name == "acid" || name == "calcium") {
      refuse_name(where, key, fmt::format("the recipe has no \"{}\"", name),
                  fmt::format("add \"{}\" to the recipe, or take it out here", name));
    } else {
      const std::string remedy = similar_to(name);
      refuse_name(where, key, fmt::format("\"{}\" is not in the recipe", name),
                  remedy.empty() ? "list it under \"solids\" first" : remedy);
    }
    return std::nullopt;
  }

  /// `key` may be the place of a list entry, which is no key of its own.
  static void refuse_name(ObjectReader& where, const std::string& key, std::string what,
                          std::string remedy) {
    where.refuse_at(where.pointer() + '/' + key, std::move(what), std::move(remedy));
  }

  /// What a step says it goes into is there by then: water alone, or with it what is named.
  void check_into(ObjectReader& body, const std::string& name) const {
    if (name == "water") {
      if (more_than_water_)
        body.refuse("into", "there is more than water in it by then",
                    "leave \"into\" out, or move this step to the front");
      return;
    }
    const std::optional<Addition> meant = meant_by(name);
    if (!meant) {
      const std::string remedy = similar_to(name);
      body.refuse("into", fmt::format("\"{}\" is not in the recipe", name),
                  remedy.empty() ? "name what is there by then, as \"water\"; the vessel stands "
                                   "under \"batch\": {\"vessel\": ...}"
                                 : remedy);
    } else if (in_by_now(*meant) <= 0) {
      body.refuse("into", fmt::format("{} is not in it by then", name_of(*meant)),
                  "move this step behind the one that adds it");
    }
  }

  double in_by_now(const Addition& what) const {
    switch (what.item) {
      case Item::water:
        return water_share_;
      case Item::acid:
        return acid_share_;
      case Item::calcium:
        return calcium_share_;
      case Item::solid:
        break;
    }
    return solid_share_[what.line];
  }

  void check_how(ObjectReader& body, const Step& step) const {
    const bool gum = std::any_of(step.what.begin(), step.what.end(),
                                 [this](const Addition& each) { return brings_gum(each); });
    const bool dose = std::any_of(step.what.begin(), step.what.end(), is_dose);
    const bool water = std::any_of(step.what.begin(), step.what.end(),
                                   [](const Addition& each) { return each.item == Item::water; });
    switch (step.how) {
      case How::preblended:
      case How::dry:
        if (!gum && !step.what.empty())
          body.refuse("how", "only a gum goes in this way, and this step has none",
                      "use \"stirred\", \"shaken\" or \"under_blade\"");
        else if (step.how == How::preblended && !any_sugar())
          body.refuse("how", "the recipe has no sugar to blend the gum with",
                      "use \"dry\" or \"under_blade\"");
        break;
      case How::poured:
      case How::slow:
        if (!dose && !water && !step.what.empty())
          body.refuse("how", "only acid, a calcium salt or water goes in this way",
                      "use \"stirred\", \"shaken\" or \"under_blade\"");
        break;
      case How::still:
        body.refuse("how", "this is a way to cool, not to add",
                    "use \"stirred\", \"shaken\" or \"under_blade\"");
        break;
      case How::stirred:
      case How::shaken:
      case How::under_blade:
        break;
    }
  }

  bool any_sugar() const {
    return std::any_of(recipe_.solids.begin(), recipe_.solids.end(), [this](const auto& line) {
      const Kind kind = recipe_.ingredients[line.ingredient].kind;
      return kind == Kind::sugar || kind == Kind::mix;
    });
  }

  void take_usual_how(ObjectReader& body, Step& step) const {
    const auto any = [&step](auto holds) {
      return std::any_of(step.what.begin(), step.what.end(), holds);
    };
    const bool gum = any([this](const Addition& each) { return brings_gum(each); });
    const bool acid = any([](const Addition& each) { return each.item == Item::acid; });
    const bool calcium = any([](const Addition& each) { return each.item == Item::calcium; });
    const bool mix = any([this](const Addition& each) {
      return each.item == Item::solid && of(each).kind == Kind::mix;
    });
    if (mix)
      step.how = work_.mix;
    else if (gum)
      step.how = any_sugar() ? work_.gum : How::dry;
    else if (acid)
      step.how = work_.acid;
    else if (calcium)
      step.how = work_.calcium;
    else
      return;
    if (gum || acid || calcium)
      body.assume("how", "how it goes in", std::string(in_words(step.how)), {});
  }

  /// Adds up what is in, and refuses what goes in twice.
  void count(ObjectReader& body, const Step& step) {
    for (const Addition& each : step.what) {
      double& in = each.item == Item::solid   ? solid_share_[each.line]
                   : each.item == Item::water ? water_share_
                   : each.item == Item::acid  ? acid_share_
                                              : calcium_share_;
      in += each.share;
      if (in > 1 + share_rounding)
        body.refuse("what", fmt::format("{} goes in more than once", name_of(each)),
                    is_dose(each)
                        ? "keep one of the two steps"
                        : "give each part as {\"ingredient\": ..., \"share\": ...}, together 1");
      more_than_water_ = more_than_water_ || each.item != Item::water;
    }
  }

  std::string name_of(const Addition& added) const {
    switch (added.item) {
      case Item::water:
        return "the water";
      case Item::acid:
        return "the acid";
      case Item::calcium:
        return "the calcium salt";
      case Item::solid:
        break;
    }
    return of(added).name;
  }

  void change_temperature(ObjectReader& body, double to_c, bool heats) {
    if (heats ? to_c <= now_c_ : to_c >= now_c_)
      body.refuse(
          "to_c", fmt::format("it is at {:g} degC by then", now_c_),
          heats ? "heat to more, or leave this step out" : "cool to less, or leave this step out");
    now_c_ = to_c;
  }

  void check_all_in(ObjectReader& document) const {
    const auto need = [&](const Addition& what, double share, const std::string& as_written) {
      if (share <= 0)
        document.refuse(
            "process", fmt::format("{} never goes in", name_of(what)),
            fmt::format("add {{\"do\": \"add\", \"what\": [\"{}\"]}} where it does", as_written));
      else if (share < 1 - share_rounding)
        document.refuse("process", fmt::format("only {:.4g} of {} goes in", share, name_of(what)),
                        fmt::format("add the other {:.4g} where it does", 1 - share));
    };
    for (std::size_t line = 0; line < solid_share_.size(); ++line) {
      const Addition solid{Item::solid, line, 1};
      need(solid, solid_share_[line], of(solid).name);
    }
    if (recipe_.acid) need({Item::acid, 0, 1}, acid_share_, "acid");
    if (recipe_.calcium) need({Item::calcium, 0, 1}, calcium_share_, "calcium");
    if (water_share_ > 0) need({Item::water, 0, 1}, water_share_, "water");
  }

  Recipe& recipe_;
  UsualWork work_;
  bool has_acid_;
  bool has_calcium_;
  std::vector<double> solid_share_;
  double water_share_ = 0;
  double acid_share_ = 0;
  double calcium_share_ = 0;
  double now_c_ = room_c();
  bool more_than_water_ = false;
  bool rested_ = false;
  bool filled_ = false;
  bool doubtful_ = false;  ///< something in a step could not be read
};

}  // namespace

void read_steps(ObjectReader& document, Recipe& recipe) {
  if (document.has("process")) {
    StepReader steps(recipe, document.has("acid"), document.has("calcium"));
    bool any = false;
    document.objects("process", [&](ObjectReader& body, std::size_t) {
      any = true;
      steps.read(body);
    });
    if (any) steps.finish(document);
  } else {
    take_usual_steps(document, recipe);
  }
  recipe.eaten_at_c = document.number("eaten_at_c");
  if (!document.has("eaten_at_c")) assume_eaten_at(document, recipe);
  document.object("measured", [&](ObjectReader& reading) {
    const auto ph = reading.number("ph");
    const auto with = reading.word_or<PhMethod>("with");
    if (ph) recipe.measured = {*ph, with};
  });
}

}  // namespace gelwright::detail
