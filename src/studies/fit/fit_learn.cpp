// What the gel model gave to the textures that were read, and what they teach it.
//
// Each gum the mix may hold is a hypothesis of its own: the cups are learnt from under each, and
// weigh them by how well they explain what was seen. The share of the gum is not one: a mix with
// more of it behaves as a stronger, thicker one, so the shifts stand in for the band.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/parallel.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/gel_cups.hpp"
#include "studies/fit/fit_detail.hpp"

namespace gelwright {

namespace {

constexpr std::size_t block_cups = 32;
/// More than a person made; then what was seen is not repeated on every sheet.
constexpr std::size_t most_cups_told = 20;
/// Enough to see what a series of any length absorbs on average.
constexpr std::size_t cups_for_prior = 40;

gel::CupReading reading_of(const BenchCup& cup, double density_g_per_ml) {
  gel::CupReading reading;
  reading.density_g_per_ml = density_g_per_ml;
  reading.syringe_ml_left = cup.syringe_ml;
  if (cup.cup_turn) reading.holds_when_turned = *cup.cup_turn == CupTurn::holds;
  if (cup.cup_width_cm) reading.cup_width_cm = *cup.cup_width_cm;
  if (cup.groove) reading.groove_stands = *cup.groove == Groove::stands;
  // What cracks has set. A smear tells soft from thick no more than it tells thick from soft.
  if (!cup.groove && cup.spoon == Spoon::cracks) reading.groove_stands = true;
  if (cup.lumps) reading.lumps_lifted_out = *cup.lumps == Lumps::yes;
  if (cup.ring_ml) reading.ring_of_liquid = *cup.ring_ml >= fit_constants().ring_weeps_ml;
  return reading;
}

bool was_read(const BenchCup& cup) {
  return cup.syringe_ml || cup.cup_turn || cup.groove || cup.lumps || cup.spoon == Spoon::cracks ||
         cup.ring_ml;
}

/// A cup under every reading of the pack, in their order.
struct SeenCup {
  std::size_t cup = 0;  ///< in Bench::cups
  gel::CupReading reading;
  std::vector<gel::State> states;
};

SeenCup seen_cup(std::size_t index, const BenchCup& cup, const Inputs& inputs,
                 std::span<const GumReading> kinds, double ph_sd) {
  SeenCup seen{index, {}, {}};
  for (const GumReading& kind : kinds) {
    const Inputs read = read_as(inputs, kind);
    const Evaluation found =
        evaluate(read, {.batch = false, .flags = false, .gel = {.detail = GelDetail::none}});
    gel::State state = gel_state_of(found.formula, found.water_phase, read);
    if (cup.ph) {
      state.ph = *cup.ph;
      state.ph_sd = ph_sd;
    }
    if (state.portions == 0 || !gel::out_of_range(state).empty()) return {index, {}, {}};
    seen.states.push_back(state);
    seen.reading = reading_of(cup, found.properties.density_g_per_ml);
  }
  return seen;
}

/// Adds what one reading of the pack gives to a cup.
struct Given {
  gel::Chances chances;
  double of_seen = 0;

  void add(double weight, const gel::State& state, const gel::CupReading& reading,
           const gel::Learnt* learnt) {
    const gel::Outlook outlook = gel::outlook_of(state, learnt);
    const gel::Expected expected{outlook.doubt.lg_thickness.mean, outlook.doubt.lg_yield.mean,
                                 outlook.defects.lumps, outlook.defects.weeps};
    for (std::size_t t = 0; t < gel::texture_count; ++t)
      chances.chance[t] += weight * outlook.chances.chance[t];
    of_seen += weight * gel::likelihood(reading, expected,
                                        {outlook.doubt.lg_thickness.sd, outlook.doubt.lg_yield.sd})
                            .all();
  }
};

/// The prior of one gum's shifts: what they stand in for in these cups, on average, the band of an
/// undeclared share among it.
gel::ShiftPrior prior_for(const std::vector<SeenCup>& cups, std::span<const GumReading> kinds,
                          std::size_t identity) {
  std::array<double, learned_shift_count> squares = {};
  const std::size_t step = (cups.size() + cups_for_prior - 1) / cups_for_prior;
  double count = 0;
  for (std::size_t c = 0; c < cups.size(); c += step) {
    double modulus = 0, viscosity = 0;
    const gel::Gel* middle = nullptr;
    std::array<gel::Gel, 3> at = {};
    std::array<double, 3> weight = {};
    std::size_t ends = 0;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
      if (kinds[k].identity != identity || ends == at.size()) continue;
      at[ends] = gel::gel_at(cups[c].states[k], gel::central_values());
      weight[ends] = kinds[k].weight;
      if (kinds[k].band == 0) {
        middle = &at[ends];
        const gel::ShiftPrior here = gel::prior_of(cups[c].states[k]);
        for (std::size_t i = 0; i < squares.size(); ++i) squares[i] += here.sd[i] * here.sd[i];
      }
      ++ends;
    }
    double whole = 0;
    for (std::size_t e = 0; e < ends; ++e) whole += weight[e];
    for (std::size_t e = 0; e < ends; ++e) {
      const double share = weight[e] / whole;
      modulus += share * std::pow(at[e].lg_modulus_pa - middle->lg_modulus_pa, 2);
      viscosity += share * std::pow(at[e].lg_viscosity_mpa_s - middle->lg_viscosity_mpa_s, 2);
    }
    squares[0] += modulus;
    squares[3] += viscosity;
    count += 1;
  }
  gel::ShiftPrior prior = gel::widest_prior();
  for (std::size_t i = 0; i < squares.size(); ++i) prior.sd[i] = std::sqrt(squares[i] / count);
  return prior;
}

/// "0.36 g acid held": what went in and the plainest thing that was seen.
std::string told(const BenchCup& cup) {
  std::string text;
  for (const BenchInput& input : cup.inputs) {
    if (!text.empty()) text += ", ";
    text += input.name == "acid_g"    ? fmt::format("{:g} g acid", input.amount)
            : input.name == "water_g" ? fmt::format("{:g} g water", input.amount)
                                      : fmt::format("{} {:g}", input.name, input.amount);
  }
  const auto add = [&text](std::string_view seen) {
    text += fmt::format("{}{}", text.empty() ? "" : " ", seen);
  };
  if (cup.lumps == Lumps::yes)
    add("lumps");
  else if (cup.cup_turn)
    add(*cup.cup_turn == CupTurn::holds ? "held" : "fell");
  else if (cup.groove)
    add(*cup.groove == Groove::stands ? "groove stood" : "groove closed");
  else if (cup.syringe_ml)
    add(fmt::format("{:g} mL left", *cup.syringe_ml));
  return text;
}

bool all_alike(const std::vector<SeenCup>& cups, const Bench& bench) {
  for (const SeenCup& seen : cups) {
    const auto& inputs = bench.cups[seen.cup].inputs;
    const auto& first = bench.cups[cups.front().cup].inputs;
    for (std::size_t i = 0; i < inputs.size(); ++i)
      if (inputs[i].amount != first[i].amount) return false;
  }
  return true;
}

/// Mean and doubt of each shift over all gums, weighted.
std::array<ShiftFound, learned_shift_count> shifts_of(const std::vector<LearnedGum>& gums,
                                                      std::span<const gel::ShiftPrior> priors) {
  std::array<ShiftFound, learned_shift_count> shifts;
  for (std::size_t i = 0; i < shifts.size(); ++i) {
    double square = 0;
    double before = 0;
    for (std::size_t g = 0; g < gums.size(); ++g) {
      shifts[i].mean += gums[g].weight * gums[g].mean[i];
      square += gums[g].weight * (gums[g].covariance[i][i] + gums[g].mean[i] * gums[g].mean[i]);
      before += gums[g].weight * priors[g].sd[i] * priors[g].sd[i];
    }
    shifts[i].sd = std::sqrt(std::max(0.0, square - shifts[i].mean * shifts[i].mean));
    shifts[i].sd_before = std::sqrt(before);
  }
  return shifts;
}

/// Learns under every gum; `weights` becomes how far each cup was taken as right.
FitLesson learn_from(const std::vector<SeenCup>& cups, std::span<const GumReading> kinds,
                     std::vector<double>& weights) {
  FitLesson lesson;
  std::vector<gel::ShiftPrior> priors;
  std::vector<gel::Lesson> lessons;
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    if (kinds[k].band != 0 || kinds[k].identity != lessons.size()) continue;
    priors.push_back(prior_for(cups, kinds, kinds[k].identity));
    std::vector<gel::Cup> made;
    for (const SeenCup& seen : cups) made.push_back({seen.states[k], seen.reading});
    lessons.push_back(gel::learn(made, {.prior = priors.back()}));
    lesson.converged = lesson.converged && lessons.back().converged;
  }
  double best = lessons.front().ln_evidence;
  for (const gel::Lesson& each : lessons) best = std::max(best, each.ln_evidence);
  double whole = 0;
  for (const gel::Lesson& each : lessons) whole += std::exp(each.ln_evidence - best);
  weights.assign(cups.size(), 0);
  for (const gel::Lesson& each : lessons) {
    const double weight = std::exp(each.ln_evidence - best) / whole;
    lesson.learned.gums.push_back({weight, each.learnt.mean, each.learnt.covariance});
    for (std::size_t c = 0; c < cups.size(); ++c) weights[c] += weight * each.weight[c];
  }
  lesson.shifts = shifts_of(lesson.learned.gums, priors);
  return lesson;
}

}  // namespace

bool ShiftFound::untold() const {
  return sd > fit_constants().untold_over * sd_before;
}

void learn_textures(const Recipe& fitted, const Bench& bench, const FitOptions& options,
                    BenchFit& result) {
  if (std::none_of(bench.cups.begin(), bench.cups.end(), was_read)) return;
  const std::vector<Inputs> inputs = bench_inputs(fitted, bench, options);
  const std::vector<GumReading> kinds = gum_readings(fitted);
  const std::size_t blocks = (inputs.size() + block_cups - 1) / block_cups;
  std::vector<SeenCup> cups(inputs.size());
  for_each_block(blocks, 0, [&](std::size_t block) {
    for (std::size_t i = block * block_cups; i < std::min((block + 1) * block_cups, inputs.size());
         ++i)
      if (was_read(bench.cups[i]))
        cups[i] = seen_cup(i, bench.cups[i], inputs[i], kinds, result.reading_sd);
  });
  const bool any_read = !cups.empty();
  std::erase_if(cups, [](const SeenCup& seen) { return seen.states.empty(); });
  if (cups.empty()) {
    if (any_read) result.warnings.push_back({FitWarningKind::no_gum});
    return;
  }
  if (cups.size() == 1)
    result.warnings.push_back({FitWarningKind::one_cup});
  else if (all_alike(cups, bench))
    result.warnings.push_back({FitWarningKind::cups_alike});

  std::vector<double> weights;
  FitLesson lesson = learn_from(cups, kinds, weights);
  if (!lesson.converged) result.warnings.push_back({FitWarningKind::lesson_unsettled});
  Learned& learned = lesson.learned;
  learned.model = gel::model_version();
  learned.bench = bench.document;
  learned.read_on = options.read_on;
  learned.cups = cups.size();
  if (cups.size() <= most_cups_told)
    for (const SeenCup& seen : cups) learned.seen.push_back(told(bench.cups[seen.cup]));
  learned.mix = result.ingredient;

  result.textures.resize(cups.size());
  for_each_block((cups.size() + block_cups - 1) / block_cups, 0, [&](std::size_t block) {
    for (std::size_t c = block * block_cups; c < std::min((block + 1) * block_cups, cups.size());
         ++c) {
      const SeenCup& seen = cups[c];
      Given before, after;
      for (std::size_t k = 0; k < kinds.size(); ++k) {
        before.add(kinds[k].weight, seen.states[k], seen.reading, nullptr);
        if (kinds[k].band != 0) continue;
        const auto learnt = learnt_of(&learned, kinds[k].identity);
        after.add(learned.gums[kinds[k].identity].weight, seen.states[k], seen.reading, &*learnt);
      }
      result.textures[c] = {.cup = seen.cup,
                            .readings = gel::likelihood(seen.reading, {}).readings,
                            .chances = before.chances,
                            .chance_of_seen = before.of_seen,
                            .chances_after = after.chances,
                            .chance_of_seen_after = after.of_seen,
                            .weight = weights[c],
                            .repeat = gel::to_be_repeated(weights[c])};
    }
  });
  constexpr double least_chance = 1e-12;
  for (const TextureScore& score : result.textures) {
    const auto count = static_cast<double>(result.textures.size());
    lesson.mean_ln_chance_before += std::log(std::max(least_chance, score.chance_of_seen)) / count;
    lesson.mean_ln_chance_after +=
        std::log(std::max(least_chance, score.chance_of_seen_after)) / count;
  }
  result.lesson = std::move(lesson);
  const Recipe kept = calibrated(fitted, result);
  if (result.ingredient.empty() || learned_of(inputs_of(kept)) == nullptr) {
    result.lesson->learned.mix.clear();
    result.warnings.push_back({FitWarningKind::lesson_not_kept});
  }
}

}  // namespace gelwright
