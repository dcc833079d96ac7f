// Flags about eating it. They defer to the label, a doctor, a dietitian.
#include <fmt/format.h>

#include "base/dust.hpp"
#include "flags/gel_view.hpp"
#include "gelwright/elements.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum rows[] = {
    {"flag.erosive-below-ph", 4, "pH", 0, "tooth enamel", "common-practice",
     Standing::common_practice},
    {"flag.too-sour-below-ph", 2.5, "pH", 0, "sourer than any drink sold", "judgement",
     Standing::judgement},
    {"flag.alkaline-from-ph", 9.5, "pH", 0, "more alkaline than tap water may be", "eu-2020-2184",
     Standing::from_memory},
    {"flag.caustic-from-ph", 11.5, "pH", 0, "counted as burning skin without a test",
     "eu-1272-2008", Standing::from_memory},
    {"flag.sodium-day", 2, "g", 0, "of sodium, adults, all food together", "who-sodium",
     Standing::from_memory},
    {"flag.sodium-serving", 1000, "mg", 0, "half a day's sodium in one serving", "who-sodium",
     Standing::from_memory},
    {"flag.caffeine-single", 200, "mg", 0, "healthy adults", "efsa-2015-caffeine",
     Standing::confirmed},
    {"flag.caffeine-day", 400, "mg", 0, "healthy adults, not in pregnancy", "efsa-2015-caffeine",
     Standing::confirmed},
    {"flag.caffeine-pregnancy", 200, "mg", 0, "a day, in pregnancy", "efsa-2015-caffeine",
     Standing::confirmed},
    {"flag.fructose", 25, "g", 0, "fructose not matched by glucose", "judgement",
     Standing::from_memory},
    {"flag.gum-day", 15, "g", 0, "bulk in the gut", "judgement", Standing::judgement},
    {"flag.potassium-care", 1, "g", 0,
     "added, a day: most a food supplement could bring in Norway in 2017", "vkm-2017-potassium",
     Standing::confirmed},
    {"flag.potassium-stop", 3, "g", 0, "added, adults, a day: proposed as the upper guidance level",
     "vkm-2017-potassium", Standing::confirmed},
    {"flag.potassium-heart", 5, "g", 0, "single doses of 5 to 7 g, chloride or bicarbonate",
     "efsa-2005-potassium", Standing::confirmed},
    {"flag.fructose-amount", 50, "g", 0, "at a time, even beside glucose", "judgement",
     Standing::from_memory},
    {"flag.concentrated", 20, "%", 0, "soluble solids beyond any drink's", "judgement",
     Standing::judgement},
    {"flag.gum-serving", 5, "g", 0, "bulk in the gut, at once", "judgement", Standing::judgement},
    {"flag.calcium-day", 2.5, "g", 0, "adults, a day, from all food together", "efsa-2012-calcium",
     Standing::confirmed},
    {"flag.acid-serving", 4, "g", 0, "food acid at once: more than a lemon's", "judgement",
     Standing::judgement},
    {"flag.firm-percent", 20, "%", 0, "chance of a firm or hard set that calls for a warning",
     "judgement", Standing::judgement},
};
constexpr std::array<std::string_view, 0> borrowed = {};
consteval Threshold at(std::string_view key) {
  return place_of(rows, borrowed, key);
}
constexpr Threshold erosive_below_ph = at("flag.erosive-below-ph");
constexpr Threshold too_sour_below_ph = at("flag.too-sour-below-ph");
constexpr Threshold alkaline_from_ph = at("flag.alkaline-from-ph");
constexpr Threshold caustic_from_ph = at("flag.caustic-from-ph");
constexpr Threshold sodium_serving_mg = at("flag.sodium-serving");
constexpr Threshold caffeine_single_mg = at("flag.caffeine-single");
constexpr Threshold caffeine_day_mg = at("flag.caffeine-day");
constexpr Threshold fructose_g = at("flag.fructose");
constexpr Threshold gum_day_g = at("flag.gum-day");
constexpr Threshold potassium_care_g = at("flag.potassium-care");
constexpr Threshold potassium_stop_g = at("flag.potassium-stop");
constexpr Threshold fructose_amount_g = at("flag.fructose-amount");
constexpr Threshold concentrated_percent = at("flag.concentrated");
constexpr Threshold gum_serving_g = at("flag.gum-serving");
constexpr Threshold calcium_day_g = at("flag.calcium-day");
constexpr Threshold acid_serving_g = at("flag.acid-serving");
constexpr Threshold firm_percent = at("flag.firm-percent");

void check_choking(const Judged& j, Raise& raise) {
  const GelForecast& gel = gel_of(j);
  const double firm = gel.chance(gel::Texture::firm) + gel.chance(gel::Texture::hard);
  if (100 * firm > j[firm_percent]) raise(Level::care);
}

void check_teeth(const Judged& j, Raise& raise) {
  if (j.ph().ph < j[erosive_below_ph]) raise(Level::note);
}

std::string tell_teeth(const Flag&, const Judged& j) {
  return fmt::format("pH {:.1f} softens tooth enamel", j.ph().ph);
}

void check_too_sour(const Judged& j, Raise& raise) {
  if (j.ph().ph < j[too_sour_below_ph]) raise(Level::care);
}

std::string tell_too_sour(const Flag&, const Judged& j) {
  return fmt::format("pH {:.1f} is sour enough to hurt", j.ph().ph);
}

/// What burns is judged at the upper end of the pH.
void check_too_alkaline(const Judged& j, Raise& raise) {
  const double highest = j.ph().measured ? j.ph().ph : j.serving.ph_band.high;
  if (!is_under(highest, j[caustic_from_ph]))
    raise(Level::stop);
  else if (!is_under(j.ph().ph, j[alkaline_from_ph]))
    raise(Level::care);
}

std::string tell_too_alkaline(const Flag& flag, const Judged& j) {
  return flag.level == Level::stop
             ? fmt::format(
                   "pH {:.1f}, or up to {:.1f}: so alkaline that it can burn. Do not eat it",
                   j.ph().ph, std::max(j.ph().ph, j.serving.ph_band.high))
             : fmt::format("pH {:.1f} is more alkaline than tap water may be", j.ph().ph);
}

void check_sodium(const Judged& j, Raise& raise) {
  if (j.serving.nutrition.sodium_mg > j[sodium_serving_mg]) raise(Level::care);
}

std::string tell_sodium(const Flag&, const Judged& j) {
  return fmt::format("{:.0f} mg of sodium in one serving", j.serving.nutrition.sodium_mg);
}

void check_caffeine_single(const Judged& j, Raise& raise) {
  if (j.serving.nutrition.caffeine_mg > j[caffeine_single_mg]) raise(Level::stop);
}

std::string tell_caffeine_single(const Flag&, const Judged& j) {
  return fmt::format("{:.0f} mg of caffeine in one serving, over {} mg",
                     j.serving.nutrition.caffeine_mg, j.quoted(caffeine_single_mg));
}

double batch_caffeine_mg(const Judged& j) {
  return j.serving.nutrition.caffeine_mg * j.inputs.servings;
}

void check_caffeine_day(const Judged& j, Raise& raise) {
  if (batch_caffeine_mg(j) > j[caffeine_day_mg]) raise(Level::care);
}

std::string tell_caffeine_day(const Flag&, const Judged& j) {
  return fmt::format(
      "{:.0f} mg of caffeine in the batch, over {} mg if one person eats it in a day",
      batch_caffeine_mg(j), j.quoted(caffeine_day_mg));
}

/// Where a label does not name its sugars, the worse end of what they may be is judged.
std::string_view up_to(const Judged& j) {
  return j.serving.formula.delivered.unnamed_sugars_g > 0 ? "up to " : "";
}

void check_fructose(const Judged& j, Raise& raise) {
  const Nutrition& nutrition = j.serving.nutrition;
  if (nutrition.fructose_most_g > j[fructose_g] &&
      nutrition.fructose_most_g > nutrition.glucose_least_g)
    raise(Level::care);
}

std::string tell_fructose(const Flag&, const Judged& j) {
  return fmt::format("{}{:.0f} g of fructose in a serving with only {:.0f} g of glucose", up_to(j),
                     j.serving.nutrition.fructose_most_g, j.serving.nutrition.glucose_least_g);
}

double batch_gum_g(const Judged& j) {
  return j.serving.nutrition.gum_g * j.inputs.servings;
}

void check_gum_load(const Judged& j, Raise& raise) {
  if (j.serving.nutrition.gum_g > j[gum_serving_g])
    raise(Level::care);
  else if (batch_gum_g(j) > j[gum_day_g])
    raise(Level::note);
}

std::string tell_gum_load(const Flag& flag, const Judged& j) {
  if (flag.level == Level::care)
    return fmt::format("{:.1f} g of gum in one serving, over {} g", j.serving.nutrition.gum_g,
                       j.quoted(gum_serving_g));
  return fmt::format("{:.1f} g of gum in the batch, over {} g if one person eats it in a day",
                     batch_gum_g(j), j.quoted(gum_day_g));
}

/// Potassium of everything that goes in but the water, which brings next to none.
double potassium_g(const Judged& j) {
  constexpr double g_per_mol = molar_mass_g_per_mol("K");
  const Composition& delivered = j.serving.formula.delivered;
  return g_per_mol *
         (delivered.dissolved(Component::potassium) + delivered.acid_only(Component::potassium));
}

void check_potassium(const Judged& j, Raise& raise) {
  if (is_over(potassium_g(j), j[potassium_care_g]))
    raise(is_over(potassium_g(j), j[potassium_stop_g]) ? Level::stop : Level::care);
}

std::string tell_potassium(const Flag&, const Judged& j) {
  return fmt::format(
      "{:.1f} g of added potassium in one serving, over {} g", potassium_g(j),
      j.quoted(is_over(potassium_g(j), j[potassium_stop_g]) ? potassium_stop_g : potassium_care_g));
}

double batch_potassium_g(const Judged& j) {
  return potassium_g(j) * j.inputs.servings;
}

void check_potassium_day(const Judged& j, Raise& raise) {
  if (is_over(batch_potassium_g(j), j[potassium_care_g]))
    raise(is_over(batch_potassium_g(j), j[potassium_stop_g]) ? Level::care : Level::note);
}

std::string tell_potassium_day(const Flag&, const Judged& j) {
  return fmt::format(
      "{:.1f} g of added potassium in the batch, over {} g if one person eats it in a day",
      batch_potassium_g(j),
      j.quoted(is_over(batch_potassium_g(j), j[potassium_stop_g]) ? potassium_stop_g
                                                                  : potassium_care_g));
}

/// Calcium of everything that goes in but the water.
double calcium_g(const Judged& j) {
  constexpr double g_per_mol = molar_mass_g_per_mol("Ca");
  const Composition& delivered = j.serving.formula.delivered;
  return g_per_mol *
         (delivered.dissolved(Component::calcium) + delivered.acid_only(Component::calcium));
}

void check_calcium_load(const Judged& j, Raise& raise) {
  if (is_over(calcium_g(j), j[calcium_day_g]))
    raise(Level::stop);
  else if (is_over(calcium_g(j) * j.inputs.servings, j[calcium_day_g]))
    raise(Level::note);
}

std::string tell_calcium_load(const Flag& flag, const Judged& j) {
  if (flag.level == Level::stop)
    return fmt::format("{:.1f} g of added calcium in one serving, over {} g", calcium_g(j),
                       j.quoted(calcium_day_g));
  return fmt::format(
      "{:.1f} g of added calcium in the batch, over {} g if one person eats it in a day",
      calcium_g(j) * j.inputs.servings, j.quoted(calcium_day_g));
}

void check_acid_load(const Judged& j, Raise& raise) {
  if (is_over(j.serving.formula.delivered.organic_acid_g, j[acid_serving_g])) raise(Level::care);
}

std::string tell_acid_load(const Flag&, const Judged& j) {
  return fmt::format("{:.1f} g of food acid in one serving, over {} g",
                     j.serving.formula.delivered.organic_acid_g, j.quoted(acid_serving_g));
}

void check_fructose_amount(const Judged& j, Raise& raise) {
  if (is_over(j.serving.nutrition.fructose_most_g, j[fructose_amount_g])) raise(Level::care);
}

std::string tell_fructose_amount(const Flag&, const Judged& j) {
  return fmt::format("{}{:.0f} g of fructose in one serving, over {} g", up_to(j),
                     j.serving.nutrition.fructose_most_g, j.quoted(fructose_amount_g));
}

void check_concentrated(const Judged& j, Raise& raise) {
  if (is_over(j.serving.formula.soluble_solids_percent(), j[concentrated_percent]))
    raise(Level::note);
}

std::string tell_concentrated(const Flag&, const Judged& j) {
  return fmt::format("{:.0f} % of it is sugar and salts: it draws water",
                     j.serving.formula.soluble_solids_percent());
}

constexpr Turn less_acid[] = {Turn::less_acid};
constexpr Turn less_salt[] = {Turn::less_calcium_salt};
constexpr FlagRecord records[] = {
    {.name = "choking",
     .called = "a firm set, which can choke",
     .when = "a firm or hard set with a chance over {flag.firm-percent} %",
     .why = "Never make cup or mould servings that are sucked out whole. Not for small children or "
            "anyone who has difficulty swallowing. Bite, chew, drink.",
     .source = "efsa-2004-minicups",
     .grade = Grade::c,
     .check = check_choking,
     .message = "a firm set is a choking hazard",
     .remedy = "never as cup or mould; not for small children"},
    {.name = "teeth",
     .called = "acid on the teeth",
     .when = "pH below {flag.erosive-below-ph}",
     .why = "Acid softens enamel; rinse with water, wait before brushing.",
     .source = "common-practice",
     .grade = Grade::c,
     .check = check_teeth,
     .message = tell_teeth,
     .remedy = "rinse with water; do not hold it in the mouth"},
    {.name = "too-sour",
     .called = "sour enough to hurt",
     .when = "pH below {flag.too-sour-below-ph}",
     .why = "Sourer than any drink sold: it can hurt mouth, gullet and stomach.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_too_sour,
     .message = tell_too_sour,
     .remedy = "less acid, or a little citrate; `gelwright dose --to-ph`",
     .turns = less_acid},
    {.name = "too-alkaline",
     .called = "alkaline enough to hurt",
     .when = "pH from {flag.alkaline-from-ph}; a stop where it may be {flag.caustic-from-ph}",
     .why = "Tap water may not be more alkaline than pH {flag.alkaline-from-ph}; from "
            "{flag.caustic-from-ph} a liquid counts as burning the skin. Check that no washing "
            "soda stands where baking soda is meant.",
     .source = "eu-1272-2008",
     .grade = Grade::c,
     .check = check_too_alkaline,
     .message = tell_too_alkaline,
     .remedy = "less carbonate or phosphate"},
    {.name = "sodium-load",
     .called = "too much sodium",
     .when = "over {flag.sodium-serving} mg of sodium in a serving",
     .why = "Half of the {flag.sodium-day} g a day an adult should stay under. Sweat losses differ "
            "widely between people.",
     .source = "who-sodium",
     .grade = Grade::c,
     .check = check_sodium,
     .message = tell_sodium,
     .remedy = "check the decimal; ask a doctor before taking that much"},
    {.name = "potassium-load",
     .called = "too much potassium",
     .when = "over {flag.potassium-care} g (care) or {flag.potassium-stop} g (stop) of added "
             "potassium in a serving",
     .why =
         "Single doses of {flag.potassium-heart} g and more, as a salt in water, have changed the "
         "heartbeat of some healthy adults (EFSA 2005); food supplements are limited to about "
         "{flag.potassium-care} g a day. With weak kidneys, or medicine for heart, kidneys or "
         "blood pressure, far less can be too much.",
     .source = "vkm-2017-potassium",
     .grade = Grade::b,
     .check = check_potassium,
     .message = tell_potassium,
     .remedy = "less potassium salt; with kidney trouble or medicine ask a doctor first"},
    {.name = "potassium-day",
     .called = "too much potassium for a day",
     .when = "over {flag.potassium-care} g (note) or {flag.potassium-stop} g (care) of added "
             "potassium in the batch",
     .why = "If one person eats it in a day. See potassium-load.",
     .source = "vkm-2017-potassium",
     .grade = Grade::b,
     .check = check_potassium_day,
     .message = tell_potassium_day,
     .remedy = "share it out over days; with kidney trouble or medicine ask a doctor first"},
    {.name = "caffeine-single",
     .called = "too much caffeine at once",
     .when = "over {flag.caffeine-single} mg of caffeine in a serving",
     .why = "Over the amount of a single dose that raises no concern for healthy adults.",
     .source = "efsa-2015-caffeine",
     .grade = Grade::a,
     .check = check_caffeine_single,
     .message = tell_caffeine_single,
     .remedy = "take less; ask a doctor if in doubt"},
    {.name = "caffeine-day",
     .called = "too much caffeine for a day",
     .when = "over {flag.caffeine-day} mg of caffeine in the batch",
     .why = "The day's amount for healthy adults is {flag.caffeine-day} mg, in pregnancy "
            "{flag.caffeine-pregnancy} mg, from all sources.",
     .source = "efsa-2015-caffeine",
     .grade = Grade::a,
     .check = check_caffeine_day,
     .message = tell_caffeine_day,
     .remedy = "take less; ask a doctor if in doubt"},
    {.name = "fructose",
     .called = "fructose without glucose",
     .when = "over {flag.fructose} g of fructose in a serving, not matched by glucose",
     .why = "Fructose alone is poorly absorbed: gut trouble. Never with hereditary fructose "
            "intolerance.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_fructose,
     .message = tell_fructose,
     .remedy = "match fructose with as much glucose or maltodextrin"},
    {.name = "fructose-amount",
     .called = "too much fructose",
     .when = "over {flag.fructose-amount} g of fructose in a serving, whatever the glucose",
     .why = "The gut takes up only so much at a time, even beside glucose: cramps and the runs. "
            "Never with hereditary fructose intolerance.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_fructose_amount,
     .message = tell_fructose_amount,
     .remedy = "smaller servings, or less fructose and sucrose"},
    {.name = "gum-load",
     .called = "too much gum",
     .when =
         "over {flag.gum-serving} g of gum in a serving (care), or {flag.gum-day} g in the batch",
     .why =
         "Bulk in the gut; of the batch, if one person eats it within a day. Drink water with it.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_gum_load,
     .message = tell_gum_load,
     .remedy = "spread it over days, drink water"},
    {.name = "calcium-load",
     .called = "too much calcium to eat",
     .when = "over {flag.calcium-day} g of added calcium in a serving (stop), or in the batch",
     .why =
         "{flag.calcium-day} g a day from all food together is the upper level for adults; none is "
         "set for children. With kidney stones or weak kidneys far less can be too much. Of the "
         "batch, if one person eats it within a day.",
     .source = "efsa-2012-calcium",
     .grade = Grade::b,
     .check = check_calcium_load,
     .message = tell_calcium_load,
     .remedy = "less calcium salt; with kidney trouble or medicine ask a doctor first",
     .turns = less_salt},
    {.name = "acid-load",
     .called = "too much acid to eat",
     .when = "over {flag.acid-serving} g of food acid in a serving",
     .why =
         "Even where the pH hides it, in a gel with citrate or much gum, the stomach and the teeth "
         "meet all of the acid.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_acid_load,
     .message = tell_acid_load,
     .remedy = "check the decimal; less acid, or smaller servings",
     .turns = less_acid},
    {.name = "take-with-water",
     .called = "a need for water with it",
     .when = "over {flag.concentrated} % of soluble solids",
     .why = "A concentrated gel draws water into the gut before it gives any: cramps, and thirst.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_concentrated,
     .message = tell_concentrated,
     .remedy = "take it with water"},
};

}  // namespace

FlagSubject eating_flags() {
  return {records, rows, borrowed};
}

}  // namespace gelwright::detail
