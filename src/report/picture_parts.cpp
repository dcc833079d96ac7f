#include "report/picture_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gelwright::detail {

Lines no_picture(const std::string& reason) {
  return {"left_out", {fmt::format("No picture: {}.", reason)}};
}

void insert_behind(Report& report, std::string_view key, Section section) {
  auto at = std::find_if(report.sections.begin(), report.sections.end(),
                         [key](const Section& each) { return each.key == key; });
  if (at != report.sections.end()) ++at;
  report.sections.insert(at, std::move(section));
}

std::vector<std::string> texture_names() {
  std::vector<std::string> names;
  for (std::size_t t = 0; t < gel::texture_count; ++t)
    names.emplace_back(gel::to_text(static_cast<gel::Texture>(t)));
  return names;
}

PictureKind kind_of(gel::Texture texture) {
  return static_cast<PictureKind>(texture);
}

std::optional<Strip> texture_strip(const AcidCurve& curve, double per_g) {
  Strip strip{
      "texture", "likeliest texture: the stronger the colour, the surer", texture_names(), {}};
  const std::vector<AcidPoint>& points = curve.points;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (!points[i].textures) continue;
    // Each point stands for what lies nearer to it than to its neighbours.
    const double here = points[i].acid_g;
    const double from = i == 0 ? here : (points[i - 1].acid_g + here) / 2;
    const double to = i + 1 == points.size() ? here : (points[i + 1].acid_g + here) / 2;
    const gel::Texture first = gel::likeliest(*points[i].textures);
    const double chance = (*points[i].textures)[first];
    const bool goes_on = !strip.pieces.empty() && strip.pieces.back().kind == kind_of(first) &&
                         picture_strength(strip.pieces.back().chance) == picture_strength(chance) &&
                         strip.pieces.back().to == from * per_g;
    if (goes_on)
      strip.pieces.back().to = to * per_g;
    else
      strip.pieces.push_back({from * per_g, to * per_g, kind_of(first), chance});
  }
  if (strip.pieces.empty()) return std::nullopt;
  return strip;
}

Axis ph_axis(const std::vector<double>& all) {
  const auto [low, high] = std::minmax_element(all.begin(), all.end());
  return {"pH", "", std::floor(*low - 0.1), std::ceil(*high + 0.1)};
}

Curve ph_curve(std::string key, std::string label, const AcidCurve& curve, double per_g) {
  Curve line{std::move(key), std::move(label), {}, {}};
  for (const AcidPoint& point : curve.points) {
    line.x.push_back(point.acid_g * per_g);
    line.y.push_back(point.ph);
  }
  return line;
}

Band ph_band(const AcidCurve& curve, double per_g) {
  Band band{"ph_doubt", "where the pH may be, 95 in 100", {}, {}, {}};
  for (const AcidPoint& point : curve.points) {
    band.x.push_back(point.acid_g * per_g);
    band.low.push_back(point.ph_low);
    band.high.push_back(point.ph_high);
  }
  return band;
}

Points cup_points(const Bench& bench, double per_g) {
  Points points{"cups", "your cups, as read", {}, {}, {}, {}};
  for (const BenchCup& cup : bench.cups) {
    const std::optional<double> acid_g = cup.input("acid_g");
    if (!acid_g || !cup.ph) continue;
    points.x.push_back(*acid_g * per_g);
    points.y.push_back(*cup.ph);
    points.names.push_back(cup.name);
  }
  return points;
}

std::string wanted_ph(const Window& window) {
  if (window.low && window.high) return fmt::format("pH {:g} to {:g}", *window.low, *window.high);
  return window.low ? fmt::format("pH {:g} or more", *window.low)
                    : fmt::format("pH {:g} or less", *window.high);
}

Axis dose_axis(const std::string& ingredient, double most_g) {
  return {ingredient + " in this batch", "g", 0, most_g};
}

}  // namespace gelwright::detail
