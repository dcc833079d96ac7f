// The recipe's own steps as sentences.
#include <fmt/format.h>

#include <algorithm>

#include "gelwright/sheet.hpp"

namespace gelwright {

namespace {

/// Colder than this counts as chilled, degC.
constexpr double chilled_c = 8;

std::string joined(const std::vector<std::string>& names) {
  std::string all;
  for (std::size_t i = 0; i < names.size(); ++i)
    all += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return all;
}

/// Writes one recipe's steps down.
class Method {
 public:
  Method(const Inputs& inputs, const Evaluation& evaluation)
      : recipe_(*inputs.recipe), steps_(recipe_.steps), evaluation_(evaluation) {}

  std::vector<std::string> write() {
    say("Wash hands, scald the blender, pouches or flask and nozzle, rinse, let dry.");
    if (!any_added([](const Addition& each) { return each.item == Item::water; }))
      say(fmt::format("Water into the {}.", vessel()));
    for (std::size_t i = 0; i < steps_.size(); ++i) write(i);
    for (const PreDosed& piece : recipe_.pre_dosed)
      say(fmt::format("With each serving, not in the batch: {:g} x {}.", piece.per_serving,
                      piece.name));
    say(recipe_.form == Form::pouch
            ? "Read the pH: 10 g of gel stirred into 10 g of low-mineral water, meter "
              "calibrated at 4 and 7. Strips cannot be read in a thick gel."
            : "Read the pH: meter calibrated at 4 and 7, or strips up to pH 4.0.");
    say("Label with name, date and allergens; chill to 5 degC or colder.");
    return std::move(said_);
  }

 private:
  void say(std::string sentence) { said_.push_back(std::move(sentence)); }

  template <class Holds>
  bool any_added(Holds holds) const {
    return std::any_of(steps_.begin(), steps_.end(), [&](const Step& step) {
      return std::any_of(step.what.begin(), step.what.end(), holds);
    });
  }

  bool any_step(How how) const {
    return std::any_of(steps_.begin(), steps_.end(),
                       [&](const Step& step) { return step.act == Act::add && step.how == how; });
  }

  std::string_view vessel() const {
    if (any_step(How::under_blade)) return "blender";
    return any_step(How::shaken) ? "bottle" : "jug";
  }

  /// Whether a step of this kind comes after step `i`.
  bool later(std::size_t i, Act act) const {
    return std::any_of(steps_.begin() + static_cast<std::ptrdiff_t>(i) + 1, steps_.end(),
                       [act](const Step& step) { return step.act == act; });
  }

  const Ingredient& of(const Addition& added) const {
    return recipe_.ingredients[recipe_.solids[added.line].ingredient];
  }

  std::string part(const Addition& added, const std::string& name) const {
    return added.share < 1 ? fmt::format("{:.3g} % of {}", 100 * added.share, name) : name;
  }

  /// Names of the solids of some kinds in one step, joined.
  std::string names(const Step& step, std::initializer_list<Kind> kinds) const {
    std::vector<std::string> found;
    for (const Addition& each : step.what)
      if (each.item == Item::solid &&
          std::find(kinds.begin(), kinds.end(), of(each).kind) != kinds.end())
        found.push_back(part(each, of(each).name));
    return joined(found);
  }

  void write(std::size_t i) {
    const Step& step = steps_[i];
    switch (step.act) {
      case Act::add:
        write_solids(i);
        for (const Addition& each : step.what) {
          if (each.item == Item::water)
            say(fmt::format("{} into it.", each.share < 1 ? part(each, "the water") : "Water"));
          if (each.item == Item::calcium) write_calcium(i);
          if (each.item == Item::acid) write_acid(i);
        }
        break;
      case Act::heat:
        say(
            fmt::format("Heat to {:.0f} degC until clear{}. Weigh the pot before and after: "
                        "heating takes about 5 to 15 % of the water; top up to the mass before.",
                        step.to_c, held(step)));
        if (i + 1 < steps_.size() && steps_[i + 1].act == Act::add)
          say("Stay hot for what follows: a heat-dissolved gum sets as it cools. Hot gel scalds; "
              "never close a lid on a hot blender.");
        break;
      case Act::cool:
        say(fmt::format("Let it cool to {:.0f} degC, {}.", step.to_c,
                        step.how == How::stirred ? "stirring all the time" : "without moving it"));
        break;
      case Act::rest:
        if (step.hours > 0)
          say(step.at_c <= chilled_c
                  ? fmt::format("Rest {:g} h chilled.", step.hours)
                  : fmt::format("Rest {:g} h at {:.0f} degC.", step.hours, step.at_c));
        break;
      case Act::fill:
        say("Let foam rise or tap it out; fill by grams, not by mL.");
        break;
    }
  }

  static std::string held(const Step& step) {
    return step.minutes ? fmt::format(", {:g} min", *step.minutes) : "";
  }

  static std::string time(const Step& step) {
    return step.minutes ? fmt::format("{:g} min", *step.minutes) : "1 to 3 min";
  }

  void write_solids(std::size_t i) {
    const Step& step = steps_[i];
    const std::string gums = names(step, {Kind::gum});
    const std::string mixes = names(step, {Kind::mix});
    std::string sugars = names(step, {Kind::sugar, Kind::syrup});
    if (!gums.empty()) {
      if (step.how == How::preblended) {
        say(fmt::format("Mix {} dry with {}; {}, {}.", gums,
                        sugars.empty() ? "5 to 10 times as much of the weighed sugar" : sugars,
                        "into the running vortex", time(step)));
        sugars.clear();
      } else {
        say(fmt::format("{} {}, {}.", gums, way_in(step.how), time(step)));
      }
      const bool alone = mixes.empty() && sugars.empty();
      const bool waits = i + 1 < steps_.size() && steps_[i + 1].act == Act::add;
      if (alone && waits && !later(i, Act::heat))
        say("Rest 30 min, or overnight chilled: gum goes on hydrating.");
    }
    if (!mixes.empty())
      say(fmt::format("Shake the pack of {} (part-used packs segregate); {}, {}.", mixes,
                      way_in(step.how), time(step)));
    if (!sugars.empty()) say(fmt::format("{} {}.", verb(step.how), sugars));
    if (const std::string salts = names(step, {Kind::salt}); !salts.empty())
      say(fmt::format("{} {}.", verb(step.how), salts));
  }

  static std::string_view way_in(How how) {
    switch (how) {
      case How::under_blade:
        return "into the running blender";
      case How::shaken:
        return "shake it in";
      case How::dry:
        return "strewn in slowly while stirring";
      default:
        return "stir it in";
    }
  }

  static std::string_view verb(How how) {
    return how == How::shaken ? "Shake in" : how == How::under_blade ? "Blend in" : "Stir in";
  }

  bool last_addition(std::size_t i) const { return !later(i, Act::add); }

  void write_acid(std::size_t i) {
    const std::string& acid = recipe_.ingredients[recipe_.acid->ingredient].name;
    const std::string_view last = last_addition(i) ? " last" : "";
    if (evaluation_.gel.state.acid == gel::Acid::slow && steps_[i].how == How::slow)
      say(fmt::format("Stir in {} and fill at once: it sets as it turns sour.", acid));
    else if (steps_[i].how == How::under_blade)
      say(fmt::format("{}{}, dissolved in a little of the water, in a thin stream under the blade.",
                      acid, last));
    else
      say(fmt::format("{}{}, poured in.", acid, last));
  }

  void write_calcium(std::size_t i) {
    const Ingredient& salt = recipe_.ingredients[recipe_.calcium->ingredient];
    const std::string_view last = last_addition(i) ? " last of all" : "";
    if (waits_for_acid(salt))
      say(fmt::format("Stir in {} as a fine slurry in a little of the water.", salt.name));
    else if (steps_[i].how == How::slow)
      say(fmt::format("{}{}, as a weak solution, slowly.", salt.name, last));
    else
      say(fmt::format("{}{}, dissolved in a little of the water, {}.", salt.name, last,
                      steps_[i].how == How::under_blade ? "under the blade" : "poured in"));
  }

  const Recipe& recipe_;
  const std::vector<Step>& steps_;
  const Evaluation& evaluation_;
  std::vector<std::string> said_;
};

}  // namespace

std::vector<std::string> method_steps(const Inputs& inputs, const Evaluation& evaluation) {
  return Method(inputs, evaluation).write();
}

}  // namespace gelwright
