#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "gelwright/read.hpp"
#include "read/readers.hpp"

namespace gelwright {

namespace {

using nlohmann::json;

constexpr Bounds ion_bounds{0, 100000, false};
/// How far blends may build on one another.
constexpr std::size_t longest_chain = 8;
constexpr std::string_view demineralised_name = "demineralised water";

/// Reads the keys of one quantity that may be written in any of several units; more than one is an
/// error. `convert` turns a value of unit `i` into the internal unit.
template <class Units, class Convert>
std::optional<Measured> read_in_any_unit(ObjectReader& report, std::string_view stem,
                                         const Units& units, Convert convert) {
  std::optional<Measured> found;
  std::string first_key;
  for (const auto& unit : units) {
    // An acid capacity is an alkalinity, but nobody writes both words.
    const std::string key = unit.key_suffix.starts_with("acid_capacity")
                                ? std::string(unit.key_suffix)
                                : fmt::format("{}_{}", stem, unit.key_suffix);
    const std::optional<Measured> value = report.measured(key, ion_bounds);
    if (!value) continue;
    if (found)
      report.refuse(key, fmt::format("{} is given twice", stem),
                    fmt::format("keep either \"{}\" or \"{}\"", first_key, key));
    found = {convert(value->value, unit), convert(value->sd, unit)};
    first_key = key;
  }
  return found;
}

void read_ion(ObjectReader& report, const IonInfo& ion, Tap& tap) {
  const std::string mass_key = fmt::format("{}_mg_per_l", ion.key_stem);
  const std::string molar_key = fmt::format("{}_mmol_per_l", ion.key_stem);
  for (const std::string& vague : {std::string(ion.key_stem), fmt::format("{}_ppm", ion.key_stem)})
    report.refuse_key(vague, "its unit is missing or unclear",
                      fmt::format("write \"{}\" or \"{}\"", mass_key, molar_key));
  std::optional<Measured> amount = report.measured(mass_key, ion_bounds);
  if (const auto molar = report.measured(molar_key, ion_bounds)) {
    if (amount)
      report.refuse(molar_key, fmt::format("{} is given twice", ion.key_stem),
                    fmt::format("keep either \"{}\" or \"{}\"", mass_key, molar_key));
    amount = {mg_per_l(ion.ion, molar->value), mg_per_l(ion.ion, molar->sd)};
  }
  if (!amount) return;
  tap.water.mg_per_l[ion.ion] = amount->value;
  if (amount->sd > 0) tap.sd.mg_per_l[ion.ion] = amount->sd;
}

Tap read_report(ObjectReader& report, const std::string& name) {
  Tap tap;
  tap.water.name = report.text("name").value_or(name.empty() ? "tap water" : name);
  for (const IonInfo& ion : ions()) read_ion(report, ion, tap);
  report.refuse_key("alkalinity", "its unit is missing",
                    "write for example \"alkalinity_mg_caco3_per_l\"");
  for (const std::string_view other : {"bicarbonate_mg_per_l", "hydrogencarbonate_mg_per_l"})
    report.refuse_key(other, "this is the alkalinity under another name",
                      "write \"alkalinity_mg_hco3_per_l\"");
  report.refuse_key("hardness", "its unit is missing",
                    "write for example \"hardness_german_degrees\" or \"hardness_mg_caco3_per_l\"");
  const auto hardness = read_in_any_unit(report, "hardness", hardness_units(),
                                         [](double value, const HardnessUnitInfo& unit) {
                                           return hardness_mmol_per_l(value, unit.unit);
                                         });
  if (hardness) {
    tap.water.hardness_mmol_per_l = hardness->value;
    if (hardness->sd > 0) tap.sd.hardness_mmol_per_l = hardness->sd;
  }
  report.refuse_key("alkalinity_mmol_per_l",
                    "ambiguous by a factor of 2: mmol of CaCO3 or mmol of acid",
                    "write \"alkalinity_meq_per_l\", or \"acid_capacity_mmol_per_l\" if the report "
                    "says acid capacity");
  const std::optional<Measured> alkalinity = read_in_any_unit(
      report, "alkalinity", alkalinity_units(), [](double value, const AlkalinityUnitInfo& unit) {
        return alkalinity_meq_per_l(value, unit.unit);
      });
  if (alkalinity) {
    tap.water.alkalinity_meq_per_l = alkalinity->value;
    if (alkalinity->sd > 0) tap.sd.alkalinity_meq_per_l = alkalinity->sd;
  }
  if (const auto p = report.number("phenolphthalein_alkalinity_meq_per_l", ion_bounds)) {
    tap.water.phenolphthalein_alkalinity_meq_per_l = *p;
    if (!tap.water.alkalinity_meq_per_l || *p > *tap.water.alkalinity_meq_per_l)
      report.refuse("phenolphthalein_alkalinity_meq_per_l",
                    "needs a total alkalinity that is at least as large",
                    "check the two titrations");
    else if (alkalinity_parts(*p, *tap.water.alkalinity_meq_per_l).hydroxide_meq_per_l > 0)
      report.refuse("phenolphthalein_alkalinity_meq_per_l",
                    "more than half the total alkalinity: this is a hydroxide (lime) water",
                    "do not make food with it; check the report");
  }
  if (const auto ph = report.number("ph", {0, 14, false})) tap.water.ph = *ph;
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

/// The waters a document names, blended on demand.
class Waters {
 public:
  Waters(const json* named, std::string pointer, std::vector<Problem>& problems,
         std::vector<std::string>& assumptions)
      : named_(named),
        pointer_(std::move(pointer)),
        problems_(problems),
        assumptions_(assumptions) {
    if (named_ != nullptr && !named_->is_object()) {
      problems_.push_back({pointer_, "expected an object", "write {\"name\": {...}}"});
      named_ = nullptr;
    }
  }

  std::optional<Tap> by_name(const std::string& name, const std::string& where) {
    if (const auto known = known_.find(name); known != known_.end()) return known->second;
    if (std::find(open_.begin(), open_.end(), name) != open_.end()) {
      problems_.push_back({where, fmt::format("water \"{}\" is blended from itself", name),
                           "take it out of its own \"blend\""});
      return std::nullopt;
    }
    if (named_ != nullptr && named_->contains(name)) {
      const std::string pointer = pointer_ + '/' + escape_pointer(name);
      if (open_.size() >= longest_chain) {
        problems_.push_back({where, "blended through too many other blends",
                             fmt::format("build on at most {}", longest_chain)});
        return std::nullopt;
      }
      if (!usable_name(name, pointer, problems_)) return known_[name] = std::nullopt;
      open_.push_back(name);
      std::optional<Tap> tap = read(named_->at(name), pointer, name);
      open_.pop_back();
      return known_[name] = std::move(tap);
    }
    if (name == demineralised_name) return Tap{demineralised_water(), {}};
    std::string remedy = suggestion(name, problems_, [&] {
      std::vector<std::string> names{std::string(demineralised_name)};
      if (named_ != nullptr)
        for (const auto& [each, value] : named_->items()) names.push_back(each);
      return names;
    });
    problems_.push_back({where, fmt::format("water \"{}\" is not known", name),
                         remedy.empty() ? "describe it under \"waters\"" : remedy});
    return std::nullopt;
  }

  /// `name` is what it is called where the document does not say; "" for a plain description.
  std::optional<Tap> read(const json& value, const std::string& where,
                          const std::string& name = "") {
    if (value.is_string()) return by_name(value.get<std::string>(), where);
    if (!value.is_object()) {
      problems_.push_back({where, "expected a water report or the name of a water",
                           R"(write {"calcium_mg_per_l": 23} or "name")"});
      return std::nullopt;
    }
    ObjectReader body(value, where, problems_);
    std::optional<Tap> tap = body.has("blend") ? read_blend(body, name) : read_report(body, name);
    body.finish();
    return tap;
  }

  /// Reads every named water not read yet, so that an unused one cannot hide a mistake.
  void check_all() {
    if (named_ == nullptr) return;
    for (const auto& [name, value] : named_->items()) {
      if (name == demineralised_name)
        problems_.push_back({pointer_ + '/' + escape_pointer(name), "this name is built in",
                             "choose another name"});
      by_name(name, pointer_);
    }
  }

 private:
  std::optional<Tap> read_blend(ObjectReader& body, const std::string& given_name) {
    std::vector<std::pair<Water, double>> parts;
    std::vector<std::pair<Tap, double>> taps;
    double sum = 0;
    const json* list = body.member("blend");
    bool complete_list = list != nullptr && list->is_array();
    const std::string name = body.text("name").value_or(given_name.empty() ? "blend" : given_name);
    body.objects("blend", [&](ObjectReader& part, std::size_t) {
      const double share = part.required_number("share", {0, 1, false}).value_or(0);
      sum += share;
      const json* water = part.member("water");
      if (water == nullptr) part.required_text("water");
      std::optional<Tap> tap = water ? read(*water, part.at("water")) : std::nullopt;
      if (!tap) {
        complete_list = false;
        return;
      }
      parts.emplace_back(tap->water, share);
      taps.emplace_back(std::move(*tap), share);
    });
    if (!complete_list || parts.empty()) {
      if (parts.empty() && complete_list)
        body.refuse("blend", "the list is empty", "name at least two waters");
      return std::nullopt;
    }
    if (std::abs(sum - 1) > 1e-6) {
      body.refuse("blend", fmt::format("the shares add up to {:g}, not 1", sum),
                  "shares are parts of the whole: 0.6 and 0.4");
      return std::nullopt;
    }
    Tap blended;
    std::vector<WaterAssumption> assumed;
    blended.water = blend(parts, &assumed);
    blended.water.name = name;
    for (const WaterAssumption each : assumed)
      assumptions_.push_back(fmt::format("{}: {}", name, to_text(each)));
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
  std::vector<Problem>& problems_;
  std::vector<std::string>& assumptions_;
  std::vector<std::string> open_;
  std::map<std::string, std::optional<Tap>> known_;
};

}  // namespace

std::optional<Tap> read_tap(ObjectReader& recipe, std::vector<Problem>& problems,
                            std::vector<std::string>& assumptions) {
  Waters waters(recipe.member("waters"), recipe.at("waters"), problems, assumptions);
  const json* tap = recipe.member("tap");
  std::optional<Tap> read = tap ? waters.read(*tap, recipe.at("tap")) : std::nullopt;
  waters.check_all();
  if (!read) return std::nullopt;
  std::vector<WaterAssumption> assumed;
  complete(read->water, &assumed);
  for (const WaterAssumption each : assumed)
    assumptions.push_back(fmt::format("{}: {}", read->water.name, to_text(each)));
  return read;
}

Tap read_water_report(std::string_view json_text, std::string document) {
  const json parsed = parse_json(json_text, document);
  if (!parsed.is_object())
    throw InputError(document, {{"", "expected a water report", "start with {"}});
  std::vector<Problem> problems;
  std::vector<std::string> assumptions;
  std::optional<Tap> tap;
  if (parsed.contains("tap")) {
    // A recipe, or a set of named waters with the one in use.
    ObjectReader outer(parsed, "", problems);
    tap = read_tap(outer, problems, assumptions);
  } else {
    Waters waters(nullptr, "", problems, assumptions);
    tap = waters.read(parsed, "");
  }
  if (!problems.empty()) throw InputError(document, std::move(problems));
  return tap.value_or(Tap{});
}

}  // namespace gelwright
