// Problems, on standard error.
#pragma once

#include <exception>
#include <string>

namespace gelwright::cli {

/// Prints the text as one line, harmless to a terminal and no longer than a screen. Where standard
/// error cannot be written, nobody is listening, and that is no reason to fail.
void complain(const std::string& text);

/// Prints what an exception says: a line for each problem of an input, the first twenty of them.
void complain(const std::exception& error);

}  // namespace gelwright::cli
