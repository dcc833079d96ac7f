// What the parts of the bench fit share. Private.
#pragma once

#include <cstddef>
#include <vector>

#include "gelwright/fit.hpp"

namespace gelwright {

/// The numbers of a buffer, without their doubt.
struct Buffer {
  double carboxylate_mmol_per_g = 0;
  double pka = 3.5;
  double neutralised_fraction = 1;

  bool operator==(const Buffer&) const = default;
};

/// Ingredients the buffer belongs to, in Recipe::ingredients: the mix, or every solid.
/// Throws InputError where the choice is not clear.
std::vector<std::size_t> carriers_of(const Recipe& recipe, const std::string& ingredient);

/// The recipe with these carriers as declared, an earlier fitted buffer taken out.
Recipe without_buffer(const Recipe& recipe, const std::vector<std::size_t>& carriers);

/// A bare recipe with the buffer put into its carriers.
Recipe with_buffer(const Recipe& bare, const std::vector<std::size_t>& carriers,
                   const Buffer& buffer);

/// For each cup the first one made exactly like it, itself or an earlier one.
std::vector<std::size_t> first_made_alike(const Bench& bench);

/// The cups as the pipeline sees them, in the order of the sheet: as `ladder` plans them.
/// `recipe` must outlive them. Throws InputError where recipe and sheet do not belong together.
std::vector<Inputs> bench_inputs(const Recipe& recipe, const Bench& bench,
                                 const FitOptions& options);

/// What the gel model gave to the textures of the cups, and what they teach it. `fitted` is the
/// recipe with the buffer in. Fills in `textures`, `lesson` and what is worth saying.
void learn_textures(const Recipe& fitted, const Bench& bench, const FitOptions& options,
                    BenchFit& result);

/// Numbers of fit_data() as code uses them.
struct FitConstants {
  double lowest_mmol_per_g, highest_mmol_per_g;
  double lowest_pka, highest_pka;
  double held_pka, held_pka_sd;
  double held_fraction;
  double meter_sd, strips_sd;
  double sd_relative_uncertainty;
  double pka_half_width_at_most;
  double extra_parameter_chance;
  double condition_at_most;
  double readings_for_pka, readings_for_fraction, readings_wanted;
  double outlier_chance, scatter_chance;
  double sheet_tolerance;
  double ring_weeps_ml;
  double untold_over;
  double contradict_over;
};
const FitConstants& fit_constants();

}  // namespace gelwright
