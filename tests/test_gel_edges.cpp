// What must hold whatever the numbers: directions every textbook gives, and no surprise at the ends
// of the range.
#include <cmath>
#include <functional>

#include "catch.hpp"
#include "gel_random.hpp"
#include "gelwright/gel_stomach.hpp"

using namespace gelwright;
using namespace gelwright::gel;
using test::near;

namespace {

State alginate(double g_per_100_g_water) {
  State state;
  Portion portion;
  portion.g_per_100_g_water = g_per_100_g_water;
  portion.dispersed = Dispersed::blender;
  add(state, portion);
  state.na_mmol_per_kg = 5;
  state.sugars.sucrose = 1;
  state.grade = ViscosityGrade::medium;
  return state;
}

/// log10 G' along `make(x)` from `from` to `to` never goes the wrong way.
void check_rising(double from, double to, const std::function<State(double)>& make,
                  double sign = 1) {
  double last = -1e9;
  for (int i = 0; i <= 200; ++i) {
    const double x = from + (to - from) * i / 200;
    const double now = sign * gel_at(make(x), central_values()).lg_modulus_pa;
    INFO("at " << x);
    CHECK(now >= last - 1e-12);
    last = now;
  }
}

void check_sound(const Outlook& outlook) {
  double sum = 0;
  for (const double chance : outlook.chances.chance) {
    CHECK(chance >= 0);
    CHECK(chance <= 1 + 1e-12);
    sum += chance;
  }
  CHECK_THAT(sum, near(1, 1e-9));
  const Defects& defects = outlook.defects;
  for (const double chance :
       {defects.lumps, defects.weeps, defects.specks, defects.brittle, defects.grit}) {
    CHECK(chance >= 0);
    CHECK(chance <= 1);
  }
  for (const double number :
       {outlook.centre.lg_modulus_pa, outlook.centre.lg_thickness_mpa_s,
        outlook.doubt.lg_modulus.sd, outlook.doubt.lg_thickness.sd, outlook.doubt.lg_yield.mean})
    CHECK(std::isfinite(number));
}

}  // namespace

TEST_CASE("gel rises with calcium, slow and at fixed gum") {
  for (const double gum : {0.15, 0.5, 2.0})
    check_rising(0, 60, [gum](double ca) {
      State state = alginate(gum);
      state.ca_mmol_per_kg = ca;
      return state;
    });
}

TEST_CASE(
    "gel rises with gum at a fixed calcium ratio, in acid, and as gellan; so does viscosity") {
  check_rising(0.05, 3, [](double gum) {
    State state = alginate(gum);
    state.ca_mmol_per_kg = 0.3 * 45 * gum;
    return state;
  });
  const auto sour = [](double gum) {
    State state = alginate(gum);
    state.ph = 3.4;
    state.acid = Acid::slow;
    return state;
  };
  check_rising(0.05, 3, sour);
  check_rising(0.02, 1.5, [](double gum) {
    State state = alginate(gum);
    state.portion[0].gum = Gum::gellan_low_acyl;
    state.heated_c = 95;
    state.ca_mmol_per_kg = 10 * gum * 1.5 / 2;
    return state;
  });
  double last = -1;
  for (double gum = 0.05; gum < 3; gum += 0.05) {
    const double now = gel_at(sour(gum), central_values()).lg_viscosity_mpa_s;
    CHECK(now > last);
    last = now;
  }
}

TEST_CASE("gel rises as pH falls where calcium does not hold it, and with guluronate and hours") {
  const auto sour = [](double ph) {
    State state = alginate(0.8);
    state.ph = ph;
    state.acid = Acid::slow;
    return state;
  };
  check_rising(2, 6, sour, -1);
  check_rising(0.35, 0.7, [&sour](double guluronate) {
    State state = sour(3.4);
    state.guluronate = guluronate;
    return state;
  });
  check_rising(0.35, 0.7, [](double guluronate) {
    State state = alginate(1);
    state.ca_mmol_per_kg = 12;
    state.guluronate = guluronate;
    return state;
  });
  check_rising(0.1, 48, [&sour](double hours) {
    State state = sour(3.4);
    state.hours = hours;
    return state;
  });
}

TEST_CASE("gel falls with the calcium that dry gum meets") {
  check_rising(
      0, 10,
      [](double ca) {
        State state = alginate(0.5);
        state.portion[0].dispersed = Dispersed::dry;
        state.portion[0].ca_met_mmol_per_kg = ca;
        state.ca_mmol_per_kg = 1;
        state.ph = 3.4;
        state.acid = Acid::slow;
        return state;
      },
      -1);
}

TEST_CASE("jam rises with solids and as pH falls") {
  const auto jam = [](double solids, double ph) {
    State state = alginate(60 / (100 - solids));  // .6 % of everything
    state.portion[0].gum = Gum::hm_pectin;
    state.heated_c = 95;
    state.acid = Acid::slow;
    state.solids_percent = solids;
    state.ph = ph;
    return state;
  };
  check_rising(20, 75, [&jam](double solids) { return jam(solids, 3); });
  check_rising(
      2.2, 5, [&jam](double ph) { return jam(63, ph); }, -1);
}

TEST_CASE(
    "5 % more gum moves log10 G' by no more than .13 in clean water, and no chance by more than "
    ".13") {
  for (std::uint64_t serving = 0; serving < 300; ++serving) {
    State state = test::random_state(serving);
    // In hard water more gum also dissolves a larger share of itself, which is steeper.
    for (Portion& portion : state.portion) portion.ca_met_mmol_per_kg = 0;
    State more = state;
    for (std::size_t i = 0; i < more.portions; ++i) more.portion[i].g_per_100_g_water *= 1.05;
    const Outlook before = outlook_of(state);
    const Outlook after = outlook_of(more);
    INFO("serving " << serving);
    // Below what a finger feels nobody could tell; and where calcium is in excess, more gum also
    // takes some of the graininess away, which is steeper.
    const Gel& gel = before.centre;
    const bool excess = gel.lg_grain > -0.5 || gel.lg_grain_amidated > -0.5 || gel.lg_ions > 0.3;
    if (gel.lg_modulus_pa > -1 && !excess)
      CHECK(std::fabs(after.centre.lg_modulus_pa - before.centre.lg_modulus_pa) <= 0.13);
    for (std::size_t t = 0; t < texture_count; ++t)
      CHECK(std::fabs(after.chances.chance[t] - before.chances.chance[t]) <= 0.13);
  }
}

TEST_CASE("a trace of a second gum changes nothing by a jump") {
  State state = alginate(0.5);
  state.portion[0].gum = Gum::hm_pectin;
  state.ph = 3.4;
  state.acid = Acid::poured;
  const Outlook alone = outlook_of(state);
  Portion trace;
  trace.g_per_100_g_water = 1e-6;
  add(state, trace);
  const Outlook with_trace = outlook_of(state);
  CHECK_THAT(with_trace.centre.lg_viscosity_mpa_s, near(alone.centre.lg_viscosity_mpa_s, 1e-4));
  CHECK_THAT(with_trace.defects.lumps, near(alone.defects.lumps, 1e-4));
}

TEST_CASE("gel forecasts stay sound at every end of the range") {
  std::size_t cases = 0;
  for (const double gum : {1e-6, 0.3, 12.0})
    for (const double ca : {0.0, 1.0, 200.0})
      for (const double ph : {1.0, 3.5, 9.0})
        for (const double solids : {0.0, 40.0, 78.0})
          for (const double eaten_c : {0.0, 90.0})
            for (std::size_t g = 0; g < gum_count; ++g) {
              State state = alginate(gum);
              state.portion[0].gum = static_cast<Gum>(g);
              state.portion[0].ca_met_mmol_per_kg = ca;
              state.ca_mmol_per_kg = ca;
              state.ca_total_mmol_per_kg = ca;
              state.ca_added_mmol_per_kg = ca;
              state.ionic_mmol_per_kg = 0;
              state.ph = ph;
              state.solids_percent = solids;
              state.eaten_c = eaten_c;
              state.heated_c = 90;
              state.acid = Acid::poured;
              state.calcium = Calcium::fast;
              REQUIRE(out_of_range(state).empty());
              const Outlook outlook = outlook_of(state);
              INFO("gum " << g << " " << gum << ", Ca " << ca << ", pH " << ph << ", solids "
                          << solids << ", " << eaten_c << " degC");
              check_sound(outlook);
              const Stomach stomach = stomach_of(state, outlook);
              CHECK(stomach.one_gel >= 0);
              CHECK(stomach.pieces >= stomach.one_gel);
              CHECK(stomach.pieces <= 1 + 1e-12);
              ++cases;
            }
  CHECK(cases == 3 * 3 * 3 * 3 * 2 * gum_count);
}

TEST_CASE("no gum is a liquid") {
  State state;
  const Outlook outlook = outlook_of(state);
  check_sound(outlook);
  CHECK(outlook.chances[Texture::pours] > 0.999);
  CHECK(chance_set(outlook.chances) < 1e-9);
  const Stomach stomach = stomach_of(state, outlook);
  CHECK(stomach.pieces < 1e-9);
}
