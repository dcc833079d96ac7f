#include "cli/exit_code.hpp"

#include "gelwright/error.hpp"

namespace gelwright::cli {

namespace {

constexpr ExitCodeInfo table[] = {
    {fine, "fine"},
    {answer_is_no,
     "the answer is no: a stop flag in check, a limit broken in water, a target out of reach in "
     "dose or fit"},
    {unusable_input, "the input or the command line cannot be used, or the output not be written"},
    {not_converged, "the solver did not converge"},
    {internal_error, "an internal error: please report it"},
};

}  // namespace

std::span<const ExitCodeInfo> exit_codes() {
  return table;
}

ExitCode exit_code_of(const std::exception& error) {
  if (dynamic_cast<const InputError*>(&error) != nullptr) return unusable_input;
  if (dynamic_cast<const NotConverged*>(&error) != nullptr) return not_converged;
  return internal_error;
}

}  // namespace gelwright::cli
