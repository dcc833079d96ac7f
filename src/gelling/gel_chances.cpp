#include "gelwright/gel_chances.hpp"

#include <algorithm>

#include "gelling/defects.hpp"
#include "gelling/doubt.hpp"
#include "gelling/parameter_table.hpp"
#include "gelling/relevance.hpp"
#include "gelling/textures.hpp"

namespace gelwright::gel {

namespace {

Gel gel_of(const detail::Setup& setup, const detail::Point& point) {
  Gel gel;
  gel.dissolved = point.dissolved;
  gel.route_lg_pa = point.routes.lg_pa;
  gel.has_gum = setup.has_gum;
  gel.lg_calcium_ratio = point.routes.lg_calcium_ratio;
  gel.lg_grain = point.routes.lg_grain;
  gel.lg_grain_amidated = point.routes.lg_grain_amidated;
  gel.lg_ions = point.routes.lg_ions;
  gel.setting_c = point.routes.setting_c;
  gel.lg_modulus_pa = point.sum.lg_modulus_pa;
  gel.sheared_share = point.sum.sheared_share;
  gel.lg_yield_pa = point.sum.lg_yield_pa;
  gel.lg_viscosity_mpa_s = point.lg_viscosity;
  gel.lg_thickness_mpa_s = point.lg_thickness;
  return gel;
}

}  // namespace

Gel gel_at(const State& state, const Values& values) {
  const detail::Setup setup = detail::set_up(state);
  return gel_of(setup, detail::point_at(setup, values));
}

Outlook outlook_of(const State& state, const Values& given, const Learnt* learnt) {
  const detail::Setup setup = detail::set_up(state);
  const Values values = detail::with_shifts(given, learnt);
  const detail::Point centre = detail::point_at(setup, values);
  Outlook out;
  out.centre = gel_of(setup, centre);
  out.doubt = detail::doubt_of(setup, values, centre, learnt);
  out.defects =
      detail::defects_of(setup, values, centre.dissolved, centre.routes, centre.sum.lg_modulus_pa);
  for (const Node& node : out.doubt.nodes) {
    const Chances there = detail::chances_of(node.lg_modulus, node.lg_thickness, node.sheared_share,
                                             out.defects.lumps);
    for (std::size_t t = 0; t < texture_count; ++t)
      out.chances.chance[t] += node.weight * there.chance[t];
  }
  return out;
}

Outlook outlook_of(const State& state, const Learnt* learnt) {
  return outlook_of(state, central_values(), learnt);
}

Defects defects_at(const State& state, const Values& values) {
  const detail::Setup setup = detail::set_up(state);
  const detail::Point point = detail::point_at(setup, values);
  return detail::defects_of(setup, values, point.dissolved, point.routes, point.sum.lg_modulus_pa);
}

Chances chances_at(const State& state, const Values& values) {
  const detail::Setup setup = detail::set_up(state);
  const detail::Point point = detail::point_at(setup, values);
  const Defects defects =
      detail::defects_of(setup, values, point.dissolved, point.routes, point.sum.lg_modulus_pa);
  return detail::chances_of({point.sum.lg_modulus_pa, 0}, {point.lg_thickness, 0},
                            point.sum.sheared_share, defects.lumps);
}

Outlook outlook_at(const State& state, const Values& values) {
  const detail::Setup setup = detail::set_up(state);
  const detail::Point point = detail::point_at(setup, values);
  Outlook out;
  out.centre = gel_of(setup, point);
  out.doubt.lg_modulus.mean = out.centre.lg_modulus_pa;
  out.doubt.lg_viscosity.mean = out.centre.lg_viscosity_mpa_s;
  out.doubt.lg_yield.mean = out.centre.lg_yield_pa;
  out.doubt.lg_thickness.mean = out.centre.lg_thickness_mpa_s;
  for (Node& node : out.doubt.nodes)
    node = {0, out.doubt.lg_modulus, out.doubt.lg_thickness, point.sum.sheared_share};
  out.doubt.nodes.front().weight = 1;
  out.defects =
      detail::defects_of(setup, values, point.dissolved, point.routes, point.sum.lg_modulus_pa);
  out.chances = detail::chances_of(out.doubt.lg_modulus, out.doubt.lg_thickness,
                                   point.sum.sheared_share, out.defects.lumps);
  return out;
}

bool matters(Id id, const State& state) {
  return detail::matters(id, detail::set_up(state));
}

Grade grade_of(const State& state, const Learnt* learnt) {
  const detail::Setup setup = detail::set_up(state);
  Grade weakest = Grade::a;
  for (const Parameter& row : detail::parameter_table) {
    if (learnt != nullptr && row.shift != Shift::none) continue;
    if (detail::matters(row.id, setup)) weakest = std::max(weakest, row.grade);
  }
  return weakest;
}

}  // namespace gelwright::gel
