#include "gelwright/nozzle.hpp"

#include <cmath>

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"nozzle.runs", 1000, "mPa.s", 0, "thinner it runs out by itself, as oil does", "judgement",
     Standing::judgement},
    {"nozzle.squeeze", 60000, "mPa.s", 0, "as thick as toothpaste: up to here a squeeze does it",
     "judgement", Standing::judgement},
    {"nozzle.breaks-from", 0.5, "1", 0,
     "chance of a firm or hard set from which it comes in pieces", "judgement",
     Standing::judgement},
};

}  // namespace

std::string_view through_a_nozzle(const GelForecast& gel) {
  if (!gel.made || !gel.any_gum()) return "";
  if (gel.chance(gel::Texture::firm) + gel.chance(gel::Texture::hard) >
      value_of(data, "nozzle.breaks-from"))
    return "only broken, in pieces, through a wide one";
  const double thickness_mpa_s = std::pow(10.0, gel.all.lg_thickness.mean);
  if (thickness_mpa_s < value_of(data, "nozzle.runs")) return "by itself";
  if (thickness_mpa_s < value_of(data, "nozzle.squeeze")) return "with a squeeze";
  return "hardly";
}

std::span<const Datum> nozzle_data() {
  return data;
}

}  // namespace gelwright
