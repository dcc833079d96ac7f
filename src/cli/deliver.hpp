// What a command leaves behind, and getting it to where it was asked for: all of it or nothing.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace gelwright::cli {

/// Takes the next piece of a document. Throws InputError where it cannot be written.
using Sink = std::function<void(std::string_view)>;

/// What a command leaves behind: the document that is its product and the exit code.
struct Outcome {
  std::string document;
  int exit_code = 0;
  /// In place of `document`, for one too long to hold: hands it to the sink piece by piece.
  std::function<void(const Sink&)> stream = {};
  /// The recipe with what was found in it, for --write.
  std::optional<std::string> recipe = {};
  /// The kitchen with what was found in it, for --write-kitchen.
  std::optional<std::string> kitchen = {};
  /// For the person beside a product that goes elsewhere: standard error.
  std::string aside = {};
};

/// Options every printing command has.
struct OutputOptions {
  std::string format = "text";
  std::string file = "-";                         ///< "-": standard output
  std::optional<std::string> write = {};          ///< for the edited recipe
  std::optional<std::string> write_kitchen = {};  ///< for the edited kitchen
  bool force = false;                             ///< existing files may be replaced
};

/// Throws InputError where the files asked for cannot be written, before any work is done.
void require_deliverable(const OutputOptions& output);

/// Prints the document, or puts it in `output.file`, the recipe in `output.write`, and the kitchen
/// in `output.write_kitchen`.
void deliver(const Outcome& outcome, const OutputOptions& output);

}  // namespace gelwright::cli
