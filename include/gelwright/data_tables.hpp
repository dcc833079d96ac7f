// Every literature number the library uses, in one list.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "gelwright/source.hpp"

namespace gelwright {

/// A named group of numbers, one for each part of the model.
struct DataTable {
  std::string_view name;
  std::span<const Datum> rows;
};

/// The tables of all parts of the model, from the ground up.
const std::vector<DataTable>& data_tables();

}  // namespace gelwright
