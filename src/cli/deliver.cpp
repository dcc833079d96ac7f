#include "cli/deliver.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>
#include <memory>
#include <utility>
#include <vector>

#include "cli/files.hpp"
#include "cli/whole_file.hpp"

namespace gelwright::cli {

namespace {

/// A document up to this size is printed only once it is whole.
constexpr std::size_t most_held_bytes = std::size_t{16} << 20U;

MayReplace report_may_replace(const OutputOptions& output) {
  return {.forced = output.force, .inputs_too = false};
}

MayReplace edit_may_replace(const OutputOptions& output) {
  return {.forced = output.force, .inputs_too = true};
}

void produce(const Outcome& outcome, const Sink& sink) {
  if (outcome.stream)
    outcome.stream(sink);
  else
    sink(outcome.document);
}

void print_document(const Outcome& outcome) {
  std::string held;
  bool flows = false;
  produce(outcome, [&](std::string_view piece) {
    if (flows) {
      print(piece);
      return;
    }
    held += piece;
    flows = held.size() > most_held_bytes;
    if (flows) print(held);
  });
  if (!flows) print(held);
  finish_printing();
}

}  // namespace

void require_deliverable(const OutputOptions& output) {
  if (output.file != "-") require_writable(output.file, report_may_replace(output));
  struct Edit {
    const std::optional<std::string>& file;
    const char* option;
    const char* what;
  };
  for (const Edit& edit : {Edit{output.write, "--write", "recipe"},
                           Edit{output.write_kitchen, "--write-kitchen", "kitchen"}}) {
    if (!edit.file) continue;
    if (*edit.file == "-") refuse(edit.option, "standard output is for the report", "name a file");
    if (*edit.file == output.file)
      refuse(output.file, fmt::format("cannot take both the report and the {}", edit.what),
             "name two files");
    require_writable(*edit.file, edit_may_replace(output));
  }
  if (output.write && output.write == output.write_kitchen)
    refuse(*output.write, "cannot take both the recipe and the kitchen", "name two files");
}

void deliver(const Outcome& outcome, const OutputOptions& output) {
  // All that can fail comes first; the names come last, new ones first, since those can be taken
  // back. What is printed cannot, so it is printed before any file has its name.
  std::vector<std::unique_ptr<WholeFile>> files;
  const auto begin = [&files](const std::string& name, MayReplace may) -> WholeFile& {
    return *files.emplace_back(std::make_unique<WholeFile>(name, may));
  };
  for (const auto& [text, name] : {std::pair(&outcome.recipe, &output.write),
                                   std::pair(&outcome.kitchen, &output.write_kitchen)}) {
    if (!*text || !*name) continue;
    WholeFile& file = begin(**name, edit_may_replace(output));
    file.add(**text);
    file.complete();
  }
  if (output.file == "-") {
    print_document(outcome);
  } else {
    WholeFile& file = begin(output.file, report_may_replace(output));
    produce(outcome, [&file](std::string_view piece) { file.add(piece); });
    file.complete();
  }
  std::stable_partition(files.begin(), files.end(),
                        [](const auto& file) { return !file->replaces(); });
  for (const auto& file : files) file->put_in_place();
  for (const auto& file : files) file->keep();
  std::cerr << outcome.aside;
}

}  // namespace gelwright::cli
