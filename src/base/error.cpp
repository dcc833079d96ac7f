#include "gelwright/error.hpp"

#include <utility>

namespace gelwright {

namespace {

/// Nobody mends more at one sitting, and a screen shows about as many.
constexpr std::size_t most_listed = 20;

std::vector<Problem> capped(std::vector<Problem> problems) {
  if (problems.size() <= most_listed) return problems;
  const std::size_t more = problems.size() - most_listed;
  problems.resize(most_listed);
  problems.push_back({"", "and " + std::to_string(more) + " more", "mend these first"});
  return problems;
}

std::string join(const std::string& document, const std::vector<Problem>& problems) {
  std::string text;
  for (const Problem& problem : problems) {
    if (!text.empty()) text += '\n';
    const std::string& file = problem.document.empty() ? document : problem.document;
    if (!file.empty()) text += file + ": ";
    if (!problem.where.empty()) text += problem.where + ": ";
    text += problem.what;
    if (!problem.remedy.empty()) text += "; " + problem.remedy;
  }
  return text;
}

}  // namespace

InputError::InputError(std::string document, std::vector<Problem> problems)
    : std::runtime_error(join(document, capped(problems))),
      document_(std::move(document)),
      problems_(capped(std::move(problems))) {}

}  // namespace gelwright
