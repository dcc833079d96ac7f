#include "gelwright/allergens.hpp"

#include <algorithm>
#include <string>

#include "base/text.hpp"
#include "gelwright/ingredient.hpp"

namespace gelwright {

namespace {

using enum AllergenGroup;

struct GroupRow {
  AllergenGroup group;
  std::string_view name;   ///< as Annex II calls it, shortened
  std::string_view words;  ///< parted by '|', lower case
};

/// Annex II of Regulation (EU) No 1169/2011, and the words packs and people use beside it.
constexpr GroupRow groups[] = {
    {gluten, "cereals containing gluten",
     "gluten|cereals containing "
     "gluten|wheat|spelt|khorasan|kamut|durum|semolina|rye|barley|malt|oat|"
     "triticale|einkorn|emmer|farro|seitan|bulgur|couscous|coeliac|celiac"},
    {crustaceans, "crustaceans",
     "crustacean|crab|lobster|prawn|shrimp|crayfish|langoustine|krill|shellfish"},
    {eggs, "eggs", "egg|albumen|ovalbumin|lysozyme|e 1105|e1105"},
    {fish, "fish", "fish|cod|salmon|tuna|anchovy|isinglass|fish gelatine|fish gelatin"},
    {peanuts, "peanuts", "peanut|groundnut|arachis|monkey nut"},
    {soybeans, "soybeans", "soybean|soya|soy|soja|tofu|edamame"},
    {milk, "milk (including lactose)",
     "milk|lactose|whey|casein|caseinate|lactalbumin|lactoglobulin|butter|cheese|cream|yoghurt|"
     "yogurt|dairy|ghee|skyr|quark"},
    {nuts, "nuts",
     "nut|tree nut|almond|hazelnut|walnut|cashew|pecan|brazil nut|pistachio|macadamia|"
     "queensland nut|marzipan|praline"},
    {celery, "celery", "celery|celeriac"},
    {mustard, "mustard", "mustard"},
    {sesame, "sesame seeds", "sesame|tahini"},
    {sulphites, "sulphur dioxide and sulphites",
     "sulphite|sulfite|sulphur dioxide|sulfur dioxide|bisulphite|bisulfite|metabisulphite|"
     "metabisulfite|e 220|e220|e 221|e221|e 222|e222|e 223|e223|e 224|e224|e 226|e226|e 227|e227|"
     "e 228|e228"},
    {lupin, "lupin", "lupin|lupine|lupini"},
    {molluscs, "molluscs",
     "mollusc|mollusk|mussel|oyster|clam|squid|octopus|snail|scallop|cuttlefish|whelk|shellfish"},
};

/// Names that hold a group's word and are not of it, or not of that one.
struct Renamed {
  std::string_view name;
  std::string_view read_as;
};
constexpr Renamed renamed[] = {
    {"cream of tartar", ""},     {"cocoa butter", ""},    {"shea butter", ""},
    {"tiger nut", ""},           {"oyster mushroom", ""}, {"peanut butter", "peanut"},
    {"almond butter", "almond"}, {"coconut milk", ""},    {"coconut cream", ""},
    {"rice milk", ""},           {"oat milk", "oat"},     {"almond milk", "almond"},
    {"soya milk", "soya"},       {"soy milk", "soy"},
};

struct UnstatedRow {
  std::string_view stem;  ///< the built-in names that begin so
  UnstatedAllergen what;
};

constexpr UnstatedRow unstated[] = {
    {"maltodextrin",
     {gluten, "1(b)",
      "Maltodextrin is made from maize, potato, rice or wheat starch; wheat-based maltodextrins "
      "are "
      "exempted from allergen labelling, so the pack need not say which."}},
    {"dextrose",
     {gluten, "1(a)",
      "Dextrose is made from maize, potato or wheat starch; wheat-based glucose syrups including "
      "dextrose are exempted from allergen labelling, so the pack need not say which."}},
    {"glucose syrup",
     {gluten, "1(a)",
      "Glucose syrup is made from maize, potato, wheat or barley starch; wheat- and barley-based "
      "glucose syrups are exempted from allergen labelling, so the pack need not say which."}},
    {"glucose syrup",
     {sulphites, "",
      "Glucose syrup may be kept with sulphur dioxide; a pack must say so above 10 mg/kg."}},
    {"highly branched cyclic dextrin",
     {gluten, "", "It is made from starch, mostly of maize; a pack must name wheat."}},
    {"maltose",
     {gluten, "", "Maltose is made from starch or malt; a pack must name wheat or barley."}},
    {"sorbitol", {gluten, "", "Sorbitol is made from starch; a pack must name wheat."}},
    {"maltitol", {gluten, "", "Maltitol is made from starch; a pack must name wheat."}},
    {"erythritol",
     {gluten, "", "Erythritol is fermented from starch sugars; a pack must name wheat."}},
    {"lactic acid",
     {milk, "",
      "Lactic acid is fermented, mostly from sugar or starch but at times from whey; a pack must "
      "name "
      "milk."}},
    {"sodium lactate",
     {milk, "", "Lactates are fermented, at times from whey; a pack must name milk."}},
    {"potassium lactate",
     {milk, "", "Lactates are fermented, at times from whey; a pack must name milk."}},
    {"calcium lactate",
     {milk, "", "Lactates are fermented, at times from whey; a pack must name milk."}},
    {"magnesium lactate",
     {milk, "", "Lactates are fermented, at times from whey; a pack must name milk."}},
    {"xanthan",
     {gluten, "",
      "Xanthan is fermented, at times on wheat or soya; a pack must name what is left."}},
    {"xanthan",
     {soybeans, "",
      "Xanthan is fermented, at times on wheat or soya; a pack must name what is left."}},
};

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (static_cast<unsigned char>(c) & 0x80U) != 0;
}

/// Lower case; "-" and "_" as spaces.
std::string compared(std::string_view word) {
  std::string text = lower(word);
  std::replace_if(
      text.begin(), text.end(), [](char c) { return c == '-' || c == '_'; }, ' ');
  return text;
}

/// `word` stands in `text` as a word of its own, in the singular or with s or es.
bool stands_in(std::string_view text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string_view::npos;
       at = text.find(word, at + 1)) {
    if (at > 0 && is_letter(text[at - 1])) continue;
    std::size_t end = at + word.size();
    for (const std::string_view ending : {"es", "s"})
      if (text.substr(end).rfind(ending, 0) == 0) {
        end += ending.size();
        break;
      }
    if (end == text.size() || !is_letter(text[end])) return true;
  }
  return false;
}

template <class Visit>
void each_word(std::string_view list, Visit visit) {
  while (!list.empty()) {
    const std::size_t bar = std::min(list.find('|'), list.size());
    visit(list.substr(0, bar));
    list.remove_prefix(std::min(bar + 1, list.size()));
  }
}

bool names_group(std::string_view text, const GroupRow& row) {
  bool named = false;
  each_word(row.words, [&](std::string_view word) { named = named || stands_in(text, word); });
  return named;
}

/// "nuts" and no more: most people mean peanuts too.
bool only_says_nuts(std::string_view text) {
  bool particular = false;
  each_word(groups[static_cast<std::size_t>(nuts)].words, [&](std::string_view word) {
    particular = particular || (word != "nut" && stands_in(text, word));
  });
  return !particular && stands_in(text, "nut");
}

}  // namespace

std::string_view to_text(AllergenGroup group) {
  return groups[static_cast<std::size_t>(group)].name;
}

std::vector<std::string_view> words_of(AllergenGroup group) {
  std::vector<std::string_view> words;
  each_word(groups[static_cast<std::size_t>(group)].words,
            [&words](std::string_view word) { words.push_back(word); });
  return words;
}

std::vector<AllergenGroup> allergen_groups(std::string_view word) {
  std::string text = compared(word);
  for (const Renamed& each : renamed)
    for (std::size_t at = text.find(each.name); at != std::string::npos; at = text.find(each.name))
      text.replace(at, each.name.size(), each.read_as);
  std::vector<AllergenGroup> found;
  for (const GroupRow& row : groups)
    if (names_group(text, row) || (row.group == peanuts && only_says_nuts(text)))
      found.push_back(row.group);
  return found;
}

bool same_allergen(std::string_view one, std::string_view other) {
  const std::vector<AllergenGroup> left = allergen_groups(one);
  const std::vector<AllergenGroup> right = allergen_groups(other);
  return std::any_of(left.begin(), left.end(), [&right](AllergenGroup group) {
    return std::find(right.begin(), right.end(), group) != right.end();
  });
}

std::vector<UnstatedAllergen> unstated_allergens(std::string_view ingredient) {
  std::vector<UnstatedAllergen> found;
  if (!find_ingredient(ingredient)) return found;
  for (const UnstatedRow& row : unstated)
    if (ingredient.rfind(row.stem, 0) == 0) found.push_back(row.what);
  return found;
}

}  // namespace gelwright
