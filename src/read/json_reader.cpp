#include "read/json_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "base/number.hpp"

namespace gelwright::detail {

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

std::vector<std::string> names_of(std::span<const std::string_view> keys) {
  return {keys.begin(), keys.end()};
}

/// A number with its unit: "20 %", "0".
std::string with_unit(double number, const Key& key) {
  const bool bare = key.unit.empty() || key.unit == "1";
  return bare ? fmt::format("{:g}", number) : fmt::format("{:g} {}", number, key.unit);
}

}  // namespace

std::string in_words(const Bounds& bounds) {
  // Plain digits: people read 0.000001 sooner than 1e-06.
  const std::string low = bounds.at_least > 0 && bounds.at_least < 1e-4
                              ? fmt::format("{:.6f}", bounds.at_least)
                              : fmt::format("{:.10g}", bounds.at_least);
  const std::string from = fmt::format("{} {}", bounds.above ? "above" : "of at least", low);
  if (!std::isfinite(bounds.at_most)) return from;
  return fmt::format("{} and at most {:.10g}", from, bounds.at_most);
}

bool usable_name(const std::string& name, const std::string& where,
                 std::vector<Problem>& problems) {
  const std::string what = unusable(name);
  if (!what.empty()) problems.push_back({where, what, "choose another name"});
  return what.empty();
}

ObjectReader::ObjectReader(const json& value, std::string pointer, const ObjectType& type,
                           Findings& findings)
    : value_(value), pointer_(std::move(pointer)), type_(type), findings_(findings) {
  check_slips();
}

std::string ObjectReader::at(std::string_view key) const {
  return key.empty() ? pointer_ : fmt::format("{}/{}", pointer_, escape_pointer(key));
}

const Key& ObjectReader::row(std::string_view key) const {
  if (const Key* found = type_.find(key, findings_.format)) return *found;
  throw std::logic_error(fmt::format("no row for the key \"{}\" of {}", key, type_.id));
}

const json* ObjectReader::member(std::string_view key) {
  const Key& known = row(key);
  const bool first_time = std::find(asked_.begin(), asked_.end(), known.name) == asked_.end();
  if (first_time) asked_.push_back(known.name);
  const auto found = value_.find(std::string(key));
  if (found != value_.end()) return &*found;
  const bool meant = std::find(slipped_.begin(), slipped_.end(), known.name) != slipped_.end();
  if (first_time && known.needed && !meant) {
    std::string remedy = fmt::format("add \"{}\"", key);
    if (!known.example.empty()) remedy += fmt::format(", as in \"{}\": {}", key, known.example);
    refuse(key, "this key is missing", remedy);
  }
  return nullptr;
}

bool ObjectReader::has(std::string_view key) {
  return member(key) != nullptr;
}

double ObjectReader::most(const Key& key) const {
  if (key.most_of.empty()) return key.bounds.at_most;
  // Without a usable number there, nothing can be judged by it: its own problem is enough.
  const auto other = value_.find(std::string(key.most_of));
  const Bounds& usable = row(key.most_of).bounds;
  const double whole =
      other != value_.end() && other->is_number() ? other->get<double>() : usable.at_most;
  const bool possible = whole >= usable.at_least && whole <= usable.at_most;
  return std::min(key.bounds.at_most, key.most_times * (possible ? whole : usable.at_most));
}

std::optional<double> ObjectReader::checked(const json& value, const std::string& where,
                                            const Key& key) {
  if (!value.is_number()) {
    std::string remedy = "write a plain number";
    if (value.is_string() && !key.unit.empty())
      remedy += fmt::format("; the unit is already in the key \"{}\"", key.name);
    findings_.problems.push_back(
        {where, fmt::format("expected a number, found {}", type_name(value)), remedy});
    return std::nullopt;
  }
  const double number = value.get<double>();
  const Bounds bounds{key.bounds.at_least, most(key), key.bounds.above};
  const bool too_low = bounds.above ? number <= bounds.at_least : number < bounds.at_least;
  if (!std::isfinite(number) || too_low || number > bounds.at_most ||
      (key.whole && number != std::floor(number))) {
    findings_.problems.push_back(
        {where, fmt::format("{:.10g} is not possible here", number),
         fmt::format("give a {}number {}", key.whole ? "whole " : "", in_words(bounds))});
    return std::nullopt;
  }
  return number;
}

std::optional<double> ObjectReader::number(std::string_view key) {
  const json* value = member(key);
  return value == nullptr ? std::nullopt : checked(*value, at(key), row(key));
}

std::optional<Measured> ObjectReader::measured(std::string_view key) {
  const json* value = member(key);
  if (value == nullptr) return std::nullopt;
  const Key& known = row(key);
  if (!value->is_object()) {
    const std::optional<double> plain = checked(*value, at(key), known);
    return plain ? std::optional<Measured>({*plain, 0}) : std::nullopt;
  }
  ObjectReader parts(*value, at(key), measured_keys(), findings_);
  Key sd_row = known;
  sd_row.bounds = {0, known.bounds.at_most, false};
  const auto part = [&](std::string_view name, const Key& bounds) {
    const json* found = parts.member(name);
    return found == nullptr ? std::nullopt : checked(*found, parts.at(name), bounds);
  };
  const std::optional<double> number = part("value", known);
  const std::optional<double> sd = part("sd", sd_row);
  parts.finish();
  return number && sd ? std::optional<Measured>({*number, *sd}) : std::nullopt;
}

std::optional<double> ObjectReader::ratio(std::string_view key) {
  const json* value = member(key);
  if (value == nullptr) return std::nullopt;
  if (!value->is_string()) return checked(*value, at(key), row(key));
  const std::string& text = value->get_ref<const std::string&>();
  const std::optional<double> found = to_ratio(text);
  const Bounds& bounds = row(key).bounds;
  if (found && *found > bounds.at_least && *found <= bounds.at_most) return found;
  refuse(key, fmt::format("\"{}\" is not a ratio", text),
         fmt::format("write it as {}", row(key).example));
  return std::nullopt;
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
  findings_.problems.push_back({where, what, "write a short text in double quotes"});
  return std::nullopt;
}

/// The way out where the same key is something else in another format.
std::string ObjectReader::in_other_format(std::string_view key) const {
  const Key& here = row(key);
  for (const Key& each : type_.keys)
    if (each.name == key && &each != &here)
      return fmt::format(", or state \"format\": \"{}\"", to_text(each.only));
  return {};
}

std::optional<double> ObjectReader::amount(
    std::string_view key, const std::function<ParsedAmount(std::string_view)>& parse) {
  const json* value = member(key);
  if (value == nullptr) return std::nullopt;
  const std::string_view example = row(key).example;
  if (value->is_number()) {
    refuse(key, "its unit is missing",
           fmt::format("write it in quotes with its unit, as {}", example));
    return std::nullopt;
  }
  const std::optional<std::string> text = checked_text(*value, at(key));
  if (!text) return std::nullopt;
  ParsedAmount parsed = parse(*text);
  if (!parsed.value) refuse(key, std::move(parsed.reason), {});  // which says how to mend it
  return parsed.value;
}

void ObjectReader::take_default(const Key& key, std::string value, bool matters) {
  if (key.aloud && matters) assume(key.name, std::string(key.what), std::move(value), {});
}

double ObjectReader::number_or(std::string_view key, bool matters) {
  const Key& known = row(key);
  const double otherwise = std::get<double>(known.otherwise);
  if (has(key)) return number(key).value_or(otherwise);
  take_default(known, with_unit(otherwise, known), matters);
  return otherwise;
}

std::optional<bool> ObjectReader::boolean(std::string_view key) {
  const json* value = member(key);
  if (value == nullptr) return std::nullopt;
  if (value->is_boolean()) return value->get<bool>();
  refuse(key, fmt::format("expected true or false, found {}", type_name(*value)),
         "write true or false without quotes");
  return std::nullopt;
}

bool ObjectReader::boolean_or(std::string_view key, bool matters) {
  const Key& known = row(key);
  const bool otherwise = std::get<bool>(known.otherwise);
  if (has(key)) return boolean(key).value_or(otherwise);
  take_default(known, otherwise ? "yes" : "no", matters);
  return otherwise;
}

std::optional<int> ObjectReader::find_word(std::string_view key) {
  const std::optional<std::string> found = text(key);
  if (!found) return std::nullopt;
  std::vector<std::string> names;
  for (const Word& each : row(key).words) {
    if (each.text == *found) return each.value;
    names.emplace_back(each.text);
  }
  refuse(key, fmt::format("\"{}\" is not known", *found), "use " + quoted_list(names));
  return std::nullopt;
}

int ObjectReader::default_word(std::string_view key, bool matters) {
  const Key& known = row(key);
  const std::string_view otherwise = std::get<std::string_view>(known.otherwise);
  const auto word = std::find_if(known.words.begin(), known.words.end(),
                                 [&](const Word& each) { return each.text == otherwise; });
  if (has(key)) return find_word(key).value_or(word->value);
  take_default(known, std::string(word->meaning.empty() ? word->text : word->meaning), matters);
  return word->value;
}

bool ObjectReader::short_enough(const Key& key, const json& list) {
  if (list.size() > longest_list)
    refuse(key.name, fmt::format("a list of {} entries", list.size()),
           fmt::format("keep at most {}", longest_list));
  else if (key.never_empty && list.empty())
    refuse(key.name, "the list is empty", "give at least one entry");
  else
    return true;
  return false;
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
  if (!short_enough(row(key), *value)) return found;
  for (std::size_t i = 0; i < value->size(); ++i) {
    if (auto text = checked_text((*value)[i], fmt::format("{}/{}", at(key), i)))
      found.push_back(std::move(*text));
  }
  return found;
}

std::vector<double> ObjectReader::numbers(std::string_view key) {
  const json* value = member(key);
  std::vector<double> found;
  if (value == nullptr) return found;
  if (!value->is_array()) {
    refuse(key, fmt::format("expected a list of numbers, found {}", type_name(*value)),
           fmt::format("write {}", row(key).example));
    return found;
  }
  if (!short_enough(row(key), *value)) return found;
  for (std::size_t i = 0; i < value->size(); ++i)
    if (const auto each = checked((*value)[i], fmt::format("{}/{}", at(key), i), row(key)))
      found.push_back(*each);
  return found;
}

void ObjectReader::read_object(const Key& key, const json& value, const std::string& where,
                               const std::function<void(ObjectReader&)>& read) {
  if (!value.is_object()) {
    findings_.problems.push_back({where,
                                  fmt::format("expected an object, found {}", type_name(value)),
                                  "write {\"key\": value}" + in_other_format(key.name)});
    return;
  }
  ObjectReader child(value, where, key.object(), findings_);
  read(child);
  child.finish();
}

bool ObjectReader::object(std::string_view key, const std::function<void(ObjectReader&)>& read) {
  const json* value = member(key);
  if (value == nullptr) return false;
  read_object(row(key), *value, at(key), read);
  return value->is_object();
}

void ObjectReader::object_or_empty(std::string_view key,
                                   const std::function<void(ObjectReader&)>& read) {
  const json* value = member(key);
  const json empty = json::object();
  read_object(row(key), value == nullptr ? empty : *value, at(key), read);
}

void ObjectReader::objects(std::string_view key,
                           const std::function<void(ObjectReader&, std::size_t)>& read) {
  const json* value = member(key);
  if (value == nullptr) return;
  if (!value->is_array()) {
    refuse(key, fmt::format("expected a list, found {}", type_name(*value)),
           "write [{...}, {...}]" + in_other_format(key));
    return;
  }
  if (!short_enough(row(key), *value)) return;
  for (std::size_t i = 0; i < value->size(); ++i) {
    read_object(row(key), (*value)[i], fmt::format("{}/{}", at(key), i),
                [&](ObjectReader& entry) { read(entry, i); });
  }
}

void ObjectReader::additions(std::string_view key,
                             const std::function<void(const std::string&, std::size_t)>& read_text,
                             const std::function<void(ObjectReader&, std::size_t)>& read) {
  const json* value = member(key);
  if (value == nullptr) return;
  if (!value->is_array()) {
    refuse(key, fmt::format("expected a list, found {}", type_name(*value)),
           fmt::format("write {}", row(key).example));
    return;
  }
  if (!short_enough(row(key), *value)) return;
  for (std::size_t i = 0; i < value->size(); ++i) {
    const json& entry = (*value)[i];
    const std::string where = fmt::format("{}/{}", at(key), i);
    if (entry.is_object())
      read_object(row(key), entry, where, [&](ObjectReader& part) { read(part, i); });
    else if (const std::optional<std::string> text = checked_text(entry, where))
      read_text(*text, i);
  }
}

void ObjectReader::refuse(std::string_view key, std::string what, std::string remedy) {
  findings_.problems.push_back({at(key), std::move(what), std::move(remedy)});
}

void ObjectReader::refuse_at(std::string where, std::string what, std::string remedy) {
  findings_.problems.push_back({std::move(where), std::move(what), std::move(remedy)});
}

void ObjectReader::assume(std::string_view key, std::string what, std::string value,
                          std::string why, std::string range) {
  findings_.assumed.push_back(
      {at(key), std::move(what), std::move(value), std::move(range), std::move(why)});
}

void ObjectReader::check_slips() {
  for (const Slip& slip : type_.slips) {
    if (!value_.contains(slip.name)) continue;
    refuse(slip.name, std::string(slip.what), slip.remedy);
    any_slip_ = true;
    if (!slip.meant.empty()) slipped_.push_back(slip.meant);
  }
}

void ObjectReader::check(const Rule& rule) {
  std::vector<std::string> given;
  const auto is_there = [this](std::string_view key) { return value_.contains(std::string(key)); };
  if (rule.kind == RuleKind::needs) {
    const bool met = std::any_of(rule.keys.begin() + 1, rule.keys.end(), is_there);
    if (is_there(rule.keys.front()) && !met)
      refuse(rule.keys.front(), std::string(rule.none), std::string(rule.remedy));
    return;
  }
  for (const std::string_view key : rule.keys)
    if (is_there(key)) given.emplace_back(key);
  const std::string all = quoted_list(names_of(rule.keys));
  switch (rule.kind) {
    case RuleKind::exactly_one:
      // A slip that was refused was meant to be the one.
      if (given.size() == 1 || (given.empty() && any_slip_)) return;
      refuse("", std::string(given.empty() ? rule.none : rule.several),
             fmt::format("keep exactly one of {}", all));
      return;
    case RuleKind::at_most_one:
      if (given.size() > 1)
        refuse(given[1], std::string(rule.several), "keep either " + quoted_list(given));
      return;
    case RuleKind::at_least_one:
      if (given.empty()) refuse("", std::string(rule.none), "add " + all);
      return;
    case RuleKind::needs:
      return;
  }
}

void ObjectReader::check_unknown_keys() {
  for (const auto& [key, value] : value_.items()) {
    const bool slip = std::any_of(type_.slips.begin(), type_.slips.end(),
                                  [&name = key](const Slip& each) { return each.name == name; });
    if (slip) continue;
    if (type_.find(key, findings_.format) == nullptr && type_.find(key) != nullptr) {
      refuse(key, fmt::format("{} has no such key", to_text(findings_.format)),
             fmt::format("remove it, or write the recipe as {}", to_text(type_.find(key)->only)));
    } else if (type_.find(key) == nullptr) {
      std::string remedy = suggestion(key, findings_.problems, [this] {
        std::vector<std::string> unused;
        for (const Key& each : type_.keys)
          if (!value_.contains(std::string(each.name)) &&
              type_.find(each.name, findings_.format) == &each)
            unused.emplace_back(each.name);
        std::sort(unused.begin(), unused.end());
        return unused;
      });
      if (remedy.empty()) remedy = "remove it";
      findings_.problems.push_back(
          {pointer_ + '/' + escape_pointer(key), "this key is not known", remedy});
    } else if (std::find(asked_.begin(), asked_.end(), key) == asked_.end()) {
      throw std::logic_error(fmt::format("the key \"{}\" of {} is never read", key, type_.id));
    }
  }
}

void ObjectReader::check_variants() {
  if (type_.variants.empty()) return;
  const auto chosen = value_.find(std::string(type_.keys.front().name));
  if (chosen == value_.end() || !chosen->is_string()) return;
  for (const Variant& variant : type_.variants) {
    if (variant.word != chosen->get_ref<const std::string&>()) continue;
    for (const std::string_view key : variant.needs) {
      if (value_.contains(std::string(key))) continue;
      refuse(key, "this key is missing",
             fmt::format("add \"{}\", as in \"{}\": {}", key, key, row(key).example));
    }
    for (std::size_t i = 1; i < type_.keys.size(); ++i) {
      const std::string_view key = type_.keys[i].name;
      if (value_.contains(std::string(key)) && !variant.has(key))
        refuse(key, fmt::format("\"{}\" has no use for this key", variant.word), "remove it");
    }
  }
}

void ObjectReader::finish() {
  check_variants();
  for (const Rule& rule : type_.rules) check(rule);
  check_unknown_keys();
}

}  // namespace gelwright::detail
