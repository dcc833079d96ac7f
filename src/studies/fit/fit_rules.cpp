// How often the set rules were right.
#include <algorithm>

#include "gelwright/evaluate.hpp"
#include "studies/fit/fit_detail.hpp"

namespace gelwright {

namespace {

using T = Texture;

/// Rows of the table below, in its order.
enum class Sign : std::size_t { holds, falls, smears, cracks, stopped, slowed, ran, weeps, dry };
constexpr TextureSign signs[] = {
    {"cup-turn.holds",
     "stays in the cup turned over for 10 s: keeps its shape",
     {T::sheared, T::soft, T::firm, T::hard},
     {},
     {}},
    {"cup-turn.falls",
     "falls out within 10 s: does not keep its shape",
     {T::pours, T::bits, T::thick},
     {},
     {}},
    {"spoon.smears",
     "a spoon leaves a smear: thick or soft, not firm",
     {T::thick, T::sheared, T::soft},
     {},
     {}},
    {"spoon.cracks",
     "a spoon cracks it: firm, or brittle, fragile or gritty",
     {T::firm, T::hard},
     {Defect::brittle, Defect::fragile, Defect::gritty},
     {}},
    {"syringe.stopped",
     "9 mL or more of 10 left after 10 s: thick at least",
     {T::thick, T::sheared, T::soft, T::firm, T::hard},
     {},
     {}},
    {"syringe.slowed",
     "1 to 9 mL of 10 left after 10 s: flows, more or less slowly",
     {T::pours, T::bits, T::thick},
     {},
     {}},
    {"syringe.ran", "less than 1 mL of 10 left after 10 s: pours", {T::pours, T::bits}, {}, {}},
    {"ring.weeps", "0.5 mL or more of liquid per 50 g after 12 h: weeps", {}, {Defect::weeps}, {}},
    {"ring.dry",
     "less than 0.5 mL of liquid per 50 g after 12 h: does not weep",
     SetOf<T>::all(),
     {},
     {Defect::weeps}},
};

bool agrees(const TextureSign& sign, const Outlook& outlook) {
  const bool shown =
      sign.textures.has(outlook.texture) || (outlook.defects.bits & sign.defects.bits) != 0;
  return shown && (outlook.defects.bits & sign.not_defects.bits) == 0;
}

}  // namespace

std::span<const TextureSign> texture_signs() {
  return signs;
}

std::array<const TextureSign*, 4> signs_of(const BenchCup& cup) {
  const FitConstants& constants = fit_constants();
  std::array<const TextureSign*, 4> found{};
  std::size_t count = 0;
  const auto add = [&](Sign sign) { found[count++] = &signs[static_cast<std::size_t>(sign)]; };
  if (cup.cup_turn) add(*cup.cup_turn == CupTurn::holds ? Sign::holds : Sign::falls);
  if (cup.spoon) add(*cup.spoon == Spoon::smears ? Sign::smears : Sign::cracks);
  if (cup.syringe_ml)
    add(*cup.syringe_ml >= constants.syringe_stopped_ml ? Sign::stopped
        : *cup.syringe_ml >= constants.syringe_ran_ml   ? Sign::slowed
                                                        : Sign::ran);
  if (cup.ring_ml) add(*cup.ring_ml >= constants.ring_weeps_ml ? Sign::weeps : Sign::dry);
  return found;
}

std::vector<RuleScore> score_rules(const std::vector<Inputs>& cups, const Bench& bench,
                                   std::vector<FitWarning>& warnings) {
  std::vector<RuleScore> scores;
  bool without_gum = false;
  for (std::size_t i = 0; i < cups.size(); ++i) {
    const std::array<const TextureSign*, 4> shown = signs_of(bench.cups[i]);
    if (shown[0] == nullptr) continue;
    const Formula formula = formulate(cups[i]);
    SetInput input = set_input_of(formula, water_phase_of(formula, cups[i]), cups[i]);
    input.ph = bench.cups[i].ph.value_or(input.ph);
    const Outlook outlook = predict_pouch(input);
    if (outlook.count == 0) {
      without_gum = true;
      continue;
    }
    const SetRule* rule = outlook.verdicts[outlook.firmest].rule;
    auto score = std::find_if(scores.begin(), scores.end(),
                              [&](const RuleScore& each) { return each.rule == rule; });
    if (score == scores.end()) score = scores.insert(score, {rule, 0, 0, {}});
    ++score->cups;
    const bool hit = std::all_of(shown.begin(), shown.end(), [&](const TextureSign* sign) {
      return sign == nullptr || agrees(*sign, outlook);
    });
    if (hit)
      ++score->hits;
    else
      score->missed.push_back(i);
  }
  std::sort(scores.begin(), scores.end(),
            [](const RuleScore& a, const RuleScore& b) { return a.rule < b.rule; });
  if (without_gum) warnings.push_back({FitWarningKind::no_gum});
  return scores;
}

}  // namespace gelwright
