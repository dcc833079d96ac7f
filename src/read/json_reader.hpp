// A strict view of a JSON document: every problem is collected with its JSON pointer, unknown keys
// are errors, nothing is guessed. Private: json does not show in the public headers.
#pragma once

#include <cstddef>
#include <functional>
#include <limits>
#include <nlohmann/json.hpp>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/text.hpp"
#include "gelwright/error.hpp"
#include "gelwright/recipe.hpp"

namespace gelwright {

/// Parses a whole document. Throws InputError on syntax errors (with line and column), duplicate
/// keys, numbers too large for a double, or a document over 1 MiB.
nlohmann::json parse_json(std::string_view text, const std::string& document);

/// The numbers a key accepts. Both ends are included unless `open`.
struct Bounds {
  double at_least = 0;
  double at_most = std::numeric_limits<double>::infinity();
  bool above = false;  ///< `at_least` itself is refused
};
inline constexpr Bounds positive{0, std::numeric_limits<double>::infinity(), true};
inline constexpr Bounds non_negative{};
inline constexpr Bounds percent{0, 100, false};
inline constexpr Bounds mass_bounds{0, 1e6, true};  ///< any mass in a kitchen, g

/// A name the document may use for an enumerator.
template <class T>
struct Choice {
  std::string_view text;
  T value;
};

/// Reads one JSON object. Ask for every key it may hold, then call `finish`.
class ObjectReader {
 public:
  ObjectReader(const nlohmann::json& value, std::string pointer, std::vector<Problem>& problems);

  const std::string& pointer() const { return pointer_; }
  std::string at(std::string_view key) const;  ///< JSON pointer of a member; "" is this object

  bool has(std::string_view key);
  std::optional<double> number(std::string_view key, Bounds bounds);
  std::optional<Measured> measured(std::string_view key, Bounds bounds);
  std::optional<std::string> text(std::string_view key);
  std::optional<bool> boolean(std::string_view key);
  std::optional<double> required_number(std::string_view key, Bounds bounds);
  std::optional<Measured> required_measured(std::string_view key, Bounds bounds);
  std::optional<std::string> required_text(std::string_view key);
  std::vector<std::string> texts(std::string_view key);

  /// Reports the key if it is missing.
  void require(std::string_view key);

  template <class T>
  std::optional<T> choice(std::string_view key, std::span<const Choice<T>> choices) {
    const std::optional<std::string> word = text(key);
    if (!word) return std::nullopt;
    std::vector<std::string> names;
    for (const Choice<T>& choice : choices) {
      if (choice.text == *word) return choice.value;
      names.emplace_back(choice.text);
    }
    refuse_choice(key, *word, names);
    return std::nullopt;
  }

  /// Reads a member object through `read`; false when it is absent or not an object.
  bool object(std::string_view key, const std::function<void(ObjectReader&)>& read);
  /// Reads a member array of objects; `read` also gets the index.
  void objects(std::string_view key, const std::function<void(ObjectReader&, std::size_t)>& read);
  /// Every member of this object, sorted by key, for objects whose keys are names.
  void each(const std::function<void(const std::string&, const nlohmann::json&)>& visit);
  /// A member as it stands, or null.
  const nlohmann::json* member(std::string_view key);
  /// An array of plain numbers.
  std::vector<double> numbers(std::string_view key, Bounds bounds);

  void refuse(std::string_view key, std::string what, std::string remedy);
  /// A key that is often written by mistake: reported with its own reason.
  /// True if it is there.
  bool refuse_key(std::string_view key, std::string what, std::string remedy);
  /// Reports every key that was never asked for.
  void finish();

 private:
  bool short_enough(std::string_view key, const nlohmann::json& list);
  void refuse_choice(std::string_view key, const std::string& word,
                     const std::vector<std::string>& names);
  std::optional<double> checked(const nlohmann::json& value, const std::string& where,
                                std::string_view key, Bounds bounds);
  std::optional<std::string> checked_text(const nlohmann::json& value, const std::string& where);

  const nlohmann::json& value_;
  std::string pointer_;
  std::vector<Problem>& problems_;
  std::vector<std::string> asked_;
};

/// What a document may hold, far above what a kitchen needs: entries in one list, keys in one
/// object. They bound the work a document can ask for.
inline constexpr std::size_t longest_list = 100;
inline constexpr std::size_t most_keys = 1000;

/// "Did you mean ...?" among the names `list` gives, or an empty text. No list is made and nothing
/// looked for once there are more problems than are ever shown.
template <class List>
std::string suggestion(std::string_view name, const std::vector<Problem>& problems, List list) {
  constexpr std::size_t enough = 20;
  return problems.size() < enough ? detail::did_you_mean(name, list()) : std::string();
}

/// True if a key may serve as a name; reports at `where` why it may not.
bool usable_name(const std::string& name, const std::string& where, std::vector<Problem>& problems);

}  // namespace gelwright
