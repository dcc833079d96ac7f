// What the model expects of the cups of a series, one by one and in large grids.
#include <fmt/format.h>

#include <algorithm>

#include "base/parallel.hpp"
#include "gelwright/error.hpp"
#include "gelwright/ladder.hpp"

namespace gelwright {

namespace {

constexpr std::size_t block_cups = 512;
constexpr std::size_t blocks_per_thread = 8;
/// More cells than this take too long with every doubt.
constexpr std::size_t most_cells_with_chances = 100'000;

std::string cup_name(const Ladder& ladder, std::size_t cup) {
  std::string name = fmt::format("cup {} (", cup + 1);
  for (std::size_t a = 0; a < ladder.axes.size(); ++a)
    name += fmt::format("{}{} {:.{}f}", a > 0 ? ", " : "", ladder.axes[a].name,
                        axis_value(ladder, cup, a), ladder.axes[a].decimals);
  return name + ')';
}

}  // namespace

CupPrediction predict_cup(const Ladder& ladder, std::size_t cup) {
  try {
    const Inputs inputs = cup_inputs(ladder, cup);
    // A grid too big for a bench is mapped at the centre of every parameter.
    const GelDetail detail =
        ladder.cells > most_cells_with_chances ? GelDetail::centre : GelDetail::chances;
    const Evaluation evaluation = evaluate(
        inputs, {.batch = false, .flags = false, .gel = {.detail = detail, .stomach = false}});
    CupPrediction expected{cup,
                           amount_of({Knob::acid_g}, inputs),
                           evaluation.water_phase.ph,
                           evaluation.water_phase.ph_uncertainty,
                           evaluation.gel.any_gum(),
                           {}};
    if (evaluation.gel.made) expected.textures = evaluation.gel.all.chances;
    return expected;
  } catch (const InputError& error) {
    std::vector<Problem> problems = error.problems();
    for (Problem& problem : problems)
      problem.where = cup_name(ladder, cup) + (problem.where.empty() ? "" : ": " + problem.where);
    throw InputError(error.document(), std::move(problems));
  } catch (const NotConverged& error) {
    throw NotConverged(fmt::format("{}: {}", cup_name(ladder, cup), error.what()));
  }
}

void write_grid(const Ladder& ladder, unsigned threads,
                const std::function<std::string(std::span<const CupPrediction>)>& write,
                const std::function<void(std::string_view)>& sink) {
  std::vector<std::string> blocks(blocks_per_thread * usable_threads(threads));
  for (std::size_t done = 0; done < ladder.cells; done += block_cups * blocks.size()) {
    const std::size_t left = (ladder.cells - done + block_cups - 1) / block_cups;
    const std::size_t now = std::min(left, blocks.size());
    for_each_block(now, threads, [&](std::size_t block) {
      const std::size_t first = done + block * block_cups;
      std::vector<CupPrediction> cups;
      cups.reserve(block_cups);
      for (std::size_t cup = first; cup < std::min(first + block_cups, ladder.cells); ++cup)
        cups.push_back(predict_cup(ladder, cup));
      blocks[block] = write(cups);
    });
    for (std::size_t block = 0; block < now; ++block) sink(blocks[block]);
  }
}

double diluted_ph(const Inputs& inputs) {
  const Formula formula = formulate(inputs);
  Inputs diluted = inputs;
  diluted.water = {WaterBasis::mass_g, formula.water_g + formula.total_g};
  // The added water brings no ions: the same amounts, spread over more tap water.
  const double tap_g = std::max(0.0, formula.tap_g);
  turn(diluted, {Knob::low_mineral_share}, formula.total_g / (tap_g + formula.total_g));
  return water_phase_of(formulate(diluted), diluted).ph;
}

}  // namespace gelwright
