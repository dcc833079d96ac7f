#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/text.hpp"
#include "gelwright/read.hpp"
#include "read/readers.hpp"

namespace gelwright {

namespace {

using nlohmann::json;

constexpr std::string_view format_name = "gelwright/recipe-1";

constexpr Choice<Form> forms[] = {{"pouch", Form::pouch}, {"drink", Form::drink}};
constexpr Choice<CalciumDelivery> calcium_deliveries[] = {
    {"fast", CalciumDelivery::fast},
    {"slow", CalciumDelivery::slow},
    {"insoluble_until_acid", CalciumDelivery::insoluble_until_acid},
};
constexpr Choice<Gum> gums[] = {
    {"alginate", Gum::alginate},
    {"HM pectin", Gum::hm_pectin},
    {"LM pectin", Gum::lm_pectin},
    {"amidated pectin", Gum::amidated_pectin},
    {"low-acyl gellan", Gum::gellan_low_acyl},
};

constexpr Bounds stock_bounds{0, 60, true};
constexpr Bounds price_bounds{0, 1e9, false};

bool names_caffeine(std::string_view name) {
  return lower(name).find("caffeine") != std::string::npos;
}

/// Everything the part readers share.
struct Context {
  Recipe recipe;
  Pantry pantry;
  std::map<std::string, std::size_t> used;

  std::optional<std::size_t> use(ObjectReader& object, std::string_view key) {
    const std::optional<std::string> name = object.required_text(key);
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
  if (!document.has("solids"))
    document.refuse("solids", "this key is missing",
                    R"(add "solids": [{"ingredient": ..., "mass_g": ...}])");
  document.objects("solids", [&](ObjectReader& line, std::size_t) {
    const bool other_unit =
        line.refuse_key("mass_mg", "masses are in grams", "write \"mass_g\" and divide by 1000") ||
        line.refuse_key("mass_kg", "masses are in grams", "write \"mass_g\" and multiply by 1000");
    if (!other_unit) line.require("mass_g");
    const std::optional<Measured> mass = line.measured("mass_g", mass_bounds);
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
  const json* list = document.member("solids");
  if (list != nullptr && list->is_array() && list->empty())
    document.refuse("solids", "the list is empty", "name at least one ingredient");
  refuse_two_buffers(document, context.recipe);
}

void read_water(ObjectReader& document, Context& context) {
  constexpr const char* ambiguous = "does not say a share of what";
  constexpr const char* say_which =
      "write \"fraction_of_total\" (0.333 = 33.3 g in 100 g of gel) or \"per_g_solids\" (0.50 g "
      "for each g of solids)";
  const json* bare_value = document.member("water");
  if (bare_value != nullptr && (bare_value->is_number() || bare_value->is_string())) {
    document.refuse("water", ambiguous, say_which);
    return;
  }
  document.object("water", [&](ObjectReader& water) {
    bool bare = false;
    for (const std::string_view share : {"percent", "fraction", "ratio", "water_percent"})
      bare = water.refuse_key(share, ambiguous, say_which) || bare;
    struct Way {
      std::string_view key;
      WaterBasis basis;
      Bounds bounds;
    };
    constexpr Way ways[] = {
        {"fraction_of_total", WaterBasis::fraction_of_total, {0, 0.999, true}},
        {"per_g_solids", WaterBasis::per_g_solids, {0, 1000, true}},
        {"mass_g", WaterBasis::mass_g, mass_bounds},
    };
    std::vector<std::string> given;
    for (const Way& way : ways) {
      if (!water.has(way.key)) continue;
      given.emplace_back(way.key);
      if (const auto amount = water.number(way.key, way.bounds))
        context.recipe.water = {way.basis, *amount};
    }
    if (given.size() == 1 || (bare && given.empty())) return;
    water.refuse(
        "", given.empty() ? "nothing says how much water" : "the water is given more than one way",
        "keep exactly one of \"fraction_of_total\", \"per_g_solids\" or \"mass_g\"");
  });
  if (!document.has("water"))
    document.refuse("water", "this key is missing",
                    R"(add "water": {"fraction_of_total": 0.333}, or "per_g_solids", or "mass_g")");
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
    std::vector<std::string> given;
    for (const std::string_view way : {"mass_g", "additions_g", "target_ph"})
      if (acid.has(way)) given.emplace_back(way);
    if (given.size() != 1)
      acid.refuse(
          "", given.empty() ? "nothing says how much acid" : "the acid is given more than one way",
          "keep exactly one of \"mass_g\", \"additions_g\" or \"target_ph\"");
    if (const auto mass = acid.measured("mass_g", mass_bounds)) spec.mass_g = *mass;
    spec.additions_g = acid.numbers("additions_g", mass_bounds);
    for (const double addition_g : spec.additions_g) spec.mass_g.value += addition_g;
    spec.target_ph = acid.number("target_ph", {1.5, 9, false});
    spec.stock_percent = acid.number("stock_percent", stock_bounds);
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
void refuse_wrong_delivery(ObjectReader& calcium, const Ingredient& salt, CalciumDelivery when) {
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
        return each.per_g.gum(gum) > 0 || each.undeclared_gum == gum;
      });
  if (!present)
    calcium.refuse("gum", fmt::format("no solid holds {}", to_text(gum)), "name the gum to be set");
}

void read_calcium(ObjectReader& document, Context& context) {
  document.object("calcium", [&](ObjectReader& calcium) {
    CalciumSpec spec;
    const std::optional<std::size_t> ingredient = context.use(calcium, "ingredient");
    if (calcium.has("mass_g") == calcium.has("target_ratio"))
      calcium.refuse("", "the calcium salt needs one amount",
                     "keep exactly one of \"mass_g\" or \"target_ratio\"");
    if (const auto mass = calcium.measured("mass_g", mass_bounds)) spec.mass_g = *mass;
    spec.target_ratio = calcium.number("target_ratio", {0, 5, true});
    const auto gum = calcium.choice<Gum>("gum", gums);
    spec.target_gum = gum;
    if (calcium.has("gum") && !calcium.has("target_ratio"))
      calcium.refuse("gum", "belongs to a \"target_ratio\"", "remove it");
    calcium.require("when");
    const auto when = calcium.choice<CalciumDelivery>("when", calcium_deliveries);
    spec.when = when.value_or(spec.when);
    spec.stock_percent = calcium.number("stock_percent", stock_bounds);
    if (!ingredient) return;
    if (context.recipe.ingredients[*ingredient].kind != Kind::calcium_salt) {
      calcium.refuse("ingredient", "this is not a calcium salt",
                     "name one, for example \"calcium lactate pentahydrate\"");
      return;
    }
    if (gum) refuse_absent_gum(calcium, context.recipe, *gum);
    if (when) refuse_wrong_delivery(calcium, context.recipe.ingredients[*ingredient], *when);
    refuse_weak_solubility(calcium, context.recipe.ingredients[*ingredient], spec.stock_percent);
    spec.ingredient = *ingredient;
    context.recipe.calcium = spec;
  });
}

void read_prices(ObjectReader& document, Context& context) {
  document.object("prices", [&](ObjectReader& prices) {
    context.recipe.currency = prices.required_text("currency").value_or("");
    prices.objects("packs", [&](ObjectReader& line, std::size_t) {
      Pack pack;
      pack.pack_g = line.required_number("pack_g", mass_bounds).value_or(1);
      pack.price = line.required_number("price", price_bounds).value_or(0);
      const std::optional<std::string> name = line.required_text("ingredient");
      if (!name) return;
      const auto used = context.used.find(*name);
      if (used == context.used.end()) {
        std::vector<std::string> names;
        for (const auto& [each, index] : context.used) names.push_back(each);
        std::string remedy = did_you_mean(*name, names);
        line.refuse("ingredient", fmt::format("\"{}\" is priced but not used", *name),
                    remedy.empty() ? "remove the price" : remedy);
        return;
      }
      pack.ingredient = used->second;
      const bool twice =
          std::any_of(context.recipe.packs.begin(), context.recipe.packs.end(),
                      [&](const Pack& each) { return each.ingredient == pack.ingredient; });
      if (twice)
        line.refuse("ingredient", fmt::format("\"{}\" is priced twice", *name), "keep one");
      else
        context.recipe.packs.push_back(pack);
    });
  });
  document.object("compare_with", [&](ObjectReader& bought) {
    Alternative alternative;
    alternative.name = bought.required_text("name").value_or("");
    alternative.price =
        bought.required_number("price", {0, price_bounds.at_most, true}).value_or(0);
    alternative.carbohydrate_g = bought.required_number("carbohydrate_g", mass_bounds).value_or(1);
    context.recipe.compare_with = std::move(alternative);
  });
  if (context.recipe.compare_with && !document.has("prices"))
    document.refuse("compare_with", "a comparison needs the recipe's own prices",
                    "add \"prices\" with a \"currency\" and \"packs\"");
}

}  // namespace

Recipe read_recipe(std::string_view json_text, std::string document_name) {
  const json parsed = parse_json(json_text, document_name);
  if (!parsed.is_object())
    throw InputError(document_name, {{"", "expected a recipe object", "start with {"}});
  std::vector<Problem> problems;
  ObjectReader document(parsed, "", problems);
  if (const auto format = document.required_text("format"); format && *format != format_name)
    document.refuse("format", fmt::format("\"{}\" is not a format this reads", *format),
                    fmt::format("write \"{}\"", format_name));

  std::vector<std::string> assumptions;
  Context context{{}, Pantry(document.member("define"), "/define", problems, assumptions), {}};
  Recipe& recipe = context.recipe;
  document.text("$schema");  // editors look there for the schema to complete from
  recipe.name = document.required_text("name").value_or("");
  recipe.note = document.text("note").value_or("");
  document.require("form");
  if (const auto form = document.choice<Form>("form", forms)) recipe.form = *form;
  read_solids(document, context);
  read_water(document, context);
  read_acid(document, context);
  read_calcium(document, context);
  recipe.tap = read_tap(document, problems, assumptions);
  read_limits(document, recipe.limits);
  read_process(document, recipe.process);
  read_batch(document, recipe.batch);
  read_prices(document, context);
  read_pre_dosed(document, recipe);
  recipe.avoid = document.texts("avoid");
  document.finish();

  if (!problems.empty()) throw InputError(document_name, std::move(problems));
  recipe.document = std::move(document_name);
  recipe.assumptions = std::move(assumptions);
  return recipe;
}

}  // namespace gelwright
