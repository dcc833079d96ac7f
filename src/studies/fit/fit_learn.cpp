// What the gel model gave to the textures that were read, and what they teach it.
//
// Each gum the mix may hold is a hypothesis of its own: the cups are learnt from under each, and
// weigh them by how well they explain what was seen. The share of the gum is not one: a mix with
// more of it behaves as a stronger, thicker one, so the shifts stand in for the band.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

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

/// Calls `work(i)` for every i below `count`, on all threads where there are many.
template <class Work>
void for_each_of(std::size_t count, Work work) {
  for_each_block((count + block_cups - 1) / block_cups, 0, [&](std::size_t block) {
    for (std::size_t i = block * block_cups; i < std::min((block + 1) * block_cups, count); ++i)
      work(i);
  });
}

/// One serving under every reading of the pack, in their order; its pH as computed.
struct Served {
  std::vector<gel::State> states;
  double density_g_per_ml = 1;
};

Served served(const Inputs& inputs, std::span<const GumReading> kinds) {
  Served made;
  for (const GumReading& kind : kinds) {
    const Inputs read = read_as(inputs, kind);
    const Evaluation found =
        evaluate(read, {.batch = false, .flags = false, .gel = {.detail = GelDetail::none}});
    made.states.push_back(gel_state_of(found.formula, found.water_phase, read));
    made.density_g_per_ml = found.properties.density_g_per_ml;
  }
  return made;
}

/// Cups made and read exactly alike, as one.
struct SeenCup {
  std::vector<std::size_t> cups;  ///< in Bench::cups
  gel::CupReading reading;
  std::vector<gel::State> states;  ///< one for each reading of the pack

  double count() const { return static_cast<double>(cups.size()); }
  bool can_teach() const {
    return std::all_of(states.begin(), states.end(), [](const gel::State& state) {
      return state.portions > 0 && gel::out_of_range(state).empty();
    });
  }
};

std::vector<SeenCup> seen_cups(const Recipe& fitted, const Bench& bench, const FitOptions& options,
                               std::span<const GumReading> kinds, double ph_sd) {
  const std::vector<Inputs> inputs = bench_inputs(fitted, bench, options);
  const std::vector<std::size_t> first = first_made_alike(bench);
  std::vector<std::size_t> distinct;
  for (std::size_t i = 0; i < first.size(); ++i)
    if (first[i] == i) distinct.push_back(i);
  std::vector<Served> servings(bench.cups.size());
  for_each_of(distinct.size(),
              [&](std::size_t d) { servings[distinct[d]] = served(inputs[distinct[d]], kinds); });
  std::vector<SeenCup> seen;
  std::map<std::tuple<std::size_t, std::optional<double>, gel::CupReading>, std::size_t> alike;
  for (std::size_t i = 0; i < bench.cups.size(); ++i) {
    const BenchCup& cup = bench.cups[i];
    if (!was_read(cup)) continue;
    const Served& serving = servings[first[i]];
    const gel::CupReading reading = reading_of(cup, serving.density_g_per_ml);
    const auto [at, added] = alike.try_emplace({first[i], cup.ph, reading}, seen.size());
    if (added) {
      seen.push_back({{}, reading, serving.states});
      for (gel::State& state : seen.back().states) {
        if (!cup.ph) continue;
        state.ph = *cup.ph;
        state.ph_sd = ph_sd;
      }
    }
    seen[at->second].cups.push_back(i);
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
        for (std::size_t i = 0; i < squares.size(); ++i)
          squares[i] += cups[c].count() * here.sd[i] * here.sd[i];
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
    squares[0] += cups[c].count() * modulus;
    squares[3] += cups[c].count() * viscosity;
    count += cups[c].count();
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
  else if (cup.cup_turn == CupTurn::holds)
    add("held");
  else if (cup.groove)
    add(*cup.groove == Groove::stands ? "kept a groove" : "flowed");
  else if (cup.cup_turn)
    add("fell");
  else if (cup.syringe_ml)
    add(fmt::format("{:g} mL left", *cup.syringe_ml));
  return text;
}

bool all_alike(const std::vector<SeenCup>& cups, const Bench& bench) {
  for (const SeenCup& seen : cups) {
    const auto& inputs = bench.cups[seen.cups.front()].inputs;
    const auto& first = bench.cups[cups.front().cups.front()].inputs;
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
    for (const SeenCup& seen : cups) made.push_back({seen.states[k], seen.reading, seen.count()});
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
  const std::vector<GumReading> kinds = gum_readings(fitted);
  std::vector<SeenCup> cups = seen_cups(fitted, bench, options, kinds, result.reading_sd);
  std::erase_if(cups, [](const SeenCup& seen) { return !seen.can_teach(); });
  if (cups.empty()) {
    result.warnings.push_back({FitWarningKind::no_gum});
    return;
  }
  std::size_t count = 0;
  for (const SeenCup& seen : cups) count += seen.cups.size();
  if (count == 1)
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
  learned.cups = count;
  learned.mix = result.ingredient;

  std::vector<TextureScore> scores(cups.size());
  for_each_of(cups.size(), [&](std::size_t c) {
    const SeenCup& seen = cups[c];
    Given before, after;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
      before.add(kinds[k].weight, seen.states[k], seen.reading, nullptr);
      if (kinds[k].band != 0) continue;
      const auto learnt = learnt_of(&learned, kinds[k].identity);
      after.add(learned.gums[kinds[k].identity].weight, seen.states[k], seen.reading, &*learnt);
    }
    scores[c] = {.readings = gel::likelihood(seen.reading, {}).readings,
                 .chances = before.chances,
                 .chance_of_seen = before.of_seen,
                 .chances_after = after.chances,
                 .chance_of_seen_after = after.of_seen,
                 .weight = weights[c],
                 .repeat = gel::to_be_repeated(weights[c])};
  });
  for (std::size_t c = 0; c < cups.size(); ++c)
    for (const std::size_t cup : cups[c].cups) {
      result.textures.push_back(scores[c]);
      result.textures.back().cup = cup;
    }
  std::sort(result.textures.begin(), result.textures.end(),
            [](const TextureScore& a, const TextureScore& b) { return a.cup < b.cup; });
  if (count <= most_cups_told)
    for (const TextureScore& score : result.textures)
      learned.seen.push_back(told(bench.cups[score.cup]));
  const auto slips =
      static_cast<double>(std::count_if(result.textures.begin(), result.textures.end(),
                                        [](const TextureScore& score) { return score.repeat; }));
  if (slips > fit_constants().contradict_over * static_cast<double>(count))
    result.warnings.push_back({FitWarningKind::cups_contradict, slips, static_cast<double>(count)});
  constexpr double least_chance = 1e-12;
  for (const TextureScore& score : result.textures) {
    const auto scored = static_cast<double>(result.textures.size());
    lesson.mean_ln_chance_before += std::log(std::max(least_chance, score.chance_of_seen)) / scored;
    lesson.mean_ln_chance_after +=
        std::log(std::max(least_chance, score.chance_of_seen_after)) / scored;
  }
  result.lesson = std::move(lesson);
  const Recipe kept = calibrated(fitted, result);
  if (result.ingredient.empty() || learned_of(inputs_of(kept)) == nullptr) {
    result.lesson->learned.mix.clear();
    result.warnings.push_back({FitWarningKind::lesson_not_kept});
  }
}

}  // namespace gelwright
