#include "cli/complain.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "base/harmless.hpp"
#include "base/text.hpp"
#include "cli/option_names.hpp"
#include "gelwright/error.hpp"

namespace gelwright::cli {

namespace {

constexpr std::size_t most_problems = 20;
constexpr std::size_t most_bytes = 2000;

void complain_of(const InputError& error) {
  const std::size_t shown = std::min(error.problems().size(), most_problems);
  for (std::size_t i = 0; i < shown; ++i) {
    const Problem& problem = error.problems()[i];
    std::string text = error.document().empty() ? "" : error.document() + ": ";
    if (!problem.where.empty()) text += as_option(problem.where) + ": ";
    text += problem.what;
    if (!problem.remedy.empty()) text += "; " + problem.remedy;
    complain(text);
  }
  if (error.problems().size() > shown)
    complain(fmt::format("{} more problems like these", error.problems().size() - shown));
}

}  // namespace

void complain(const std::string& text) {
  std::string line = detail::visible(text);
  if (line.size() > most_bytes) {
    std::size_t end = most_bytes;
    while (continues_character(line[end])) --end;
    line = line.substr(0, end) + " ...";
  }
  line = "gelwright: " + line + '\n';
  static_cast<void>(std::fwrite(line.data(), 1, line.size(), stderr));
}

void complain(const std::exception& error) {
  if (const auto* input = dynamic_cast<const InputError*>(&error))
    complain_of(*input);
  else if (dynamic_cast<const NotConverged*>(&error) != nullptr)
    complain(std::string(error.what()));
  else
    complain(fmt::format("internal error, please report it: {}", error.what()));
}

}  // namespace gelwright::cli
