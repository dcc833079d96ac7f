// Servings at random, of every kind the gel model knows.
#pragma once

#include <cmath>

#include "gelwright/gel_state.hpp"
#include "statistics/random.hpp"

namespace gelwright::test {

/// Draws from one serving's own stream of numbers.
class Dice {
 public:
  explicit Dice(std::uint64_t serving) : serving_(serving) {}
  double between(double low, double high) {
    return rectangular({7, serving_, ++draws_}, low, high);
  }
  /// Evenly in the logarithm.
  double sized(double low, double high) { return std::exp(between(std::log(low), std::log(high))); }
  std::size_t one_of(std::size_t count) {
    return static_cast<std::size_t>(between(0, static_cast<double>(count)));
  }

 private:
  std::uint64_t serving_;
  std::uint64_t draws_ = 0;
};

/// One serving: drink to thick pouch, one gum or alginate with HM pectin, any delivery.
inline gel::State random_state(std::uint64_t serving) {
  using namespace gel;
  Dice dice(serving);
  State state;
  const bool thick = dice.one_of(2) == 1;
  state.solids_percent = thick ? dice.between(45, 68) : dice.between(0, 20);
  state.sugars.maltodextrin = dice.between(0, 0.7);
  state.sugars.maltodextrin_de = dice.between(8, 20);
  state.sugars.fructose = 0.9 - state.sugars.maltodextrin;
  state.sugars.sucrose = 0.1;
  state.ph = dice.between(2.6, 5.5);
  state.ph_sd = dice.between(0.05, 0.3);
  state.acid = state.ph > 4.6 ? Acid::none : static_cast<Acid>(1 + dice.one_of(3));
  state.ca_mmol_per_kg = dice.sized(0.1, 20);
  state.ca_total_mmol_per_kg = state.ca_mmol_per_kg;
  state.calcium = dice.one_of(6) == 0 ? Calcium::fast : Calcium::slow;
  if (state.calcium == Calcium::fast) state.ca_added_mmol_per_kg = state.ca_mmol_per_kg;
  state.na_mmol_per_kg = dice.sized(2, 150);
  state.ionic_mmol_per_kg = state.na_mmol_per_kg + 3 * state.ca_mmol_per_kg;
  state.hours = dice.sized(1, 48);
  state.eaten_c = dice.between(0, 30);
  state.guluronate = dice.between(0.4, 0.65);
  state.heated_c = 20;
  Portion portion;
  portion.g_per_100_g_water = dice.sized(0.08, 2.5);
  portion.ca_met_mmol_per_kg = dice.sized(0.05, 5);
  portion.solids_met_percent = state.solids_percent / 2;
  portion.hours = dice.sized(0.2, 24);
  portion.dispersed = static_cast<Dispersed>(dice.one_of(4));
  const std::size_t kind = dice.one_of(7);
  if (kind == 6) {
    portion.gum = Gum::alginate;
    add(state, portion);
    portion.gum = Gum::hm_pectin;
    portion.g_per_100_g_water *= dice.sized(0.3, 3);
  } else {
    portion.gum = static_cast<Gum>(kind);
  }
  if (portion.gum != Gum::alginate && state.portions == 0) state.heated_c = dice.between(80, 98);
  if (portion.gum == Gum::gellan_low_acyl || portion.gum == Gum::gellan_high_acyl) {
    portion.g_per_100_g_water *= 0.3;
    state.cooled = dice.one_of(3) == 0 ? Cooled::stirred : Cooled::still;
  }
  add(state, portion);
  return state;
}

}  // namespace gelwright::test
