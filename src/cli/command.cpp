#include "cli/command.hpp"

#include <fmt/format.h>

#include <optional>

#include "base/number.hpp"
#include "cli/terminal.hpp"
#include "gelwright/error.hpp"

namespace gelwright::cli {

CLI::Validator number_between(double low, double high) {
  const std::string range = fmt::format("a number from {} to {}", low, high);
  return CLI::Validator(
      [low, high, range](std::string& text) {
        const std::optional<double> number = detail::to_number(text);
        const bool good = number && *number >= low && *number <= high;
        return good ? std::string() : fmt::format("\"{}\" is not {}", text, range);
      },
      range);
}

void bind_format(CLI::App& command, OutputOptions& output) {
  const auto known = format_names();
  const std::vector<std::string> names(known.begin(), known.end());
  command.add_option("--format", output.format, "How to print it")
      ->type_name("FORMAT")
      ->check(CLI::IsMember(names))
      ->capture_default_str();
}

void bind_output(CLI::App& command, OutputOptions& output) {
  bind_format(command, output);
  bind_file(command, output);
}

void bind_file(CLI::App& command, OutputOptions& output) {
  command
      .add_option("-o,--output", output.file,
                  "Write it to FILE, whole or not at all; - is standard output")
      ->type_name("FILE");
  command.add_flag("--force", output.force, "Replace a FILE that exists already");
}

void bind_write(CLI::App& command, OutputOptions& output, const std::string& what_is_written) {
  command
      .add_option("--write", output.write,
                  what_is_written + " to FILE; with --force that may be the recipe itself")
      ->type_name("FILE");
}

Format format_of(const OutputOptions& output) {
  return format_named(output.format).value_or(Format::text);
}

std::string rendered(const Report& report, const OutputOptions& output) {
  if (format_of(output) == Format::svg && first_picture(report) == nullptr) {
    for (const Section& section : report.sections)
      for (const Lines& lines : section.lines)
        if (lines.key == "left_out") throw InputError("", {{"", lines.items.front(), ""}});
    throw InputError("", {{"--format svg", "there is no picture here", "ask for html or text"}});
  }
  return render(report, format_of(output), output.file == "-" ? terminal_page() : Page{});
}

}  // namespace gelwright::cli
