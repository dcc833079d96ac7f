// The shape every command shares: options, a function that binds them to the parser, a function
// that runs and knows nothing of the parser.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "gelwright/recipe.hpp"
#include "gelwright/report.hpp"

namespace gelwright::cli {

/// Takes the next piece of a document. Throws InputError where it cannot be written.
using Sink = std::function<void(std::string_view)>;

/// What a command leaves behind: the document to print and the exit code.
struct Outcome {
  std::string document;
  int exit_code = 0;
  /// In place of `document`, for one too long to hold: hands it to the sink piece by piece.
  std::function<void(const Sink&)> stream = {};
};

enum ExitCode { fine = 0, answer_is_no = 1, unusable_input = 2, not_converged = 3 };

/// What the parsed command line asks for; `main` runs it and prints.
using Run = std::function<Outcome()>;

/// Options every printing command has.
struct OutputOptions {
  std::string format = "text";
  std::string file;  ///< empty: standard output
};

/// Accepts a finite number from `low` to `high`. (The parser's own range check lets NaN through.)
CLI::Validator number_between(double low, double high);

/// Adds --format.
void bind_format(CLI::App& command, OutputOptions& output);
/// Adds --format and -o.
void bind_output(CLI::App& command, OutputOptions& output);
Format format_of(const OutputOptions& output);

/// Reads a whole file, or standard input for "-". Throws InputError.
std::string read_file(const std::string& name);

/// Reads a recipe file, with targets still unresolved.
Recipe load_recipe(const std::string& name);

/// Writes the whole document or nothing: a temporary beside the target, then a rename. A run ended
/// by a signal takes the temporary with it. Throws InputError.
void write_file(const std::string& name, const std::string& document);

/// As `write_file`, for a recipe made from another: never over an existing file. Throws InputError.
void write_new_file(const std::string& name, const std::string& document);

/// Prints to standard output piece by piece, or writes `output.file` as `write_file` does.
void deliver(const Outcome& outcome, const OutputOptions& output);

/// Each sets `run` and `output` when its command is chosen on the command line.
struct Registry {
  CLI::App& app;
  Run& run;
  OutputOptions& output;
};
void add_sheet(Registry registry);
void add_check(Registry registry);
void add_water(Registry registry);
void add_dose(Registry registry);
void add_ladder(Registry registry);
void add_fit(Registry registry);
void add_spread(Registry registry);
void add_ingredients(Registry registry);
void add_sources(Registry registry);
void add_explain(Registry registry);

}  // namespace gelwright::cli
