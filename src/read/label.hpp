// A nutrition label, as it stands on a pack. Private.
#pragma once

#include <string>
#include <vector>

#include "read/json_reader.hpp"

namespace gelwright::detail {

/// What a pack names without saying how much: the figures of its label then do, where only one of
/// its sort is named.
class NamedParts {
 public:
  void add(const Ingredient& part) { parts_.push_back(&part); }
  bool empty() const { return parts_.empty(); }

  /// The one sugar, starch hydrolysate or polyol, or the one salt of this ion; null where there is
  /// none or more than one.
  const Ingredient* sugar() const;
  const Ingredient* starch() const;
  const Ingredient* polyol() const;
  const Ingredient* salt_of(Component ion) const;

 private:
  std::vector<const Ingredient*> parts_;
};

/// What the rounding of a label may add up to, of its mass.
inline constexpr double label_rounding = 0.01;

/// Raises 1 g of the ingredient called `name` to what its label says; `broken_down` where
/// `contains` and the water are all of it. Whether the label gives its sodium.
bool read_label(ObjectReader& label, Composition& per_g, const std::string& name, bool broken_down,
                const NamedParts& named);

}  // namespace gelwright::detail
