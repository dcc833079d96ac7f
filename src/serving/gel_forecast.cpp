#include "gelwright/gel_forecast.hpp"

#include <algorithm>

#include "gelling/near.hpp"
#include "gelwright/sodium_readings.hpp"
#include "serving/near_forecast.hpp"

namespace gelwright {

namespace {

constexpr double likelier_than_not = 0.5;

const gel::Learnt* pointer_to(const std::optional<gel::Learnt>& learnt) {
  return learnt ? &*learnt : nullptr;
}

gel::Reading read_gel(const gel::State& state, double weight, const GelOptions& options,
                      const gel::Learnt* learnt) {
  gel::Reading reading;
  reading.weight = weight;
  if (options.detail == GelDetail::chances) {
    reading.outlook = gel::outlook_of(state, learnt);
    if (options.stomach) reading.stomach = gel::stomach_of(state, reading.outlook, learnt);
    return reading;
  }
  const gel::Values values =
      options.values != nullptr ? *options.values : gel::learnt_values(learnt);
  reading.outlook = gel::outlook_at(state, values);
  if (options.stomach) reading.stomach = gel::stomach_at(state, reading.outlook, values);
  return reading;
}

/// One way to read the pack: its gum, and what salt its sodium is.
struct PackReading {
  GumReading gum;
  SodiumSalt sodium = SodiumSalt::chloride;
  int acid = 0;  ///< of an undeclared acid: -1 the least, 0 the middle, +1 the most
  double weight = 1;

  bool middle() const {
    return gum.identity == 0 && gum.band == 0 && sodium == SodiumSalt::chloride && acid == 0;
  }
};

std::vector<PackReading> pack_readings(const Inputs& inputs, const Learned* learned, bool bands) {
  std::vector<SodiumReading> salts = sodium_readings_left(inputs);
  if (salts.empty()) salts = {SodiumReading{}};
  const bool acid_in_doubt = bands && acid_undeclared(inputs);
  std::vector<PackReading> all;
  for (const GumReading& gum : gum_readings(*inputs.recipe, learned)) {
    if (!bands && gum.band != 0) continue;
    for (const SodiumReading& salt : salts)
      for (const int acid : {-1, 0, 1}) {
        if (!acid_in_doubt && acid != 0) continue;
        const double share =
            acid_in_doubt ? gel::band_weights[static_cast<std::size_t>(acid + 1)] : 1;
        all.push_back({gum, salt.salt, acid, gum.weight * salt.weight * share});
      }
  }
  return all;
}

/// The state under another reading of the pack. A pH that was read stays as read.
gel::State state_under(const PackReading& reading, const Inputs& inputs, const gel::State& middle) {
  Inputs read = read_sodium_as(read_as(inputs, reading.gum), reading.sodium);
  if (reading.acid != 0) read = read_acid_as(read, 0.5 * (1 + reading.acid));
  const Formula formula = formulate(read);
  gel::State state = gel_state_of(formula, water_phase_of(formula, read, false), read);
  if (inputs.reading_offset_ph != 0) {
    state.ph = middle.ph;
    state.ph_sd = middle.ph_sd;
  }
  return state;
}

/// The gums of one reading, of every mix that leaves it open which.
std::string identity_name(const Recipe& recipe, std::size_t identity) {
  std::string names;
  for (const Ingredient& each : recipe.ingredients)
    if (each.undeclared.size() > 1)
      names += (names.empty() ? "" : ", ") +
               each.undeclared[std::min(identity, each.undeclared.size() - 1)].name();
  return names;
}

/// Readings of one pack, in the order of their kinds, made one forecast.
void mix_readings(GelForecast& forecast, const std::vector<gel::Reading>& readings,
                  const std::vector<PackReading>& kinds, const Inputs& inputs) {
  std::vector<gel::Reading> low, high;
  std::vector<std::vector<gel::Reading>> by_identity;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    const GumReading& gum = kinds[i].gum;
    by_identity.resize(std::max(by_identity.size(), gum.identity + 1));
    by_identity[gum.identity].push_back(readings[i]);
    if (gum.band < 0) low.push_back(readings[i]);
    if (gum.band > 0) high.push_back(readings[i]);
  }
  forecast.all = gel::mix(readings);
  if (!low.empty() && !high.empty()) forecast.band = {gel::mix(low), gel::mix(high)};
  if (by_identity.size() < 2) return;
  for (std::size_t i = 0; i < by_identity.size(); ++i)
    forecast.by_gum.push_back({identity_name(*inputs.recipe, i), gel::mix(by_identity[i])});
}

/// All readings beside the middle one, which is there already.
void add_readings(GelForecast& forecast, const gel::Reading& middle, const Inputs& inputs,
                  const GelOptions& options) {
  const std::vector<PackReading> kinds = pack_readings(inputs, forecast.learned, options.bands);
  if (kinds.size() < 2 && kinds.front().middle()) return;
  std::vector<gel::Reading> all;
  for (const PackReading& kind : kinds) {
    gel::Reading reading = middle;
    if (!kind.middle()) {
      const gel::State state = state_under(kind, inputs, forecast.state);
      forecast.outside = gel::out_of_range(state);
      if (!forecast.outside.empty()) return;
      const std::optional<gel::Learnt> learnt = learnt_of(forecast.learned, kind.gum.identity);
      reading = read_gel(state, kind.weight, options, pointer_to(learnt));
      forecast.grade = std::max(forecast.grade, gel::grade_of(state, pointer_to(learnt)));
    }
    reading.weight = kind.weight;
    all.push_back(reading);
  }
  mix_readings(forecast, all, kinds, inputs);
}

gel::Outlook outlook_of_kind(const PackReading& kind, const gel::State& state,
                             const Learned* learned) {
  const std::optional<gel::Learnt> learnt = learnt_of(learned, kind.gum.identity);
  return gel::outlook_of(state, pointer_to(learnt));
}

gel::Outlook centre_of_kind(const PackReading& kind, const gel::State& state,
                            const Learned* learned) {
  const std::optional<gel::Learnt> learnt = learnt_of(learned, kind.gum.identity);
  return gel::outlook_at(state, gel::learnt_values(pointer_to(learnt)));
}

/// The reading of the same gum, the same salt and the same acid with the middle of the gum's share.
std::size_t middle_of(std::size_t which, const std::vector<PackReading>& kinds) {
  for (std::size_t i = 0; i < kinds.size(); ++i)
    if (kinds[i].gum.band == 0 && kinds[i].gum.identity == kinds[which].gum.identity &&
        kinds[i].sodium == kinds[which].sodium && kinds[i].acid == kinds[which].acid)
      return i;
  return which;
}

}  // namespace

std::vector<GumReading> gum_readings(const Recipe& recipe) {
  std::size_t identities = 0;
  for (const Ingredient& each : recipe.ingredients)
    identities = std::max(identities, each.undeclared.size());
  if (identities == 0) return {GumReading{}};
  std::vector<GumReading> readings;
  for (std::size_t identity = 0; identity < identities; ++identity)
    for (const int band : {-1, 0, 1})
      readings.push_back(
          {gel::band_weights[static_cast<std::size_t>(band + 1)] / static_cast<double>(identities),
           identity, band});
  return readings;
}

const Learned* learned_of(const Inputs& inputs) {
  const Learned* found = nullptr;
  double learned_g = 0;
  double all_g = 0;
  for (const InputLine& line : inputs.solids) {
    double gum_g = 0;
    for (const double share : line.per_g.gum_g) gum_g += line.mass_g * share;
    all_g += gum_g;
    const auto& learned = inputs.recipe->ingredients[line.ingredient].learned;
    if (!learned || gum_g <= learned_g) continue;
    found = &*learned;
    learned_g = gum_g;
  }
  return learned_g > all_g / 2 ? found : nullptr;
}

std::optional<gel::Learnt> learnt_of(const Learned* learned, std::size_t identity) {
  if (learned == nullptr || learned->gums.empty()) return std::nullopt;
  const LearnedGum& gum = learned->gums[std::min(identity, learned->gums.size() - 1)];
  return gel::Learnt{gum.mean, gum.covariance};
}

std::vector<GumReading> gum_readings(const Recipe& recipe, const Learned* learned) {
  if (learned == nullptr) return gum_readings(recipe);
  std::vector<GumReading> readings;
  for (std::size_t identity = 0; identity < learned->gums.size(); ++identity)
    readings.push_back({learned->gums[identity].weight, identity, 0});
  return readings;
}

Inputs read_as(const Inputs& inputs, const GumReading& reading) {
  Inputs read = inputs;
  for (InputLine& line : read.solids) {
    const Ingredient& ingredient = inputs.recipe->ingredients[line.ingredient];
    if (ingredient.undeclared.empty()) continue;
    const std::size_t identity = std::min(reading.identity, ingredient.undeclared.size() - 1);
    line.per_g = with_undeclared_gum(ingredient, 0.5 * (1 + reading.band), identity);
  }
  return read;
}

bool GelForecast::any_route() const {
  return std::any_of(state.portion.begin(),
                     state.portion.begin() + static_cast<std::ptrdiff_t>(state.portions),
                     [](const gel::Portion& portion) { return gel::can_set(portion.gum); });
}

GelForecast gel_forecast_of(const Formula& formula, const WaterPhase& phase, const Inputs& inputs,
                            const GelOptions& options) {
  GelForecast forecast;
  if (options.detail == GelDetail::none) return forecast;
  forecast.state = gel_state_of(formula, phase, inputs);
  forecast.outside = gel::out_of_range(forecast.state);
  if (!forecast.outside.empty()) return forecast;
  forecast.learned = learned_of(inputs);
  forecast.learnt = learnt_of(forecast.learned, 0);
  const gel::Learnt* learnt = pointer_to(forecast.learnt);
  const gel::Reading middle = read_gel(forecast.state, 1, options, learnt);
  forecast.outlook = middle.outlook;
  forecast.all = gel::mix({&middle, 1});
  if (options.detail == GelDetail::chances) {
    forecast.grade = gel::grade_of(forecast.state, learnt);
    add_readings(forecast, middle, inputs, options);
    if (!forecast.outside.empty()) forecast.all = {};
    // That nothing sets rests on every way it could have set, and each has a judged strength.
    if (forecast.any_route() && forecast.chance_set() < likelier_than_not)
      forecast.grade = Grade::c;
  }
  forecast.made = forecast.outside.empty();
  return forecast;
}

namespace detail {

NearForecast::NearForecast(const Inputs& inputs) {
  const Learned* learned = learned_of(inputs);
  const std::vector<PackReading> kinds = pack_readings(inputs, learned, true);
  const Formula formula = formulate(inputs);
  const gel::State middle = gel_state_of(formula, water_phase_of(formula, inputs, false), inputs);
  for (const PackReading& kind : kinds) {
    const gel::State state = kind.middle() ? middle : state_under(kind, inputs, middle);
    known_.push_back({outlook_of_kind(kind, state, learned), centre_of_kind(kind, state, learned)});
  }
  for (std::size_t i = 0; i < kinds.size(); ++i)
    known_[i].centre = known_[middle_of(i, kinds)].centre;
}

GelForecast NearForecast::at(const Formula& formula, const WaterPhase& phase,
                             const Inputs& inputs) const {
  GelForecast forecast;
  forecast.learned = learned_of(inputs);
  const std::vector<PackReading> kinds = pack_readings(inputs, forecast.learned, true);
  if (kinds.size() != known_.size())
    return gel_forecast_of(formula, phase, inputs, {.stomach = false});
  forecast.learnt = learnt_of(forecast.learned, 0);
  forecast.state = gel_state_of(formula, phase, inputs);
  std::vector<gel::Outlook> now(kinds.size());
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    if (kinds[i].gum.band != 0) continue;
    const gel::State state =
        kinds[i].middle() ? forecast.state : state_under(kinds[i], inputs, forecast.state);
    forecast.outside = gel::out_of_range(state);
    if (!forecast.outside.empty()) return forecast;
    now[i] = centre_of_kind(kinds[i], state, forecast.learned);
  }
  std::vector<gel::Reading> readings;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    gel::Reading reading{.weight = kinds[i].weight, .outlook = {}, .stomach = {}};
    reading.outlook =
        gel::detail::moved_alike(known_[i].outlook, known_[i].centre, now[middle_of(i, kinds)]);
    if (kinds[i].middle()) forecast.outlook = reading.outlook;
    readings.push_back(reading);
  }
  mix_readings(forecast, readings, kinds, inputs);
  forecast.made = true;
  return forecast;
}

}  // namespace detail

gel::Chances chances_eaten_at(double eaten_c, const GelForecast& forecast) {
  gel::State state = forecast.state;
  state.eaten_c = eaten_c;
  return gel::outlook_of(state, pointer_to(forecast.learnt)).chances;
}

}  // namespace gelwright
