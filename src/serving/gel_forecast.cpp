#include "gelwright/gel_forecast.hpp"

#include <algorithm>

#include "gelwright/sodium_readings.hpp"

namespace gelwright {

namespace {

constexpr double likelier_than_not = 0.5;

gel::Outlook outlook_of(const gel::State& state, const GelOptions& options) {
  if (options.detail == GelDetail::chances) return gel::outlook_of(state);
  return options.values != nullptr ? gel::outlook_at(state, *options.values)
                                   : gel::outlook_at(state);
}

gel::Stomach stomach_of(const gel::State& state, const gel::Outlook& eaten,
                        const GelOptions& options) {
  if (!options.stomach) return {};
  if (options.detail == GelDetail::chances) return gel::stomach_of(state, eaten);
  return options.values != nullptr ? gel::stomach_at(state, eaten, *options.values)
                                   : gel::stomach_at(state, eaten);
}

gel::Reading read_gel(const gel::State& state, double weight, const GelOptions& options) {
  gel::Reading reading;
  reading.weight = weight;
  reading.outlook = outlook_of(state, options);
  reading.stomach = stomach_of(state, reading.outlook, options);
  return reading;
}

/// One way to read the pack: its gum, and what salt its sodium is.
struct PackReading {
  GumReading gum;
  SodiumSalt sodium = SodiumSalt::chloride;
  double weight = 1;

  bool middle() const {
    return gum.identity == 0 && gum.band == 0 && sodium == SodiumSalt::chloride;
  }
};

std::vector<PackReading> pack_readings(const Inputs& inputs, bool bands) {
  std::vector<SodiumReading> salts = sodium_readings(inputs);
  if (salts.empty()) salts = {SodiumReading{}};
  std::vector<PackReading> all;
  for (const GumReading& gum : gum_readings(*inputs.recipe)) {
    if (!bands && gum.band != 0) continue;
    for (const SodiumReading& salt : salts)
      all.push_back({gum, salt.salt, gum.weight * salt.weight});
  }
  return all;
}

/// The state under another reading of the pack. A pH that was read stays as read.
gel::State state_under(const PackReading& reading, const Inputs& inputs, const gel::State& middle) {
  const Inputs read = read_sodium_as(read_as(inputs, reading.gum), reading.sodium);
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

/// All readings beside the middle one, which is there already.
void add_readings(GelForecast& forecast, const gel::Reading& middle, const Inputs& inputs,
                  const GelOptions& options) {
  const std::vector<PackReading> kinds = pack_readings(inputs, options.bands);
  if (kinds.size() < 2) return;
  std::vector<gel::Reading> all, low, high;
  std::vector<std::vector<gel::Reading>> by_identity;
  for (const PackReading& kind : kinds) {
    gel::Reading reading = middle;
    if (!kind.middle()) {
      const gel::State state = state_under(kind, inputs, forecast.state);
      forecast.outside = gel::out_of_range(state);
      if (!forecast.outside.empty()) return;
      reading = read_gel(state, kind.weight, options);
      if (options.detail == GelDetail::chances)
        forecast.grade = std::max(forecast.grade, gel::grade_of(state));
    }
    reading.weight = kind.weight;
    all.push_back(reading);
    by_identity.resize(std::max(by_identity.size(), kind.gum.identity + 1));
    by_identity[kind.gum.identity].push_back(reading);
    if (kind.gum.band < 0) low.push_back(reading);
    if (kind.gum.band > 0) high.push_back(reading);
  }
  forecast.all = gel::mix(all);
  if (!low.empty()) forecast.band = {gel::mix(low), gel::mix(high)};
  if (by_identity.size() < 2) return;
  for (std::size_t i = 0; i < by_identity.size(); ++i)
    forecast.by_gum.push_back({identity_name(*inputs.recipe, i), gel::mix(by_identity[i])});
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
  const gel::Reading middle = read_gel(forecast.state, 1, options);
  forecast.outlook = middle.outlook;
  forecast.all = gel::mix({&middle, 1});
  if (options.detail == GelDetail::chances) {
    forecast.grade = gel::grade_of(forecast.state);
    add_readings(forecast, middle, inputs, options);
    if (!forecast.outside.empty()) forecast.all = {};
    // That nothing sets rests on every way it could have set, and each has a judged strength.
    if (forecast.any_route() && forecast.chance_set() < likelier_than_not)
      forecast.grade = Grade::c;
  }
  forecast.made = forecast.outside.empty();
  return forecast;
}

gel::Chances chances_eaten_at(double eaten_c, const GelForecast& forecast) {
  gel::State state = forecast.state;
  state.eaten_c = eaten_c;
  return gel::outlook_of(state).chances;
}

}  // namespace gelwright
