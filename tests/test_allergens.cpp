#include <algorithm>
#include <set>
#include <string>

#include "catch.hpp"
#include "gelwright/allergens.hpp"
#include "gelwright/ingredient.hpp"

using namespace gelwright;
using enum AllergenGroup;

namespace {

using Groups = std::vector<AllergenGroup>;

}  // namespace

TEST_CASE("Regulation (EU) 1169/2011 Annex II: fourteen groups, every named member in its group") {
  // The cereals, nuts and other names are those of the Annex itself.
  const std::pair<AllergenGroup, std::vector<const char*>> annex[] = {
      {gluten, {"wheat", "spelt", "khorasan wheat", "rye", "barley", "oats"}},
      {crustaceans, {"crustaceans"}},
      {eggs, {"eggs"}},
      {fish, {"fish"}},
      {peanuts, {"peanuts"}},
      {soybeans, {"soybeans"}},
      {milk, {"milk", "lactose"}},
      {nuts,
       {"almonds", "hazelnuts", "walnuts", "cashews", "pecan nuts", "Brazil nuts", "pistachio nuts",
        "macadamia nuts", "Queensland nuts"}},
      {celery, {"celery"}},
      {mustard, {"mustard"}},
      {sesame, {"sesame seeds"}},
      {sulphites, {"sulphur dioxide", "sulphites"}},
      {lupin, {"lupin"}},
      {molluscs, {"molluscs"}},
  };
  CHECK(std::size(annex) == allergen_group_count);
  for (const auto& [group, names] : annex)
    for (const char* name : names) {
      INFO(name);
      const Groups found = allergen_groups(name);
      CHECK(std::find(found.begin(), found.end(), group) != found.end());
    }
  CHECK(to_text(milk) == "milk (including lactose)");
}

TEST_CASE("what is avoided and what is on the pack meet in the group, both ways") {
  const std::pair<const char*, const char*> pairs[] = {
      {"gluten", "wheat"},
      {"milk", "lactose"},
      {"milk", "whey"},
      {"soya", "soy"},
      {"soya", "soybean"},
      {"dairy", "casein"},
      {"sulphites", "E 223"},
      {"sulfite", "sulphur dioxide"},
      {"nuts", "hazelnuts"},
      {"nuts", "peanuts"},
      {"shellfish", "prawns"},
      {"shellfish", "mussels"},
      {"coeliac", "barley malt extract"},
      {"Egg", "EGG WHITE POWDER"},
      {"sesame", "tahini"},
      {"milk", "contains: WHEY powder (from cows)"}};
  for (const auto& [one, other] : pairs) {
    INFO(one << " / " << other);
    CHECK(same_allergen(one, other));
    CHECK(same_allergen(other, one));
  }
  const std::pair<const char*, const char*> strangers[] = {
      {"milk", "soya"},          {"gluten", "milk"},   {"peanuts", "hazelnuts"},
      {"fish", "crab"},          {"egg", "eggplant"},  {"peanuts", "Brazil nuts"},
      {"milk", "peanut butter"}, {"milk", "soya milk"}};
  for (const auto& [one, other] : strangers) {
    INFO(one << " / " << other);
    CHECK_FALSE(same_allergen(one, other));
  }
}

TEST_CASE("words that only sound like an allergen name no group") {
  for (const char* word :
       {"coconut", "nutmeg", "buckwheat", "cream of tartar", "cocoa butter", "pollen", "",
        "strawberry", "soluble fibre", "codex", "maltodextrin", "oyster mushroom"}) {
    INFO(word);
    CHECK(allergen_groups(word).empty());
  }
  CHECK(allergen_groups("coconut and milk") == Groups{milk});
}

TEST_CASE("every word stands for its group") {
  for (std::size_t g = 0; g < allergen_group_count; ++g) {
    const auto group = static_cast<AllergenGroup>(g);
    CHECK_FALSE(to_text(group).empty());
    for (const std::string_view word : words_of(group)) {
      INFO(word);
      const Groups found = allergen_groups(word);
      CHECK(std::find(found.begin(), found.end(), group) != found.end());
    }
  }
}

TEST_CASE(
    "Annex II point 1(a) and 1(b): wheat dextrose, glucose syrup and maltodextrin are exempted") {
  for (const auto& [name, point] :
       {std::pair{"maltodextrin DE 18", "1(b)"}, std::pair{"dextrose monohydrate", "1(a)"},
        std::pair{"dextrose anhydrous", "1(a)"}, std::pair{"glucose syrup DE 42", "1(a)"}}) {
    INFO(name);
    const std::vector<UnstatedAllergen> found = unstated_allergens(name);
    REQUIRE_FALSE(found.empty());
    CHECK(found.front().group == gluten);
    CHECK(found.front().exempted_by == point);
    CHECK(found.front().why.find("exempted") != std::string_view::npos);
  }
  // Not in the list of exemptions: a pack must name wheat there.
  CHECK(unstated_allergens("highly branched cyclic dextrin").front().exempted_by.empty());
  CHECK(unstated_allergens("sodium chloride").empty());
  CHECK(unstated_allergens("sucrose").empty());
  CHECK(unstated_allergens("sodium alginate").empty());
  CHECK(unstated_allergens("maltodextrin of my own").empty());
  CHECK(unstated_allergens("lactic acid 80 %").front().group == milk);
}
