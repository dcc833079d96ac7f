#include "cli/complain.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <map>
#include <optional>
#include <string_view>

#include "base/harmless.hpp"
#include "base/text.hpp"
#include "cli/files.hpp"
#include "cli/option_names.hpp"
#include "gelwright/error.hpp"
#include "read/json_places.hpp"

namespace gelwright::cli {

namespace {

constexpr std::size_t most_problems = 20;
constexpr std::size_t most_bytes = 2000;

/// Says where in its document a JSON pointer leads: " (line 12, column 5)", or nothing.
class Places {
 public:
  std::string of(const std::string& pointer, const std::string& document) {
    const std::optional<std::string_view> text = text_read(document);
    if (!text || !pointer.starts_with('/')) return {};
    auto found = documents_.find(document);
    if (found == documents_.end())
      found = documents_.emplace(document, detail::found_places(*text)).first;
    if (!found->second) return {};
    const auto place = detail::place_of(pointer, *found->second, *text);
    return place ? fmt::format(" (line {}, column {})", place->line, place->column) : "";
  }

 private:
  std::map<std::string, std::optional<detail::Place>> documents_;
};

void complain_of(const InputError& error) {
  Places places;
  const std::size_t shown = std::min(error.problems().size(), most_problems);
  for (std::size_t i = 0; i < shown; ++i) {
    const Problem& problem = error.problems()[i];
    const std::string& file = problem.document.empty() ? error.document() : problem.document;
    std::string text = file.empty() ? "" : file + ": ";
    if (!problem.where.empty())
      text += as_option(problem.where) + places.of(problem.where, file) + ": ";
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
    complain(
        fmt::format("no answer was found; please report it with the recipe: {}", error.what()));
  else
    complain(fmt::format("internal error, please report it: {}", error.what()));
}

}  // namespace gelwright::cli
