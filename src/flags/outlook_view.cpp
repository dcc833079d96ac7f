#include "flags/outlook_view.hpp"

#include <fmt/format.h>

namespace gelwright::detail {

std::string words_of(const Outlook& outlook) {
  std::string text(to_text(outlook.texture));
  if (outlook.worst_defect) text += fmt::format(", {}", to_text(*outlook.worst_defect));
  return text;
}

Level level_of(const Outlook& outlook) {
  const bool judgement = outlook.count > 0 && outlook.verdicts[outlook.firmest].grade == Grade::c;
  return judgement ? Level::care : Level::stop;
}

const Verdict* verdict_of(const Outlook& outlook, Route route) {
  for (std::size_t i = 0; i < outlook.count; ++i)
    if (outlook.verdicts[i].route == route) return &outlook.verdicts[i];
  return nullptr;
}

const SetRule* rule_with(const Outlook& outlook, Defect defect) {
  for (std::size_t i = 0; i < outlook.count; ++i)
    if (outlook.verdicts[i].defects.has(defect)) return outlook.verdicts[i].rule;
  return nullptr;
}

Raise by_rule(const Raise& raise, const SetRule* rule) {
  return rule != nullptr ? raise.on({rule->grade, rule->source, rule}) : raise;
}

Raise by_driver(const Raise& raise, const Outlook& outlook) {
  return by_rule(raise, outlook.count > 0 ? outlook.verdicts[outlook.firmest].rule : nullptr);
}

}  // namespace gelwright::detail
