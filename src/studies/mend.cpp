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
    {"mend.most-acid", 3, "1", 0, "times the planned acid or calcium salt", "judgement",
     Standing::judgement},
    {"mend.sets-well", 0.7, "1", 0, "chance that it sets at which no more is added", "judgement",
     Standing::judgement},
    {"mend.worth-it", 0.5, "1", 0, "chance that it sets under which nothing is added", "judgement",
     Standing::judgement},
    {"mend.sourest", 3.0, "pH", 0, "no batch is made sourer, whatever the recipe's limits",
     "judgement", Standing::judgement},
};

constexpr EvaluateParts ph_only{
    .batch = false, .flags = false, .gel = {.detail = GelDetail::none, .stomach = false}};

double ph_of(const Inputs& inputs) {
  return evaluate(inputs, ph_only).water_phase.ph;
}

constexpr EvaluateParts texture_only{
    .batch = false, .flags = false, .gel = {.detail = GelDetail::chances, .stomach = false}};
/// Tried between what is there and the most there may be.
constexpr int steps_tried = 20;

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

  Mend mend(const SeenOfBatch& seen) {
    for (const MendLine& line : mend_.lines)
      if (line.planned_g > 0) mend_.grows = std::max(mend_.grows, line.have_g / line.planned_g);
    aim_at(mend_.grows, planned_acid_g() * mend_.grows);
    if (seen.ph && planned_.acid && !seen.texture) correct_ph(*seen.ph);
    if (seen.texture) make_set(*seen.texture, seen.ph);
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
    if (!to_set_) return inputs;
    inputs.reading_offset_ph = offset_ph_;
    // What goes in now goes in under the blade: whatever has set is broken by it anyway.
    inputs.making.acid = gel::Acid::blade;
    if (inputs.making.calcium == gel::Calcium::fast) inputs.making.calcium = gel::Calcium::blade;
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

  /// A batch that was to set and did not: more acid, or more calcium salt, as its gum calls for.
  void make_set(gel::Texture texture, std::optional<double> measured_ph) {
    using gel::Texture;
    if (planned_.recipe->form == Form::drink) {
      mend_.why_not = "a drink is meant to pour";
    } else if (texture == Texture::bits) {
      mend_.why_not = "lumps do not dissolve again; press it through a sieve, or make it anew";
    } else if (texture == Texture::soft || texture == Texture::firm || texture == Texture::hard) {
      mend_.why_not = "it has set, and a gel that has set stays as it is";
    } else {
      if (measured_ph)
        offset_ph_ =
            *measured_ph - ph_of(holding(planned_, mend_.lines, factor_, &MendLine::have_g));
      to_set_ = true;
      add_what_sets();
    }
  }

  /// The least of acid or calcium salt with which it sets well, else what does best.
  void add_what_sets() {
    struct Tried {
      std::size_t line;
      double add_g;
      double chance;
    };
    std::optional<Tried> best;
    // Whatever made it fail is still in it. A batch that would have set sets with more acid too, so
    // of the chance that it sets then, only what exceeds the chance from before is left.
    const double before = chance_to_set().value_or(0);
    const auto left = [before](double chance) {
      return before < 1 ? std::max(0.0, (chance - before) / (1 - before)) : 0;
    };
    for (std::size_t l = 0; l < mend_.lines.size(); ++l) {
      MendLine& line = mend_.lines[l];
      if (line.role != LineRole::acid && line.role != LineRole::calcium_salt) continue;
      const double at_first_g = line.add_g;
      const double most_g = value_of(data, "mend.most-acid") * line.planned_g * mend_.grows;
      for (int step = 0; step <= steps_tried; ++step) {
        line.add_g =
            at_first_g + std::max(0.0, most_g - line.have_g - at_first_g) * step / steps_tried;
        const std::optional<double> chance = chance_to_set();
        if (!chance) break;  // too sour
        if (!best || left(*chance) > best->chance) best = Tried{l, line.add_g, left(*chance)};
        if (left(*chance) >= value_of(data, "mend.sets-well")) break;
      }
      line.add_g = at_first_g;
      if (best && best->chance >= value_of(data, "mend.sets-well")) break;
    }
    if (!best || best->chance < value_of(data, "mend.worth-it")) {
      mend_.why_not = best ? fmt::format(
                                 "with all that may be added it sets with a chance of {:.0f} "
                                 "in 100",
                                 100 * best->chance)
                           : std::string("there is no acid or calcium salt in it to add more of");
      return;
    }
    mend_.lines[best->line].add_g = best->add_g;
    mend_.chance_to_set = best->chance;
  }

  /// Of the batch with what is to be added; absent where that is too sour.
  std::optional<double> chance_to_set() const {
    const Evaluation found = evaluate(ended(), texture_only);
    const double sourest =
        std::max(value_of(data, "mend.sourest"), planned_.recipe->limits.ph.at_least.value_or(0));
    if (found.water_phase.ph + offset_ph_ < sourest) return std::nullopt;
    return found.gel.made ? found.gel.chance_set() : 0;
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
  double offset_ph_ = 0;  // read, less computed
  bool to_set_ = false;   // it did not set, and is to
  Mend mend_;
};

}  // namespace

Mend mend(const Inputs& planned, std::span<const WeighedInstead> weighed, const SeenOfBatch& seen) {
  return Mending(planned, weighed).mend(seen);
}

Inputs as_weighed(const Inputs& planned, std::span<const WeighedInstead> weighed) {
  return holding(planned, lines_of(planned, weighed), batch_factor(planned), &MendLine::have_g);
}

std::span<const Datum> mend_data() {
  return data;
}

}  // namespace gelwright
