#include "gelwright/acid_curve.hpp"

#include <algorithm>

#include "base/parallel.hpp"
#include "gelwright/knob.hpp"

namespace gelwright {

namespace {

/// Where there is an acid but neither a dose of it nor a wish: acid in food is a few tenths of a
/// percent to 2 % of it (common practice, no source), in g per g of the serving.
constexpr double usual_most = 0.01;

}  // namespace

std::optional<AcidCurve> acid_curve(const Inputs& inputs, const AcidCurveOptions& options) {
  if (!inputs.acid) return std::nullopt;
  AcidCurve curve{inputs.acid->line.ingredient, inputs.acid->line.mass_g, {}};
  Inputs unread = inputs;
  unread.reading_offset_ph = 0;
  double most_g = std::max(2 * curve.dose_g, options.reach_g);
  if (!(most_g > 0)) most_g = usual_most * formulate(unread).total_g;
  const std::size_t count = std::max<std::size_t>(options.points, 2);
  curve.points.resize(count);
  EvaluateParts parts{.batch = false, .flags = false, .gel = {}};
  parts.gel.stomach = false;
  if (!options.textures) parts.gel.detail = GelDetail::none;
  for_each_block(count, 0, [&](std::size_t i) {
    Inputs dosed = unread;
    AcidPoint& point = curve.points[i];
    point.acid_g = most_g * static_cast<double>(i) / static_cast<double>(count - 1);
    turn(dosed, {Knob::acid_g}, point.acid_g);
    const Evaluation evaluation = evaluate(dosed, parts);
    point.ph = evaluation.water_phase.ph;
    point.ph_low = evaluation.ph_band.low;
    point.ph_high = evaluation.ph_band.high;
    if (evaluation.gel.made && evaluation.gel.any_gum())
      point.textures = evaluation.gel.all.chances;
  });
  return curve;
}

}  // namespace gelwright
