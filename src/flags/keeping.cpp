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
    {"flag.safe-with-strips-ph", 4.0, "pH", 0, "above it a meter is required (114.80)",
     "cfr-21-114", Standing::confirmed},
    {"flag.table-b-sour", 4.2, "pH", 0, "under it no control of time and temperature is asked for",
     "fda-food-code-2013", Standing::confirmed},
    {"flag.table-b-dry", 0.92, "1", 0,
     "water activity; up to it none is asked for at pH 4.6 or less", "fda-food-code-2013",
     Standing::confirmed},
    {"flag.water-activity-doubt", 0.03, "1", 0, "of a computed water activity, taken against us",
     "judgement", Standing::judgement},
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
constexpr Threshold table_sour_ph = at("flag.table-b-sour");
constexpr Threshold table_dry = at("flag.table-b-dry");
constexpr Threshold water_activity_doubt = at("flag.water-activity-doubt");
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

bool by_strips(const Judged& j) {
  return j.ph().measured && j.recipe().measured->with == PhMethod::strips;
}

/// A reading that does not count.
bool strips_in_a_gel(const Judged& j) {
  return j.recipe().measured && !j.ph().measured;
}

/// The least sour it may be: of a reading with its own error, else of all that an unnamed salt may
/// make of it.
double highest_ph(const Judged& j) {
  const JudgedPh found = j.ph();
  return found.measured ? found.ph + found.half_width : j.serving.ph_band.high;
}

bool not_acid_for_certain(const Judged& j) {
  return is_over(highest_ph(j), j[acidified_ph]);
}

/// Read with a meter and sour for certain: neither a computed pH nor a strip earns the long time.
bool sour_for_certain(const Judged& j) {
  return j.ph().measured && !by_strips(j) && !is_over(highest_ph(j), j[safe_with_strips_ph]);
}

bool strips_beyond_their_range(const Judged& j) {
  return by_strips(j) && j.ph().ph > j[safe_with_strips_ph];
}

void check_acidity(const Judged& j, Raise& raise) {
  if (not_acid_for_certain(j) || strips_beyond_their_range(j) || strips_in_a_gel(j))
    raise(Level::care);
}

std::string tell_acidity(const Flag&, const Judged& j) {
  const JudgedPh found = j.ph();
  if (strips_in_a_gel(j))
    return fmt::format(
        "pH {:.1f} by strips: in a thick gel they show nothing; it may be up to {:.1f}",
        j.recipe().measured->ph, highest_ph(j));
  if (strips_beyond_their_range(j))
    return fmt::format("pH {:.1f} by strips: over {} they prove nothing", found.ph,
                       j.quoted(safe_with_strips_ph));
  if (found.ph > j[acidified_ph])
    return fmt::format("pH {:.1f} is over {}: not an acidified food", found.ph,
                       j.quoted(acidified_ph));
  return fmt::format("pH {:.1f} may be up to {:.1f}, over {}: not for certain an acidified food",
                     found.ph, highest_ph(j), j.quoted(acidified_ph));
}

std::string mend_acidity(const Flag&, const Judged& j) {
  if (strips_in_a_gel(j) || strips_beyond_their_range(j)) return "read it with a meter";
  if (j.ph().ph > j[acidified_ph]) return "treat it as fresh food";
  if (!j.drink()) return "measure it with a meter";
  return fmt::format("measure it: meter, or strips up to {}", j.quoted(safe_with_strips_ph));
}

void check_cooling(const Judged& j, Raise& raise) {
  if (j.inputs.making.hottest_c >= j[cooked_from_c]) raise(Level::note);
}

std::string tell_cooling(const Flag&, const Judged& j) {
  return fmt::format(
      "heated to {:.0f} degC: bring it below {} degC within {} h, to {} degC "
      "within {} h in all",
      j.inputs.making.hottest_c, j.quoted(at("flag.cool-first")),
      j.quoted(at("flag.cool-first-within")), j.quoted(at("flag.chill")),
      j.quoted(at("flag.cool-within")));
}

/// Gas at 20 degC of the CO2 in one serving that its water cannot hold under air's own pressure.
double gas_ml(double free_mol, const Judged& j) {
  constexpr double litres_per_mol = 8.314462618 * 293.15 / 101.325;  // ideal gas, 1 atm
  const double water_kg = j.serving.formula.chemistry_water_g / 1000;
  const double held_mol = constants_at_25_c().kh_mol_per_kg_atm * water_kg;
  return 1000 * litres_per_mol * std::max(0.0, free_mol - held_mol);
}

struct Gas {
  double ml;
  double chance_percent;  ///< of the reading that frees it; 100 where it does not hang on one
};

Gas gas_of(const Judged& j) {
  const double water_kg = j.serving.formula.chemistry_water_g / 1000;
  Gas worst{gas_ml(j.phase().carbon_dioxide_mol_per_kg * water_kg, j), 100};
  if (worst.ml > j[head_space_ml]) return worst;
  for (const SodiumPh& each : j.serving.ph_band.readings)
    if (const double ml = gas_ml(each.free_co2_mol, j); ml > worst.ml)
      worst = {ml, 100 * each.reading.weight};
  return worst;
}

void check_gas(const Judged& j, Raise& raise) {
  if (j.inputs.making.gas_let_out) return;
  const Gas gas = gas_of(j);
  if (!(gas.ml > j[head_space_ml])) return;
  const bool certain = gas.chance_percent >= 100;
  raise(j.drink() ? (certain ? Level::care : Level::note) : (certain ? Level::stop : Level::care),
        gas);
}

std::string tell_gas(const Flag& flag, const Judged& j) {
  const auto gas = flag.numbers.as<Gas>();
  const std::string what = fmt::format(
      "up to {:.0f} mL of CO2 gas in a serving, over the {} mL a closed {} has room for", gas.ml,
      j.quoted(head_space_ml), j.drink() ? "bottle" : "pouch");
  return gas.chance_percent >= 100
             ? what + ": it may burst"
             : fmt::format("{}. That is if the label's sodium is bicarbonate ({:.0f} in 100)", what,
                           gas.chance_percent);
}

/// The step that says so, as a recipe writes it.
constexpr std::string_view left_open =
    R"(put a step before "fill" with "do": "rest", "hours": 0.5, "at_c": 20, "open": true)";

std::string mend_gas(const Flag& flag, const Judged&) {
  return flag.numbers.as<Gas>().chance_percent >= 100
             ? fmt::format(
                   "let it finish fizzing in an open bowl before you close anything. Then {}",
                   left_open)
             : fmt::format(
                   "wet a pinch of the mix with acid. If nothing fizzes, write \"fizzed\": "
                   "false under it. Else let the batch finish fizzing in an open bowl. Then {}",
                   left_open);
}

constexpr FlagRecord records[] = {
    {.name = "acidity-not-proven",
     .called = "a pH that may be over 4.6",
     .when = "pH is or may be over {flag.acidified-food-ph}, or was read with strips in a gel, or "
             "with strips over {flag.safe-with-strips-ph}",
     .why =
         "Over pH {flag.acidified-food-ph} a food does not count as acidified; above "
         "{flag.safe-with-strips-ph} only a meter proves it. How long it keeps at {flag.chill} "
         "degC or colder, from the making, rest counted: {flag.keep-acid} h if a meter read pH "
         "{flag.safe-with-strips-ph} or less with its error counted; {flag.keep-low-acid} h if "
         "the pH may be over {flag.acidified-food-ph}, or over {flag.table-b-sour} with a water "
         "activity that may be over {flag.table-b-dry} (the Food Code's table B asks for an "
         "assessment there); else {flag.keep} h. Made cold, it is to reach {flag.chill} degC "
         "within {flag.chill-cold-made-within} h. Carried warm: at most {flag.warm-acid} h at pH "
         "{flag.safe-with-strips-ph} or below by a meter, else {flag.warm} h "
         "({flag.warm-on-hot-day} h above {flag.hot-day} degC); discard leftovers. In a closed, "
         "wet pouch that is not sour spores can grow in warmth and make the poison of botulism, "
         "which neither smells nor tastes; a computed pH is no proof against it, and no water "
         "activity worked out here ever lengthens a time (its doubt of "
         "{flag.water-activity-doubt} counts against it). Local food-safety codes and the label "
         "come first.",
     .source = "cfr-21-114",
     .grade = Grade::a,
     .check = check_acidity,
     .message = tell_acidity,
     .remedy = mend_acidity},
    {.name = "cool-it-fast",
     .called = "a batch to be cooled fast",
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
     .called = "gas in a closed vessel",
     .when = "acid frees more CO2 from bicarbonate or carbonate than its water holds, by more than "
             "{flag.head-space} mL in a serving, and no step lets it stand open after the acid and "
             "before it is filled",
     .why = "Acid turns bicarbonate into CO2. In a closed vessel it has nowhere to go: a pouch "
            "swells or bursts, a bottle sprays. Counted at most: nothing has escaped, and the "
            "water is at room temperature.",
     .source = "nist-srd46",
     .grade = Grade::c,
     .check = check_gas,
     .message = tell_gas,
     .remedy = mend_gas},
};

}  // namespace

namespace {

/// Whether the Food Code's table B, for food that is not heated in its pack, asks for an assessment
/// at the least sour and wettest end. It is asked only to shorten: what it lets pass stays
/// perishable.
bool table_asks(const Judged& j) {
  const double wettest = j.serving.properties.water_activity + j[water_activity_doubt];
  return !is_under(highest_ph(j), j[table_sour_ph]) && wettest > j[table_dry];
}

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
  } else if (table_asks(j)) {
    found.chilled_hours = j[keep_low_acid_h];
    found.decided_by = KeepingBy::table_asks;
    found.decided_ph = j[table_sour_ph];
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
    case KeepingBy::table_asks:
      return fmt::format("the pH may be {:.1f} or more, and it is wet", keeping.decided_ph);
    case KeepingBy::perhaps_not_sour:
      return fmt::format("the pH may be over {:.1f}", keeping.decided_ph);
  }
  return "";
}

}  // namespace gelwright
