#include "gelwright/gel_mixture.hpp"

#include <algorithm>
#include <cmath>

namespace gelwright::gel {

namespace {

/// Mean and standard uncertainty of a mixture, in two passes so that no digits are lost.
MeanSd mixed(std::span<const Reading> readings, double weight, MeanSd Doubt::*which) {
  MeanSd out;
  for (const Reading& reading : readings)
    out.mean += reading.weight / weight * (reading.outlook.doubt.*which).mean;
  double variance = 0;
  for (const Reading& reading : readings) {
    const MeanSd& one = reading.outlook.doubt.*which;
    const double off = one.mean - out.mean;
    variance += reading.weight / weight * (one.sd * one.sd + off * off);
  }
  out.sd = std::sqrt(std::max(0.0, variance));
  return out;
}

}  // namespace

Mixture mix(std::span<const Reading> readings) {
  Mixture out;
  double weight = 0;
  for (const Reading& reading : readings) weight += reading.weight;
  if (weight <= 0) return out;
  for (const Reading& reading : readings) {
    const double share = reading.weight / weight;
    for (std::size_t t = 0; t < texture_count; ++t)
      out.chances.chance[t] += share * reading.outlook.chances.chance[t];
    const Defects& defects = reading.outlook.defects;
    out.defects.lumps += share * defects.lumps;
    out.defects.weeps += share * defects.weeps;
    out.defects.specks += share * defects.specks;
    out.defects.brittle += share * defects.brittle;
    out.defects.grit += share * defects.grit;
    out.stomach.one_gel += share * reading.stomach.one_gel;
    out.stomach.pieces += share * reading.stomach.pieces;
  }
  out.lg_modulus = mixed(readings, weight, &Doubt::lg_modulus);
  out.lg_viscosity = mixed(readings, weight, &Doubt::lg_viscosity);
  out.lg_yield = mixed(readings, weight, &Doubt::lg_yield);
  out.lg_thickness = mixed(readings, weight, &Doubt::lg_thickness);
  return out;
}

}  // namespace gelwright::gel
