#include "studies/fit/fit_model.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "base/parallel.hpp"
#include "gelwright/water_phase.hpp"

namespace gelwright {

namespace {

/// Fewer are not worth another thread.
constexpr std::size_t block_samples = 256;

}  // namespace

BufferModel::BufferModel(const Recipe& bare, std::vector<std::size_t> carriers, const Bench& bench,
                         const FitOptions& options, const std::vector<FittedReading>& readings)
    : recipe_(bare),
      carriers_(std::move(carriers)),
      serving_(inputs_of(recipe_)),
      cups_(bench_inputs(recipe_, bench, options)) {
  const std::vector<std::size_t> first = first_made_alike(bench);
  std::map<std::pair<std::size_t, bool>, std::size_t> known;
  for (const FittedReading& each : readings) {
    const auto [at, added] = known.try_emplace({first[each.cup], each.diluted}, samples_.size());
    if (added) samples_.push_back(sample_of(cups_[each.cup], each.diluted));
    sample_read_.push_back(at->second);
  }
}

double BufferModel::reading_ph(std::size_t reading, const Buffer& buffer) {
  if (buffer_ != buffer) read_all(buffer);
  return ph_[sample_read_[reading]];
}

void BufferModel::read_all(const Buffer& buffer) {
  buffer_.reset();  // an exception may leave them half done
  set_pka(buffer.pka);
  ph_.resize(samples_.size());
  const std::size_t blocks = (samples_.size() + block_samples - 1) / block_samples;
  for_each_block(blocks, 0, [&](std::size_t block) {
    const std::size_t end = std::min((block + 1) * block_samples, samples_.size());
    for (std::size_t i = block * block_samples; i < end; ++i)
      ph_[i] = sample_ph(samples_[i], buffer);
  });
  buffer_ = buffer;
}

double BufferModel::sample_ph(const Sample& sample, const Buffer& buffer) const {
  Formula formula = sample.formula;
  for (std::size_t i = 0; i < sample.carriers.size(); ++i) {
    Composition carrier = sample.carriers[i];
    add_buffer(carrier, buffer.carboxylate_mmol_per_g / 1000 * sample.carrier_g[i],
               buffer.neutralised_fraction);
    formula.delivered += carrier;
  }
  if (!sample.plain) return water_phase_of(formula, sample.inputs).ph;
  EquilibriumOptions options;
  options.gum_pka = gum_pka_of(formula, sample.inputs);
  options.buffer_pka = buffer.pka;
  const Totals totals = totals_of(formula, sample.inputs, 0, 7);
  return solve_equilibrium(totals, constants_at_25_c(), options).ph + sample.inputs.ph_bias;
}

double BufferModel::serving_ph(double acid_g, const Buffer& buffer) {
  Inputs inputs = filled(serving_, buffer);
  inputs.acid->line.mass_g = acid_g;
  return water_phase_of(formulate(inputs), inputs).ph;
}

Dosed BufferModel::dose(double target_ph, const Buffer& buffer) {
  return dose_acid_to_ph(filled(serving_, buffer), target_ph);
}

std::vector<Inputs> BufferModel::cups(const Buffer& buffer) {
  std::vector<Inputs> made;
  for (const Inputs& cup : cups_) made.push_back(filled(cup, buffer));
  return made;
}

bool BufferModel::carries(std::size_t ingredient) const {
  return std::find(carriers_.begin(), carriers_.end(), ingredient) != carriers_.end();
}

/// The pKa stands in the recipe all samples share, so what was read with another one is stale.
void BufferModel::set_pka(double value) {
  buffer_.reset();
  for (const std::size_t i : carriers_) recipe_.ingredients[i].buffer_pka = value;
}

Sample BufferModel::sample_of(const Inputs& cup, bool diluted) const {
  Sample sample;
  sample.inputs = cup;
  const Formula whole = formulate(cup);
  for (InputLine& line : sample.inputs.solids) {
    if (!carries(line.ingredient)) continue;
    sample.carriers.push_back(line.per_g * line.mass_g);
    sample.carrier_g.push_back(line.mass_g);
    line.per_g = {};
  }
  sample.formula = whole;
  sample.formula.delivered = formulate(sample.inputs).delivered;
  const Composition& all = whole.delivered;
  sample.plain =
      all.lactone_mol == 0 && std::all_of(all.acid_only_mol.begin(), all.acid_only_mol.end(),
                                          [](double mol) { return mol == 0; });
  if (diluted) {
    sample.formula.water_g += whole.total_g;
    sample.formula.chemistry_water_g += whole.total_g;
    sample.formula.total_g += whole.total_g;
  }
  return sample;
}

Inputs BufferModel::filled(const Inputs& bare, const Buffer& buffer) {
  Inputs inputs = bare;
  for (InputLine& line : inputs.solids)
    if (carries(line.ingredient))
      add_buffer(line.per_g, buffer.carboxylate_mmol_per_g / 1000, buffer.neutralised_fraction);
  set_pka(buffer.pka);
  return inputs;
}

}  // namespace gelwright
