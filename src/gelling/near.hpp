// A forecast moved a little, for searches that look at many servings close to one another. Private.
#pragma once

#include "gelwright/gel_chances.hpp"

namespace gelwright::gel::detail {

/// `known` moved as far as the centre of a like serving moved from `then` to `now`. What is in
/// doubt about a serving hardly changes where the serving changes a little, and finding it out is
/// nearly all the work of a forecast: its spread is kept as it was.
Outlook moved_alike(const Outlook& known, const Outlook& then, const Outlook& now);

}  // namespace gelwright::gel::detail
