#include "gelwright/error.hpp"

#include <utility>

namespace gelwright {

namespace {

std::string join(const std::string& document, const std::vector<Problem>& problems) {
  std::string text;
  for (const Problem& problem : problems) {
    if (!text.empty()) text += '\n';
    if (!document.empty()) text += document + ": ";
    if (!problem.where.empty()) text += problem.where + ": ";
    text += problem.what;
    if (!problem.remedy.empty()) text += "; " + problem.remedy;
  }
  return text;
}

}  // namespace

InputError::InputError(std::string document, std::vector<Problem> problems)
    : std::runtime_error(join(document, problems)),
      document_(std::move(document)),
      problems_(std::move(problems)) {}

}  // namespace gelwright
