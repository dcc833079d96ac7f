// Flags about what the form asks: a pouch must set, a drink must pour and set in the stomach only.
#include <fmt/format.h>

#include <algorithm>

#include "base/rounding.hpp"
#include "flags/gel_view.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum rows[] = {
    {"flag.pouch-sets-percent", 50, "%", 0, "chance that a pouch sets, at least", "judgement",
     Standing::judgement},
    {"flag.bottle-sets-percent", 20, "%", 0, "chance that a drink sets before it is drunk, at most",
     "judgement", Standing::judgement},
    {"flag.stomach-sets-percent", 50, "%", 0,
     "chance that a drink sets in the stomach, pieces or films counted, at least", "judgement",
     Standing::judgement},
};
constexpr std::array<std::string_view, 0> borrowed = {};
constexpr Threshold pouch_sets_percent = place_of(rows, borrowed, "flag.pouch-sets-percent");
constexpr Threshold bottle_sets_percent = place_of(rows, borrowed, "flag.bottle-sets-percent");
constexpr Threshold stomach_sets_percent = place_of(rows, borrowed, "flag.stomach-sets-percent");

bool mix_gum_undeclared(const Judged& j) {
  return std::any_of(j.inputs.solids.begin(), j.inputs.solids.end(), [&](const InputLine& line) {
    const Ingredient& ingredient = j.recipe().ingredients[line.ingredient];
    return ingredient.kind == Kind::mix && !ingredient.fully_declared;
  });
}

/// A mix that may hold gum, and no gum that is known of: nothing can be said.
bool nothing_known(const Judged& j) {
  return mix_gum_undeclared(j) && !gel_of(j).any_gum();
}

bool foretold(const Judged& j) {
  return gel_of(j).made && !nothing_known(j);
}

void check_outside_model(const Judged& j, Raise& raise) {
  if (!gel_of(j).outside.empty()) raise(Level::care);
}

/// As a sentence says it: a pH and a share have none.
std::string unit_of(const gel::OutOfRange& each) {
  return each.unit == "pH" || each.unit == "1" ? "" : " " + std::string(each.unit);
}

std::string tell_outside_model(const Flag&, const Judged& j) {
  std::string text;
  for (const gel::OutOfRange& each : gel_of(j).outside)
    text += fmt::format("{}{} is {}{}, the gel model knows {:g} to {:g}", text.empty() ? "" : "; ",
                        each.what, significant(each.value, 3), unit_of(each), each.low, each.high);
  return text + ": whether it sets is not foretold";
}

void check_will_not_set(const Judged& j, Raise& raise) {
  if (!j.drink() && foretold(j) && 100 * gel_of(j).chance_set() < j[pouch_sets_percent])
    raise(Level::care);
}

std::string tell_will_not_set(const Flag&, const Judged& j) {
  const GelForecast& gel = gel_of(j);
  if (!gel.any_gum()) return "no gum in it: a pouch cannot set";
  if (!gel.any_route()) return "its gum thickens and never sets: a pouch needs one that does";
  return fmt::format("the pouch sets with a chance of {} ({})", in_100(gel.chance_set()),
                     words_of(gel.all.chances));
}

void check_sets_in_bottle(const Judged& j, Raise& raise) {
  if (j.drink() && foretold(j) && 100 * gel_of(j).chance_set() > j[bottle_sets_percent])
    raise(Level::care);
}

std::string tell_sets_in_bottle(const Flag&, const Judged& j) {
  return fmt::format("the drink sets before it is drunk with a chance of {} ({})",
                     in_100(gel_of(j).chance_set()), words_of(gel_of(j).all.chances));
}

void check_not_in_stomach(const Judged& j, Raise& raise) {
  if (j.drink() && foretold(j) && 100 * gel_of(j).all.stomach.pieces < j[stomach_sets_percent])
    raise(Level::care);
}

std::string tell_not_in_stomach(const Flag&, const Judged& j) {
  const GelForecast& gel = gel_of(j);
  if (!gel.any_gum()) return "no gum in it: it stays liquid in the stomach";
  if (!gel.any_route()) return "its gum thickens and never sets, in the stomach neither";
  return fmt::format("it sets in the stomach with a chance of {}", in_100(gel.all.stomach.pieces));
}

void check_gum_share(const Judged& j, Raise& raise) {
  const GelForecast& gel = gel_of(j);
  if (!nothing_known(j) && !gel.band) return;
  const bool same =
      gel.band && gel::likeliest(gel.band->low.chances) == gel::likeliest(gel.band->high.chances);
  raise(same ? Level::note : Level::care);
}

std::string tell_gum_share(const Flag&, const Judged& j) {
  const auto& band = gel_of(j).band;
  if (!band) return "the mix does not declare its gum: nothing can be foretold";
  return fmt::format(
      "the mix does not declare its gum: with the least it may hold {}, with the "
      "most {}",
      words_of(band->low.chances), words_of(band->high.chances));
}

constexpr Turn towards_a_set[] = {Turn::more_acid, Turn::more_calcium_salt, Turn::less_water};
constexpr Turn away_from_a_set[] = {Turn::more_water, Turn::softer_water, Turn::less_acid,
                                    Turn::less_calcium_salt};
constexpr Turn more_gum_in_the_stomach[] = {Turn::less_water, Turn::softer_water};
constexpr FlagRecord records[] = {
    {.name = "outside-gel-model",
     .called = "a gel nobody can foretell",
     .when = "a number of the serving lies outside the range the gel model was made for",
     .why = "Outside it the equations give numbers that mean nothing, so none are shown.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_outside_model,
     .message = tell_outside_model,
     .remedy = "check the amounts; else only a bench cup can tell"},
    {.name = "will-not-set",
     .called = "a pouch that may not set",
     .when = "a pouch that sets with a chance under {flag.pouch-sets-percent} %",
     .why = "None of the ways this gum can set is far enough along; the sheet lists each.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_will_not_set,
     .message = tell_will_not_set,
     .remedy = "test it on the bench first",
     .turns = towards_a_set},
    {.name = "drink-sets-in-bottle",
     .called = "a drink that sets in the bottle",
     .when = "a drink that sets before it is drunk with a chance over {flag.bottle-sets-percent} %",
     .why = "What has set in the bottle cannot be drunk and does not set again in the stomach.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_sets_in_bottle,
     .message = tell_sets_in_bottle,
     .remedy = "test it on the bench first",
     .turns = away_from_a_set},
    {.name = "drink-will-not-set-in-stomach",
     .called = "a drink that may not set in the stomach",
     .when = "a drink that sets at the pH of the stomach, in pieces or films at least, with a "
             "chance under {flag.stomach-sets-percent} % in the standard test",
     .why = "Too little gum after dilution, or calcium has used it up. Most small trials found no "
            "gain from such gels over the same sugars without gum, so little may be lost.",
     .source = "brodkorb-2019",
     .grade = Grade::c,
     .check = check_not_in_stomach,
     .message = tell_not_in_stomach,
     .remedy = "test it on the bench first",
     .turns = more_gum_in_the_stomach},
    {.name = "gum-share-unknown",
     .called = "a set that hangs on how much gum the mix holds",
     .when = "a bought mix does not say how much gum it holds",
     .why = "The chances count the whole plausible band; a bench cup tells which end is true.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_gum_share,
     .message = tell_gum_share,
     .remedy = "set one bench cup, or ask the maker",
     .by_plan = true},
};

}  // namespace

FlagSubject form_flags() {
  return {records, rows, borrowed};
}

}  // namespace gelwright::detail
