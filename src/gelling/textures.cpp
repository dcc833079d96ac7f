#include "gelling/textures.hpp"

#include <algorithm>
#include <cmath>

#include "gelling/constant_table.hpp"
#include "gelling/mathematics.hpp"

namespace gelwright::gel {

namespace detail {

namespace {

/// Chance that a quantity lies over a cut that people draw within `width`.
double over(const MeanSd& lg_value, double cut, double width) {
  return normal_cdf((lg_value.mean - lg(cut)) / std::hypot(lg_value.sd, width));
}

}  // namespace

Chances chances_of(const MeanSd& lg_modulus, const MeanSd& lg_thickness, double sheared_share,
                   double lumps) {
  const double thick =
      over(lg_thickness, constant("gel.cut.thick"), constant("gel.cut.thick_width"));
  Chances out;
  double pours = 0, syrup = 0;
  const double still_share = 1 - sheared_share;
  if (still_share > 0) {
    const double hard = over(lg_modulus, constant("gel.cut.hard"), constant("gel.cut.hard_width"));
    const double firm =
        std::max(hard, over(lg_modulus, constant("gel.cut.firm"), constant("gel.cut.firm_width")));
    const double soft_set =
        std::max(firm, over(lg_modulus, constant("gel.cut.soft"), constant("gel.cut.soft_width")));
    const double not_thin = std::max(soft_set, thick);
    out[Texture::hard] = still_share * hard;
    out[Texture::firm] = still_share * (firm - hard);
    out[Texture::soft] = still_share * (soft_set - firm);
    syrup = still_share * (not_thin - soft_set);
    pours = still_share * (1 - not_thin);
  }
  if (sheared_share > 0) {
    const double stands =
        over(lg_modulus, constant("gel.cut.stands"), constant("gel.cut.stands_width"));
    const double flows = std::max(
        stands, over(lg_modulus, constant("gel.cut.flowing"), constant("gel.cut.flowing_width")));
    const double not_thin = std::max(flows, thick);
    out[Texture::soft] += sheared_share * stands;
    out[Texture::flowing] = sheared_share * (flows - stands);
    syrup += sheared_share * (not_thin - flows);
    pours += sheared_share * (1 - not_thin);
  }
  out[Texture::bits] = lumps * (pours + syrup);
  out[Texture::thick] = (1 - lumps) * syrup;
  out[Texture::pours] = (1 - lumps) * pours;
  return out;
}

}  // namespace detail

Texture likeliest(const Chances& chances) {
  return static_cast<Texture>(std::max_element(chances.chance.begin(), chances.chance.end()) -
                              chances.chance.begin());
}

Texture second(const Chances& chances) {
  Chances others = chances;
  others[likeliest(chances)] = -1;
  return likeliest(others);
}

double chance_set(const Chances& chances) {
  return chances[Texture::flowing] + chances[Texture::soft] + chances[Texture::firm] +
         chances[Texture::hard];
}

std::string_view to_text(Texture texture) {
  switch (texture) {
    case Texture::pours:
      return "pours";
    case Texture::thick:
      return "thick";
    case Texture::bits:
      return "bits in a liquid";
    case Texture::flowing:
      return "smooth flowing gel";
    case Texture::soft:
      return "soft set";
    case Texture::firm:
      return "firm set";
    case Texture::hard:
      return "hard set";
  }
  return "";
}

}  // namespace gelwright::gel
