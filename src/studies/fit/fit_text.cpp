// What the fit found worth saying, in words.
#include <fmt/format.h>

#include <cmath>

#include "gelwright/fit.hpp"

namespace gelwright {

std::string message_of(const FitWarning& warning, const BenchFit& fit, const Bench& bench) {
  const double number = warning.number;
  const double limit = warning.limit;
  switch (warning.kind) {
    case FitWarningKind::few_readings:
      return fmt::format(
          "Only {:g} pH readings: {:g} or more, spread over the doses, tell the "
          "buffer from a slip of the meter",
          number, limit);
    case FitWarningKind::pka_held:
      return fmt::format(
          "The readings do not tell the pKa: it is held at {:.1f} +- {:.1f} (sd) and {} fitted. "
          "Cups with less acid, up to pH 5, tell more",
          number, limit,
          fit.buffer.neutralised_fraction.fitted ? "only the amount and the share sold as salt are"
                                                 : "only the amount is");
    case FitWarningKind::parameters_lean:
      return fmt::format(
          "The buffer's numbers lean on each other (condition number {:.0f}): they are "
          "good together, for the pH the cups covered, and say little one by one",
          number);
    case FitWarningKind::no_buffer:
      return "No buffer found: what the recipe declares explains the readings, or would hold the "
             "pH even higher than it was read. A declared gum or salt share may be too large";
    case FitWarningKind::buffer_at_limit:
      return fmt::format(
          "The fit ran into its limit of {:g} mmol/g, more than any mix holds: are the "
          "doses in the sheet per serving, and is it the sheet of this recipe",
          number);
    case FitWarningKind::outlier: {
      const FittedReading& reading = fit.readings[warning.reading];
      const BenchCup& cup = bench.cups[reading.cup];
      return fmt::format(
          "Cup {} (line {}), pH {:.2f}{}: fits worse than chance allows (studentised "
          "residual {:.1f}). It still counts; read it again, or blank it if it "
          "was a slip",
          cup.name, cup.line, reading.read_ph, reading.diluted ? " diluted" : "", number);
    }
    case FitWarningKind::scatter:
      return fmt::format(
          "The readings scatter {:.1f} times as far as their stated sd (chance "
          "reaches {:.1f}): a meter out of calibration, uneven mixing, or more than "
          "one acid in the mix. The intervals are widened for it",
          number, limit);
    case FitWarningKind::sheet_disagrees:
      return fmt::format(
          "The sheet expected pH {:.2f} in cup {}, this recipe gives {:.2f}: the "
          "recipe has changed since, or the stock had another strength",
          number, bench.cups[warning.reading].name, limit);
    case FitWarningKind::target_outside_range:
      return fmt::format(
          "The target pH {:.2f} lies outside the readings, which end at {:.2f}: make "
          "a cup there before relying on the dose",
          number, limit);
    case FitWarningKind::all_solids:
      return "The recipe has no bought mix: the buffer is that of all its solids together and "
             "holds for this recipe only";
    case FitWarningKind::buffer_replaced:
      return "The recipe already had a fitted buffer: it was left out and found anew";
    case FitWarningKind::no_gum:
      return "Textures were read, but the recipe has no gum the gel model knows";
    case FitWarningKind::cups_alike:
      return "All the cups are alike: they tell how one such cup is, not what turns it. Vary the "
             "acid, the calcium, the gum or the water between them";
    case FitWarningKind::one_cup:
      return "One cup was read for its texture: what it teaches is little; four to six tell the "
             "edge";
    case FitWarningKind::cups_contradict:
      return fmt::format(
          "{:g} of {:g} cups cannot all be right, with one another or with what a gum can do, and "
          "were hardly counted: make them again, from one base and with one thing varied, before "
          "you rely on what was learnt",
          number, limit);
    case FitWarningKind::lesson_unsettled:
      return "The readings of the textures pull against each other and the search for what they "
             "teach did not settle: make the cups again before relying on it";
    case FitWarningKind::lesson_not_kept:
      return "Most of the gum is not in the ingredient that was fitted: what the textures taught "
             "is shown and not kept";
  }
  return {};
}

}  // namespace gelwright
