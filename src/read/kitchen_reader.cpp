// A kitchen by itself: every line of it is read, so that what no recipe uses yet cannot hide a
// mistake.
#include <fmt/format.h>

#include <algorithm>

#include "read/kitchen.hpp"

namespace gelwright::detail {

namespace {

using nlohmann::json;

void read_vessels(ObjectReader& kitchen) {
  std::vector<std::string> names;
  kitchen.objects("vessels", [&](ObjectReader& vessel, std::size_t) {
    vessel.number("volume_ml");
    vessel.number("mass_g");
    const std::optional<std::string> name = vessel.text("name");
    if (!name) return;
    if (std::find(names.begin(), names.end(), *name) != names.end())
      vessel.refuse("name", fmt::format("two vessels are called \"{}\"", *name),
                    "give each its own name");
    names.push_back(*name);
  });
}

void read_prices(ObjectReader& kitchen, Pantry& pantry) {
  kitchen.object("prices", [&](ObjectReader& prices) {
    prices.text("currency");
    std::vector<std::string> priced;
    prices.objects("packs", [&](ObjectReader& pack, std::size_t) {
      pack.number("pack_g");
      pack.number("price");
      const std::optional<std::string> name = pack.text("ingredient");
      const Ingredient* found = name ? pantry.find(*name, pack.at("ingredient")) : nullptr;
      if (found == nullptr) return;
      if (std::find(priced.begin(), priced.end(), found->name) != priced.end())
        pack.refuse("ingredient", fmt::format("\"{}\" is priced twice", *name), "keep one");
      priced.push_back(found->name);
    });
  });
  read_compare_with(kitchen);
}

void read_document(const json& parsed, Findings& findings) {
  ObjectReader kitchen(parsed, "", kitchen_keys(), findings);
  kitchen.word<int>("format");
  kitchen.text("$schema");
  kitchen.text("note");
  Pantry pantry(kitchen.member("define"), "/define", {}, findings);
  check_waters(kitchen, findings);
  std::vector<Scale> scales;
  kitchen.objects("scales", [&](ObjectReader& scale, std::size_t) { read_scale(scale, scales); });
  read_vessels(kitchen);
  read_prices(kitchen, pantry);
  kitchen.texts("avoid");
  kitchen.finish();
}

}  // namespace

nlohmann::ordered_json checked_kitchen(const KitchenDocument& kitchen) {
  const json parsed = parse_json(kitchen.text, kitchen.document);
  if (!parsed.is_object())
    throw InputError(kitchen.document, {{"", "expected a kitchen object", "start with {"}});
  refuse_other_format(parsed, kitchen.document, "gelwright/recipe-",
                      "this is a recipe, not a kitchen",
                      "name a file of the format \"gelwright/kitchen-1\"");
  Findings findings;
  read_document(parsed, findings);
  if (!findings.problems.empty()) throw InputError(kitchen.document, std::move(findings.problems));
  return nlohmann::ordered_json::parse(kitchen.text);
}

}  // namespace gelwright::detail
