// All that flags see of what sets. Private.
#pragma once

#include <string>

#include "flags/record.hpp"
#include "gelwright/setting.hpp"

namespace gelwright::detail {

inline bool holds_together(const Outlook& outlook) {
  return keeps_shape(outlook.texture);
}

inline bool is_firm(const Outlook& outlook) {
  return outlook.texture >= Texture::firm;
}

inline bool without_gum(const Outlook& outlook) {
  return outlook.count == 0;
}

/// "soft set, weeps"
std::string words_of(const Outlook& outlook);

/// A prediction resting on judgement warns; one resting on published work stops.
Level level_of(const Outlook& outlook);

/// What one route of the pouch or bottle comes to; null where its gum is absent.
const Verdict* verdict_of(const Outlook& outlook, Route route);

/// The first rule of an outlook that expects this defect, or null.
const SetRule* rule_with(const Outlook& outlook, Defect defect);

/// The claim rests on that rule; on what the record says where there is none.
Raise by_rule(const Raise& raise, const SetRule* rule);

/// The rule behind the likely texture.
Raise by_driver(const Raise& raise, const Outlook& outlook);

}  // namespace gelwright::detail
