// Will it set: the gel forecast on the sheet.
#include <fmt/format.h>

#include <cmath>

#include "gelwright/gel_kitchen.hpp"
#include "gelwright/nozzle.hpp"
#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

/// Chances below this are not worth a word on paper; JSON has them all.
constexpr double least_chance = 0.05;
/// Stiffness below this is none, log10 Pa.
constexpr double least_lg_pa = -2;

struct KeyOf {
  gel::Texture texture;
  std::string_view key;
};
constexpr KeyOf texture_keys[] = {
    {gel::Texture::pours, "pours"}, {gel::Texture::thick, "thick"},
    {gel::Texture::bits, "bits"},   {gel::Texture::flowing, "flowing"},
    {gel::Texture::soft, "soft"},   {gel::Texture::firm, "firm"},
    {gel::Texture::hard, "hard"},
};

struct DefectOf {
  std::string_view key;
  std::string_view words;
  double gel::Defects::*chance;
};
constexpr DefectOf defects[] = {
    {"lumps", "lumps", &gel::Defects::lumps}, {"specks", "specks", &gel::Defects::specks},
    {"weeps", "weeps", &gel::Defects::weeps}, {"brittle", "cracks easily", &gel::Defects::brittle},
    {"grit", "gritty", &gel::Defects::grit},
};

std::string why_not(const GelForecast& gel) {
  if (!gel.any_gum()) return "no gum that is known of";
  return gel.made ? "" : "outside the range of the gel model";
}

/// Fills in a figure that only scripts read.
struct JsonOnly {
  Section& section;
  const GelForecast& gel;

  void operator()(std::string key, Cell cell) const {
    const std::string why = why_not(gel);
    section.figures.push_back({std::move(key), "", why.empty() ? std::move(cell) : Cell(), "", why,
                               "", Shown::json_only});
  }
};

void add_json(Section& section, const GelForecast& gel) {
  const JsonOnly add{section, gel};
  const gel::Mixture& all = gel.all;
  for (const KeyOf& each : texture_keys)
    add(fmt::format("pouch.chances.{}", each.key), Cell(all.chances[each.texture], 3));
  for (const DefectOf& each : defects)
    add(fmt::format("pouch.defects.{}", each.key), Cell(all.defects.*each.chance, 3));
  const auto add_doubtful = [&add](const std::string& key, const gel::MeanSd& number) {
    add(key + ".mean", Cell(number.mean, 2));
    add(key + ".sd", Cell(number.sd, 2));
  };
  add_doubtful("pouch.log10_modulus_pa", all.lg_modulus);
  add_doubtful("pouch.log10_viscosity_mpa_s", all.lg_viscosity);
  add("pouch.likeliest", gel::to_text(gel.likeliest()));
  add("pouch.grade", std::string(1, static_cast<char>(gel.grade)));
  add("pouch.your_cups",
      Cell(gel.learned == nullptr ? 0.0 : static_cast<double>(gel.learned->cups), 0));
  add("stomach.one_gel", Cell(all.stomach.one_gel, 3));
  add("stomach.pieces", Cell(all.stomach.pieces, 3));
  add("stomach.grade", std::string(1, static_cast<char>(gel.grade)));
}

/// Never "0 %" or "100 %", which nobody can promise.
std::string percent(double chance) {
  const double rounded = std::round(100 * chance);
  if (rounded < 1) return "under 1 %";
  if (rounded > 99) return "over 99 %";
  return fmt::format("{:.0f} %", rounded);
}

std::string what_is(gel::Texture texture) {
  for (const gel::Words& each : gel::words())
    if (each.texture == texture) return std::string(each.what);
  return "";
}

/// What the words mean, and all that goes with them.
std::vector<std::string> notes_of(const GelForecast& gel) {
  std::vector<std::string> notes;
  const gel::Chances& chances = gel.all.chances;
  const gel::Texture first = gel.likeliest();
  notes.push_back(fmt::format("{}: {}.", gel::to_text(first), what_is(first)));
  if (names_two(chances)) {
    const gel::Texture other = gel::second(chances);
    notes.push_back(fmt::format("{}: {}.", gel::to_text(other), what_is(other)));
  }
  if (gel.learned != nullptr)
    notes.push_back(fmt::format("Counted with your {}", seen_in_cups(*gel.learned)));
  std::string may;
  for (const DefectOf& each : defects)
    if (gel.all.defects.*each.chance >= least_chance)
      may += fmt::format("{}{} {}", may.empty() ? "" : ", ", each.words,
                         percent(gel.all.defects.*each.chance));
  if (!may.empty()) notes.push_back(fmt::format("May also: {}.", may));
  if (gel.band)
    notes.push_back(fmt::format(
        "Counted over all the gum the mix may hold: with the least {}; with the most {}.",
        words_of(gel.band->low.chances), words_of(gel.band->high.chances)));
  for (const GelForecast::ByGum& each : gel.by_gum)
    notes.push_back(fmt::format("If its gum is {}: {}.", each.gums, words_of(each.all.chances)));
  const double ml_left = gel::syringe_ml_left(gel.all.lg_thickness.mean);
  notes.push_back(
      fmt::format("Through a nozzle: {}; about as thick as {} mPa.s; a 10 mL syringe left to run "
                  "for 10 s keeps "
                  "{} mL.",
                  through_a_nozzle(gel), significant(std::pow(10.0, gel.all.lg_thickness.mean), 2),
                  fixed(ml_left, 1)));
  notes.emplace_back(
      "In the stomach: mixed with as much acid stomach fluid for an hour, by the model. Pieces or "
      "skins: gel where the acid reaches the gum, or what was gel already; one even gel: the whole "
      "mixture sets.");
  const EatenRange eaten = eaten_range();
  for (const auto& [where, temp_c] : {std::pair{"On a cold hill", eaten.hill_c},
                                      std::pair{"Out of a warm pocket", eaten.pocket_c}}) {
    const gel::Chances there = chances_eaten_at(temp_c, gel);
    if (gel::likeliest(there) != gel::likeliest(gel.outlook.chances))
      notes.push_back(fmt::format("{} ({:.0f} degC): {}.", where, temp_c, words_of(there)));
  }
  if (gel.grade == Grade::c)
    notes.emplace_back("Grade C rests on judgement: test it on the bench first.");
  return notes;
}

Table routes_of(const GelForecast& gel) {
  Table table{"pouch.routes",
              {{"route", "sets by"},
               {"log10_modulus_pa", "", true, Shown::json_only},
               {"modulus_pa", "stiffness alone, Pa", false, Shown::text_only}}};
  for (std::size_t r = 0; r < gel::route_count; ++r) {
    if (!gel.made || !gel.outlook.centre.has_gum[r]) continue;
    const double lg_pa = gel.outlook.centre.route_lg_pa[r];
    table.rows.push_back({gel::to_text(static_cast<gel::Route>(r)), Cell(lg_pa, 2),
                          lg_pa < least_lg_pa ? "none" : significant(std::pow(10.0, lg_pa), 2)});
  }
  return table;
}

/// What to expect of each thing the gum may be.
Table by_gum(const GelForecast& gel) {
  Table table{
      "pouch.by_gum",
      {{"gums", ""}, {"likeliest", ""}, {"chance", "", true}, {"pieces_in_stomach", "", true}},
      {},
      Shown::json_only};
  for (const GelForecast::ByGum& each : gel.by_gum) {
    const gel::Texture first = gel::likeliest(each.all.chances);
    table.rows.push_back({each.gums, gel::to_text(first), Cell(each.all.chances[first], 3),
                          Cell(each.all.stomach.pieces, 3)});
  }
  return table;
}

}  // namespace

Section detail::set_section(const Inputs& inputs, const Evaluation& evaluation) {
  const GelForecast& gel = evaluation.gel;
  const bool pouch = inputs.recipe->form == Form::pouch;
  Section section{"set", "WILL IT SET", {}, {}, {}};
  const std::string why = why_not(gel);
  const std::string grade(1, static_cast<char>(gel.grade));
  section.figures.push_back({"pouch.words", pouch ? "In the pouch" : "In the bottle",
                             why.empty() ? Cell(words_of(gel.all.chances)) : Cell(), "", why,
                             why.empty() ? fmt::format("(grade {})", grade) : "",
                             Shown::text_only});
  section.figures.push_back(
      {"stomach.words", "In the stomach",
       why.empty()
           ? Cell(fmt::format("gel in pieces or skins {}, one even gel {}",
                              percent(gel.all.stomach.pieces), percent(gel.all.stomach.one_gel)))
           : Cell(),
       "", why, why.empty() ? fmt::format("(grade {})", grade) : "", Shown::text_only});
  add_json(section, gel);
  section.tables.push_back(routes_of(gel));
  section.tables.push_back(by_gum(gel));
  if (why.empty())
    section.lines.push_back({"notes", notes_of(gel), Lines::Style::bullets, Shown::text_only});
  return section;
}

Section detail::edges_section(const Inputs& inputs, const Evaluation& evaluation,
                              const Advice& advice) {
  Section section{"edges", "HOW NEAR THE EDGE", {}, {}, {}};
  Table table{"edges",
              {{"knob", ""},
               {"change", "", true},
               {"unit", ""},
               {"per", ""},
               {"then", ""},
               {"chance_before", "", true},
               {"chance_after", "", true}},
              {},
              Shown::json_only};
  Lines lines{"text", {}, Lines::Style::bullets, Shown::text_only};
  for (const Edge& edge : advice.edges) {
    table.rows.push_back({name_of(edge.change.which(), *inputs.recipe), Cell(edge.change.amount, 4),
                          info_of(edge.change.knob).unit, "serving", edge.then,
                          Cell(edge.chance_before, 3), Cell(edge.chance_after, 3)});
    lines.items.push_back(fmt::format(
        "{}: {}, {} instead of {}.", change_words(edge.change, inputs, evaluation.batch), edge.then,
        percent(edge.chance_after), percent(edge.chance_before)));
  }
  if (lines.items.empty())
    lines.items.emplace_back(evaluation.gel.made && evaluation.gel.any_gum()
                                 ? "No edge within reach of acid, water, gum or calcium."
                                 : "Nothing is forecast.");
  section.tables.push_back(std::move(table));
  section.lines.push_back(std::move(lines));
  return section;
}

std::string detail::seen_in_cups(const Learned& learned) {
  std::string text =
      fmt::format("{} cup{} of {}", learned.cups, learned.cups == 1 ? "" : "s", learned.mix);
  for (std::size_t i = 0; i < learned.seen.size(); ++i)
    text += (i == 0 ? ": " : ", ") + learned.seen[i];
  return text + '.';
}

}  // namespace gelwright
