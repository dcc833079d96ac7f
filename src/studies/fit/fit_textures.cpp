// What the gel model gave to the textures that were read.
#include <cmath>

#include "gelwright/evaluate.hpp"
#include "gelwright/gel_kitchen.hpp"
#include "studies/fit/fit_detail.hpp"

namespace gelwright {

namespace {

gel::CupReading reading_of(const BenchCup& cup, double density_g_per_ml) {
  gel::CupReading reading;
  reading.density_g_per_ml = density_g_per_ml;
  reading.syringe_ml_left = cup.syringe_ml;
  if (cup.cup_turn) reading.holds_when_turned = *cup.cup_turn == CupTurn::holds;
  // What cracks has set. A smear tells soft from thick no more than it tells thick from soft.
  if (cup.spoon == Spoon::cracks) reading.groove_stands = true;
  if (cup.ring_ml) reading.ring_of_liquid = *cup.ring_ml >= fit_constants().ring_weeps_ml;
  return reading;
}

bool was_read(const BenchCup& cup) {
  return cup.syringe_ml || cup.cup_turn || cup.spoon == Spoon::cracks || cup.ring_ml;
}

}  // namespace

std::vector<TextureScore> score_textures(const std::vector<Inputs>& cups, const Bench& bench,
                                         double ph_sd, std::vector<FitWarning>& warnings) {
  std::vector<TextureScore> scores;
  bool without_gum = false;
  for (std::size_t i = 0; i < cups.size(); ++i) {
    const BenchCup& cup = bench.cups[i];
    if (!was_read(cup)) continue;
    const Evaluation found =
        evaluate(cups[i], {.batch = false, .flags = false, .gel = {.detail = GelDetail::none}});
    gel::State state = gel_state_of(found.formula, found.water_phase, cups[i]);
    if (state.portions == 0) {
      without_gum = true;
      continue;
    }
    if (cup.ph) {
      state.ph = *cup.ph;
      state.ph_sd = ph_sd;
    }
    if (!gel::out_of_range(state).empty()) continue;
    const gel::Outlook outlook = gel::outlook_of(state);
    const gel::Expected expected{.lg_thickness_mpa_s = outlook.doubt.lg_thickness.mean,
                                 .lg_yield_pa = outlook.doubt.lg_yield.mean,
                                 .lumps = outlook.defects.lumps,
                                 .weeps = outlook.defects.weeps};
    const gel::Likelihood seen =
        gel::likelihood(reading_of(cup, found.properties.density_g_per_ml), expected,
                        {outlook.doubt.lg_thickness.sd, outlook.doubt.lg_yield.sd});
    scores.push_back({i, outlook.chances, seen.readings, seen.all()});
  }
  if (without_gum) warnings.push_back({FitWarningKind::no_gum});
  return scores;
}

}  // namespace gelwright
