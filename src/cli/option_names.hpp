// The core names an option by a key of its own; here it becomes what the user typed.
#pragma once

#include <string>

namespace gelwright::cli {

/// "axes acid_g=1:2:0" becomes "--vary acid_g=1:2:0"; a place that is no option stays as it is.
std::string as_option(const std::string& where);

}  // namespace gelwright::cli
