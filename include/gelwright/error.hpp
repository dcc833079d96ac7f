// The only two exceptions the library throws. A finding about a usable recipe is data, not an
// error.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace gelwright {

/// One thing wrong with an input, in the words the user sees.
struct Problem {
  std::string where;   ///< JSON pointer or option: "/solids/0/mass_g", "--servings"
  std::string what;    ///< what is wrong
  std::string remedy;  ///< how to mend it; may be empty
  /// The file, where it is not the one the error is about: the kitchen of a recipe, say.
  std::string document = {};
};

/// The input cannot be used. Carries all problems, or the first twenty and how many more.
class InputError : public std::runtime_error {
 public:
  InputError(std::string document, std::vector<Problem> problems);

  const std::string& document() const { return document_; }  ///< file name, or "" for options
  const std::vector<Problem>& problems() const { return problems_; }

 private:
  std::string document_;
  std::vector<Problem> problems_;
};

/// The solver did not reach its tolerance. `what()` holds the state it stopped in.
class NotConverged : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace gelwright
