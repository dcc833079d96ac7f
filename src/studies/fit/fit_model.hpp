// The cups of a sheet and a serving of the recipe with any buffer put in. Private.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "gelwright/formula.hpp"
#include "studies/fit/fit_detail.hpp"

namespace gelwright {

/// One cup, or a diluted sample of it, ready to take any buffer.
struct Sample {
  Inputs inputs;    ///< its tap, acid and recipe; the solids stand in what follows
  Formula formula;  ///< `delivered` without the carriers of the buffer
  std::vector<Composition> carriers;  ///< what each carrier delivers
  std::vector<double> carrier_g;
  bool plain = true;  ///< one solve gives the pH: no lactone, nothing that waits for acid
};

/// Not copied: its inputs point into it.
class BufferModel {
 public:
  /// `bare` holds no buffer in its carriers. Throws as bench_inputs.
  BufferModel(const Recipe& bare, std::vector<std::size_t> carriers, const Bench& bench,
              const FitOptions& options, const std::vector<FittedReading>& readings);
  BufferModel(const BufferModel&) = delete;
  BufferModel& operator=(const BufferModel&) = delete;

  bool has_acid() const { return serving_.acid.has_value(); }
  /// As chemistry_of gives it, without what a fit has no use for. All readings are worked out when
  /// a buffer is first asked about, each distinct sample once.
  double reading_ph(std::size_t reading, const Buffer& buffer);
  double serving_ph(double acid_g, const Buffer& buffer);
  Dosed dose(double target_ph, const Buffer& buffer);
  /// The cups with the buffer in; good until another buffer is asked for.
  std::vector<Inputs> cups(const Buffer& buffer);

 private:
  bool carries(std::size_t ingredient) const;
  void set_pka(double value);
  Sample sample_of(const Inputs& cup, bool diluted) const;
  double sample_ph(const Sample& sample, const Buffer& buffer) const;
  void read_all(const Buffer& buffer);
  Inputs filled(const Inputs& bare, const Buffer& buffer);

  Recipe recipe_;
  std::vector<std::size_t> carriers_;
  Inputs serving_;
  std::vector<Inputs> cups_;
  std::vector<Sample> samples_;           ///< no two alike
  std::vector<std::size_t> sample_read_;  ///< in `samples_`, of each reading
  std::optional<Buffer> buffer_;          ///< that `ph_` was worked out for
  std::vector<double> ph_;                ///< of each of `samples_`
};

}  // namespace gelwright
