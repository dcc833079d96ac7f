// The terminal the report is printed on.
#pragma once

#include "gelwright/report.hpp"

namespace gelwright::cli {

/// As wide as the terminal on standard output, 80 columns at most, with the signs its locale can
/// show; the plain page where standard output is no terminal.
Page terminal_page();

}  // namespace gelwright::cli
