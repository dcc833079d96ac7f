// The shopping list, laid out.
#pragma once

#include "gelwright/report.hpp"
#include "gelwright/shop.hpp"

namespace gelwright {

Report shop_report(const ShoppingList& list);

}  // namespace gelwright
