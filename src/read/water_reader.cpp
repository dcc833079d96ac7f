#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/named_values.hpp"
#include "gelwright/read.hpp"
#include "read/kitchen.hpp"
#include "read/readers.hpp"
#include "read/water_keys.hpp"
#include "water/carbonate.hpp"

namespace gelwright {

namespace detail {

namespace {

using nlohmann::json;

/// Reads the keys of one quantity that may be written in any of several units. `key` names the key
/// of a unit, `convert` turns a value in it into the internal unit. That there is one at most is a
/// rule of the report.
template <class Units, class Name, class Convert>
void read_in_any_unit(ObjectReader& report, const Units& units, Name key, Convert convert,
                      std::optional<double> Water::*quantity, Tap& tap) {
  for (const auto& unit : units) {
    const std::optional<Measured> value = report.measured(key(unit));
    if (!value) continue;
    tap.water.*quantity = convert(value->value, unit.unit);
    if (value->sd > 0) tap.sd.*quantity = convert(value->sd, unit.unit);
  }
}

void read_ion(ObjectReader& report, const IonInfo& ion, Tap& tap) {
  std::optional<Measured> amount = report.measured(ion_mass_key(ion));
  if (const auto molar = report.measured(ion_molar_key(ion)))
    amount = {mg_per_l(ion.ion, molar->value), mg_per_l(ion.ion, molar->sd)};
  const auto parse = [&ion](std::string_view text) { return parse_concentration(ion.ion, text); };
  if (const auto typed = report.amount(ion.key_stem, parse)) amount = {*typed, 0};
  if (!amount) return;
  tap.water.mg_per_l[ion.ion] = amount->value;
  if (amount->sd > 0) tap.sd.mg_per_l[ion.ion] = amount->sd;
}

/// The CO2 of a carbonated water counts as gone: it leaves as the batch is stirred, heated and left
/// to stand, and an acid that leaves must not stand for one that keeps the batch.
void let_out_gas(ObjectReader& report, Water& water) {
  if (!report.boolean("carbonated").value_or(false)) return;
  water.ph.reset();
  const double ph =
      ph_of_carbonate(water.alkalinity_meq_per_l.value_or(0), most_carbon_dioxide_mmol_per_l());
  report.assume("carbonated", fmt::format("{}: its CO2", water.name),
                "gone by the time it is filled",
                "it leaves as you stir, heat and let it stand; what is left of it foams under a "
                "blade and swells a closed pouch",
                fmt::format("just poured 1.5 g/L, and pH {:.1f} of the water alone", ph));
}

Tap read_report(ObjectReader& report, const std::string& name) {
  Tap tap;
  tap.water.name = report.text("name").value_or(name.empty() ? "tap water" : name);
  for (const IonInfo& ion : ions()) read_ion(report, ion, tap);
  read_in_any_unit(report, hardness_units(), hardness_key, hardness_mmol_per_l,
                   &Water::hardness_mmol_per_l, tap);
  const auto to_meq_per_l = [](double value, AlkalinityUnit unit) {
    return alkalinity_meq_per_l(value, unit);
  };
  read_in_any_unit(report, alkalinity_units(), alkalinity_key, to_meq_per_l,
                   &Water::alkalinity_meq_per_l, tap);
  if (const auto typed = report.amount(hardness_text, parse_hardness))
    tap.water.hardness_mmol_per_l = *typed;
  if (const auto typed = report.amount(alkalinity_text, parse_alkalinity))
    tap.water.alkalinity_meq_per_l = *typed;
  constexpr std::string_view phenolphthalein = "phenolphthalein_alkalinity_meq_per_l";
  if (const auto p = report.number(phenolphthalein)) {
    tap.water.phenolphthalein_alkalinity_meq_per_l = *p;
    const std::optional<double> total = tap.water.alkalinity_meq_per_l;
    if (total && *p > *total)
      report.refuse(phenolphthalein, "more than the total alkalinity", "check the two titrations");
    else if (total && alkalinity_parts(*p, *total).hydroxide_meq_per_l > 0)
      report.refuse(phenolphthalein,
                    "more than half the total alkalinity: this is a hydroxide (lime) water",
                    "do not make food with it; check the report");
  }
  tap.water.ph = report.number("ph");
  let_out_gas(report, tap.water);
  const auto& calcium = tap.water.mg_per_l[Ion::calcium];
  const auto& total = tap.water.hardness_mmol_per_l;
  if (calcium && total && hardness_contradicts(*calcium, *total))
    report.refuse("calcium_mg_per_l",
                  fmt::format("{:g} mg/L of calcium alone is {:.2f} mmol/L, more than the total "
                              "hardness of {:.2f} mmol/L",
                              *calcium, mmol_per_l(Ion::calcium, *calcium), *total),
                  "check the units of both");
  return tap;
}

/// What had to be assumed to complete the water called `name`.
void note(const std::vector<WaterAssumption>& assumed, const std::string& where,
          const std::string& name, Findings& findings) {
  for (const WaterAssumption each : assumed)
    findings.assumed.push_back({where, name, std::string(to_text(each)), {}, {}});
}

bool tells_of_bubbles(const std::string& name) {
  const std::string word = lower(name);
  const auto has = [&word](const char* part) { return word.find(part) != std::string::npos; };
  return has("carbonated") || has("sparkling") || has("fizzy") || has("soda");
}

/// The waters a document names, blended on demand.
class Waters {
 public:
  /// `also` are names that an unknown one may be a misspelling of.
  Waters(const json* named, std::string pointer, std::vector<std::string> also, Findings& findings)
      : named_(named), pointer_(std::move(pointer)), also_(std::move(also)), findings_(findings) {
    if (named_ != nullptr && !named_->is_object()) {
      findings_.problems.push_back({pointer_, "expected an object", "write {\"name\": {...}}"});
      named_ = nullptr;
    }
  }

  std::optional<Tap> by_name(const std::string& name, const std::string& where) {
    if (const std::optional<Tap>* known = values_.find(name)) return *known;
    if (named_ != nullptr && named_->contains(name)) return made(name, where);
    if (name == demineralised_name) return Tap{demineralised_water(), {}};
    std::string remedy = suggestion(name, findings_.problems, [&] {
      std::vector<std::string> names = also_;
      names.emplace_back(demineralised_name);
      if (named_ != nullptr)
        for (const auto& [each, value] : named_->items()) names.push_back(each);
      return names;
    });
    const std::string otherwise = tells_of_bubbles(name)
                                      ? R"(describe it under "waters", with "carbonated": true)"
                                      : R"(describe it under "waters")";
    findings_.problems.push_back({where, fmt::format("water \"{}\" is not known", name),
                                  remedy.empty() ? otherwise : remedy});
    return std::nullopt;
  }

  /// `name` is what it is called where the document does not say; "" for a plain description.
  std::optional<Tap> read(const json& value, const std::string& where,
                          const std::string& name = "") {
    if (value.is_string()) return by_name(value.get<std::string>(), where);
    if (!value.is_object()) {
      findings_.problems.push_back({where, "expected a water report or the name of a water",
                                    R"(write {"calcium_mg_per_l": 23} or "name")"});
      return std::nullopt;
    }
    const bool blended = value.contains("blend");
    ObjectReader body(value, where, blended ? blend_keys() : water_report_keys(), findings_);
    std::optional<Tap> tap = blended ? read_blend(body, name) : read_report(body, name);
    body.finish();
    return tap;
  }

  /// Reads every named water not read yet, so that an unused one cannot hide a mistake.
  void check_all() {
    if (named_ == nullptr) return;
    for (const auto& [name, value] : named_->items()) {
      if (name == demineralised_name)
        findings_.problems.push_back({pointer_ + '/' + escape_pointer(name),
                                      "this name is built in", "choose another name"});
      by_name(name, pointer_);
    }
  }

 private:
  std::optional<Tap> made(const std::string& name, const std::string& where) {
    using Open = NamedValues<std::optional<Tap>>::Open;
    switch (values_.check(name)) {
      case Open::through_itself:
        findings_.problems.push_back({where,
                                      fmt::format("water \"{}\" is blended from itself", name),
                                      "take it out of its own \"blend\""});
        return std::nullopt;
      case Open::too_deep:
        findings_.problems.push_back({where, "blended through too many other blends",
                                      fmt::format("build on at most {}", values_.longest_chain)});
        return std::nullopt;
      case Open::fine:
        break;
    }
    const std::string pointer = pointer_ + '/' + escape_pointer(name);
    return values_.make(name, [&]() -> std::optional<Tap> {
      if (!usable_name(name, pointer, findings_.problems)) return std::nullopt;
      return read(named_->at(name), pointer, name);
    });
  }

  std::optional<Tap> read_blend(ObjectReader& body, const std::string& given_name) {
    std::vector<std::pair<Water, double>> parts;
    std::vector<std::pair<Tap, double>> taps;
    double sum = 0;
    std::size_t by_parts = 0;
    const json* list = body.member("blend");
    bool complete_list = list != nullptr && list->is_array();
    const std::string name = body.text("name").value_or(given_name.empty() ? "blend" : given_name);
    body.objects("blend", [&](ObjectReader& part, std::size_t) {
      const std::optional<double> in_parts = part.number("parts");
      const std::optional<double> as_share = part.number("share");
      complete_list = complete_list && (in_parts || as_share);
      const double share = as_share.value_or(in_parts.value_or(0));
      by_parts += in_parts ? 1 : 0;
      sum += share;
      const json* water = part.member("water");
      std::optional<Tap> tap = water ? read(*water, part.at("water")) : std::nullopt;
      if (!tap) {
        complete_list = false;
        return;
      }
      parts.emplace_back(tap->water, share);
      taps.emplace_back(std::move(*tap), share);
    });
    if (!complete_list || parts.empty()) return std::nullopt;
    if (by_parts == taps.size()) {
      for (auto& [water, share] : parts) share /= sum;
      for (auto& [tap, share] : taps) share /= sum;
    } else if (by_parts > 0) {
      body.refuse("blend", "some waters have a share and some have parts", "give all the same");
      return std::nullopt;
    } else if (std::abs(sum - 1) > 1e-6) {
      body.refuse("blend", fmt::format("the shares add up to {:g}, not 1", sum),
                  "shares are parts of the whole: 0.6 and 0.4");
      return std::nullopt;
    }
    Tap blended;
    std::vector<WaterAssumption> assumed;
    blended.water = blend(parts, &assumed);
    blended.water.name = name;
    note(assumed, body.pointer(), name, findings_);
    const auto combine = [&taps](const auto& sd_of) {
      double variance = 0;
      for (const auto& [tap, share] : taps)
        variance += std::pow(share * sd_of(tap.sd).value_or(0), 2);
      return variance > 0 ? std::optional<double>(std::sqrt(variance)) : std::nullopt;
    };
    for (const IonInfo& ion : ions())
      blended.sd.mg_per_l[ion.ion] = combine([&](const Water& sd) { return sd.mg_per_l[ion.ion]; });
    blended.sd.alkalinity_meq_per_l =
        combine([](const Water& sd) { return sd.alkalinity_meq_per_l; });
    blended.sd.hardness_mmol_per_l =
        combine([](const Water& sd) { return sd.hardness_mmol_per_l; });
    return blended;
  }

  const json* named_;
  std::string pointer_;
  std::vector<std::string> also_;
  Findings& findings_;
  NamedValues<std::optional<Tap>> values_;
};

}  // namespace

void check_waters(ObjectReader& kitchen, Findings& findings) {
  Waters(kitchen.member("waters"), kitchen.at("waters"), {}, findings).check_all();
}

std::optional<Tap> read_tap(ObjectReader& recipe, const KitchenNames& kitchen, Findings& findings) {
  Waters waters(recipe.member("waters"), recipe.at("waters"), kitchen.waters, findings);
  const json* tap = recipe.member("tap");
  std::optional<Tap> read = tap ? waters.read(*tap, recipe.at("tap")) : std::nullopt;
  waters.check_all();
  if (tap == nullptr)
    recipe.assume("tap", "the water", std::string(demineralised_name),
                  "no tap report is given, so calcium and alkalinity may be low");
  if (!read) return std::nullopt;
  std::vector<WaterAssumption> assumed;
  complete(read->water, &assumed);
  note(assumed, recipe.at("tap"), read->water.name, findings);
  return read;
}

}  // namespace detail

Tap read_water_report(std::string_view json_text, std::string document,
                      const std::optional<KitchenDocument>& kitchen) {
  nlohmann::json parsed = detail::parse_json(json_text, document);
  if (!parsed.is_object())
    throw InputError(document, {{"", "expected a water report", "start with {"}});
  detail::refuse_other_format(parsed, document, "gelwright/kitchen-",
                              "this is a kitchen: it has waters, and does not say which is used",
                              "name a recipe that does, or a file with one report");
  detail::Findings findings;
  std::optional<Tap> tap;
  if (parsed.contains("tap")) {
    // A recipe, or a set of named waters with the one in use.
    detail::Merged merged;
    if (kitchen) {
      merged =
          detail::merged(std::move(parsed), detail::checked_kitchen(*kitchen), kitchen->document);
      parsed = merged.recipe;
    }
    detail::ObjectReader outer(parsed, "", detail::recipe_keys(), findings);
    tap = detail::read_tap(outer, merged.names, findings);
    detail::point_into_kitchen(merged.use, findings);
  } else {
    tap = detail::Waters(nullptr, "", {}, findings).read(parsed, "");
  }
  if (!findings.problems.empty()) throw InputError(document, std::move(findings.problems));
  return tap.value_or(Tap{});
}

}  // namespace gelwright
