#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "gelwright/names.hpp"
#include "gelwright/read.hpp"
#include "read/kitchen.hpp"

namespace gelwright {

namespace detail {

namespace {

using nlohmann::json;

bool names_caffeine(std::string_view name) {
  return lower(name).find("caffeine") != std::string::npos;
}

/// Everything the part readers share.
struct Context {
  Recipe recipe;
  Pantry pantry;
  std::map<std::string, std::size_t> used;  ///< names as written: which ingredient each means
  std::optional<CalciumDelivery> calcium_when = {};  ///< recipe-1

  std::optional<std::size_t> use(ObjectReader& object, std::string_view key) {
    const std::optional<std::string> name = object.text(key);
    if (!name) return std::nullopt;
    const bool labelled_mix =
        pantry.defines_mix(*name) && pantry.find(*name, object.at(key))->per_g.caffeine_mg > 0;
    if (names_caffeine(*name) && !labelled_mix) {
      object.refuse(key,
                    "caffeine is never weighed at home: a slip of the scale is a dangerous dose",
                    "use a pre-dosed product and list it under \"pre_dosed\"");
      return std::nullopt;
    }
    return use_name(*name, object.at(key));
  }

  std::optional<std::size_t> use_name(const std::string& name, const std::string& where) {
    if (const auto known = used.find(name); known != used.end()) return known->second;
    const Ingredient* found = pantry.find(name, where);
    if (found == nullptr) return std::nullopt;
    // "maltodextrin DE 12" and "maltodextrin DE 12.0" are one ingredient.
    if (const auto same = used.find(found->name); same != used.end())
      return used[name] = same->second;
    recipe.ingredients.push_back(*found);
    used[found->name] = recipe.ingredients.size() - 1;
    return used[name] = recipe.ingredients.size() - 1;
  }
};

/// The water phase is modelled with one buffer of unknown make at most.
void refuse_two_buffers(ObjectReader& document, const Recipe& recipe) {
  const Ingredient* first = nullptr;
  for (const RecipeLine& line : recipe.solids) {
    const Ingredient& each = recipe.ingredients[line.ingredient];
    if (!each.buffer_pka) continue;
    if (first != nullptr && *first->buffer_pka != *each.buffer_pka)
      document.refuse(
          "solids",
          fmt::format("\"{}\" and \"{}\" have buffers of different pKa", first->name, each.name),
          "only one can be modelled; give both the same \"pka\"");
    if (first == nullptr) first = &each;
  }
}

void read_solids(ObjectReader& document, Context& context) {
  document.objects("solids", [&](ObjectReader& line, std::size_t) {
    const std::optional<Measured> mass = line.measured("mass_g");
    const std::optional<std::size_t> ingredient = context.use(line, "ingredient");
    if (!ingredient) return;
    const std::string& name = context.recipe.ingredients[*ingredient].name;
    const Kind kind = context.recipe.ingredients[*ingredient].kind;
    if (kind == Kind::acid || kind == Kind::calcium_salt) {
      line.refuse("ingredient",
                  fmt::format("\"{}\" is {}, which does not count as a solid", name,
                              kind == Kind::acid ? "a food acid" : "a calcium salt"),
                  fmt::format("move it to \"{}\"", kind == Kind::acid ? "acid" : "calcium"));
      return;
    }
    const bool twice =
        std::any_of(context.recipe.solids.begin(), context.recipe.solids.end(),
                    [&](const RecipeLine& each) { return each.ingredient == *ingredient; });
    if (twice)
      line.refuse("ingredient", fmt::format("\"{}\" is listed twice", name),
                  "add the two masses together");
    else
      context.recipe.solids.push_back({*ingredient, mass.value_or(Measured{})});
  });
  refuse_two_buffers(document, context.recipe);
}

void read_water(ObjectReader& document, Context& context) {
  const json* bare = document.member("water");
  if (bare != nullptr && (bare->is_number() || bare->is_string())) {
    const Slip& share = water_amount_keys().slips.front();
    document.refuse("water", std::string(share.what), share.remedy);
    return;
  }
  document.object("water", [&](ObjectReader& water) {
    struct Way {
      std::string_view key;
      WaterBasis basis;
    };
    constexpr Way ways[] = {
        {"fraction_of_total", WaterBasis::fraction_of_total},
        {"per_g_solids", WaterBasis::per_g_solids},
        {"mass_g", WaterBasis::mass_g},
    };
    for (const Way& way : ways)
      if (const auto amount = water.number(way.key)) context.recipe.water = {way.basis, *amount};
    const std::optional<double> solids_g = water.number("solids_g");
    const std::optional<double> total_g = water.number("total_g");
    if (!solids_g || !total_g) return;
    const double fraction = 1 - *solids_g / *total_g;
    const double most = water_amount_keys().find("fraction_of_total")->bounds.at_most;
    if (fraction > most) water.refuse("solids_g", "hardly any solids in it", "check both masses");
    context.recipe.water = {WaterBasis::fraction_of_total, fraction};
  });
}

/// A stock stronger than the substance dissolves, or of one that does not keep in water.
void refuse_weak_solubility(ObjectReader& dose, const Ingredient& ingredient,
                            const std::optional<double>& stock_percent) {
  const double most_percent = 100 * ingredient.strongest_stock;
  if (!stock_percent || *stock_percent <= most_percent) return;
  if (most_percent <= 0)
    dose.refuse("stock_percent", fmt::format("{} does not make a stock solution", ingredient.name),
                "weigh it neat, stirred into a little water just before use");
  else
    dose.refuse("stock_percent",
                fmt::format("{} dissolves to about {:g} %", ingredient.name, most_percent),
                fmt::format("give {:g} or less", most_percent));
}

void read_acid(ObjectReader& document, Context& context) {
  document.object("acid", [&](ObjectReader& acid) {
    AcidSpec spec;
    const std::optional<std::size_t> ingredient = context.use(acid, "ingredient");
    if (const auto mass = acid.measured("mass_g")) spec.mass_g = *mass;
    spec.additions_g = acid.numbers("additions_g");
    for (const double addition_g : spec.additions_g) spec.mass_g.value += addition_g;
    spec.target_ph = acid.number("target_ph");
    spec.stock_percent = acid.number("stock_percent");
    if (!ingredient) return;
    if (context.recipe.ingredients[*ingredient].kind != Kind::acid) {
      acid.refuse("ingredient", "this is not a food acid",
                  "name an acid, for example \"citric acid anhydrous\"");
      return;
    }
    refuse_weak_solubility(acid, context.recipe.ingredients[*ingredient], spec.stock_percent);
    spec.ingredient = *ingredient;
    context.recipe.acid = std::move(spec);
  });
}

/// A salt cannot be asked to do what its solubility forbids.
void refuse_wrong_delivery(ObjectReader& calcium, const Ingredient& salt,
                           std::optional<CalciumDelivery> when) {
  const double soluble = salt.per_g.dissolved(Component::calcium);
  const double needs_acid = salt.per_g.acid_only(Component::calcium);
  if (soluble <= 0 && needs_acid <= 0)
    calcium.refuse("ingredient",
                   fmt::format("nothing says how much calcium \"{}\" holds", salt.name),
                   "name a salt under its \"contains\", or give \"calcium_mg\" on its label");
  else if (when == CalciumDelivery::insoluble_until_acid && needs_acid <= 0)
    calcium.refuse("when", fmt::format("\"{}\" dissolves in plain water", salt.name),
                   "write \"fast\" or \"slow\", or use calcium carbonate");
  else if (when == CalciumDelivery::fast && soluble <= 0)
    calcium.refuse("when", fmt::format("\"{}\" dissolves only as acid reaches it", salt.name),
                   "write \"insoluble_until_acid\"");
}

void refuse_absent_gum(ObjectReader& calcium, const Recipe& recipe, Gum gum) {
  const bool present =
      std::any_of(recipe.solids.begin(), recipe.solids.end(), [&](const RecipeLine& line) {
        const Ingredient& each = recipe.ingredients[line.ingredient];
        return each.per_g.gum(gum) > 0 ||
               (!each.undeclared.empty() && each.undeclared.front().has(gum));
      });
  if (!present)
    calcium.refuse("gum", fmt::format("no solid holds {}", to_text(gum)), "name the gum to be set");
}

void read_calcium(ObjectReader& document, Context& context) {
  document.object("calcium", [&](ObjectReader& calcium) {
    CalciumSpec spec;
    const std::optional<std::size_t> ingredient = context.use(calcium, "ingredient");
    if (const auto mass = calcium.measured("mass_g")) spec.mass_g = *mass;
    spec.target_ratio = calcium.number("target_ratio");
    const auto gum = calcium.word<Gum>("gum");
    spec.target_gum = gum;
    if (calcium.format() == DocumentFormat::recipe_1)
      context.calcium_when = calcium.word<CalciumDelivery>("when");
    const auto& when = context.calcium_when;
    spec.stock_percent = calcium.number("stock_percent");
    if (!ingredient) return;
    if (context.recipe.ingredients[*ingredient].kind != Kind::calcium_salt) {
      calcium.refuse("ingredient", "this is not a calcium salt",
                     "name one, for example \"calcium lactate pentahydrate\"");
      return;
    }
    if (gum) refuse_absent_gum(calcium, context.recipe, *gum);
    refuse_wrong_delivery(calcium, context.recipe.ingredients[*ingredient], when);
    refuse_weak_solubility(calcium, context.recipe.ingredients[*ingredient], spec.stock_percent);
    spec.ingredient = *ingredient;
    context.recipe.calcium = spec;
  });
}

void read_prices(ObjectReader& document, Context& context) {
  document.object("prices", [&](ObjectReader& prices) {
    context.recipe.currency = prices.text("currency").value_or("");
    prices.objects("packs", [&](ObjectReader& line, std::size_t) {
      Pack pack;
      pack.pack_g = line.number("pack_g").value_or(1);
      pack.price = line.number("price").value_or(0);
      const std::optional<std::string> name = line.text("ingredient");
      if (!name) return;
      std::vector<std::string> names;
      for (const Ingredient& each : context.recipe.ingredients) names.push_back(each.name);
      const std::optional<std::size_t> used = which_of(names, *name);
      if (!used) {
        std::string remedy = did_you_mean(*name, names);
        line.refuse("ingredient", fmt::format("\"{}\" is priced but not used", *name),
                    remedy.empty() ? "remove the price" : remedy);
        return;
      }
      pack.ingredient = *used;
      const bool twice =
          std::any_of(context.recipe.packs.begin(), context.recipe.packs.end(),
                      [&](const Pack& each) { return each.ingredient == pack.ingredient; });
      if (twice)
        line.refuse("ingredient", fmt::format("\"{}\" is priced twice", *name), "keep one");
      else
        context.recipe.packs.push_back(pack);
    });
  });
  context.recipe.compare_with = read_compare_with(document);
  // Without a kitchen the rows say so.
  if (context.recipe.compare_with && document.has("kitchen") && !document.has("prices"))
    document.refuse("compare_with", "a comparison needs prices, and the kitchen has none",
                    "add \"prices\" to either");
}

/// What a document that does not say its format can be read as.
DocumentFormat likely_format(const json& parsed) {
  const auto process = parsed.find("process");
  const auto calcium = parsed.find("calcium");
  const bool first = (process != parsed.end() && process->is_object()) ||
                     (calcium != parsed.end() && calcium->contains("when"));
  return first ? DocumentFormat::recipe_1 : DocumentFormat::recipe_2;
}

}  // namespace

Recipe read_document(const json& parsed, const KitchenNames& kitchen, Findings& findings) {
  ObjectReader document(parsed, "", recipe_keys(), findings);
  findings.format = document.word<DocumentFormat>("format").value_or(likely_format(parsed));
  Context context{{}, Pantry(document.member("define"), "/define", kitchen.define, findings), {}};
  Recipe& recipe = context.recipe;
  document.text("$schema");  // editors look there for the schema to complete from
  if (document.text("kitchen") && !kitchen.there)
    document.refuse("kitchen", "the recipe names a kitchen, which was not handed in",
                    "hand it in together with the recipe");
  recipe.name = document.text("name").value_or("");
  recipe.note = document.text("note").value_or("");
  recipe.form = document.word<Form>("form").value_or(recipe.form);
  read_solids(document, context);
  read_water(document, context);
  read_acid(document, context);
  read_calcium(document, context);
  recipe.tap = read_tap(document, kitchen, findings);
  recipe.target_texture = document.word<gel::Texture>("target_texture");
  read_limits(document, recipe.limits);
  if (document.format() == DocumentFormat::recipe_1)
    read_process(document, context.calcium_when, recipe);
  else
    read_steps(document, recipe);
  read_batch(document, recipe.batch, kitchen);
  read_prices(document, context);
  read_pre_dosed(document, recipe);
  recipe.avoid = document.texts("avoid");
  document.finish();
  return std::move(context.recipe);
}

namespace {

/// What the document says, from a tree that is an object.
Recipe read_tree(const json& tree, const Merged* merged, const std::string& document_name) {
  Findings findings;
  Recipe recipe = read_document(tree, merged != nullptr ? merged->names : KitchenNames{}, findings);
  if (merged != nullptr) {
    findings.assumed.insert(findings.assumed.end(), merged->assumed.begin(), merged->assumed.end());
    point_into_kitchen(merged->use, findings);
    recipe.kitchen = merged->use;
  }
  if (!findings.problems.empty()) throw InputError(document_name, std::move(findings.problems));
  recipe.document = document_name;
  recipe.assumed = std::move(findings.assumed);
  return recipe;
}

}  // namespace

std::optional<Alternative> read_compare_with(ObjectReader& document) {
  std::optional<Alternative> read;
  document.object("compare_with", [&](ObjectReader& bought) {
    Alternative alternative;
    alternative.name = bought.text("name").value_or("");
    alternative.price = bought.number("price").value_or(0);
    alternative.carbohydrate_g = bought.number("carbohydrate_g").value_or(1);
    read = std::move(alternative);
  });
  return read;
}

}  // namespace detail

Recipe read_recipe(std::string_view json_text, std::string document_name,
                   const std::optional<KitchenDocument>& kitchen) {
  nlohmann::json parsed = detail::parse_json(json_text, document_name);
  if (!parsed.is_object())
    throw InputError(document_name, {{"", "expected a recipe object", "start with {"}});
  detail::refuse_other_format(parsed, document_name, "gelwright/kitchen-",
                              "this is a kitchen, not a recipe",
                              "name a recipe; a recipe names its kitchen");
  if (!kitchen) return detail::read_tree(parsed, nullptr, document_name);
  nlohmann::ordered_json checked;
  try {
    checked = detail::checked_kitchen(*kitchen);
  } catch (const InputError& error) {
    throw with_faults_of_recipe(error, json_text, document_name, kitchen);
  }
  const detail::Merged merged = detail::merged(std::move(parsed), checked, kitchen->document);
  return detail::read_tree(merged.recipe, &merged, document_name);
}

std::optional<std::string> kitchen_named(std::string_view json_text,
                                         const std::string& document_name) {
  const nlohmann::json parsed = detail::parse_json(json_text, document_name);
  const auto found = parsed.find("kitchen");
  if (!parsed.is_object() || found == parsed.end() || !found->is_string()) return std::nullopt;
  std::string name = found->get<std::string>();
  std::vector<Problem> ignored;  // the reader says what is wrong with it
  return detail::usable_name(name, "", ignored) ? std::optional(name) : std::nullopt;
}

}  // namespace gelwright
