// Pictures of a fit: the acid curve before and after it, and readings against what was predicted.
#include <fmt/format.h>

#include <algorithm>

#include "gelwright/batch.hpp"
#include "gelwright/fit_report.hpp"
#include "report/picture_parts.hpp"
#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

Section section_of(std::string key, std::string title, Picture picture) {
  Section section{key, std::move(title), {}, {}, {}};
  section.lines.push_back(
      {"sentence", {picture.sentence}, Lines::Style::paragraph, Shown::page_only});
  picture.key = std::move(key);
  section.pictures.push_back(std::move(picture));
  return section;
}

std::optional<Section> curves_section(const Recipe& recipe, const Bench& bench,
                                      const BenchFit& fit) {
  AcidCurveOptions options;
  for (const double g : cup_points(bench, 1).x) options.reach_g = std::max(options.reach_g, g);
  if (fit.dose && fit.dose->dosed.reached)
    options.reach_g = std::max(options.reach_g, fit.dose->dosed.amount);
  options.reach_g *= 1.1;
  options.textures = false;
  const Inputs before_inputs = inputs_of(recipe);
  const std::optional<AcidCurve> before = acid_curve(before_inputs, options);
  if (!before) return std::nullopt;
  const Recipe learnt = calibrated(recipe, fit);
  options.textures = true;
  const std::optional<AcidCurve> after = acid_curve(inputs_of(learnt), options);
  const double per_g = batch_factor(before_inputs);
  const std::string& name = recipe.ingredients[before->ingredient].name;
  Picture picture;
  picture.title = fmt::format("pH against {}, before and after the fit", name);
  picture.x = dose_axis(name, after->points.back().acid_g * per_g);
  picture.curves = {ph_curve("after", "after the fit", *after, per_g),
                    ph_curve("before", "before the fit", *before, per_g)};
  picture.bands = {ph_band(*after, per_g)};
  Points cups = cup_points(bench, per_g);
  const std::size_t read = cups.x.size();
  if (read > 0) picture.points.push_back(std::move(cups));
  if (fit.dose && fit.dose->dosed.reached) {
    Points next{
        "dose", "the next dose", {fit.dose->dosed.amount * per_g}, {fit.dose->target_ph}, {"next"},
        {}};
    if (fit.dose->half_width_g) {
      next.label += ", 95 in 100 of what the readings allow";
      next.x_half = {*fit.dose->half_width_g * per_g};
    }
    picture.points.push_back(std::move(next));
  }
  picture.strip = texture_strip(*after, per_g);
  std::vector<double> all = picture.bands[0].low;
  for (const auto* more : {&picture.bands[0].high, &picture.curves[1].y})
    all.insert(all.end(), more->begin(), more->end());
  for (const Points& points : picture.points)
    all.insert(all.end(), points.y.begin(), points.y.end());
  picture.y = ph_axis(all);
  picture.sentence = fmt::format(
      "With {} from none to {} g in this batch the pH goes from {} to {} by what the recipe "
      "declares, and from {} to {} with the buffer found; {} cup{} read.",
      name, significant(picture.x.high, 3), fixed(before->points.front().ph, 1),
      fixed(before->points.back().ph, 1), fixed(after->points.front().ph, 1),
      fixed(after->points.back().ph, 1), read, read == 1 ? " was" : "s were");
  return section_of("acid_curve", "THE ACID CURVE", std::move(picture));
}

Section predictions_section(const Bench& bench, const BenchFit& fit) {
  Points declared{"declared", "by what the recipe declares", {}, {}, {}, {}};
  Points fitted{"fitted", "with the buffer found", {}, {}, {}, {}};
  std::vector<double> all;
  for (const FittedReading& each : fit.readings) {
    declared.x.push_back(each.declared_ph);
    declared.y.push_back(each.read_ph);
    fitted.x.push_back(each.fitted_ph);
    fitted.y.push_back(each.read_ph);
    fitted.names.push_back(bench.cups[each.cup].name);
    all.insert(all.end(), {each.declared_ph, each.fitted_ph, each.read_ph});
  }
  const Axis axis = ph_axis(all);
  constexpr double of_95_in_100 = 1.96;
  const double half = of_95_in_100 * fit.scatter_sd;
  Picture picture;
  picture.title = "pH read against pH predicted";
  picture.x = {"pH predicted", "", axis.low, axis.high};
  picture.y = {"pH read", "", axis.low, axis.high};
  picture.bands = {{"scatter",
                    "as far as readings scatter, 95 in 100",
                    {axis.low + half, axis.high - half},
                    {axis.low, axis.high - 2 * half},
                    {axis.low + 2 * half, axis.high}}};
  picture.curves = {{"same", "read as predicted", {axis.low, axis.high}, {axis.low, axis.high}}};
  picture.points = {std::move(fitted), std::move(declared)};
  picture.sentence = fmt::format(
      "{} readings of pH against what was predicted: off by {} by what the recipe declares, by {} "
      "with the buffer found (root mean square).",
      fit.readings.size(), fixed(fit.declared_rms_ph, 2), fixed(fit.fitted_rms_ph, 2));
  return section_of("predictions", "READ AGAINST PREDICTED", std::move(picture));
}

}  // namespace

void add_fit_pictures(Report& report, const Recipe& recipe, const Bench& bench,
                      const BenchFit& fit) {
  if (auto curves = curves_section(recipe, bench, fit))
    report.sections.push_back(std::move(*curves));
  if (!fit.readings.empty()) report.sections.push_back(predictions_section(bench, fit));
}

}  // namespace gelwright
