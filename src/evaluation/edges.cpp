#include "evaluation/edges.hpp"

#include "evaluation/turning.hpp"

namespace gelwright::detail {

namespace {

struct NamedDefect {
  std::string_view name;
  double gel::Defects::*chance;
};
constexpr NamedDefect defects[] = {{"lumps", &gel::Defects::lumps},
                                   {"weeps", &gel::Defects::weeps},
                                   {"specks", &gel::Defects::specks},
                                   {"brittle", &gel::Defects::brittle},
                                   {"grit", &gel::Defects::grit}};
/// A defect is there once it is likelier than not.
constexpr double likely = 0.5;

/// What differs across an edge: the likeliest texture, else a defect that has become likely.
std::optional<Edge> crossed(const gel::Mixture& before, const gel::Mixture& after) {
  const gel::Texture now = gel::likeliest(after.chances);
  if (now != gel::likeliest(before.chances))
    return Edge{{}, gel::to_text(now), before.chances[now], after.chances[now]};
  for (const NamedDefect& each : defects)
    if (before.defects.*each.chance < likely && after.defects.*each.chance >= likely)
      return Edge{{}, each.name, before.defects.*each.chance, after.defects.*each.chance};
  return std::nullopt;
}

/// What of the gel alone an edge needs.
EvaluateParts edge_parts(bool in_full) {
  return {.batch = false, .flags = false, .gel = {.stomach = false, .bands = in_full}};
}

}  // namespace

std::vector<Edge> edges_of(const Inputs& inputs, const Evaluation& evaluation) {
  std::vector<Edge> edges;
  if (!evaluation.gel.made || !evaluation.gel.any_gum()) return edges;
  const gel::Mixture whole = evaluation.gel.all;
  const gel::Mixture middle =
      evaluation.gel.band ? evaluate(inputs, edge_parts(false)).gel.all : whole;
  const auto beyond = [&](const Change& tried, bool in_full) {
    const GelForecast changed = evaluate(turned(inputs, tried), edge_parts(in_full)).gel;
    return changed.made ? crossed(in_full ? whole : middle, changed.all) : std::nullopt;
  };
  std::vector<KnobOf> knobs = {
      {Knob::acid_g}, {Knob::water_g}, {Knob::calcium_salt_g}, {Knob::tap_calcium_mg_per_l}};
  for (std::size_t i = 0; i < inputs.solids.size(); ++i)
    if (inputs.recipe->ingredients[inputs.solids[i].ingredient].kind == Kind::gum)
      knobs.push_back({Knob::mass_g, i});
  // Where the middle of a band and all of it disagree, the edge is looked for in full.
  const bool same = gel::likeliest(whole.chances) == gel::likeliest(middle.chances);
  for (const KnobOf& knob : knobs)
    for (const double direction : {-1.0, 1.0})
      for (const bool in_full : {false, true}) {
        if (!in_full && !same) continue;
        const auto change =
            smallest(knob, direction, inputs, evaluation.formula, false,
                     [&](const Change& tried) { return beyond(tried, in_full).has_value(); });
        if (!change) break;
        std::optional<Edge> edge = beyond(*change, true);
        if (!edge) continue;
        edge->change = *change;
        edges.push_back(*edge);
        break;
      }
  return edges;
}

}  // namespace gelwright::detail
