#include "read/json_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace gelwright {

namespace {

using nlohmann::json;

constexpr std::size_t longest_text = 1000;

std::string_view type_name(const json& value) {
  switch (value.type()) {
    case json::value_t::null:
      return "null";
    case json::value_t::object:
      return "an object";
    case json::value_t::array:
      return "a list";
    case json::value_t::string:
      return "text";
    case json::value_t::boolean:
      return "true/false";
    default:
      return "a number";
  }
}

std::string allowed(Bounds bounds) {
  const std::string_view from = bounds.above ? "above" : "of at least";
  if (std::isfinite(bounds.at_most))
    return fmt::format("give a number {} {:.10g} and at most {:.10g}", from, bounds.at_least,
                       bounds.at_most);
  return fmt::format("give a number {} {:.10g}", from, bounds.at_least);
}

/// Why a text cannot be used, or empty.
std::string unusable(std::string_view text) {
  std::size_t length = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    // Control characters could move the cursor of the terminal the sheet is shown on.
    const bool c1 =
        text[i] == '\xC2' && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0U;
    if (is_control(text[i]) || c1)
      return "the text holds a line break or another control character";
    if (!continues_character(text[i])) ++length;
  }
  if (text.find_first_not_of(' ') == std::string_view::npos) return "the text is empty";
  if (length > longest_text)
    return fmt::format("the text is longer than {} characters", longest_text);
  return {};
}

}  // namespace

bool usable_name(const std::string& name, const std::string& where,
                 std::vector<Problem>& problems) {
  const std::string what = unusable(name);
  if (!what.empty()) problems.push_back({where, what, "choose another name"});
  return what.empty();
}

ObjectReader::ObjectReader(const json& value, std::string pointer, std::vector<Problem>& problems)
    : value_(value), pointer_(std::move(pointer)), problems_(problems) {}

std::string ObjectReader::at(std::string_view key) const {
  return key.empty() ? pointer_ : fmt::format("{}/{}", pointer_, escape_pointer(key));
}

const json* ObjectReader::member(std::string_view key) {
  asked_.emplace_back(key);
  const auto found = value_.find(std::string(key));
  return found == value_.end() ? nullptr : &*found;
}

bool ObjectReader::short_enough(std::string_view key, const json& list) {
  if (list.size() <= longest_list) return true;
  refuse(key, fmt::format("a list of {} entries", list.size()),
         fmt::format("keep at most {}", longest_list));
  return false;
}

bool ObjectReader::has(std::string_view key) {
  return member(key) != nullptr;
}

std::optional<double> ObjectReader::checked(const json& value, const std::string& where,
                                            std::string_view key, Bounds bounds) {
  if (!value.is_number()) {
    std::string remedy = "write a plain number";
    if (value.is_string()) remedy += fmt::format("; the unit is already in the key \"{}\"", key);
    problems_.push_back(
        {where, fmt::format("expected a number, found {}", type_name(value)), remedy});
    return std::nullopt;
  }
  const double number = value.get<double>();
  const bool too_low = bounds.above ? number <= bounds.at_least : number < bounds.at_least;
  if (!std::isfinite(number) || too_low || number > bounds.at_most) {
    problems_.push_back(
        {where, fmt::format("{:.10g} is not possible here", number), allowed(bounds)});
    return std::nullopt;
  }
  return number;
}

std::optional<double> ObjectReader::number(std::string_view key, Bounds bounds) {
  const json* value = member(key);
  return value == nullptr ? std::nullopt : checked(*value, at(key), key, bounds);
}

std::optional<Measured> ObjectReader::measured(std::string_view key, Bounds bounds) {
  const json* value = member(key);
  if (value == nullptr) return std::nullopt;
  if (!value->is_object()) {
    const std::optional<double> plain = checked(*value, at(key), key, bounds);
    return plain ? std::optional<Measured>({*plain, 0}) : std::nullopt;
  }
  ObjectReader parts(*value, at(key), problems_);
  const std::optional<double> number = parts.required_number("value", bounds);
  const std::optional<double> sd = parts.required_number("sd", {0, bounds.at_most, false});
  parts.finish();
  return number && sd ? std::optional<Measured>({*number, *sd}) : std::nullopt;
}

std::optional<std::string> ObjectReader::text(std::string_view key) {
  const json* value = member(key);
  if (value == nullptr) return std::nullopt;
  return checked_text(*value, at(key));
}

std::optional<std::string> ObjectReader::checked_text(const json& value, const std::string& where) {
  const std::string what = value.is_string()
                               ? unusable(value.get_ref<const std::string&>())
                               : fmt::format("expected text, found {}", type_name(value));
  if (what.empty()) return value.get<std::string>();
  problems_.push_back({where, what, "write a short text in double quotes"});
  return std::nullopt;
}

std::optional<bool> ObjectReader::boolean(std::string_view key) {
  const json* value = member(key);
  if (value == nullptr) return std::nullopt;
  if (!value->is_boolean()) {
    refuse(key, fmt::format("expected true or false, found {}", type_name(*value)),
           "write true or false without quotes");
    return std::nullopt;
  }
  return value->get<bool>();
}

void ObjectReader::require(std::string_view key) {
  if (has(key)) return;
  problems_.push_back({at(key), "this key is missing", fmt::format("add \"{}\"", key)});
}

std::optional<double> ObjectReader::required_number(std::string_view key, Bounds bounds) {
  require(key);
  return number(key, bounds);
}

std::optional<Measured> ObjectReader::required_measured(std::string_view key, Bounds bounds) {
  require(key);
  return measured(key, bounds);
}

std::optional<std::string> ObjectReader::required_text(std::string_view key) {
  require(key);
  return text(key);
}

std::vector<std::string> ObjectReader::texts(std::string_view key) {
  const json* value = member(key);
  std::vector<std::string> found;
  if (value == nullptr) return found;
  if (!value->is_array()) {
    refuse(key, fmt::format("expected a list of texts, found {}", type_name(*value)),
           "write [\"first\", \"second\"]");
    return found;
  }
  if (!short_enough(key, *value)) return found;
  for (std::size_t i = 0; i < value->size(); ++i) {
    if (auto text = checked_text((*value)[i], fmt::format("{}/{}", at(key), i)))
      found.push_back(std::move(*text));
  }
  return found;
}

std::vector<double> ObjectReader::numbers(std::string_view key, Bounds bounds) {
  const json* value = member(key);
  std::vector<double> found;
  if (value == nullptr) return found;
  if (!value->is_array() || value->empty()) {
    refuse(key, "expected a list of numbers with at least one entry", "write [0.2, 0.2]");
    return found;
  }
  if (!short_enough(key, *value)) return found;
  for (std::size_t i = 0; i < value->size(); ++i)
    if (const auto each = checked((*value)[i], fmt::format("{}/{}", at(key), i), key, bounds))
      found.push_back(*each);
  return found;
}

bool ObjectReader::object(std::string_view key, const std::function<void(ObjectReader&)>& read) {
  const json* value = member(key);
  if (value == nullptr) return false;
  if (!value->is_object()) {
    refuse(key, fmt::format("expected an object, found {}", type_name(*value)),
           "write {\"key\": value}");
    return false;
  }
  ObjectReader child(*value, at(key), problems_);
  read(child);
  child.finish();
  return true;
}

void ObjectReader::objects(std::string_view key,
                           const std::function<void(ObjectReader&, std::size_t)>& read) {
  const json* value = member(key);
  if (value == nullptr) return;
  if (!value->is_array()) {
    refuse(key, fmt::format("expected a list, found {}", type_name(*value)),
           "write [{...}, {...}]");
    return;
  }
  if (!short_enough(key, *value)) return;
  for (std::size_t i = 0; i < value->size(); ++i) {
    const std::string where = fmt::format("{}/{}", at(key), i);
    if (!(*value)[i].is_object()) {
      problems_.push_back({where,
                           fmt::format("expected an object, found {}", type_name((*value)[i])),
                           "write {\"key\": value}"});
      continue;
    }
    ObjectReader child((*value)[i], where, problems_);
    read(child, i);
    child.finish();
  }
}

void ObjectReader::each(
    const std::function<void(const std::string&, const nlohmann::json&)>& visit) {
  for (const auto& [key, value] : value_.items()) {
    asked_.push_back(key);
    visit(key, value);
  }
}

void ObjectReader::refuse(std::string_view key, std::string what, std::string remedy) {
  problems_.push_back({at(key), std::move(what), std::move(remedy)});
}

bool ObjectReader::refuse_key(std::string_view key, std::string what, std::string remedy) {
  // Not asked for through `has`: a key that is always refused must not be suggested.
  if (!value_.contains(key)) return false;
  asked_.emplace_back(key);
  refuse(key, std::move(what), std::move(remedy));
  return true;
}

void ObjectReader::refuse_choice(std::string_view key, const std::string& word,
                                 const std::vector<std::string>& names) {
  refuse(key, fmt::format("\"{}\" is not known", word), "use " + quoted_list(names));
}

void ObjectReader::finish() {
  std::vector<std::string> unused;
  for (const std::string& key : asked_)
    if (!value_.contains(key)) unused.push_back(key);
  std::sort(unused.begin(), unused.end());
  unused.erase(std::unique(unused.begin(), unused.end()), unused.end());
  for (const auto& [key, value] : value_.items()) {
    if (std::find(asked_.begin(), asked_.end(), key) != asked_.end()) continue;
    std::string remedy = suggestion(key, problems_, [&] { return std::span(unused); });
    if (remedy.empty()) remedy = "remove it";
    problems_.push_back({pointer_ + '/' + escape_pointer(key), "this key is not known", remedy});
  }
}

}  // namespace gelwright
