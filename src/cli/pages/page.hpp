// What help, manual and completion say of a command: read once from the parser, so that they cannot
// disagree with it or with one another.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "cli/pages/examples.hpp"

namespace gelwright::cli {

/// One option, or one operand.
struct OptionPage {
  std::vector<std::string> names;  ///< "-o", "--output"; none for an operand
  std::string value;               ///< what is typed for it: "FILE"; empty for a switch
  std::string text;                ///< with range, usual value and what it cannot stand with
  std::vector<std::string> choices;
  bool required = false;
  bool repeats = false;
};

struct OptionGroup {
  std::string title;
  std::vector<OptionPage> options;
};

struct CommandPage {
  std::string name;  ///< "sheet"; empty for the program itself
  std::string summary;
  std::vector<OptionPage> operands;
  std::vector<OptionGroup> groups;
  std::vector<Example> examples;
};

/// Said of the program wherever it is described as a whole.
constexpr std::string_view caution =
    "Estimates only: local food-safety codes and the label come first.";

/// "-o, --output FILE"; "RECIPE..." for an operand.
std::string as_typed(const OptionPage& option);

/// "gelwright sheet RECIPE [OPTIONS]".
std::string usage_line(const CommandPage& page);

CommandPage page_of(const CLI::App& command);
/// One for each command, in the order of the program.
std::vector<CommandPage> pages_of(const CLI::App& program);

}  // namespace gelwright::cli
