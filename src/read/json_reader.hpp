// A strict view of a JSON document: every problem is collected with its JSON pointer, unknown keys
// are errors, nothing is guessed. Private: json does not show in the public headers.
#pragma once

#include <cstddef>
#include <functional>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/text.hpp"
#include "gelwright/error.hpp"
#include "gelwright/recipe.hpp"
#include "gelwright/water_units.hpp"
#include "read/keys.hpp"

namespace gelwright::detail {

/// Parses a whole document. Throws InputError on syntax errors (with line and column), duplicate
/// keys, numbers too large for a double, or a document over 1 MiB.
nlohmann::json parse_json(std::string_view text, const std::string& document);

/// What reading a document brings to light besides the data.
struct Findings {
  std::vector<Problem> problems;
  std::vector<Assumption> assumed;
  DocumentFormat format = DocumentFormat::recipe_2;  ///< of the document
};

/// Reads one JSON object by the rows of its type. Ask for every key of the type, then call
/// `finish`. Asking for a key that has no row is a mistake of the program (std::logic_error).
class ObjectReader {
 public:
  ObjectReader(const nlohmann::json& value, std::string pointer, const ObjectType& type,
               Findings& findings);

  const std::string& pointer() const { return pointer_; }
  std::string at(std::string_view key) const;  ///< JSON pointer of a member; "" is this object

  bool has(std::string_view key);
  std::optional<double> number(std::string_view key);
  std::optional<Measured> measured(std::string_view key);
  std::optional<double> ratio(std::string_view key);
  std::optional<bool> boolean(std::string_view key);
  std::optional<std::string> text(std::string_view key);
  /// A text that `parse` reads as a number with its unit, in the internal unit.
  std::optional<double> amount(std::string_view key,
                               const std::function<ParsedAmount(std::string_view)>& parse);
  std::vector<std::string> texts(std::string_view key);
  std::vector<double> numbers(std::string_view key);

  /// The value, or what the row says is taken where the key is left out. What a row calls `aloud`
  /// is then noted as assumed, unless it does not matter here.
  double number_or(std::string_view key, bool matters = true);
  bool boolean_or(std::string_view key, bool matters = true);
  template <class T>
  T word_or(std::string_view key, bool matters = true) {
    return static_cast<T>(default_word(key, matters));
  }
  /// The enumerator of a word; empty where it is left out or not one of the row's.
  template <class T>
  std::optional<T> word(std::string_view key) {
    const std::optional<int> value = find_word(key);
    return value ? std::optional<T>(static_cast<T>(*value)) : std::nullopt;
  }

  /// Reads a member object through `read`; false when it is absent or not an object.
  bool object(std::string_view key, const std::function<void(ObjectReader&)>& read);
  /// Likewise, but an absent one is read as an empty one: every default is then taken by its row.
  void object_or_empty(std::string_view key, const std::function<void(ObjectReader&)>& read);
  /// Reads a member array of objects; `read` also gets the index.
  void objects(std::string_view key, const std::function<void(ObjectReader&, std::size_t)>& read);
  /// Reads a member array whose entries are texts or objects.
  void additions(std::string_view key,
                 const std::function<void(const std::string&, std::size_t)>& read_text,
                 const std::function<void(ObjectReader&, std::size_t)>& read);
  /// A member as it stands, or null.
  const nlohmann::json* member(std::string_view key);

  void refuse(std::string_view key, std::string what, std::string remedy);
  /// Likewise at any JSON pointer.
  void refuse_at(std::string where, std::string what, std::string remedy);
  /// Notes what is taken for something the document does not say.
  void assume(std::string_view key, std::string what, std::string value, std::string why,
              std::string range = {});
  DocumentFormat format() const { return findings_.format; }

  /// Reports slips, broken rules, keys nobody knows, and needed keys that nobody asked for.
  void finish();

 private:
  const Key& row(std::string_view key) const;
  std::string in_other_format(std::string_view key) const;
  double most(const Key& key) const;
  bool short_enough(const Key& key, const nlohmann::json& list);
  void take_default(const Key& key, std::string value, bool matters);
  int default_word(std::string_view key, bool matters);
  std::optional<int> find_word(std::string_view key);
  std::optional<double> checked(const nlohmann::json& value, const std::string& where,
                                const Key& key);
  std::optional<std::string> checked_text(const nlohmann::json& value, const std::string& where);
  void read_object(const Key& key, const nlohmann::json& value, const std::string& where,
                   const std::function<void(ObjectReader&)>& read);
  void check_slips();
  void check_variants();
  void check(const Rule& rule);
  void check_unknown_keys();

  const nlohmann::json& value_;
  std::string pointer_;
  const ObjectType& type_;
  Findings& findings_;
  std::vector<std::string_view> asked_;
  std::vector<std::string_view> slipped_;  ///< keys of the type a slip stands for
  bool any_slip_ = false;
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
  return problems.size() < enough ? did_you_mean(name, list()) : std::string();
}

/// True if a key may serve as a name; reports at `where` why it may not.
bool usable_name(const std::string& name, const std::string& where, std::vector<Problem>& problems);

/// "above 0 and at most 60", for remedies.
std::string in_words(const Bounds& bounds);

}  // namespace gelwright::detail
