#include "gelling/near.hpp"

#include <algorithm>

#include "gelling/textures.hpp"

namespace gelwright::gel::detail {

namespace {

constexpr double Defects::*all_defects[] = {&Defects::lumps, &Defects::weeps, &Defects::specks,
                                            &Defects::brittle, &Defects::grit};

}  // namespace

Outlook moved_alike(const Outlook& known, const Outlook& then, const Outlook& now) {
  const auto by = [&](double Gel::*figure) { return now.centre.*figure - then.centre.*figure; };
  const double modulus = by(&Gel::lg_modulus_pa);
  const double thickness = by(&Gel::lg_thickness_mpa_s);
  Outlook out = known;
  out.centre.lg_modulus_pa += modulus;
  out.centre.lg_thickness_mpa_s += thickness;
  out.doubt.lg_modulus.mean += modulus;
  out.doubt.lg_thickness.mean += thickness;
  out.doubt.lg_viscosity.mean += by(&Gel::lg_viscosity_mpa_s);
  out.doubt.lg_yield.mean += by(&Gel::lg_yield_pa);
  for (double Defects::*each : all_defects)
    out.defects.*each =
        std::clamp(known.defects.*each + now.defects.*each - then.defects.*each, 0.0, 1.0);
  out.chances = {};
  for (Node& node : out.doubt.nodes) {
    node.lg_modulus.mean += modulus;
    node.lg_thickness.mean += thickness;
    node.sheared_share = std::clamp(node.sheared_share + by(&Gel::sheared_share), 0.0, 1.0);
    const Chances there =
        chances_of(node.lg_modulus, node.lg_thickness, node.sheared_share, out.defects.lumps);
    for (std::size_t t = 0; t < texture_count; ++t)
      out.chances.chance[t] += node.weight * there.chance[t];
  }
  return out;
}

}  // namespace gelwright::gel::detail
