// The shape every command shares: options, a function that binds them to the parser, a function
// that runs and knows nothing of the parser.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "cli/deliver.hpp"
#include "cli/exit_code.hpp"
#include "cli/files.hpp"
#include "gelwright/report.hpp"

namespace gelwright::cli {

/// What the parsed command line asks for; `main` runs it and prints.
using Run = std::function<Outcome()>;

/// Accepts a finite number from `low` to `high`. (The parser's own range check lets NaN through.)
CLI::Validator number_between(double low, double high);

/// Adds --format.
void bind_format(CLI::App& command, OutputOptions& output);
/// Adds --format, -o and --force.
void bind_output(CLI::App& command, OutputOptions& output);
/// Adds -o and --force, for a product of only one format.
void bind_file(CLI::App& command, OutputOptions& output);
/// Adds --write.
void bind_write(CLI::App& command, OutputOptions& output, const std::string& what_is_written);
Format format_of(const OutputOptions& output);
/// The report in the format asked for, laid out for where it is going.
std::string rendered(const Report& report, const OutputOptions& output);

/// Each sets `run` and `output` when its command is chosen on the command line.
struct Registry {
  CLI::App& app;
  Run& run;
  OutputOptions& output;
};
void add_start(Registry registry);
void add_formulate(Registry registry);
void add_sheet(Registry registry);
void add_check(Registry registry);
void add_water(Registry registry);
void add_dose(Registry registry);
void add_ladder(Registry registry);
void add_fit(Registry registry);
void add_spread(Registry registry);
void add_mend(Registry registry);
void add_carry(Registry registry);
void add_compare(Registry registry);
void add_log(Registry registry);
void add_shop(Registry registry);
void add_flatten(Registry registry);
void add_ingredients(Registry registry);
void add_sources(Registry registry);
void add_words(Registry registry);
void add_explain(Registry registry);

}  // namespace gelwright::cli
