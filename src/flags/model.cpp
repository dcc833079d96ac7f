// Flags about how far the computed numbers hold.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/rounding.hpp"
#include "flags/record.hpp"
#include "gelwright/elements.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum rows[] = {
    {"flag.sodium-salt", 0.25, "pH", 0, "what an unnamed salt must move to be worth a word",
     "judgement", Standing::judgement},
    {"flag.acid-most", 1, "mol/kg", 0, "food acid in the water phase", "judgement",
     Standing::judgement},
};
constexpr std::array<std::string_view, 2> borrowed = {"davies.less_certain_above",
                                                      "davies.held_above"};
constexpr Threshold sodium_salt_ph = place_of(rows, borrowed, "flag.sodium-salt");
constexpr Threshold acid_most_mol_per_kg = place_of(rows, borrowed, "flag.acid-most");
constexpr Threshold less_certain_mol_per_kg = place_of(rows, borrowed, "davies.less_certain_above");
constexpr Threshold outside_mol_per_kg = place_of(rows, borrowed, "davies.held_above");

bool salt_matters(const Judged& j) {
  const std::vector<SodiumPh>& all = j.serving.ph_band.readings;
  return !j.ph().measured && std::any_of(all.begin(), all.end(), [&j](const SodiumPh& each) {
    return std::abs(each.ph - j.phase().ph) > j[sodium_salt_ph];
  });
}

void check_buffer_unknown(const Judged& j, Raise& raise) {
  if (j.phase().buffer_unknown || salt_matters(j)) raise(Level::care);
}

/// "3.4 for chloride (60 in 100), 5.2 for citrate (40 in 100)".
std::string each_reading(const PhBand& band) {
  std::string text;
  for (const SodiumPh& each : band.readings)
    text += fmt::format("{}{:.1f} for {} ({:.0f}{})", text.empty() ? "" : ", ", each.ph,
                        to_text(each.reading.salt), 100 * each.reading.weight,
                        text.empty() ? " in 100" : "");
  return text;
}

std::string tell_buffer_unknown(const Flag&, const Judged& j) {
  const PhBand& band = j.serving.ph_band;
  const std::string acid = acid_undeclared(j.inputs)
                               ? ". An acid it names without an amount counts from least to most"
                               : "";
  if (!salt_matters(j))
    return acid.empty()
               ? fmt::format("the mix does not declare its acids and salts: pH only within {:.1f}",
                             j.phase().ph_uncertainty)
               : fmt::format(
                     "the mix does not declare its acids and salts: pH {:.1f}, {:.1f} to "
                     "{:.1f} in all{}",
                     j.phase().ph, band.low, band.high, acid);
  return fmt::format(
      "{}. By its sodium the pH is {}. Each is within {:.1f}: {:.1f} to {:.1f} in all{}",
      j.phase().buffer_unknown ? "the mix does not declare its acids and salts"
                               : "a label does not say what salt its sodium is",
      each_reading(band), j.phase().ph_uncertainty, band.low, band.high, acid);
}

std::string mend_buffer_unknown(const Flag&, const Judged& j) {
  return j.ph().measured ? "`gelwright ladder`, then `gelwright fit`"
                         : "measure the pH of one batch and state it; then `gelwright ladder` and "
                           "`gelwright fit`";
}

/// Food acids differ in molar mass; citric acid stands for all in this one comparison.
double acid_mol_per_kg(const Judged& j) {
  constexpr double acid_g_per_mol = molar_mass_g_per_mol("C6H8O7");
  if (!j.inputs.acid) return 0;
  const InputLine& acid = j.inputs.acid->line;
  return acid.mass_g * acid.per_g.organic_acid_g / acid_g_per_mol /
         (j.serving.formula.chemistry_water_g / 1000);
}

bool outside_model(const Judged& j) {
  return j.phase().ionic_strength_mol_per_kg > j[outside_mol_per_kg] ||
         acid_mol_per_kg(j) > j[acid_most_mol_per_kg];
}

void check_ionic_strength(const Judged& j, Raise& raise) {
  if (!j.ph().measured && j.phase().ionic_strength_mol_per_kg > j[less_certain_mol_per_kg] &&
      !outside_model(j))
    raise(Level::note);
}

std::string tell_ionic_strength(const Flag&, const Judged& j) {
  return fmt::format("ionic strength {:.2f} mol/kg: pH less certain",
                     j.phase().ionic_strength_mol_per_kg);
}

void check_outside_model(const Judged& j, Raise& raise) {
  if (outside_model(j)) raise(Level::care);
}

std::string tell_outside_model(const Flag&, const Judged& j) {
  return fmt::format(
      "ionic strength {:.2f} mol/kg, food acid {:.2f} mol/kg: outside the model's range",
      j.phase().ionic_strength_mol_per_kg, acid_mol_per_kg(j));
}

void check_citrate(const Judged& j, Raise& raise) {
  if (j.phase().saturation.tricalcium_citrate.value_or(0) > 0) raise(Level::note);
}

std::string tell_citrate(const Flag&, const Judged& j) {
  return fmt::format("calcium citrate is supersaturated ({:+.1f}) and may turn sandy over days",
                     *j.phase().saturation.tricalcium_citrate);
}

void check_carbonate(const Judged& j, Raise& raise) {
  if (j.phase().saturation.calcite.value_or(0) > 0) raise(Level::note);
}

std::string tell_carbonate(const Flag&, const Judged& j) {
  return fmt::format("calcium carbonate is supersaturated ({:+.1f})",
                     *j.phase().saturation.calcite);
}

void check_undissolved(const Judged& j, Raise& raise) {
  if (j.phase().undissolved_calcium_mmol_per_kg > 0) raise(j.drink() ? Level::note : Level::care);
}

std::string tell_undissolved(const Flag&, const Judged& j) {
  return fmt::format("{} mmol/kg of the calcium salt stays undissolved until more acid reaches it",
                     significant(j.phase().undissolved_calcium_mmol_per_kg, 2));
}

std::string mend_undissolved(const Flag&, const Judged& j) {
  return j.drink() ? "shake before drinking" : "more acid, or a salt that dissolves";
}

constexpr FlagRecord records[] = {
    {.name = "buffer-unknown",
     .called = "a pH the label leaves open",
     .when = "a bought mix does not declare its acids, salts and gum, or what salt its sodium is, "
             "where that moves the pH by more than {flag.sodium-salt}",
     .why =
         "Undeclared citrate or bicarbonate moves the pH more than any other error. Everything is "
         "worked out for sodium as chloride, as citrate and as bicarbonate: the chances of the "
         "gel are mixed, keeping goes by the highest pH left. One pH reading tells which it is; "
         "a pinch that does not fizz with acid is no bicarbonate; bench cups and `fit` settle "
         "the rest.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_buffer_unknown,
     .message = tell_buffer_unknown,
     .remedy = mend_buffer_unknown},
    {.name = "ionic-strength-high",
     .called = "more salt than the pH estimate likes",
     .when = "ionic strength over {davies.less_certain_above} mol/kg, and the pH is not measured",
     .why = "Activity coefficients become less certain.",
     .source = "davies-1962",
     .grade = Grade::c,
     .check = check_ionic_strength,
     .message = tell_ionic_strength,
     .remedy = "measure the pH if it matters"},
    {.name = "outside-model",
     .called = "a pH outside what was checked",
     .when = "ionic strength over {davies.held_above} mol/kg or over {flag.acid-most} mol/kg of "
             "food acid",
     .why = "Outside the range of the activity model: treat the pH as a rough guide.",
     .source = "davies-1962",
     .grade = Grade::c,
     .check = check_outside_model,
     .message = tell_outside_model,
     .remedy = "measure the pH if it matters"},
    {.name = "citrate-may-precipitate",
     .called = "sandy calcium citrate",
     .when = "tricalcium citrate is supersaturated",
     .why = "It forms slowly, over hours to days: sandy grains, and calcium goes missing. Not a "
            "certainty.",
     .source = "ciavatta-2001",
     .grade = Grade::b,
     .check = check_citrate,
     .message = tell_citrate,
     .remedy = "eat it fresh"},
    {.name = "carbonate-may-precipitate",
     .called = "chalk",
     .when = "calcite is supersaturated",
     .why = "Chalk may settle, as in a kettle.",
     .source = "nist-srd46",
     .grade = Grade::b,
     .check = check_carbonate,
     .message = tell_carbonate,
     .remedy = "add the acid earlier"},
    {.name = "calcium-undissolved",
     .called = "calcium salt that does not dissolve",
     .when = "the water phase is saturated with the calcium salt before all of it has dissolved",
     .why = "Carbonate, phosphate and citrate of calcium dissolve only as acid reaches them, "
            "sulfate a little. What stays solid sets nothing before it is eaten; the stomach's "
            "acid sets it free.",
     .source = "nist-srd46",
     .grade = Grade::b,
     .check = check_undissolved,
     .message = tell_undissolved,
     .remedy = mend_undissolved},
};

}  // namespace

FlagSubject model_flags() {
  return {records, rows, borrowed};
}

}  // namespace gelwright::detail
