#include <fmt/format.h>

#include <algorithm>

#include "gelwright/gums.hpp"
#include "gelwright/label_readings.hpp"
#include "gelwright/making.hpp"
#include "gelwright/names.hpp"
#include "gelwright/solubility.hpp"
#include "read/label.hpp"
#include "read/readers.hpp"

namespace gelwright::detail {

namespace {

using nlohmann::json;

/// What may stay unexplained of 1 g before composition counts as unknown.
constexpr double fully_declared_within_g = 0.001;

/// A whole sentence as the end of another one: no capital, no full stop.
std::string continued(std::string text) {
  const auto is_small = [](char c) { return c >= 'a' && c <= 'z'; };
  if (text.size() > 1 && is_small(text[1])) text[0] = lower(text[0]);
  if (!text.empty() && text.back() == '.') text.pop_back();
  return text;
}

/// Adds the names that are not there yet: shared parts must not multiply. One more than are allowed
/// is enough to be refused for.
void add_new(std::vector<std::string>& names, const std::vector<std::string>& more) {
  for (const std::string& name : more)
    if (names.size() <= longest_list && std::find(names.begin(), names.end(), name) == names.end())
      names.push_back(name);
}

/// What `share` g of a part brings besides its composition and its gums; 0 where nobody says how
/// much there is.
void inherit(const Ingredient& part, double share, ObjectReader& where, Ingredient& whole) {
  const std::size_t before = std::max(whole.parts.size(), whole.allergens.size());
  add_new(whole.parts, {part.name});
  add_new(whole.parts, part.parts);
  add_new(whole.allergens, part.allergens);
  if (before <= longest_list && std::max(whole.parts.size(), whole.allergens.size()) > longest_list)
    where.refuse("ingredient", "too many parts or allergens, those of its parts counted",
                 fmt::format("keep at most {}", longest_list));
  whole.strongest_stock = std::min(whole.strongest_stock, part.strongest_stock);
  whole.sodium_stated = whole.sodium_stated && part.sodium_stated;
  if (!whole.fizzed) whole.fizzed = part.fizzed;
  for (UndeclaredAcid acid : part.undeclared_acids) {
    acid.share_low *= share;
    acid.share_high *= share;
    whole.undeclared_acids.push_back(std::move(acid));
  }
  for (const DryPart& dry : part.dry_parts)
    whole.dry_parts.push_back({dry.name, share * dry.g_per_g});
  if (part.source != "recipe" && share > 0 && !solubility_source(part.name).empty())
    whole.dry_parts.push_back({part.name, share * (1 - part.per_g.water_g)});
  if (!part.buffer_pka) return;
  if (whole.buffer_pka && *whole.buffer_pka != *part.buffer_pka)
    where.refuse("ingredient", "two parts have buffers of different pKa",
                 "the water phase knows one buffer: keep one of the two");
  whole.buffer_pka = part.buffer_pka;
}

/// A part of which nobody says how much: the label may.
void read_named(ObjectReader& part, const std::string& name, bool labelled, Pantry& pantry,
                Ingredient& whole, NamedParts& named) {
  const Ingredient* found = pantry.find(name, part.at("ingredient"));
  if (found == nullptr) return;
  if (!labelled)
    part.refuse("ingredient", "nothing says how much of it there is",
                "add \"fraction\", or a \"label\" with its figures");
  if (holds_gum(*found))
    part.refuse("ingredient", "a label does not say how much gum there is",
                "name it under \"undeclared_gum\" with the least and the most it may be");
  if (found->kind == Kind::acid) {
    const AcidBand band = named_acid_band();
    part.assume("ingredient", fmt::format("how much {} is in {}", found->name, whole.name),
                fmt::format("{:.3g} %, the middle of its band", 50 * (band.least + band.most)),
                "the pack names it without saying how much",
                fmt::format("{:.3g} to {:.3g} %", 100 * band.least, 100 * band.most));
    whole.undeclared_acids.push_back({found->name, found->per_g, band.least, band.most});
    whole.per_g += found->per_g * ((band.least + band.most) / 2);
  }
  inherit(*found, 0, part, whole);
  named.add(*found);
}

}  // namespace

Ingredient read_defined(ObjectReader& body, const std::string& name, Pantry& pantry) {
  Ingredient made;
  made.name = name;
  made.source = "recipe";
  made.kind = body.word<Kind>("kind").value_or(Kind::mix);
  made.basis = body.text("note").value_or("as the recipe defines it");

  double share_sum = 0;
  NamedParts named;
  body.objects("contains", [&](ObjectReader& part, std::size_t) {
    const std::optional<std::string> part_name = part.text("ingredient");
    const double share = part.number("fraction").value_or(0);
    share_sum += share;
    if (!part_name) return;
    if (!part.has("fraction")) {
      read_named(part, *part_name, body.has("label"), pantry, made, named);
      return;
    }
    if (const Ingredient* found = pantry.find(*part_name, part.at("ingredient"))) {
      inherit(*found, share, part, made);
      inherit_gum_facts(*found, share, made);
      made.per_g += found->per_g * share;
    }
  });
  const double water = body.number_or("water_fraction");
  if (share_sum + water > 1 + 1e-9)
    body.refuse(
        "contains",
        fmt::format("the parts and \"water_fraction\" add up to {:.4g}, more than the whole",
                    share_sum + water),
        "give each as grams in 1 g");
  made.per_g.water_g += water;
  const double undeclared_g = std::max(0.0, 1 - share_sum - water);

  bool sodium_given = false;
  const bool labelled = body.object("label", [&](ObjectReader& label) {
    sodium_given = read_label(label, made.per_g, name,
                              share_sum + water >= 1 - fully_declared_within_g, named);
  });
  if (labelled && water > 0 && water + made.per_g.carbohydrate_g > 1 + label_rounding)
    body.refuse("water_fraction",
                fmt::format("{:.3g} g of water and {:.3g} g of carbohydrate are more than 1 g",
                            water, made.per_g.carbohydrate_g),
                "check the label against it");
  // With nothing at all the rules of the object say so.
  if (!body.has("label") && !body.has("contains") && body.has("water_fraction") &&
      water < 1 - fully_declared_within_g)
    body.refuse("label", "nothing says what this ingredient is made of",
                "add a \"label\", or \"contains\" with the fractions you know");
  made.per_g.soluble_solids_g =
      std::clamp(made.per_g.soluble_solids_g, 0.0, std::max(0.0, 1 - made.per_g.water_g));
  made.fully_declared = undeclared_g <= fully_declared_within_g;
  if (!labelled && undeclared_g > fully_declared_within_g && share_sum > 0)
    body.assume("contains", fmt::format("what {} does not declare", name),
                fmt::format("{:.3g} g in 1 g counts as inert", undeclared_g), {});

  if (sodium_given)
    made.sodium_stated = true;
  else if (!made.fully_declared)
    made.sodium_stated = false;
  if (const auto fizzed = body.boolean("fizzed")) made.fizzed = fizzed;
  // What fizzes holds bicarbonate: nothing is left open.
  if (made.fizzed.value_or(false)) name_sodium(made.per_g, SodiumSalt::bicarbonate);

  read_gum_composition(body, made);
  body.object("buffer", [&](ObjectReader& buffer) {
    const auto sites = buffer.measured("carboxylate_mmol_per_g");
    const auto pka = buffer.number("pka");
    if (pka && made.buffer_pka && *made.buffer_pka != *pka)
      buffer.refuse("pka", "a part of this ingredient has a buffer with another pKa",
                    "the water phase knows one buffer: keep one of the two");
    made.buffer_pka = pka;
    const double neutralised = buffer.number_or("neutralised_fraction");
    if (!sites) return;
    made.unbuffered_per_g = made.per_g;
    add_buffer(made.per_g, sites->value / 1000, neutralised);
    made.buffer_mmol_per_g_sd = sites->sd;
  });
  read_undeclared_gums(body, pantry, made);
  read_learned(body, made);
  add_new(made.allergens, body.texts("allergens"));
  return made;
}

Pantry::Pantry(const json* define, std::string define_pointer, std::vector<std::string> also,
               Findings& findings)
    : define_(define),
      define_pointer_(std::move(define_pointer)),
      also_(std::move(also)),
      findings_(findings) {
  if (define_ == nullptr) return;
  if (!define_->is_object()) {
    findings_.problems.push_back(
        {define_pointer_, "expected an object", "write {\"name\": {...}}"});
    define_ = nullptr;
    return;
  }
  for (const auto& [name, value] : define_->items()) {
    const std::string where = define_pointer_ + '/' + escape_pointer(name);
    if (find_ingredient(name))
      findings_.problems.push_back({where, "this name is built in", "choose another name"});
    else if (usable_name(name, where, findings_.problems))
      find(name, where);
  }
}

const Ingredient* Pantry::find(const std::string& name, const std::string& where) {
  if (const Ingredient* known = values_.find(name)) return known;
  if (define_ == nullptr || !define_->contains(name)) return built_in(name, where);
  switch (values_.check(name)) {
    case NamedValues<Ingredient>::Open::through_itself:
      findings_.problems.push_back({where, fmt::format("\"{}\" is defined through itself", name),
                                    "take it out of its own \"contains\""});
      return nullptr;
    case NamedValues<Ingredient>::Open::too_deep:
      findings_.problems.push_back(
          {where, "defined through too many other definitions",
           fmt::format("build on at most {}", NamedValues<Ingredient>::longest_chain)});
      return nullptr;
    case NamedValues<Ingredient>::Open::fine:
      break;
  }
  return &values_.make(name, [&] { return defined(name, define_->at(name)); });
}

const Ingredient* Pantry::built_in(const std::string& name, const std::string& where) {
  const Resolved meant = resolve_name(name, false);
  switch (meant.kind) {
    case NameKind::exact:
      if (!meant.understood.empty())
        findings_.assumed.push_back({where,
                                     fmt::format("the word \"{}\"", name),
                                     "understood as " + meant.ingredient,
                                     {},
                                     meant.remark});
      return &values_.make(name, [&] { return *find_ingredient(meant.ingredient); });
    case NameKind::ambiguous:
      findings_.problems.push_back({where, fmt::format("\"{}\" can mean several things", name),
                                    fmt::format("write {}: {}", quoted_list(meant.candidates),
                                                continued(meant.how_to_tell))});
      return nullptr;
    case NameKind::elsewhere:
      findings_.problems.push_back({where,
                                    fmt::format("\"{}\" is not in the list of ingredients", name),
                                    continued(meant.how_to_tell)});
      return nullptr;
    case NameKind::unknown:
      break;
  }
  refuse_unknown(name, where);
  return nullptr;
}

void Pantry::refuse_unknown(const std::string& name, const std::string& where) {
  std::string remedy = suggestion(name, findings_.problems, [&] {
    std::vector<std::string> names = also_;
    for (const Ingredient& each : builtin_ingredients()) names.push_back(each.name);
    if (define_ != nullptr)
      for (const auto& [each, value] : define_->items()) names.push_back(each);
    return names;
  });
  if (remedy.empty()) remedy = suggestion(name, findings_.problems, everyday_words);
  if (remedy.empty()) remedy = "see the list of ingredients, or describe it under \"define\"";
  findings_.problems.push_back(
      {where, fmt::format("ingredient \"{}\" is not known", name), remedy});
}

bool Pantry::defines_mix(const std::string& name) const {
  const Ingredient* known = values_.find(name);
  return known != nullptr && known->source == "recipe" && known->kind == Kind::mix;
}

Ingredient Pantry::defined(const std::string& name, const json& value) {
  const std::string pointer = define_pointer_ + '/' + escape_pointer(name);
  if (!value.is_object()) {
    findings_.problems.push_back({pointer, "expected an object", "write {\"kind\": \"mix\", ...}"});
    return {.name = name};
  }
  ObjectReader body(value, pointer, ingredient_keys(), findings_);
  Ingredient made = read_defined(body, name, *this);
  body.finish();
  return made;
}

}  // namespace gelwright::detail
