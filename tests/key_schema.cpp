// The JSON Schema of a recipe and of a kitchen, from the table of keys.
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "gelwright/ingredient.hpp"
#include "key_documents.hpp"
#include "read/json_reader.hpp"
#include "read/keys.hpp"

namespace gelwright::test {

namespace {

using detail::Bounds;
using detail::DocumentFormat;
using detail::Key;
using detail::ObjectType;
using detail::Rule;
using detail::RuleKind;
using detail::Shape;
using nlohmann::ordered_json;

/// One line of text: the reader's own rule, as a pattern.
const ordered_json text_type = {
    {"description", "Text on one line, at most 1000 characters."},
    {"type", "string"},
    {"minLength", 1},
    {"maxLength", 1000},
    {"pattern",
     "^[^\\u0000-\\u001f\\u007f-\\u009f]*[^\\u0000-\\u0020\\u007f-\\u009f]"
     "[^\\u0000-\\u001f\\u007f-\\u009f]*$"}};

struct BuiltInList {
  Kind kind;
  const char* id;
  const char* what;
};
constexpr BuiltInList built_in_lists[] = {
    {Kind::sugar, "built_in_sugars",
     "Built-in sugars and polyols; \"maltodextrin DE N\" exists for any N from 3 to 20."},
    {Kind::syrup, "built_in_syrups",
     "Built-in syrups; \"glucose syrup DE N\" exists for any N from 20 to 98."},
    {Kind::gum, "built_in_gums", "Built-in gums."},
    {Kind::salt, "built_in_salts", "Built-in salts."},
    {Kind::acid, "built_in_acids", "Built-in food acids."},
    {Kind::calcium_salt, "built_in_calcium_salts", "Built-in calcium salts."},
};

/// An object of one member. (In braces it could be taken for a list of two.)
ordered_json single(const char* key, ordered_json value) {
  ordered_json object;
  object[key] = std::move(value);
  return object;
}

ordered_json reference(std::string_view id) {
  return single("$ref", "#/$defs/" + std::string(id));
}

/// As people write it: 60, not 60.0.
ordered_json plain(double number) {
  if (number == std::floor(number)) return static_cast<long long>(number);
  return number;
}

ordered_json number_type(const Bounds& bounds, bool whole = false) {
  ordered_json type = single("type", whole ? "integer" : "number");
  type[bounds.above ? "exclusiveMinimum" : "minimum"] = plain(bounds.at_least);
  if (std::isfinite(bounds.at_most)) type["maximum"] = plain(bounds.at_most);
  return type;
}

/// A sentence: capital letter, full stop, no code marks.
std::string sentence(std::string_view phrase) {
  std::string text;
  for (const char c : phrase)
    if (c != '`' && c != '*') text += c;
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  if (!text.empty() && text.back() != '.') text += '.';
  return text;
}

/// "Mass (g)" for `mass_g`: the name in words, without its unit, and the unit.
std::string title(const Key& key) {
  std::string text(key.name);
  std::string unit(key.unit);
  if (unit == "1" || unit == "pH") unit.clear();
  for (const char* ending :
       {"_mg_caco3_per_l", "_mg_hco3_per_l", "_mg_per_l", "_mmol_per_l", "_meq_per_l",
        "_mmol_per_g", "_mg", "_ml", "_kj", "_kcal", "_hours", "_percent", "_g", "_c"}) {
    const std::string_view end = ending;
    if (unit.empty() || !text.ends_with(end)) continue;
    text.erase(text.size() - end.size());
    break;
  }
  std::replace(text.begin(), text.end(), '_', ' ');
  if (text == "ph") text = "pH";
  if (text[0] >= 'a' && text[0] <= 'z' && text != "pH") text[0] = static_cast<char>(text[0] - 32);
  return unit.empty() ? text : text + " (" + unit + ")";
}

std::string description(const Key& key) {
  std::string first(key.what);
  const bool bare = key.unit.empty() || key.unit == "1" || key.unit == "pH";
  if (!bare) first += ", " + std::string(key.unit);
  std::string text = sentence(first);
  if (!key.more.empty()) text += ' ' + sentence(key.more);
  for (const detail::Word& word : key.words)
    if (!word.meaning.empty())
      text += " \"" + std::string(word.text) + "\": " + std::string(word.meaning) + '.';
  if (!key.left_out.empty()) text += " Left out: " + std::string(key.left_out) + '.';
  return text;
}

class Schema {
 public:
  ordered_json whole(const ObjectType& document, const char* file, const char* title) {
    for (const BuiltInList& list : built_in_lists) {
      ordered_json names = ordered_json::array();
      for (const Ingredient& each : builtin_ingredients())
        if (each.kind == list.kind) names.push_back(each.name);
      defs_[list.id] = {{"description", list.what}, {"enum", names}};
    }
    defs_["text"] = text_type;
    // One branch each, so that an editor complains of the one that was meant.
    defs_["water"] = {
        {"if", single("type", "string")},
        {"then", {{"anyOf", {{{"enum", {detail::demineralised_name}}}, reference("text")}}}},
        {"else",
         {{"if", required("blend")},
          {"then", reference("blend")},
          {"else", reference("water_report")}}}};
    ordered_json root;
    for (const ObjectType* type : detail::object_types(document)) {
      if (type == &document)
        root = object_type(*type);
      else
        defs_[std::string(type->id)] = object_type(*type);
    }
    ordered_json schema = {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                           {"$id", std::string("https://gelwright.invalid/") + file},
                           {"title", title}};
    schema.update(root);
    schema["$defs"] = defs_;
    return schema;
  }

 private:
  /// The definition of a number that may carry its standard uncertainty.
  ordered_json measured(const Bounds& bounds) {
    ordered_json number = number_type(bounds);
    std::string id = "measured";
    for (const auto& [name, limit] : number.items())
      if (limit.is_number()) id += '_' + limit.dump();
    ordered_json parts = object_type(detail::measured_keys());
    const auto bound = [&parts](const char* key, const ordered_json& type) {
      parts["properties"][key].update(type);
    };
    bound("value", number);
    bound("sd", number_type({0, bounds.at_most, false}));
    defs_[id] = {{"description",
                  "Either a plain number or {\"value\", \"sd\"} with a standard uncertainty in the "
                  "same unit."},
                 {"if", single("type", "object")},
                 {"then", parts},
                 {"else", number}};
    return reference(id);
  }

  static ordered_json lists_of(std::span<const Kind> kinds, bool in) {
    ordered_json lists = ordered_json::array();
    for (const BuiltInList& list : built_in_lists)
      if ((std::find(kinds.begin(), kinds.end(), list.kind) != kinds.end()) == in)
        lists.push_back(reference(list.id));
    return lists;
  }

  static ordered_json ingredient_name(const Key& key) {
    constexpr Kind all[] = {Kind::sugar, Kind::syrup, Kind::gum,
                            Kind::salt,  Kind::acid,  Kind::calcium_salt};
    const std::span<const Kind> kinds = key.kinds.empty() ? std::span<const Kind>(all) : key.kinds;
    const ordered_json right = lists_of(kinds, true);
    ordered_json names = right;
    if (std::find(kinds.begin(), kinds.end(), Kind::sugar) != kinds.end())
      names.push_back(ordered_json{{"type", "string"}, {"pattern", "^maltodextrin DE [0-9.]+$"}});
    names.push_back(reference("text"));
    ordered_json type = single("anyOf", names);
    // Only where one of another kind is named do the names of this kind have to be listed.
    const ordered_json others = lists_of(kinds, false);
    if (!others.empty()) {
      type["if"] = single("anyOf", others);
      type["then"] = single("anyOf", right);
    }
    return type;
  }

  static ordered_json list(const ordered_json& items, const Key& key) {
    ordered_json type = single("type", "array");
    if (key.never_empty) type["minItems"] = 1;
    type["maxItems"] = detail::longest_list;
    type["items"] = items;
    return type;
  }

  ordered_json value_type(const Key& key, const ObjectType& owner) {
    Bounds bounds = key.bounds;
    if (!key.most_of.empty())
      bounds.at_most =
          std::min(bounds.at_most, key.most_times * owner.find(key.most_of)->bounds.at_most);
    switch (key.shape) {
      case Shape::number:
        return number_type(bounds, key.whole);
      case Shape::measured:
        return measured(bounds);
      case Shape::ratio:
        return {{"if", single("type", "string")},
                {"then", single("pattern",
                                "^[ \\t]*[0-9]+(\\.[0-9]+)?[ \\t]*[:/][ \\t]*[0-9]+(\\.[0-9]+)?"
                                "[ \\t]*$")},
                {"else", number_type(bounds)}};
      case Shape::boolean:
        return single("type", "boolean");
      case Shape::text:
        return reference("text");
      case Shape::amount:
        // Which units there are for what is the reader's: their spellings are many.
        return {{"type", "string"},
                {"maxLength", 1000},
                {"pattern",
                 "^[ \t]*\\+?([0-9]+\\.?[0-9]*|\\.[0-9]+)([eE][+-]?[0-9]+)?[ \t]*"
                 "[^ \t0-9.,\\u0000-\\u001f\\u007f-\\u009f]"
                 "[^\\u0000-\\u001f\\u007f-\\u009f]*$"}};
      case Shape::word: {
        ordered_json words = ordered_json::array();
        for (const detail::Word& word : key.words) words.push_back(word.text);
        return single("enum", words);
      }
      case Shape::numbers:
        return list(number_type(bounds), key);
      case Shape::texts:
        return list(reference("text"), key);
      case Shape::ingredient:
        return ingredient_name(key);
      case Shape::object:
        return reference(key.object().id);
      case Shape::objects:
        return list(reference(key.object().id), key);
      case Shape::additions: {
        ordered_json entry;
        entry["if"] = single("type", "string");
        entry["then"] = reference("text");
        entry["else"] = reference(key.object().id);
        return list(entry, key);
      }
      case Shape::named: {
        ordered_json names = reference("text");
        if (key.taken != nullptr) names["not"] = single("enum", key.taken());
        return {{"type", "object"},
                {"maxProperties", detail::most_keys},
                {"propertyNames", names},
                {"additionalProperties",
                 key.object == nullptr ? reference("water") : reference(key.object().id)}};
      }
      case Shape::water:
        return reference("water");
    }
    return {};
  }

  static ordered_json required(std::string_view key) {
    return single("required", ordered_json::array({std::string(key)}));
  }

  static ordered_json any_required(std::span<const std::string_view> keys) {
    ordered_json any = ordered_json::array();
    for (const std::string_view key : keys) any.push_back(required(key));
    return any;
  }

  /// Each key forbids those after it: an editor then marks the second one, and nothing else.
  static void forbid_others(std::span<const std::string_view> keys, ordered_json& type) {
    for (std::size_t i = 0; i + 1 < keys.size(); ++i) {
      ordered_json then;
      for (const std::string_view other : keys.subspan(i + 1))
        then["properties"][std::string(other)] = false;
      type["allOf"].push_back(ordered_json{{"if", required(keys[i])}, {"then", then}});
    }
  }

  static void add_rule(const Rule& rule, ordered_json& type) {
    const std::span<const std::string_view> keys = rule.keys;
    if (rule.kind == RuleKind::exactly_one || rule.kind == RuleKind::at_most_one)
      forbid_others(keys, type);
    if (rule.kind == RuleKind::exactly_one || rule.kind == RuleKind::at_least_one)
      type["allOf"].push_back(single("anyOf", any_required(keys)));
    if (rule.kind != RuleKind::needs) return;
    const std::string first(keys.front());
    if (keys.size() == 2)
      type["dependentRequired"][first].push_back(keys[1]);
    else
      type["dependentSchemas"][first]["anyOf"] = any_required(keys.subspan(1));
  }

  /// A salt cannot be asked to do what its solubility forbids.
  static void add_deliveries(ordered_json& type) {
    const auto only = [&type](bool needs_acid, std::vector<const char*> words) {
      ordered_json salts = ordered_json::array();
      for (const Ingredient& each : builtin_ingredients())
        if (each.kind == Kind::calcium_salt &&
            (each.per_g.acid_only(Component::calcium) > 0) == needs_acid)
          salts.push_back(each.name);
      ordered_json such = required("ingredient");
      such["properties"]["ingredient"]["enum"] = salts;
      ordered_json then;
      then["properties"]["when"]["enum"] = words;
      type["allOf"].push_back(ordered_json{{"if", such}, {"then", then}});
    };
    only(false, {"fast", "slow"});
    only(true, {"slow", "insoluble_until_acid"});
  }

  /// Water alone describes an ingredient only where it is all of it.
  static void add_water_alone(ordered_json& type) {
    ordered_json all_water = required("water_fraction");
    all_water["properties"]["water_fraction"]["minimum"] = 0.999;
    ordered_json any;
    any["anyOf"] = ordered_json::array({required("label"), required("contains"), all_water});
    type["allOf"].push_back(any);
  }

  /// What a key of one format holds, and what the other has no place for.
  void add_formats(const ObjectType& recipe, ordered_json& type) {
    ordered_json first;
    first["properties"]["format"]["const"] = to_text(DocumentFormat::recipe_1);
    ordered_json in_first = ordered_json::object();
    ordered_json in_second = ordered_json::object();
    const auto of = [&](DocumentFormat format) -> ordered_json& {
      return format == DocumentFormat::recipe_1 ? in_first : in_second;
    };
    for (const Key& key : recipe.keys) {
      const std::string name(key.name);
      if (key.only != DocumentFormat::any) {
        const DocumentFormat other = key.only == DocumentFormat::recipe_1
                                         ? DocumentFormat::recipe_2
                                         : DocumentFormat::recipe_1;
        of(key.only)["properties"][name] = described(key, recipe);
        if (recipe.find(key.name, other) == nullptr) of(other)["properties"][name] = false;
      }
      if (key.shape != Shape::object) continue;
      for (const Key& inner : key.object().keys) {
        if (inner.only == DocumentFormat::any) continue;
        const DocumentFormat other = inner.only == DocumentFormat::recipe_1
                                         ? DocumentFormat::recipe_2
                                         : DocumentFormat::recipe_1;
        if (inner.needed) of(inner.only)["properties"][name]["required"].push_back(inner.name);
        of(other)["properties"][name]["properties"][std::string(inner.name)] = false;
      }
    }
    type["allOf"].push_back(ordered_json{{"if", first}, {"then", in_first}, {"else", in_second}});
  }

  /// What each word of the first key calls for.
  static void add_variants(const ObjectType& object, ordered_json& type) {
    for (const detail::Variant& variant : object.variants) {
      ordered_json chosen;
      chosen["properties"][std::string(object.keys.front().name)]["const"] = variant.word;
      ordered_json then = ordered_json::object();
      for (const std::string_view key : variant.needs) then["required"].push_back(key);
      for (std::size_t i = 1; i < object.keys.size(); ++i)
        if (!variant.has(object.keys[i].name))
          then["properties"][std::string(object.keys[i].name)] = false;
      type["allOf"].push_back(ordered_json{{"if", chosen}, {"then", then}});
    }
  }

  static ordered_json introduced(const Key& key) {
    return {{"title", title(key)}, {"description", description(key)}};
  }

  ordered_json described(const Key& key, const ObjectType& object) {
    ordered_json value = introduced(key);
    value.update(value_type(key, object));
    return value;
  }

  /// A portion or a pack is of no use without its mass, stated or from the other one.
  static void add_label_masses(ordered_json& type) {
    for (const auto& [per, own, other] : {std::tuple{"portion", "portion_g", "pack_g"},
                                          std::tuple{"pack", "pack_g", "portion_g"}}) {
      ordered_json such = required("per");
      such["properties"]["per"]["const"] = per;
      ordered_json then;
      then["anyOf"] = {required(own), {{"required", {other, "portions_in_pack"}}}};
      type["allOf"].push_back(ordered_json{{"if", such}, {"then", then}});
    }
  }

  ordered_json object_type(const ObjectType& object) {
    ordered_json type = {{"description", object.what}, {"type", "object"}};
    ordered_json needed = ordered_json::array();
    const bool root = &object == &detail::recipe_keys();
    for (const Key& key : object.keys) {
      // At the root its format decides what a key holds.
      const bool limited = root && key.only != DocumentFormat::any;
      if (limited && object.find(key.name) != &key) continue;
      ordered_json value = limited ? introduced(key) : described(key, object);
      if (const double* number = std::get_if<double>(&key.otherwise))
        value["default"] = plain(*number);
      if (const bool* yes = std::get_if<bool>(&key.otherwise)) value["default"] = *yes;
      if (const std::string_view* word = std::get_if<std::string_view>(&key.otherwise))
        value["default"] = *word;
      // Of words each is tried; one example would hide the others.
      if (!key.example.empty() && key.shape != Shape::word)
        value["examples"].push_back(ordered_json::parse(key.example));
      type["properties"][std::string(key.name)] = value;
      if (key.needed && key.only == DocumentFormat::any) needed.push_back(key.name);
    }
    if (!needed.empty()) type["required"] = needed;
    type["additionalProperties"] = false;
    for (const Rule& rule : object.rules) add_rule(rule, type);
    add_variants(object, type);
    if (root) add_formats(object, type);
    if (&object == &detail::calcium_keys()) add_deliveries(type);
    if (&object == &detail::ingredient_keys()) add_water_alone(type);
    if (&object == &detail::label_keys()) add_label_masses(type);
    return type;
  }

  ordered_json defs_;
};

}  // namespace

std::string recipe_schema() {
  return Schema()
             .whole(detail::recipe_keys(), "recipe.schema.json",
                    "gelwright recipe, formats 1 and 2")
             .dump(2) +
         '\n';
}

std::string goal_schema() {
  return Schema().whole(detail::goal_keys(), "goal.schema.json", "gelwright goal").dump(2) + '\n';
}

std::string kitchen_schema() {
  return Schema()
             .whole(detail::kitchen_keys(), "kitchen.schema.json", "gelwright kitchen")
             .dump(2) +
         '\n';
}

}  // namespace gelwright::test
