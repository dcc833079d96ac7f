#include "gelwright/mend.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/roots.hpp"
#include "base/rounding.hpp"
#include "gelwright/evaluate.hpp"

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"mend.most-growth", 2, "1", 0, "a batch that would have to grow more is made anew",
     "judgement", Standing::judgement},
    {"mend.near-enough", 0.005, "1", 0, "of the planned mass: not worth adding", "judgement",
     Standing::judgement},
    {"mend.near-enough-ph", 0.05, "pH", 0, "not worth adding acid for", "judgement",
     Standing::judgement},
    {"mend.most-acid", 3, "1", 0, "times the planned acid", "judgement", Standing::judgement},
};

constexpr EvaluateParts ph_only{
    .batch = false, .flags = false, .gel = {.detail = GelDetail::none, .stomach = false}};

double ph_of(const Inputs& inputs) {
  return evaluate(inputs, ph_only).water_phase.ph;
}

/// The inputs with the masses of some lines, of a batch `factor` times a serving.
Inputs holding(const Inputs& planned, const std::vector<MendLine>& lines, double factor,
               double MendLine::*mass_g) {
  Inputs inputs = planned;
  for (const MendLine& line : lines) {
    const double serving_g = line.*mass_g / factor;
    switch (line.role) {
      case LineRole::water:
        inputs.water = {WaterBasis::mass_g, serving_g};
        break;
      case LineRole::solid:
        inputs.solids[line.solid].mass_g = serving_g;
        break;
      case LineRole::acid:
        inputs.acid->line.mass_g = serving_g;
        break;
      case LineRole::calcium_salt:
        inputs.calcium->line.mass_g = serving_g;
        break;
    }
  }
  return inputs;
}

/// All there is in the batch: as planned, or as it was weighed.
std::vector<MendLine> lines_of(const Inputs& planned, std::span<const WeighedInstead> weighed) {
  const double factor = batch_factor(planned);
  const Formula formula = formulate(planned);
  std::vector<MendLine> lines;
  const auto add = [&](LineRole role, std::size_t solid, double serving_g) {
    MendLine line{role, solid, serving_g * factor, serving_g * factor, 0};
    for (const WeighedInstead& each : weighed)
      if (each.role == role && each.solid == solid) line.have_g = each.batch_g;
    lines.push_back(line);
  };
  add(LineRole::water, 0, formula.water_g);
  for (std::size_t i = 0; i < planned.solids.size(); ++i)
    add(LineRole::solid, i, planned.solids[i].mass_g);
  if (planned.acid) add(LineRole::acid, 0, planned.acid->line.mass_g);
  if (planned.calcium) add(LineRole::calcium_salt, 0, planned.calcium->line.mass_g);
  return lines;
}

class Mending {
 public:
  Mending(const Inputs& planned, std::span<const WeighedInstead> weighed)
      : planned_(planned), factor_(batch_factor(planned)) {
    mend_.lines = lines_of(planned, weighed);
  }

  Mend mend(std::optional<double> measured_ph) {
    for (const MendLine& line : mend_.lines)
      if (line.planned_g > 0) mend_.grows = std::max(mend_.grows, line.have_g / line.planned_g);
    aim_at(mend_.grows, planned_acid_g() * mend_.grows);
    if (measured_ph && planned_.acid) correct_ph(*measured_ph);
    finish();
    return std::move(mend_);
  }

 private:
  double planned_acid_g() const {
    for (const MendLine& line : mend_.lines)
      if (line.role == LineRole::acid) return line.planned_g;
    return 0;
  }

  /// What every line is to be in the end.
  void aim_at(double grows, double acid_g) {
    mend_.grows = grows;
    for (MendLine& line : mend_.lines) {
      const double aim_g = line.role == LineRole::acid ? acid_g : grows * line.planned_g;
      line.add_g = std::max(0.0, aim_g - line.have_g);
    }
  }

  Inputs ended() const {
    std::vector<MendLine> lines = mend_.lines;
    for (MendLine& line : lines) line.have_g += line.add_g;
    Inputs inputs = holding(planned_, lines, factor_ * mend_.grows, &MendLine::have_g);
    inputs.servings = planned_.servings * mend_.grows;
    return inputs;
  }

  void correct_ph(double measured_ph) {
    const Inputs now = holding(planned_, mend_.lines, factor_, &MendLine::have_g);
    const double offset = measured_ph - ph_of(now);
    const double wanted = ph_of(planned_);
    const double near_enough = value_of(data, "mend.near-enough-ph");
    const double grown = mend_.grows;
    const double acid_g = planned_acid_g() * grown;
    const auto over = [&](double grows, double acid) {
      aim_at(grows, acid);
      return ph_of(ended()) + offset - wanted;
    };
    const double now_over = over(grown, acid_g);
    if (std::abs(now_over) <= near_enough) return;
    if (now_over > 0) {
      const double most_g = value_of(data, "mend.most-acid") * acid_g;
      if (over(grown, most_g) > 0)
        mend_.why_not = fmt::format("even {:g} times the acid leaves it less sour than planned",
                                    value_of(data, "mend.most-acid"));
      else
        over(grown, find_root([&](double acid) { return over(grown, acid); }, acid_g, most_g,
                              {.x_tolerance = 1e-6 * acid_g}));
      return;
    }
    // Acid stays in; only more of everything else makes it less sour.
    mend_.too_sour = true;
    const double most = value_of(data, "mend.most-growth");
    if (over(most, acid_g) < 0)
      mend_.why_not = fmt::format(
          "it is so sour that even {:g} times as much of everything else would not do", most);
    else
      over(find_root([&](double grows) { return over(grows, acid_g); }, grown, most,
                     {.x_tolerance = 1e-6}),
           acid_g);
  }

  void finish() {
    const double near_enough = value_of(data, "mend.near-enough");
    for (MendLine& line : mend_.lines) {
      if (line.add_g <= near_enough * line.planned_g) line.add_g = 0;
      mend_.anything = mend_.anything || line.add_g > 0;
    }
    if (mend_.why_not.empty() && mend_.grows > value_of(data, "mend.most-growth"))
      mend_.why_not = fmt::format("the batch would have to be {} times as big: make it anew",
                                  significant(mend_.grows, 2));
    mend_.mended = ended();
  }

  const Inputs& planned_;
  double factor_;
  Mend mend_;
};

}  // namespace

Mend mend(const Inputs& planned, std::span<const WeighedInstead> weighed,
          std::optional<double> measured_ph) {
  return Mending(planned, weighed).mend(measured_ph);
}

Inputs as_weighed(const Inputs& planned, std::span<const WeighedInstead> weighed) {
  return holding(planned, lines_of(planned, weighed), batch_factor(planned), &MendLine::have_g);
}

std::span<const Datum> mend_data() {
  return data;
}

}  // namespace gelwright
