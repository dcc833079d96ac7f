// Flags about keeping it. They defer to the label and local food-safety codes.
//
// The pH is judged at the upper end of what it may be: a food is as safe as its least sour reading.
#include <fmt/format.h>

#include <algorithm>

#include "base/dust.hpp"
#include "flags/record.hpp"
#include "gelwright/equilibrium.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum rows[] = {
    {"flag.acidified-food-ph", 4.6, "pH", 0, "equilibrium pH of an acidified food", "cfr-21-114",
     Standing::confirmed},
    {"flag.safe-with-strips-ph", 4.0, "pH", 0, "above it a meter is required", "cfr-21-114",
     Standing::from_memory},
    {"flag.chill", 5, "degC", 0, "to keep it", "fda-food-code-2013", Standing::confirmed},
    {"flag.keep-acid", 120, "h", 0,
     "chilled, pH read with a meter as at most 4.0, its error taken "
     "against us",
     "judgement", Standing::judgement},
    {"flag.keep", 48, "h", 0, "chilled", "judgement", Standing::judgement},
    {"flag.keep-low-acid", 24, "h", 0,
     "chilled, from making, rest counted; pH over 4.6 or perhaps "
     "over",
     "judgement", Standing::judgement},
    {"flag.warm-acid", 4, "h", 0, "carried from the cold to eaten, pH at most 4.0", "judgement",
     Standing::judgement},
    {"flag.warm", 2, "h", 0, "carried from the cold to eaten", "judgement", Standing::judgement},
    {"flag.hot-day", 32, "degC", 0, "above it food spoils in half the time", "judgement",
     Standing::judgement},
    {"flag.warm-on-hot-day", 1, "h", 0, "carried from the cold to eaten", "judgement",
     Standing::judgement},
    {"flag.cooked-from", 57, "degC", 0, "cooling of cooked food is counted from here",
     "fda-food-code-2013", Standing::confirmed},
    {"flag.cool-first", 21, "degC", 0, "to be reached first", "fda-food-code-2013",
     Standing::confirmed},
    {"flag.cool-first-within", 2, "h", 0, "from 57 to 21 degC", "fda-food-code-2013",
     Standing::confirmed},
    {"flag.cool-within", 6, "h", 0, "from 57 to 5 degC in all", "fda-food-code-2013",
     Standing::confirmed},
    {"flag.chill-cold-made-within", 4, "h", 0, "made from ingredients at room temperature",
     "fda-food-code-2013", Standing::confirmed},
    {"flag.head-space", 10, "mL", 0, "left in a filled pouch, of one serving", "judgement",
     Standing::judgement},
};
constexpr std::array<std::string_view, 0> borrowed = {};
consteval Threshold at(std::string_view key) {
  return place_of(rows, borrowed, key);
}
constexpr Threshold acidified_ph = at("flag.acidified-food-ph");
constexpr Threshold safe_with_strips_ph = at("flag.safe-with-strips-ph");
constexpr Threshold keep_acid_h = at("flag.keep-acid");
constexpr Threshold keep_h = at("flag.keep");
constexpr Threshold keep_low_acid_h = at("flag.keep-low-acid");
constexpr Threshold warm_acid_h = at("flag.warm-acid");
constexpr Threshold warm_h = at("flag.warm");
constexpr Threshold hot_day_c = at("flag.hot-day");
constexpr Threshold hot_day_warm_h = at("flag.warm-on-hot-day");
constexpr Threshold chill_c = at("flag.chill");
constexpr Threshold cooked_from_c = at("flag.cooked-from");
constexpr Threshold head_space_ml = at("flag.head-space");

double highest_ph(const Judged& j) {
  const JudgedPh found = j.ph();
  return found.ph + found.half_width;
}

bool not_acid_for_certain(const Judged& j) {
  return is_over(highest_ph(j), j[acidified_ph]);
}

bool by_strips(const Judged& j) {
  return j.ph().measured && j.recipe().measured->with == PhMethod::strips;
}

/// Read with a meter and sour for certain: neither a computed pH nor a strip earns the long time.
bool sour_for_certain(const Judged& j) {
  return j.ph().measured && !by_strips(j) && !is_over(highest_ph(j), j[safe_with_strips_ph]);
}

void check_keep_cold(const Judged&, Raise& raise) {
  raise(Level::note);
}

std::string tell_keep_cold(const Flag&, const Judged& j) {
  const Keeping found = keeping(j);
  constexpr double told_in_hours_to = 72;
  const bool in_days = found.chilled_hours > told_in_hours_to;
  return fmt::format(
      "perishable (water activity {:.2f}): chill, at most {:g} {}; carried warm at most {:g} h",
      j.serving.properties.water_activity, in_days ? found.chilled_hours / 24 : found.chilled_hours,
      in_days ? "days" : "hours", found.warm_hours);
}

bool strips_beyond_their_range(const Judged& j) {
  return by_strips(j) && j.ph().ph > j[safe_with_strips_ph];
}

void check_acidity(const Judged& j, Raise& raise) {
  if (not_acid_for_certain(j) || strips_beyond_their_range(j))
    raise(Level::care);
  else if (!j.ph().measured)
    raise(Level::note);
}

std::string tell_acidity(const Flag&, const Judged& j) {
  const JudgedPh found = j.ph();
  if (strips_beyond_their_range(j))
    return fmt::format("pH {:.1f} by strips: over {} they prove nothing", found.ph,
                       j.quoted(safe_with_strips_ph));
  if (found.ph > j[acidified_ph])
    return fmt::format("pH {:.1f} is over {}: not an acidified food", found.ph,
                       j.quoted(acidified_ph));
  if (not_acid_for_certain(j))
    return fmt::format("pH {:.1f} +- {:.1f} may be over {}: not for certain an acidified food",
                       found.ph, found.half_width, j.quoted(acidified_ph));
  return "the pH is computed, not measured";
}

std::string mend_acidity(const Flag&, const Judged& j) {
  if (strips_beyond_their_range(j)) return "read it with a meter";
  if (j.ph().ph > j[acidified_ph]) return "treat it as fresh food";
  return fmt::format("measure it: meter, or strips up to {}", j.quoted(safe_with_strips_ph));
}

void check_cooling(const Judged& j, Raise& raise) {
  if (j.inputs.making.hottest_c >= j[cooked_from_c]) raise(Level::note);
}

std::string tell_cooling(const Flag&, const Judged& j) {
  return fmt::format(
      "heated to {:.0f} degC: bring it below {} degC within {} h and to {} degC "
      "within {} h in all",
      j.inputs.making.hottest_c, j.quoted(at("flag.cool-first")),
      j.quoted(at("flag.cool-first-within")), j.quoted(at("flag.chill")),
      j.quoted(at("flag.cool-within")));
}

/// CO2 of one serving that its water cannot hold under air's own pressure, as gas at 20 degC.
double gas_ml(const Judged& j) {
  constexpr double litres_per_mol = 8.314462618 * 293.15 / 101.325;  // ideal gas, 1 atm
  const double water_kg = j.serving.formula.chemistry_water_g / 1000;
  const double free_mol = j.phase().carbon_dioxide_mol_per_kg * water_kg;
  const double held_mol = constants_at_25_c().kh_mol_per_kg_atm * water_kg;
  return 1000 * litres_per_mol * std::max(0.0, free_mol - held_mol);
}

void check_gas(const Judged& j, Raise& raise) {
  if (gas_ml(j) > j[head_space_ml]) raise(j.drink() ? Level::care : Level::stop);
}

std::string tell_gas(const Flag&, const Judged& j) {
  return fmt::format(
      "up to {:.0f} mL of CO2 gas in a serving, over the {} mL a closed {} has room "
      "for: it may burst",
      gas_ml(j), j.quoted(head_space_ml), j.drink() ? "bottle" : "pouch");
}

constexpr FlagRecord records[] = {
    {.name = "keep-cold",
     .when = "always",
     .why =
         "Sugar at this strength does not preserve it, and a computed water activity proves "
         "nothing. Keep at {flag.chill} degC or colder and for no longer than stated, from the "
         "making, rest counted: {flag.keep-acid} h if a meter read pH {flag.safe-with-strips-ph} "
         "or less with its error counted, {flag.keep-low-acid} h if the pH is or may be over "
         "{flag.acidified-food-ph}, else {flag.keep} h. Made cold, it belongs in the fridge so "
         "early that it reaches {flag.chill} degC within {flag.chill-cold-made-within} h. "
         "Carried warm: eat within one outing, at most {flag.warm-acid} h at pH "
         "{flag.safe-with-strips-ph} or below, else {flag.warm} h ({flag.warm-on-hot-day} h "
         "above {flag.hot-day} degC); discard leftovers. In a closed, wet pouch that is not "
         "sour spores can grow in warmth and make the poison of botulism, which neither smells "
         "nor tastes; a computed pH is no proof against it. Local food-safety codes and the "
         "label come first.",
     .source = "cfr-21-114",
     .grade = Grade::c,
     .check = check_keep_cold,
     .message = tell_keep_cold,
     .remedy = "{flag.chill} degC or colder; never seal it to keep: spores can grow (botulism); "
               "discard leftovers"},
    {.name = "acidity-not-proven",
     .when = "pH was not measured, or is or may be over {flag.acidified-food-ph}",
     .why = "Over pH {flag.acidified-food-ph} a food does not count as acidified. With strips the "
            "limit to rely on is {flag.safe-with-strips-ph}; above it use a meter.",
     .source = "cfr-21-114",
     .grade = Grade::a,
     .check = check_acidity,
     .message = tell_acidity,
     .remedy = mend_acidity},
    {.name = "cool-it-fast",
     .when = "the batch was heated to {flag.cooked-from} degC or more",
     .why = "What survives the heat grows on the way down. Cooked food is to pass from "
            "{flag.cooked-from} to {flag.cool-first} degC within {flag.cool-first-within} h and "
            "reach {flag.chill} degC within {flag.cool-within} h in all.",
     .source = "fda-food-code-2013",
     .grade = Grade::b,
     .check = check_cooling,
     .message = tell_cooling,
     .remedy = "small, shallow vessels in cold water; fridge as soon as it stops steaming"},
    {.name = "gas-in-pouch",
     .when = "acid frees more CO2 from bicarbonate or carbonate than its water holds, by more than "
             "{flag.head-space} mL in a serving",
     .why = "Acid turns bicarbonate into CO2. In a closed vessel it has nowhere to go: a pouch "
            "swells or bursts, a bottle sprays. Counted at most: nothing has escaped, and the "
            "water is at room temperature.",
     .source = "nist-srd46",
     .grade = Grade::b,
     .check = check_gas,
     .message = tell_gas,
     .remedy = "let it finish fizzing in an open bowl before filling, or leave out the "
               "bicarbonate"},
};

}  // namespace

Keeping keeping(const Judged& j) {
  Keeping found;
  found.chilled_c = j[chill_c];
  found.hot_day_c = j[hot_day_c];
  found.hot_day_warm_hours = j[hot_day_warm_h];
  found.warm_hours = j[warm_h];
  if (sour_for_certain(j)) {
    found.chilled_hours = j[keep_acid_h];
    found.warm_hours = j[warm_acid_h];
    found.decided_by = KeepingBy::sour_by_meter;
    found.decided_ph = j[safe_with_strips_ph];
  } else if (not_acid_for_certain(j)) {
    found.chilled_hours = j[keep_low_acid_h];
    found.decided_by = KeepingBy::perhaps_not_sour;
    found.decided_ph = j[acidified_ph];
  } else {
    found.chilled_hours = j[keep_h];
    found.decided_by = KeepingBy::sour_by_estimate;
    found.decided_ph = j[acidified_ph];
  }
  return found;
}

FlagSubject keeping_flags() {
  return {records, rows, borrowed};
}

}  // namespace gelwright::detail

namespace gelwright {

std::string why(const Keeping& keeping) {
  switch (keeping.decided_by) {
    case KeepingBy::sour_by_meter:
      return fmt::format("a meter read pH {:.1f} or less", keeping.decided_ph);
    case KeepingBy::sour_by_estimate:
      return "the pH is not proved by a meter";
    case KeepingBy::perhaps_not_sour:
      return fmt::format("the pH may be over {:.1f}", keeping.decided_ph);
  }
  return "";
}

}  // namespace gelwright
