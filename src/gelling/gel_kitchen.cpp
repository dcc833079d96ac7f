#include "gelwright/gel_kitchen.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "gelling/kitchen_table.hpp"
#include "gelling/mathematics.hpp"

namespace gelwright::gel {

namespace {

using detail::kitchen;
using detail::lg;
using detail::normal_cdf;
using detail::syringe_table;

constexpr double empty_ml = kitchen("gel.kitchen.empty_ml");
constexpr double highest_ml = kitchen("gel.kitchen.syringe_highest_ml");

/// Chance that a quantity at `lg_value` lies over `lg_cut`.
double over(double lg_value, double lg_cut, double sd, double extra_sd) {
  return normal_cdf((lg_value - lg_cut) / std::hypot(sd, extra_sd));
}

double syringe_chance(double ml_left, double lg_thickness, double extra_sd) {
  if (ml_left <= empty_ml)
    return 1 - over(lg_thickness, lg(kitchen("gel.kitchen.empty_mpa_s")),
                    kitchen("gel.kitchen.empty_sd"), extra_sd);
  if (ml_left >= kitchen("gel.kitchen.stopped_ml"))
    return over(lg_thickness, lg(kitchen("gel.kitchen.stopped_mpa_s")),
                kitchen("gel.kitchen.stopped_sd"), extra_sd);
  const double fine = kitchen("gel.kitchen.syringe_ml");
  const double sd = kitchen("gel.kitchen.syringe_sd");
  return over(lg_thickness, lg_thickness_of_syringe(ml_left - fine), sd, extra_sd) -
         over(lg_thickness, lg_thickness_of_syringe(ml_left + fine), sd, extra_sd);
}

double yield_chance(bool holds, double from_pa, double lg_yield, double extra_sd) {
  const double chance = over(lg_yield, lg(from_pa), kitchen("gel.kitchen.yield_sd"), extra_sd);
  return holds ? chance : 1 - chance;
}

constexpr Words word_table[] = {
    {Texture::pours, "a drink that runs like juice or cream", "the syringe leaves 8 mL or less"},
    {Texture::thick, "a thick syrup that levels itself",
     "the syringe leaves more than 8 mL, yet a groove drawn with a spoon closes and it falls from "
     "a turned cup"},
    {Texture::bits, "lumps of gel in a liquid", "lift them with a sieve or spoon"},
    {Texture::flowing, "a smooth gel that pours in folds, like stirred yoghurt",
     "the groove closes slowly, a spoonful mounds for a moment"},
    {Texture::soft, "a soft gel that trembles and keeps a spoon groove",
     "a groove 2 mm deep stands"},
    {Texture::firm, "a firm gel that stands when turned out",
     "stays in a cup turned over for 10 s"},
    {Texture::hard, "a hard gel that cracks under the spoon", "cracks under the spoon"},
};

}  // namespace

double syringe_ml_left(double lg_thickness_mpa_s) {
  if (lg_thickness_mpa_s <= lg(syringe_table[0].mpa_s)) return syringe_table[0].ml_left;
  for (std::size_t i = 1; i < std::size(syringe_table); ++i) {
    const double high = lg(syringe_table[i].mpa_s);
    if (lg_thickness_mpa_s > high) continue;
    const double low = lg(syringe_table[i - 1].mpa_s);
    const double part = (lg_thickness_mpa_s - low) / (high - low);
    return syringe_table[i - 1].ml_left +
           part * (syringe_table[i].ml_left - syringe_table[i - 1].ml_left);
  }
  return std::end(syringe_table)[-1].ml_left;
}

double lg_thickness_of_syringe(double ml_left) {
  const double ml = std::clamp(ml_left, empty_ml, highest_ml);
  std::size_t i = 1;
  while (syringe_table[i].ml_left < ml) ++i;
  const double part = (ml - syringe_table[i - 1].ml_left) /
                      (syringe_table[i].ml_left - syringe_table[i - 1].ml_left);
  const double low = lg(syringe_table[i - 1].mpa_s);
  return low + part * (lg(syringe_table[i].mpa_s) - low);
}

double cup_holds_from_pa(double cup_width_cm, double density_g_per_ml) {
  const double radius_m = cup_width_cm / 200;
  return 1000 * density_g_per_ml * kitchen("gel.kitchen.gravity") * radius_m / 2;
}

double groove_stands_from_pa() {
  return kitchen("gel.kitchen.groove_pa");
}

std::span<const Datum> gel_kitchen_data() {
  return detail::kitchen_table;
}

std::span<const Words> words() {
  return word_table;
}

Likelihood likelihood(const CupReading& reading, const Expected& expected, ExtraSd extra_sd) {
  Likelihood out;
  if (reading.syringe_ml_left) {
    out.syringe =
        syringe_chance(*reading.syringe_ml_left, expected.lg_thickness_mpa_s, extra_sd.thickness);
    ++out.readings;
  }
  if (reading.holds_when_turned) {
    out.cup = yield_chance(*reading.holds_when_turned,
                           cup_holds_from_pa(reading.cup_width_cm, reading.density_g_per_ml),
                           expected.lg_yield_pa, extra_sd.yield);
    ++out.readings;
  }
  if (reading.groove_stands) {
    out.groove = yield_chance(*reading.groove_stands, groove_stands_from_pa(), expected.lg_yield_pa,
                              extra_sd.yield);
    ++out.readings;
  }
  if (reading.lumps_lifted_out) {
    out.lumps = *reading.lumps_lifted_out ? expected.lumps : 1 - expected.lumps;
    ++out.readings;
  }
  if (reading.ring_of_liquid) {
    out.ring = *reading.ring_of_liquid ? expected.weeps : 1 - expected.weeps;
    ++out.readings;
  }
  return out;
}

}  // namespace gelwright::gel
