#include "cli/pages/manual.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "cli/exit_code.hpp"
#include "cli/pages/page.hpp"

namespace gelwright::cli {

namespace {

/// Text for the typesetter: a bare backslash, a hyphen or a line that begins with a dot mean
/// something to it.
std::string plain(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (out.empty() && (c == '.' || c == '\'')) out += "\\&";
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else
      out += c;
  }
  return out;
}

std::string page_name(const CommandPage& page) {
  return page.name.empty() ? "gelwright" : "gelwright-" + page.name;
}

std::string entry(std::string_view label, std::string_view text) {
  return fmt::format(".TP\n.B {}\n{}\n", plain(label), plain(text));
}

std::string head(const CommandPage& page, std::string_view version) {
  std::string title = page_name(page);
  std::transform(title.begin(), title.end(), title.begin(),
                 [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
  return fmt::format(
      ".TH {} 1 \"\" \"gelwright {}\" \"User Commands\"\n.SH NAME\n{} \\- {}\n.SH SYNOPSIS\n.B {}\n"
      ".SH DESCRIPTION\n{}.\n{}\n",
      plain(title), version, plain(page_name(page)), plain(page.summary), plain(usage_line(page)),
      plain(page.summary), plain(caution));
}

std::string body(const CommandPage& page) {
  std::string out;
  for (const OptionPage& operand : page.operands) out += entry(as_typed(operand), operand.text);
  for (const OptionGroup& group : page.groups) {
    out += fmt::format(".SH \"{}\"\n", plain(group.title));
    for (const OptionPage& option : group.options) out += entry(as_typed(option), option.text);
  }
  out +=
      ".SH EXAMPLES\nFrom the folder that holds recipes/, as share/gelwright does where it is "
      "installed.\n";
  for (const Example& example : page.examples) out += entry(example.line, example.does);
  out += ".SH \"EXIT STATUS\"\n";
  for (const ExitCodeInfo& each : exit_codes())
    out += entry(fmt::format("{}", static_cast<int>(each.code)), each.meaning);
  return out;
}

}  // namespace

std::string manual_of_program(const CLI::App& program, std::string_view version) {
  const CommandPage page = page_of(program);
  std::string out = head(page, version) + ".SH COMMANDS\n";
  std::string also;
  for (const CommandPage& command : pages_of(program)) {
    out += entry(command.name, command.summary);
    also += fmt::format("{}.BR {} (1)", also.empty() ? "" : " ,\n", plain(page_name(command)));
  }
  return out + body(page) + ".SH \"SEE ALSO\"\n" + also + "\n";
}

std::string manual_of_command(const CLI::App& command, std::string_view version) {
  const CommandPage page = page_of(command);
  return head(page, version) + body(page) + ".SH \"SEE ALSO\"\n.BR gelwright (1)\n";
}

}  // namespace gelwright::cli
