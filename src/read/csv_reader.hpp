// Comma-separated text into cells, with the place of each. Private.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "gelwright/error.hpp"

namespace gelwright::detail {

/// One line of cells. RFC 4180: a cell may stand in double quotes, a quote inside is doubled.
struct CsvRow {
  std::size_t line = 0;            ///< from 1
  std::vector<std::string> cells;  ///< spaces around an unquoted cell are gone

  bool blank() const;
};

struct CsvText {
  char separator = ',';
  std::vector<CsvRow> rows;  ///< blank lines left out
  bool readable = true;      ///< every byte of it is text in UTF-8
};

/// Splits the text at the separator its first line uses: the more frequent of comma and semicolon,
/// else tab. A byte order mark is skipped; lines may end in LF, CR LF or CR. What is broken goes to
/// `problems`.
CsvText split_csv(std::string_view text, std::vector<Problem>& problems);

}  // namespace gelwright::detail
