// Flags about keeping and eating it. They defer to the label, local codes, a doctor.
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "flags/outlook_view.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum rows[] = {
    {"flag.acidified-food-ph", 4.6, "pH", 0, "equilibrium pH of an acidified food", "cfr-21-114",
     Standing::confirmed},
    {"flag.safe-with-strips-ph", 4.0, "pH", 0, "above it a meter is required", "cfr-21-114",
     Standing::from_memory},
    {"flag.chill", 5, "degC", 0, "to keep it", "common-practice", Standing::common_practice},
    {"flag.keep-acid", 120, "h", 0, "chilled, measured pH at most 4.0", "judgement",
     Standing::judgement},
    {"flag.keep", 48, "h", 0, "chilled", "judgement", Standing::judgement},
    {"flag.keep-low-acid", 12, "h", 0, "chilled, the same day", "judgement", Standing::judgement},
    {"flag.warm-acid", 4, "h", 0, "carried from the cold to eaten, pH at most 4.0", "judgement",
     Standing::judgement},
    {"flag.warm", 2, "h", 0, "carried from the cold to eaten", "judgement", Standing::judgement},
    {"flag.hot-day", 32, "degC", 0, "above it food spoils in half the time", "judgement",
     Standing::judgement},
    {"flag.warm-on-hot-day", 1, "h", 0, "carried from the cold to eaten", "judgement",
     Standing::judgement},
    {"flag.erosive-below-ph", 4, "pH", 0, "tooth enamel", "common-practice",
     Standing::common_practice},
    {"flag.too-sour-below-ph", 2.5, "pH", 0, "sourer than any drink sold", "judgement",
     Standing::judgement},
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
constexpr Threshold erosive_below_ph = at("flag.erosive-below-ph");
constexpr Threshold too_sour_below_ph = at("flag.too-sour-below-ph");
constexpr Threshold sodium_serving_mg = at("flag.sodium-serving");
constexpr Threshold caffeine_single_mg = at("flag.caffeine-single");
constexpr Threshold caffeine_day_mg = at("flag.caffeine-day");
constexpr Threshold fructose_g = at("flag.fructose");
constexpr Threshold gum_day_g = at("flag.gum-day");

/// How long the finished batch may be kept cold. A computed pH never earns the long time.
Threshold keeping(const Judged& j) {
  const JudgedPh found = j.ph();
  if (found.measured && found.ph <= j[safe_with_strips_ph]) return keep_acid_h;
  return found.ph > j[acidified_ph] ? keep_low_acid_h : keep_h;
}

void check_keep_cold(const Judged&, Raise& raise) {
  raise(Level::note);
}

std::string tell_keep_cold(const Flag&, const Judged& j) {
  constexpr double told_in_hours_to = 72;
  const double hours = j[keeping(j)];
  const bool in_days = hours > told_in_hours_to;
  return fmt::format("perishable (water activity {:.2f}): chill, at most {:g} {}",
                     j.serving.properties.water_activity, in_days ? hours / 24 : hours,
                     in_days ? "days" : "hours");
}

bool strips_beyond_their_range(const Judged& j) {
  const JudgedPh found = j.ph();
  return found.measured && j.recipe().process.measured_with == PhMethod::strips &&
         found.ph > j[safe_with_strips_ph];
}

void check_acidity(const Judged& j, Raise& raise) {
  const JudgedPh found = j.ph();
  if (found.ph > j[acidified_ph] || strips_beyond_their_range(j))
    raise(Level::care);
  else if (!found.measured)
    raise(Level::note);
}

std::string tell_acidity(const Flag&, const Judged& j) {
  const double ph = j.ph().ph;
  if (strips_beyond_their_range(j))
    return fmt::format("pH {:.1f} by strips: over {} they prove nothing", ph,
                       j.quoted(safe_with_strips_ph));
  return ph > j[acidified_ph] ? fmt::format("pH {:.1f} is over {}: not an acidified food", ph,
                                            j.quoted(acidified_ph))
                              : "the pH is computed, not measured";
}

std::string mend_acidity(const Flag&, const Judged& j) {
  if (strips_beyond_their_range(j)) return "read it with a meter";
  return j.ph().ph > j[acidified_ph]
             ? "treat it as fresh food"
             : fmt::format("measure it: meter, or strips up to {}", j.quoted(safe_with_strips_ph));
}

void check_choking(const Judged& j, Raise& raise) {
  if (is_firm(j.serving.setting.pouch)) raise(Level::care);
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

void check_fructose(const Judged& j, Raise& raise) {
  const Nutrition& nutrition = j.serving.nutrition;
  if (nutrition.fructose_g > j[fructose_g] && nutrition.fructose_g > nutrition.glucose_g)
    raise(Level::care);
}

std::string tell_fructose(const Flag&, const Judged& j) {
  return fmt::format("{:.0f} g of fructose in a serving with only {:.0f} g of glucose",
                     j.serving.nutrition.fructose_g, j.serving.nutrition.glucose_g);
}

double batch_gum_g(const Judged& j) {
  return j.serving.nutrition.gum_g * j.inputs.servings;
}

void check_gum_load(const Judged& j, Raise& raise) {
  if (batch_gum_g(j) > j[gum_day_g]) raise(Level::note);
}

std::string tell_gum_load(const Flag&, const Judged& j) {
  return fmt::format("{:.1f} g of gum in the batch, over {} g if one person eats it in a day",
                     batch_gum_g(j), j.quoted(gum_day_g));
}

/// True if the ingredient is, holds or is stated to carry what `word` (lower case) names.
bool holds(const Ingredient& ingredient, const std::string& word) {
  const auto names = [&word](const std::string& text) {
    return lower(text).find(word) != std::string::npos;
  };
  return names(ingredient.name) ||
         std::any_of(ingredient.allergens.begin(), ingredient.allergens.end(), names) ||
         std::any_of(ingredient.parts.begin(), ingredient.parts.end(), names) ||
         (word == "fructose" && ingredient.per_g.fructose_g > 0);
}

bool to_avoid(const Ingredient& ingredient, const Recipe& recipe) {
  return std::any_of(recipe.avoid.begin(), recipe.avoid.end(),
                     [&](const std::string& word) { return holds(ingredient, lower(word)); });
}

/// In the recipe's list.
struct Which {
  std::size_t ingredient;
};

void check_allergen_unstated(const Judged& j, Raise& raise) {
  const Recipe& recipe = j.recipe();
  if (recipe.avoid.empty()) return;
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
    const Ingredient& each = recipe.ingredients[i];
    if (each.source == "recipe" && each.allergens.empty() && !to_avoid(each, recipe))
      raise(Level::note, Which{i});
  }
}

void check_allergen(const Judged& j, Raise& raise) {
  const Recipe& recipe = j.recipe();
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i)
    if (to_avoid(recipe.ingredients[i], recipe)) raise(Level::stop, Which{i});
}

const std::string& name_in(const Flag& flag, const Judged& j) {
  return j.recipe().ingredients[flag.numbers.as<Which>().ingredient].name;
}

std::string tell_allergen_unstated(const Flag& flag, const Judged& j) {
  return fmt::format("{} states no allergens", name_in(flag, j));
}

std::string tell_allergen(const Flag& flag, const Judged& j) {
  return fmt::format("{} holds or carries what this recipe is to avoid", name_in(flag, j));
}

constexpr FlagRecord records[] = {
    {.name = "keep-cold",
     .when = "always",
     .why = "Sugar at this strength does not preserve it, and a computed water activity proves "
            "nothing. Keep at {flag.chill} degC or colder and for no longer than stated; carried "
            "warm: eat within one outing, at most {flag.warm-acid} h at pH "
            "{flag.safe-with-strips-ph} or below, else {flag.warm} h ({flag.warm-on-hot-day} h "
            "above {flag.hot-day} degC); discard leftovers. Chilled it keeps {flag.keep-acid} h if "
            "its pH was read as {flag.safe-with-strips-ph} or less, {flag.keep-low-acid} h over pH "
            "{flag.acidified-food-ph}, else {flag.keep} h. Local food-safety codes and the label "
            "come first. A pH that was computed, not measured, never earns the long time.",
     .source = "cfr-21-114",
     .grade = Grade::c,
     .check = check_keep_cold,
     .message = tell_keep_cold,
     .remedy = "{flag.chill} degC or colder; discard leftovers"},
    {.name = "acidity-not-proven",
     .when = "pH was not measured, or is over {flag.acidified-food-ph}",
     .why = "Over pH {flag.acidified-food-ph} a food does not count as acidified. With strips the "
            "limit to rely on is {flag.safe-with-strips-ph}; above it use a meter.",
     .source = "cfr-21-114",
     .grade = Grade::a,
     .check = check_acidity,
     .message = tell_acidity,
     .remedy = mend_acidity},
    {.name = "choking",
     .when = "the likely texture is a firm or hard set",
     .why = "Never make cup or mould servings that are sucked out whole. Not for small children or "
            "anyone who has difficulty swallowing. Bite, chew, drink.",
     .source = "efsa-2004-minicups",
     .grade = Grade::a,
     .check = check_choking,
     .message = "a firm set is a choking hazard",
     .remedy = "never as cup or mould; not for small children"},
    {.name = "teeth",
     .when = "pH below {flag.erosive-below-ph}",
     .why = "Acid softens enamel; rinse with water, wait before brushing.",
     .source = "common-practice",
     .grade = Grade::b,
     .check = check_teeth,
     .message = tell_teeth,
     .remedy = "rinse with water"},
    {.name = "too-sour",
     .when = "pH below {flag.too-sour-below-ph}",
     .why = "Sourer than any drink sold: it can hurt mouth, gullet and stomach.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_too_sour,
     .message = tell_too_sour,
     .remedy = "less acid, or a little citrate; `gelwright dose --to-ph`"},
    {.name = "sodium-load",
     .when = "over {flag.sodium-serving} mg of sodium in a serving",
     .why = "Half of the {flag.sodium-day} g a day an adult should stay under. Sweat losses differ "
            "widely between people.",
     .source = "who-sodium",
     .grade = Grade::b,
     .check = check_sodium,
     .message = tell_sodium,
     .remedy = "check the decimal; ask a doctor before taking that much"},
    {.name = "caffeine-single",
     .when = "over {flag.caffeine-single} mg of caffeine in a serving",
     .why = "Over the amount of a single dose that raises no concern for healthy adults.",
     .source = "efsa-2015-caffeine",
     .grade = Grade::a,
     .check = check_caffeine_single,
     .message = tell_caffeine_single,
     .remedy = "take less; ask a doctor if in doubt"},
    {.name = "caffeine-day",
     .when = "over {flag.caffeine-day} mg of caffeine in the batch",
     .why = "The day's amount for healthy adults is {flag.caffeine-day} mg, in pregnancy "
            "{flag.caffeine-pregnancy} mg, from all sources.",
     .source = "efsa-2015-caffeine",
     .grade = Grade::a,
     .check = check_caffeine_day,
     .message = tell_caffeine_day,
     .remedy = "take less; ask a doctor if in doubt"},
    {.name = "fructose",
     .when = "over {flag.fructose} g of fructose in a serving, not matched by glucose",
     .why = "Fructose alone is poorly absorbed: gut trouble. Never with hereditary fructose "
            "intolerance.",
     .source = "judgement",
     .grade = Grade::b,
     .check = check_fructose,
     .message = tell_fructose,
     .remedy = "match fructose with as much glucose or maltodextrin"},
    {.name = "gum-load",
     .when = "over {flag.gum-day} g of gum in the batch",
     .why = "If one person eats it within a day: bulk in the gut. Drink water with it.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_gum_load,
     .message = tell_gum_load,
     .remedy = "spread it over days, drink water"},
    {.name = "allergen-unstated",
     .when = "the recipe names something to avoid, and a bought ingredient states no allergens",
     .why = "This program knows only what the recipe copies from the pack.",
     .source = "common-practice",
     .grade = Grade::a,
     .check = check_allergen_unstated,
     .message = tell_allergen_unstated,
     .remedy = "read its pack, and list what it says under \"allergens\""},
    {.name = "allergen",
     .when = "an ingredient, a part of it or its stated allergens match what the recipe is to "
             "avoid",
     .why = "As printed on the pack; traces are not known to this program.",
     .source = "common-practice",
     .grade = Grade::a,
     .check = check_allergen,
     .message = tell_allergen,
     .remedy = "replace it"},
};

}  // namespace

FlagSubject safety_flags() {
  return {records, rows, borrowed};
}

}  // namespace gelwright::detail
