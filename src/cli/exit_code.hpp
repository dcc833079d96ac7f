// What the program's exit code says. The one table of it: help, documents and tests follow it.
#pragma once

#include <exception>
#include <span>
#include <string_view>

namespace gelwright::cli {

enum ExitCode {
  fine = 0,
  answer_is_no = 1,
  unusable_input = 2,
  not_converged = 3,
  internal_error = 4
};

struct ExitCodeInfo {
  ExitCode code;
  std::string_view meaning;
};

std::span<const ExitCodeInfo> exit_codes();

/// The code a command ends with that ended with this exception.
ExitCode exit_code_of(const std::exception& error);

}  // namespace gelwright::cli
