// Values that have names and may be built from one another, each made once. Private.
#pragma once

#include <algorithm>
#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace gelwright::detail {

/// Makes each named value when it is first asked for and keeps it. While a value is being made its
/// name is open: to ask for it again then would go round in a circle, and a chain of open names has
/// a longest length, so that a document cannot exhaust the stack.
template <class Value>
class NamedValues {
 public:
  enum class Open {
    fine,            ///< the name may be made now
    through_itself,  ///< it is being made already: a circle
    too_deep,        ///< `longest_chain` names are being made, each for the one before
  };
  static constexpr std::size_t longest_chain = 8;

  /// The value made or kept before, or null.
  const Value* find(const std::string& name) const {
    const auto known = known_.find(name);
    return known == known_.end() ? nullptr : &known->second;
  }

  /// Whether a name that is not known yet may be made.
  Open check(const std::string& name) const {
    if (std::find(open_.begin(), open_.end(), name) != open_.end()) return Open::through_itself;
    return open_.size() < longest_chain ? Open::fine : Open::too_deep;
  }

  /// Keeps what `make()` returns, during which the name is open. Call where `check` is fine. The
  /// reference stays valid as long as this object.
  template <class Make>
  const Value& make(const std::string& name, Make&& make_value) {
    open_.push_back(name);
    const Closing closing{open_};
    return known_.insert_or_assign(name, make_value()).first->second;
  }

 private:
  /// Closes the name even where making it throws.
  struct Closing {
    std::vector<std::string>& open;
    ~Closing() { open.pop_back(); }
  };

  std::map<std::string, Value> known_;
  std::vector<std::string> open_;
};

}  // namespace gelwright::detail
