#include "gelwright/sheet_pictures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "gelwright/texture_map.hpp"
#include "report/picture_parts.hpp"
#include "report/sheet_parts.hpp"
#include "serving/ph_error.hpp"

namespace gelwright {

namespace {

constexpr SheetPictureInfo infos[] = {{SheetPicture::acid_curve, "acid_curve"},
                                      {SheetPicture::texture_map, "texture_map"},
                                      {SheetPicture::gum_map, "gum_map"},
                                      {SheetPicture::price, "price_picture"}};

std::string in_hundred(double chance) {
  return fmt::format("{} in 100", fixed(100 * chance, 0));
}

/// A section that is one picture, and its sentence for formats that cannot show it.
Section section_of(std::string_view key, std::string title, Picture picture) {
  Section section{std::string(key), std::move(title), {}, {}, {}};
  section.in_full_only = true;
  section.lines.push_back(
      {"sentence", {picture.sentence}, Lines::Style::paragraph, Shown::text_only});
  picture.key = key;
  section.pictures.push_back(std::move(picture));
  return section;
}

Section left_out(std::string_view key, std::string title, const std::string& reason) {
  Section section{std::string(key), std::move(title), {}, {}, {}};
  section.in_full_only = true;
  section.lines.push_back(no_picture(reason));
  return section;
}

/// What the recipe's limits and target want of the pH.
std::optional<Window> wanted(const Recipe& recipe) {
  Window window{"wanted", "", recipe.limits.ph.at_least, recipe.limits.ph.at_most};
  if (!recipe.limits.ph.any()) return std::nullopt;
  window.label = "wanted: " + wanted_ph(window);
  return window;
}

/// The dose as the scale gives it, and how far that may be off, in the batch.
Points dose_point(const Evaluation& evaluation, double dose_g) {
  double half_g = 0;
  for (const BatchLine& line : evaluation.batch.lines)
    if (line.role == LineRole::acid && line.scale) half_g = dose_g * line.error_percent / 100;
  Points point{"dose", "today's dose", {dose_g}, {evaluation.water_phase.ph}, {"today"}, {}};
  if (half_g > 0) {
    point.label += ", with the error of the scale";
    point.x_half = {half_g};
  }
  return point;
}

std::string textures_in_words(const Strip& strip) {
  std::string text;
  for (std::size_t i = 0; i < strip.pieces.size();) {
    std::size_t end = i;
    while (end < strip.pieces.size() && strip.pieces[end].kind == strip.pieces[i].kind) ++end;
    text += fmt::format("{}{} from {} to {} g", text.empty() ? "" : ", then ",
                        strip.kinds[strip.pieces[i].kind], significant(strip.pieces[i].from, 3),
                        significant(strip.pieces[end - 1].to, 3));
    i = end;
  }
  return text;
}

Section acid_curve_section(std::string_view key, const Inputs& inputs, const Evaluation& evaluation,
                           const Bench* cups) {
  const Recipe& recipe = *inputs.recipe;
  const std::string title = "MORE OR LESS ACID";
  const double per_g = evaluation.batch.factor;
  AcidCurveOptions options;
  if (cups != nullptr)
    for (const double g : cup_points(*cups, 1).x)
      options.reach_g = std::max(options.reach_g, 1.05 * g);
  const std::optional<AcidCurve> curve = acid_curve(inputs, options);
  if (!curve) return left_out(key, title, "the recipe has no acid");
  const std::string& name = recipe.ingredients[curve->ingredient].name;
  Picture picture;
  picture.title = fmt::format("pH and texture against {}", name);
  picture.x = dose_axis(name, curve->points.back().acid_g * per_g);
  picture.curves = {ph_curve("ph", "pH, worked out", *curve, per_g)};
  picture.bands = {ph_band(*curve, per_g)};
  picture.points = {dose_point(evaluation, curve->dose_g * per_g)};
  if (const auto read = usable_reading(recipe))
    picture.points.push_back(
        {"read", "read on this batch", {curve->dose_g * per_g}, {read->ph}, {"read"}, {}});
  if (cups != nullptr && !cup_points(*cups, per_g).x.empty())
    picture.points.push_back(cup_points(*cups, per_g));
  if (const auto window = wanted(recipe)) picture.windows = {*window};
  picture.strip = texture_strip(*curve, per_g);
  std::vector<double> all = picture.bands[0].low;
  all.insert(all.end(), picture.bands[0].high.begin(), picture.bands[0].high.end());
  for (const Points& points : picture.points)
    all.insert(all.end(), points.y.begin(), points.y.end());
  picture.y = ph_axis(all);
  const AcidPoint& none = curve->points.front();
  const AcidPoint& most = curve->points.back();
  picture.sentence = fmt::format(
      "With {} from none to {} g in this batch the pH goes from {} to {}; at today's {} g it is "
      "{}, "
      "between {} and {}.",
      name, significant(most.acid_g * per_g, 3), fixed(none.ph, 1), fixed(most.ph, 1),
      significant(curve->dose_g * per_g, 3), fixed(evaluation.water_phase.ph, 1),
      fixed(evaluation.ph_band.low, 1), fixed(evaluation.ph_band.high, 1));
  if (picture.strip)
    picture.sentence += fmt::format(" Likeliest texture: {}.", textures_in_words(*picture.strip));
  else
    picture.sentence += " No gum that is known of, so no texture is foretold.";
  return section_of(key, title, std::move(picture));
}

/// Where a map's axis stands and what it counts: doses in the batch, minerals in the water.
struct Side {
  Axis axis;
  double per_unit = 1;
};

Side side_of(const MapAxis& axis, const Inputs& inputs, const Batch& batch) {
  const Recipe& recipe = *inputs.recipe;
  const KnobInfo& info = info_of(axis.knob.knob);
  Side side;
  side.per_unit = info.per_serving ? batch.factor : 1;
  std::string label(info.label);
  if (axis.knob.knob == Knob::acid_g) label = recipe.ingredients[inputs.acid->line.ingredient].name;
  if (axis.knob.knob == Knob::calcium_salt_g)
    label = recipe.ingredients[inputs.calcium->line.ingredient].name;
  if (axis.knob.knob == Knob::mass_g)
    label = recipe.ingredients[inputs.solids[axis.knob.solid].ingredient].name;
  if (info.per_serving) label += " in this batch";
  side.axis = {label, std::string(info.unit), axis.low * side.per_unit, axis.high * side.per_unit};
  return side;
}

Regions regions_of(const TextureMap& map) {
  Regions regions{"texture", "likeliest texture", texture_names(), map.columns, map.rows, {}, {}};
  for (const MapCell& cell : map.cells) {
    regions.kind.push_back(cell.texture ? kind_of(*cell.texture) : no_kind);
    regions.chance.push_back(cell.chance);
  }
  return regions;
}

bool same(const KnobOf& a, const KnobOf& b) {
  return a.knob == b.knob && (a.knob != Knob::mass_g || a.solid == b.solid);
}

/// Edges that lie straight across or straight up from the recipe.
Points edges_on(const TextureMap& map, const Side& x, const Side& y, const Advice& advice) {
  Points points{"edges", "nearest edges: another texture or a defect", {}, {}, {}, {}};
  for (const Edge& edge : advice.edges) {
    const bool across = same(edge.change.which(), map.x.knob);
    if (!across && !same(edge.change.which(), map.y.knob)) continue;
    points.x.push_back((map.x.here + (across ? edge.change.amount : 0)) * x.per_unit);
    points.y.push_back((map.y.here + (across ? 0 : edge.change.amount)) * y.per_unit);
    points.names.emplace_back(edge.then);
  }
  return points;
}

/// Cups in which one side at least was varied.
Points cups_on(const TextureMap& map, const Side& x, const Side& y, const Bench& bench,
               const Recipe& recipe) {
  Points points{"cups", "your cups", {}, {}, {}, {}};
  for (const BenchCup& cup : bench.cups) {
    const auto across = cup.input(name_of(map.x.knob, recipe));
    const auto up = cup.input(name_of(map.y.knob, recipe));
    if (!across && !up) continue;
    points.x.push_back(across.value_or(map.x.here) * x.per_unit);
    points.y.push_back(up.value_or(map.y.here) * y.per_unit);
    points.names.push_back(cup.name);
  }
  return points;
}

std::string map_sentence(const TextureMap& map, const Picture& picture,
                         const Evaluation& evaluation) {
  std::string text =
      fmt::format("Likeliest texture over {} and {}. ", picture.x.label, picture.y.label);
  if (evaluation.gel.made && evaluation.gel.any_gum()) {
    const gel::Texture here = evaluation.gel.likeliest();
    text += fmt::format("This recipe: {}, {}. ", gel::to_text(here),
                        in_hundred(evaluation.gel.chance(here)));
  }
  std::size_t known = 0;
  std::vector<std::size_t> count(gel::texture_count, 0);
  for (const MapCell& cell : map.cells)
    if (cell.texture) {
      ++count[static_cast<std::size_t>(*cell.texture)];
      ++known;
    }
  text += "Of the map ";
  bool first = true;
  for (std::size_t t = 0; t < gel::texture_count; ++t) {
    if (count[t] == 0) continue;
    text += fmt::format(
        "{}{} takes {} %", first ? "" : ", ", gel::to_text(static_cast<gel::Texture>(t)),
        fixed(100.0 * static_cast<double>(count[t]) / static_cast<double>(known), 0));
    first = false;
  }
  return text + '.';
}

Section map_section(std::string_view key, MapOf of, const Inputs& inputs,
                    const Evaluation& evaluation, const Advice& advice, const Bench* cups) {
  const std::string title =
      of == MapOf::water_and_acid ? "MORE OR LESS WATER AND ACID" : "MORE OR LESS CALCIUM AND GUM";
  const MapOrReason found = texture_map(inputs, of);
  if (!found.map) return left_out(key, title, found.reason);
  const TextureMap& map = *found.map;
  const Side x = side_of(map.x, inputs, evaluation.batch);
  const Side y = side_of(map.y, inputs, evaluation.batch);
  Picture picture;
  picture.title =
      of == MapOf::water_and_acid ? "Texture over water and acid" : "Texture over calcium and gum";
  picture.x = x.axis;
  picture.y = y.axis;
  picture.regions = regions_of(map);
  picture.points = {{"recipe",
                     "this recipe",
                     {map.x.here * x.per_unit},
                     {map.y.here * y.per_unit},
                     {"this recipe"},
                     {}}};
  Points edges = edges_on(map, x, y, advice);
  if (!edges.x.empty()) picture.points.push_back(std::move(edges));
  if (cups != nullptr) {
    Points own = cups_on(map, x, y, *cups, *inputs.recipe);
    if (!own.x.empty()) picture.points.push_back(std::move(own));
  }
  picture.sentence = map_sentence(map, picture, evaluation);
  return section_of(key, title, std::move(picture));
}

Section price_section(std::string_view key, const Inputs& inputs, const Evaluation& evaluation) {
  const std::string title = "60 g OF CARBOHYDRATE, ITS COST";
  const Recipe& recipe = *inputs.recipe;
  if (!evaluation.cost) return left_out(key, title, "the recipe has no prices");
  const Cost& cost = *evaluation.cost;
  if (!cost.complete()) return left_out(key, title, "not everything in the recipe has a price");
  const auto row = [&recipe](const std::string& label, double amount) {
    return Bars::Row{label, amount, fmt::format("{} {}", fixed(amount, 2), recipe.currency)};
  };
  Picture picture;
  picture.title = "Cost of 60 g of carbohydrate";
  picture.bars = Bars{"cost", {row(recipe.name, 60 * cost.per_g_carbohydrate)}};
  if (cost.alternative_per_g_carbohydrate)
    picture.bars->rows.push_back(
        row(recipe.compare_with->name, 60 * *cost.alternative_per_g_carbohydrate));
  picture.sentence = "60 g of carbohydrate cost";
  for (std::size_t i = 0; i < picture.bars->rows.size(); ++i)
    picture.sentence += fmt::format("{} {} as {}", i == 0 ? "" : ",", picture.bars->rows[i].words,
                                    picture.bars->rows[i].label);
  picture.sentence += '.';
  return section_of(key, title, std::move(picture));
}

}  // namespace

std::span<const SheetPictureInfo> sheet_pictures() {
  return infos;
}

Section picture_section(SheetPicture which, const Inputs& inputs, const Evaluation& evaluation,
                        const Advice& advice, const Bench* cups) {
  const std::string_view key = infos[static_cast<std::size_t>(which)].key;
  switch (which) {
    case SheetPicture::acid_curve:
      return acid_curve_section(key, inputs, evaluation, cups);
    case SheetPicture::texture_map:
      return map_section(key, MapOf::water_and_acid, inputs, evaluation, advice, cups);
    case SheetPicture::gum_map:
      return map_section(key, MapOf::calcium_and_gum, inputs, evaluation, advice, cups);
    case SheetPicture::price:
      return price_section(key, inputs, evaluation);
  }
  return {};
}

}  // namespace gelwright
