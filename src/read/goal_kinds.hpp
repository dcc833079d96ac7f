// The ways to set a goal may be reached by, each as a recipe whose amounts are still open. Private.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gelwright/goal.hpp"
#include "studies/formulate/draft.hpp"

namespace gelwright::detail {

/// What a kind needs of an acid or a calcium salt.
enum class GoalAcid { none, poured, slow };
enum class GoalCalcium { none, soluble, released };

/// One way to set.
struct GoalKind {
  std::string_view words;
  std::vector<Gum> gums;  ///< evenly; empty: the gum that the sugars bring
  GoalAcid acid = GoalAcid::none;
  GoalCalcium calcium = GoalCalcium::none;
  double heated_c = 0;  ///< 0: not heated
  Span gum = {};        ///< each in % of the water
  Span acid_percent = {};
  Span calcium_percent = {};
  bool pouch = true;  ///< or a drink
};
const std::vector<GoalKind>& goal_kinds();

/// The names a recipe of one kind is written with.
struct GoalNames {
  std::vector<std::string> sugars;
  std::vector<std::string> gums;
  std::string acid, calcium, salt;  ///< empty: none
};

/// Its amounts, g in one serving.
struct GoalMasses {
  std::vector<double> sugars, gums;
  double acid = 0, calcium = 0, salt = 0, water = 0;
};

/// The recipe document.
std::string goal_document(const Goal& goal, const GoalKind& kind, const GoalNames& names,
                          const GoalMasses& masses);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
