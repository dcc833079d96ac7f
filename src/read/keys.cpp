#include "read/keys.hpp"

#include <algorithm>

namespace gelwright::detail {

std::string_view to_text(DocumentFormat format) {
  switch (format) {
    case DocumentFormat::recipe_1:
      return "gelwright/recipe-1";
    case DocumentFormat::recipe_2:
      return "gelwright/recipe-2";
    case DocumentFormat::any:
      break;
  }
  return "any";
}

bool Variant::has(std::string_view key) const {
  return std::find(needs.begin(), needs.end(), key) != needs.end() ||
         std::find(may.begin(), may.end(), key) != may.end();
}

const Key* ObjectType::find(std::string_view name, DocumentFormat format) const {
  for (const Key& key : keys)
    if (key.name == name &&
        (format == DocumentFormat::any || key.only == DocumentFormat::any || key.only == format))
      return &key;
  return nullptr;
}

const ObjectType& measured_keys() {
  static const ObjectType type{
      .id = "measured",
      .what = "A number with its standard uncertainty.",
      .keys = {
          {.name = "value", .what = "the number itself", .needed = true, .example = "23"},
          {.name = "sd",
           .what = "its standard uncertainty, in the same unit",
           .needed = true,
           .example = "4"},
      }};
  return type;
}

std::vector<const ObjectType*> object_types(const ObjectType& document) {
  std::vector<const ObjectType*> types{&document};
  const auto add = [&types](const ObjectType& type) {
    for (const ObjectType* known : types)
      if (known == &type) return;
    types.push_back(&type);
  };
  for (std::size_t i = 0; i < types.size(); ++i)
    for (const Key& key : types[i]->keys) {
      if (key.object != nullptr) add(key.object());
      const bool waters = key.shape == Shape::named && key.object == nullptr;
      if (key.shape != Shape::water && !waters) continue;
      add(water_report_keys());
      add(blend_keys());
    }
  return types;
}

}  // namespace gelwright::detail
