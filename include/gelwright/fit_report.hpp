// What `fit` found, laid out to be read.
#pragma once

#include "gelwright/fit.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// What was found, reading by reading, and what it means for the next batch.
Report fit_report(const Recipe& recipe, const Bench& bench, const BenchFit& fit);

/// Adds the acid curve before and after the fit, where the recipe has an acid, and the readings
/// against what was predicted. Throws as `evaluate`.
void add_fit_pictures(Report& report, const Recipe& recipe, const Bench& bench,
                      const BenchFit& fit);

}  // namespace gelwright
