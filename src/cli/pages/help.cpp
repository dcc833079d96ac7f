#include "cli/pages/help.hpp"

#include <fmt/format.h>

#include <string_view>

#include "base/text.hpp"
#include "cli/exit_code.hpp"
#include "cli/pages/page.hpp"

namespace gelwright::cli {

namespace {

constexpr std::size_t page_width = 80;
constexpr std::size_t label_width = 24;

/// A label with its text beside it, or below it where it is long.
std::string entry(std::string_view label, std::string_view text, std::size_t indent = label_width) {
  std::string out = fmt::format("  {}", label);
  bool same_line = out.size() + 2 <= indent;
  for (const std::string& line : detail::wrap(text, page_width - indent)) {
    out += same_line ? std::string(indent - (out.size() - out.rfind('\n') - 1), ' ')
                     : "\n" + std::string(indent, ' ');
    out += line;
    same_line = false;
  }
  return out + "\n";
}

std::string paragraph(const std::string& text) {
  std::string out;
  for (const std::string& line : detail::wrap(text + ".", page_width)) out += line + "\n";
  return out;
}

/// A command line, broken as a shell takes it.
std::string broken_line(std::string_view line) {
  std::string out;
  const std::vector<std::string> pieces = detail::wrap(line, page_width - 8);
  for (std::size_t i = 0; i < pieces.size(); ++i)
    out += fmt::format("{}{}{}\n", i == 0 ? "  " : "      ", pieces[i],
                       i + 1 == pieces.size() ? "" : " \\");
  return out;
}

}  // namespace

std::string help_text(const CLI::App& program) {
  const auto chosen = program.get_subcommands();
  const CommandPage page = page_of(chosen.empty() ? program : *chosen.front());
  std::string out = fmt::format("Usage: {}\n\n{}", usage_line(page), paragraph(page.summary));
  if (page.name.empty()) {
    out += fmt::format("{}\n\nCommands:\n", caution);
    for (const CommandPage& command : pages_of(program))
      out += entry(command.name, command.summary, 15);
    out += "\n" + paragraph("`gelwright COMMAND --help` tells more of each");
  }
  if (!page.operands.empty()) out += "\n";
  for (const OptionPage& operand : page.operands) out += entry(as_typed(operand), operand.text);
  for (const OptionGroup& group : page.groups) {
    out += fmt::format("\n{}:\n", group.title);
    for (const OptionPage& option : group.options) out += entry(as_typed(option), option.text);
  }
  out += "\nExamples, from the folder that holds recipes/ (installed: share/gelwright):\n";
  for (const Example& example : page.examples)
    out += broken_line(example.line) + fmt::format("      {}\n", example.does);
  out += "\nExit codes:\n";
  for (const ExitCodeInfo& each : exit_codes())
    out += entry(fmt::format("{}", static_cast<int>(each.code)), each.meaning, 5);
  return out;
}

}  // namespace gelwright::cli
