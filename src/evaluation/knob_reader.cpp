// Knobs as they are typed: names and amounts, and what to say where they are wrong.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>

#include "base/number.hpp"
#include "base/text.hpp"
#include "gelwright/knob.hpp"
#include "gelwright/names.hpp"

namespace gelwright {

namespace {

std::vector<std::string> names_for(const Recipe& recipe) {
  std::vector<std::string> names;
  for (const KnobInfo& knob : knobs()) {
    if (knob.needs != KnobNeeds::solid) {
      names.emplace_back(knob.name);
      continue;
    }
    for (std::size_t i = 0; i < recipe.solids.size(); ++i)
      names.push_back(name_of({knob.knob, i}, recipe));
  }
  return names;
}

FoundKnob unknown(std::string_view name, const Recipe& recipe) {
  const std::vector<std::string> names = names_for(recipe);
  const std::vector<std::string> close = similar_names(name, names);
  return {{},
          fmt::format("\"{}\" is not a knob of this recipe", name),
          close.empty() ? fmt::format("choose one of {}", fmt::join(names, ", "))
                        : fmt::format("did you mean {}?", fmt::join(close, " or "))};
}

FoundKnob lacking(KnobNeeds needs) {
  switch (needs) {
    case KnobNeeds::acid:
      return {{},
              "the recipe has no acid",
              "name it in the recipe: \"acid\": {\"ingredient\": ..., \"mass_g\": 0.3}"};
    case KnobNeeds::calcium_salt:
      return {{},
              "the recipe has no calcium salt",
              "name it in the recipe: \"calcium\": {\"ingredient\": ..., \"mass_g\": 0.1, "
              "\"when\": ...}"};
    case KnobNeeds::tap:
      return {{},
              "the recipe has no water report",
              "give it one: \"tap\": {\"calcium_mg_per_l\": ..., ...}"};
    case KnobNeeds::nothing:
    case KnobNeeds::solid:
      break;
  }
  return {};
}

bool same_unit(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](unsigned char x, unsigned char y) {
    return std::tolower(x) == std::tolower(y);
  });
}

/// Reads one setting after another and keeps everything that is wrong.
class SettingReader {
 public:
  explicit SettingReader(const Recipe& recipe) : recipe_(recipe) {}

  void read(std::string_view text) {
    const auto [name, value] = name_and_value(text);
    if (!value) {
      refuse(text, "no amount", "write KNOB=VALUE, for example acid_g=0.5");
      return;
    }
    const FoundKnob found = find_knob(name, recipe_);
    if (!found.knob) refuse(text, found.what, found.remedy);
    const std::optional<double> amount = read_amount(text, *value, found.knob);
    if (!found.knob || !amount) return;
    const KnobInfo& info = info_of(found.knob->knob);
    if (!within_bounds(info, *amount)) {
      refuse(text, fmt::format("{} must be {}", info.name, bounds_text(info)),
             "check the unit in the name");
      return;
    }
    for (const KnobSetting& each : settings_)
      if (clash(each.which, *found.knob)) {
        refuse(text, fmt::format("turns the same thing as {}", name_of(each.which, recipe_)),
               "keep one of them");
        return;
      }
    settings_.push_back({*found.knob, *amount});
  }

  std::vector<KnobSetting> finish() {
    if (!problems_.empty()) throw InputError("", std::move(problems_));
    return std::move(settings_);
  }

 private:
  void refuse(std::string_view text, std::string what, std::string remedy) {
    problems_.push_back({fmt::format("knobs {}", text), std::move(what), std::move(remedy)});
  }

  std::optional<double> read_amount(std::string_view text, std::string_view amount,
                                    const std::optional<KnobOf>& knob) {
    const std::optional<detail::LeadingNumber> number = detail::leading_number(amount);
    if (!number || number->rest.starts_with(',')) {
      refuse(text, "the amount is not a number",
             "write it with a decimal point, for example acid_g=0.5");
      return std::nullopt;
    }
    const std::string_view unit = trimmed(number->rest);
    if (!knob || unit.empty()) return number->value;
    const KnobInfo& info = info_of(knob->knob);
    if (!info.unit.empty() && same_unit(unit, info.unit)) return number->value;
    refuse(text, fmt::format("\"{}\" is not the unit of {}", unit, info.name),
           info.unit.empty() ? "give a plain number, a share of 1"
                             : fmt::format("give the amount in {}", info.unit));
    return std::nullopt;
  }

  const Recipe& recipe_;
  std::vector<KnobSetting> settings_;
  std::vector<Problem> problems_;
};

}  // namespace

FoundKnob find_knob(std::string_view name, const Recipe& recipe) {
  for (const KnobInfo& info : knobs()) {
    if (info.needs != KnobNeeds::solid) {
      if (info.name != name) continue;
      const KnobOf knob{info.knob};
      if (has_knob(recipe, knob)) return {knob, "", ""};
      return lacking(info.needs);
    }
    for (std::size_t i = 0; i < recipe.solids.size(); ++i)
      if (name_of({info.knob, i}, recipe) == name) return {KnobOf{info.knob, i}, "", ""};
  }
  // The solid may go by an everyday word.
  if (const std::size_t colon = name.find(':'); colon != std::string_view::npos) {
    std::vector<std::string> names;
    for (const RecipeLine& line : recipe.solids)
      names.push_back(recipe.ingredients[line.ingredient].name);
    const auto meant = which_of(names, std::string(name.substr(colon + 1)));
    const std::string exact =
        meant ? std::string(name.substr(0, colon + 1)) + names[*meant] : std::string(name);
    if (exact != name) return find_knob(exact, recipe);
  }
  return unknown(name, recipe);
}

std::vector<KnobSetting> read_knob_settings(std::span<const std::string> texts,
                                            const Recipe& recipe) {
  SettingReader reader(recipe);
  for (const std::string& text : texts) reader.read(text);
  return reader.finish();
}

}  // namespace gelwright
