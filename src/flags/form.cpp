// Flags about what the form asks: a pouch must set, a drink must pour and set in the stomach only.
#include <fmt/format.h>

#include <algorithm>

#include "flags/outlook_view.hpp"

namespace gelwright::detail {

namespace {

bool mix_gum_undeclared(const Judged& j) {
  return std::any_of(j.inputs.solids.begin(), j.inputs.solids.end(), [&](const InputLine& line) {
    const Ingredient& ingredient = j.recipe().ingredients[line.ingredient];
    return ingredient.kind == Kind::mix && !ingredient.fully_declared;
  });
}

/// A mix that may hold gum, and no gum that is known of: nothing can be said.
bool nothing_known(const Judged& j) {
  return mix_gum_undeclared(j) && j.gum_percent() == 0;
}

/// Undeclared gum beside the known one may change the outlook: such a prediction never stops.
Level form_level(const Judged& j) {
  return mix_gum_undeclared(j) ? Level::care : level_of(j.serving.setting.pouch);
}

void check_will_not_set(const Judged& j, Raise& raise) {
  const Outlook& pouch = j.serving.setting.pouch;
  if (!j.drink() && !nothing_known(j) && !holds_together(pouch))
    by_driver(raise, pouch)(form_level(j));
}

std::string tell_will_not_set(const Flag&, const Judged& j) {
  const Outlook& pouch = j.serving.setting.pouch;
  return without_gum(pouch) ? "no gum in it: a pouch cannot set"
                            : fmt::format("the pouch is not expected to set ({})", words_of(pouch));
}

void check_sets_in_bottle(const Judged& j, Raise& raise) {
  const Outlook& bottle = j.serving.setting.pouch;
  if (j.drink() && !nothing_known(j) && holds_together(bottle))
    by_driver(raise, bottle)(form_level(j));
}

std::string tell_sets_in_bottle(const Flag&, const Judged& j) {
  return fmt::format("the drink is expected to set before it is drunk ({})",
                     words_of(j.serving.setting.pouch));
}

void check_not_in_stomach(const Judged& j, Raise& raise) {
  const Outlook& stomach = j.serving.setting.stomach;
  if (j.drink() && !nothing_known(j) && !holds_together(stomach))
    by_driver(raise, stomach)(Level::care);
}

std::string tell_not_in_stomach(const Flag&, const Judged& j) {
  const Outlook& stomach = j.serving.setting.stomach;
  return without_gum(stomach)
             ? "no gum in it: it stays liquid in the stomach"
             : fmt::format("in the stomach it is not expected to set ({})", words_of(stomach));
}

void check_gum_share(const Judged& j, Raise& raise) {
  const Setting& setting = j.serving.setting;
  if (!nothing_known(j) && !setting.pouch_low) return;
  const bool same = setting.pouch_low &&
                    setting.pouch_low->texture == setting.pouch_high->texture &&
                    setting.stomach_low->texture == setting.stomach_high->texture;
  raise(same ? Level::note : Level::care);
}

std::string tell_gum_share(const Flag&, const Judged& j) {
  const Setting& setting = j.serving.setting;
  return setting.pouch_low
             ? fmt::format(
                   "the mix does not declare its gum: from {} to {} over the plausible band",
                   words_of(*setting.pouch_low), words_of(*setting.pouch_high))
             : "the mix does not declare its gum: no outlook can be given";
}

constexpr FlagRecord records[] = {
    {.name = "will-not-set",
     .when = "a pouch whose likely texture does not keep its shape",
     .why = "None of the ways this gum can set is far enough along. `explain` shows the rule of "
            "the route that came closest.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_will_not_set,
     .message = tell_will_not_set,
     .remedy = "test it on the bench first"},
    {.name = "drink-sets-in-bottle",
     .when = "a drink whose likely texture keeps its shape before it is drunk",
     .why = "What has set in the bottle cannot be drunk and does not set again in the stomach.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_sets_in_bottle,
     .message = tell_sets_in_bottle,
     .remedy = "test it on the bench first"},
    {.name = "drink-will-not-set-in-stomach",
     .when = "a drink that stays liquid at the pH of the stomach in the standard test",
     .why = "Too little gum after dilution, or calcium has used it up. Most small trials found no "
            "gain from such gels over the same sugars without gum, so little may be lost.",
     .source = "brodkorb-2019",
     .grade = Grade::c,
     .check = check_not_in_stomach,
     .message = tell_not_in_stomach,
     .remedy = "test it on the bench first"},
    {.name = "gum-share-unknown",
     .when = "a bought mix does not say how much gum it holds",
     .why = "Outlooks are given for both ends of the plausible band; a bench cup tells which is "
            "true.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_gum_share,
     .message = tell_gum_share,
     .remedy = "set one bench cup, or ask the maker",
     .by_plan = true},
};

}  // namespace

FlagSubject form_flags() {
  return {records, {}, {}};
}

}  // namespace gelwright::detail
