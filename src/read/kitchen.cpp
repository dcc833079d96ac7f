#include "read/kitchen.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <set>
#include <utility>

#include "gelwright/names.hpp"

namespace gelwright::detail {

namespace {

using nlohmann::ordered_json;

/// The member of that name if it is there and an object, else null.
const ordered_json* object_in(const ordered_json& whole, const std::string& key) {
  const auto found = whole.find(key);
  return found != whole.end() && found->is_object() ? &*found : nullptr;
}

std::optional<std::string> text_in(const ordered_json& object, const std::string& key) {
  const auto found = object.find(key);
  if (found == object.end() || !found->is_string()) return std::nullopt;
  return found->get<std::string>();
}

/// Puts a new member behind the first of `neighbours` that is there, else at the end.
ordered_json& put_behind(std::initializer_list<std::string_view> neighbours, ordered_json& object,
                         const std::string& key, ordered_json value) {
  const auto neighbour =
      std::find_if(neighbours.begin(), neighbours.end(),
                   [&](std::string_view each) { return object.contains(std::string(each)); });
  if (neighbour == neighbours.end()) return object[key] = std::move(value);
  ordered_json with = ordered_json::object();
  for (const auto& member : object.items()) {
    with[member.key()] = member.value();
    if (member.key() == *neighbour) with[key] = std::move(value);
  }
  object = std::move(with);
  return object[key];
}

/// Which of a kitchen's named entries is called `name`.
std::optional<std::size_t> entry_called(const ordered_json& entries, const std::string& name) {
  for (std::size_t i = 0; i < entries.size(); ++i)
    if (entries[i].at("name") == name) return i;
  return std::nullopt;
}

std::vector<std::string> entry_names(const ordered_json& kitchen, const std::string& section) {
  std::vector<std::string> names;
  for (const ordered_json& each : kitchen.value(section, ordered_json::array()))
    names.push_back(each.at("name").get<std::string>());
  return names;
}

std::vector<std::string> member_names(const ordered_json& kitchen, const std::string& section) {
  std::vector<std::string> names;
  if (const ordered_json* members = object_in(kitchen, section))
    for (const auto& member : members->items()) names.push_back(member.key());
  return names;
}

/// Every text that may be the name of an ingredient or of a water.
void collect_texts(const ordered_json& value, std::set<std::string>& texts) {
  if (value.is_string()) {
    texts.insert(value.get<std::string>());
  } else if (value.is_array()) {
    for (const ordered_json& each : value) collect_texts(each, texts);
  } else if (value.is_object()) {
    for (const auto& member : value.items())
      if (member.key() != "name" && member.key() != "note") collect_texts(member.value(), texts);
  }
}

class Merger {
 public:
  Merger(Merged& made, const ordered_json& kitchen)
      : made_(made), recipe_(made.recipe), kitchen_(kitchen) {}

  void merge() {
    bring_named();
    bring_vessel();
    bring_scales();
    bring_prices();
    bring_avoid();
  }

 private:
  void note(KitchenPart part, std::string name, std::string where, std::string kitchen_where) {
    made_.use.gives.push_back({part, std::move(name), std::move(where), std::move(kitchen_where)});
  }

  /// The ingredients and waters the recipe names, and those they are made of in turn.
  void bring_named() {
    std::set<std::string> texts;
    collect_texts(recipe_, texts);
    bool more = true;
    while (more) {
      const bool ingredients = bring(KitchenPart::ingredient, "define", texts);
      const bool waters = bring(KitchenPart::water, "waters", texts);
      more = ingredients || waters;
    }
  }

  bool bring(KitchenPart part, const std::string& section, std::set<std::string>& texts) {
    const ordered_json* given = object_in(kitchen_, section);
    if (given == nullptr) return false;
    bool any = false;
    for (const auto& member : given->items()) {
      const bool own = recipe_.contains(section) &&
                       (!recipe_[section].is_object() || recipe_[section].contains(member.key()));
      if (own || texts.count(member.key()) == 0) continue;
      if (!recipe_.contains(section))
        put_behind({"define", "form", "name"}, recipe_, section, ordered_json::object());
      recipe_[section][member.key()] = member.value();
      collect_texts(member.value(), texts);
      const std::string where = '/' + section + '/' + escape_pointer(member.key());
      note(part, member.key(), where, where);
      any = true;
    }
    return any;
  }

  /// The volume and the mass of the vessel the batch names, in the place of its name.
  void bring_vessel() {
    const ordered_json* batch = object_in(recipe_, "batch");
    if (batch == nullptr || !kitchen_.contains("vessels")) return;
    const std::optional<std::string> name = text_in(*batch, "vessel");
    const ordered_json& vessels = kitchen_.at("vessels");
    const std::optional<std::size_t> index = name ? entry_called(vessels, *name) : std::nullopt;
    if (!index) return;
    ordered_json restated = ordered_json::object();
    for (const auto& member : batch->items()) {
      if (member.key() != "vessel") {
        restated[member.key()] = member.value();
        continue;
      }
      for (const auto& [key, kitchen_key] :
           {std::pair<std::string, std::string>{"vessel_ml", "volume_ml"}, {"bowl_g", "mass_g"}}) {
        if (batch->contains(key) || !vessels[*index].contains(kitchen_key)) continue;
        restated[key] = vessels[*index][kitchen_key];
        note(KitchenPart::vessel, *name, "/batch/" + key,
             fmt::format("/vessels/{}/{}", *index, kitchen_key));
      }
    }
    recipe_["batch"] = std::move(restated);
  }

  /// The scales the batch names; all of them where it says nothing of scales.
  void bring_scales() {
    if (!kitchen_.contains("scales")) return;
    if (recipe_.contains("batch") && !recipe_["batch"].is_object()) return;
    const ordered_json& given = kitchen_.at("scales");
    ordered_json& batch = recipe_.contains("batch") ? recipe_["batch"]
                                                    : put_behind({"process", "water"}, recipe_,
                                                                 "batch", ordered_json::object());
    if (!batch.contains("scales")) {
      batch["scales"] = ordered_json::array();
      for (const ordered_json& each : given) batch["scales"].push_back(each.at("name"));
    }
    ordered_json& scales = batch["scales"];
    if (!scales.is_array()) return;
    std::set<std::size_t> taken;
    for (std::size_t i = 0; i < scales.size(); ++i) {
      if (!scales[i].is_string()) continue;
      const std::string name = scales[i].get<std::string>();
      const std::optional<std::size_t> index = entry_called(given, name);
      if (!index || !taken.insert(*index).second) continue;  // left for the reader to refuse
      scales[i] = given[*index];
      note(KitchenPart::scale, name, fmt::format("/batch/scales/{}", i),
           fmt::format("/scales/{}", *index));
    }
  }

  /// A name from `define`, else what the built-in table calls it.
  std::string called(const std::string& name) const {
    const ordered_json* define = object_in(recipe_, "define");
    return define != nullptr && define->contains(name) ? name : usual_name(name);
  }

  /// What is weighed for a serving.
  std::set<std::string> weighed() const {
    std::set<std::string> names;
    const auto add = [&](const ordered_json& line) {
      if (!line.is_object()) return;
      if (const auto name = text_in(line, "ingredient")) names.insert(called(*name));
    };
    for (const std::string key : {"acid", "calcium"})
      if (recipe_.contains(key)) add(recipe_[key]);
    if (recipe_.contains("solids") && recipe_["solids"].is_array())
      for (const ordered_json& line : recipe_["solids"]) add(line);
    return names;
  }

  /// Prices of what the recipe uses and does not price itself, and what it is compared with.
  void bring_prices() {
    const ordered_json* given = object_in(kitchen_, "prices");
    if (given == nullptr || (recipe_.contains("prices") && !recipe_["prices"].is_object())) return;
    const ordered_json own = recipe_.value("prices", ordered_json::object());
    const std::string currency = given->at("currency").get<std::string>();
    const std::string own_currency = text_in(own, "currency").value_or(currency);
    if (own_currency != currency) {
      made_.assumed.push_back(
          {"/prices",
           "prices of the kitchen",
           "left out",
           {},
           fmt::format("they are in {}, the recipe's own in {}", currency, own_currency)});
      return;
    }
    std::set<std::string> open = weighed();
    ordered_json packs = own.value("packs", ordered_json::array());
    if (!packs.is_array()) return;
    for (const ordered_json& pack : packs)
      if (pack.is_object()) open.erase(called(text_in(pack, "ingredient").value_or("")));
    const std::size_t first = made_.use.gives.size();
    const ordered_json& given_packs = given->value("packs", ordered_json::array());
    for (std::size_t i = 0; i < given_packs.size(); ++i) {
      const std::string name = given_packs[i].at("ingredient").get<std::string>();
      if (open.erase(called(name)) == 0) continue;
      note(KitchenPart::price, name, fmt::format("/prices/packs/{}", packs.size()),
           fmt::format("/prices/packs/{}", i));
      packs.push_back(given_packs[i]);
    }
    const bool any = made_.use.gives.size() > first;
    if (!recipe_.contains("prices")) {
      if (!any && !recipe_.contains("compare_with")) return;
      put_behind({"batch"}, recipe_, "prices", ordered_json::object());
    }
    ordered_json& prices = recipe_["prices"];
    if (!prices.contains("currency")) {
      prices["currency"] = currency;
      note(KitchenPart::currency, currency, "/prices/currency", "/prices/currency");
    }
    if (any) prices["packs"] = std::move(packs);
    if (recipe_.contains("compare_with") || !kitchen_.contains("compare_with")) return;
    const ordered_json& bought = kitchen_.at("compare_with");
    put_behind({"prices"}, recipe_, "compare_with", bought);
    note(KitchenPart::compare_with, bought.at("name").get<std::string>(), "/compare_with",
         "/compare_with");
  }

  /// Both lists hold: a warning too many is the safer mistake.
  void bring_avoid() {
    if (!kitchen_.contains("avoid")) return;
    if (recipe_.contains("avoid") && !recipe_["avoid"].is_array()) return;
    const ordered_json& given = kitchen_.at("avoid");
    for (std::size_t i = 0; i < given.size(); ++i) {
      const ordered_json own = recipe_.value("avoid", ordered_json::array());
      if (std::find(own.begin(), own.end(), given[i]) != own.end()) continue;
      note(KitchenPart::avoid, given[i].get<std::string>(), fmt::format("/avoid/{}", own.size()),
           fmt::format("/avoid/{}", i));
      recipe_["avoid"].push_back(given[i]);
    }
  }

  Merged& made_;
  ordered_json& recipe_;
  const ordered_json& kitchen_;
};

}  // namespace

Merged merged(ordered_json recipe, const ordered_json& kitchen, std::string kitchen_document) {
  Merged made;
  made.recipe = std::move(recipe);
  made.use.document = std::move(kitchen_document);
  made.names = {true, member_names(kitchen, "define"), member_names(kitchen, "waters"),
                entry_names(kitchen, "scales"), entry_names(kitchen, "vessels")};
  Merger(made, kitchen).merge();
  for (Assumption& each : made.assumed) each.kitchen = made.use.document;
  return made;
}

void drop_kitchen_key(ordered_json& recipe) {
  recipe.erase("kitchen");
}

void point_into_kitchen(const KitchenUse& use, Findings& findings) {
  const auto mend = [&use](std::string& where, std::string& document) {
    for (const FromKitchen& each : use.gives) {
      const bool in_it = where.starts_with(each.where) &&
                         (where.size() == each.where.size() || where[each.where.size()] == '/');
      if (!in_it) continue;
      where = each.kitchen_where + where.substr(each.where.size());
      document = use.document;
      return;
    }
  };
  for (Problem& problem : findings.problems) mend(problem.where, problem.document);
  for (Assumption& assumption : findings.assumed) mend(assumption.where, assumption.kitchen);
}

void refuse_other_format(const nlohmann::json& document, const std::string& document_name,
                         std::string_view other_format, std::string what, std::string remedy) {
  const auto format = document.find("format");
  if (format == document.end() || !format->is_string()) return;
  if (!format->get_ref<const std::string&>().starts_with(other_format)) return;
  throw InputError(document_name, {{"/format", std::move(what), std::move(remedy)}});
}

}  // namespace gelwright::detail
