// What `dose` found, laid out to be read.
#pragma once

#include "gelwright/dose.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// The dose per serving and batch, on the user's scale, and what the scale's error makes of it.
Report dose_report(const DoseAnswer& answer, const DoseQuestion& question);

}  // namespace gelwright
