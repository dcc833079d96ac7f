// The JSON Schema of a result document, from the cells of its reports.
#pragma once

#include <string>
#include <vector>

#include "gelwright/report.hpp"

namespace gelwright::test {

/// A JSON Schema (draft 2020-12) that all the reports fulfil, which are of one format. Keys, types
/// and which keys are always there come from the reports together, descriptions from the labels and
/// units of their cells. Objects are closed, but for columns named after something in a recipe.
std::string schema_of(const std::vector<Report>& reports);

}  // namespace gelwright::test
