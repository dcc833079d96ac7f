// What the parts of the Monte Carlo study share. Private: spread.hpp is the way in.
#pragma once

#include <vector>

#include "gelwright/spread.hpp"

namespace gelwright {

/// Which number a draw changes. The order is the order in which changes are applied.
enum class DoubtTarget : std::uint8_t {
  solid_mass,    ///< g, index: solid
  acid_mass,     ///< g on the scale, stock or neat
  calcium_mass,  ///< likewise
  water_mass,    ///< g of tap water
  solid_stated,  ///< g, as the recipe states it, index: solid
  acid_stated,   ///< g of acid, likewise
  calcium_stated,
  acid_strength,  ///< relative, of the stock
  calcium_strength,
  gum_identity,         ///< which of the gums the mix may hold, from 0, index: solid
  gum_share,            ///< g/g, index: solid
  mix_gum,              ///< relative, index: solid
  moisture,             ///< g/g, index: solid, then acid, then calcium salt
  purity,               ///< relative, likewise
  label,                ///< relative, of the carbohydrate on a label, index: solid
  dextrose_equivalent,  ///< DE, index: solid
  esterification,       ///< of one pectin, index: gum
  neutralised,          ///< fraction, of one pectin, index: gum
  buffer,               ///< relative, index: solid
  acid_share,           ///< 0 to 1, place in the band of undeclared acids, index: solid
  sodium_salt,          ///< 0 to 1, cumulated weight of what the unnamed sodium may be
  tap_report,           ///< relative, of every figure of the report without an uncertainty
  tap_ion,              ///< mg/L, index: ion
  tap_alkalinity,       ///< meq/L
  tap_hardness,         ///< mmol/L
  gum_pka,
  ph_bias,
  calcium_complexes,  ///< log10, of the free calcium
  gel_parameter,      ///< index: gel::Id
  learned,            ///< standard normal, index: which of the four that make up the shifts
};

/// One drawn quantity, ready for the inner loop.
struct DoubtDraw {
  DoubtTarget target = DoubtTarget::solid_mass;
  std::size_t index = 0;
  double width = 0;
  bool rectangular = false;
  double low = 0;  ///< the drawn value stays within these
  double high = 0;
  double value = 0;
  DoubtKind kind = DoubtKind::weighing;

  /// Names the stream of random numbers: the same whatever else is in doubt.
  std::uint64_t stream() const { return 1000 * (static_cast<std::uint64_t>(target) + 1) + index; }
  /// The deviation in trial `trial`, in the unit of `value`.
  double deviation(std::uint64_t seed, std::uint64_t trial) const;
};

/// Everything in doubt about a batch: `described[i]` is what `drawn[i]` means.
struct Doubts {
  std::vector<DoubtDraw> drawn;
  std::vector<Doubt> described;
};
Doubts doubts_of(const Inputs& weighed, const Evaluation& point, const Batch& batch, double widths);

/// A trial's own inputs, remade from the nominal ones for every draw without allocating.
class Trial {
 public:
  Trial(const Inputs& nominal, std::span<const DoubtDraw> drawn);
  Trial(const Trial&) = delete;
  Trial& operator=(const Trial&) = delete;

  /// The gel model's parameters in the trial drawn last.
  const gel::Values& gel_values() const { return gel_values_; }

  /// The inputs of trial `trial`, with one kind of doubt left out where asked.
  const Inputs& draw(std::uint64_t seed, std::uint64_t trial,
                     std::optional<DoubtKind> without = std::nullopt);

 private:
  /// A dose on its way to the scale: stock or neat.
  struct Dose {
    double on_scale_g = 0;
    double strength = 1;  ///< g per g on the scale
    double stated_g = 0;  ///< deviation of the solute
  };

  void apply(const DoubtDraw& what, double deviation);
  void pour();
  void take_learned();
  InputLine& line(std::size_t index);

  const Inputs& nominal_;
  std::span<const DoubtDraw> drawn_;
  Recipe recipe_;  ///< own copy: the flags read the water report from it
  Inputs inputs_;
  std::vector<SodiumReading> salts_;  ///< what the unnamed sodium may be
  gel::Values gel_values_ = gel::central_values();
  Dose nominal_acid_, nominal_calcium_, acid_, calcium_;
  double nominal_tap_g_ = 0;
  double tap_g_ = 0;
  const Learned* learned_ = nullptr;  ///< null: no cups were made of the mix
  std::size_t identity_ = 0;          ///< of the undeclared gum
  bool masses_drawn_ = false;
  bool tap_drawn_ = false;
};

}  // namespace gelwright
