// A valid recipe made from the bytes, through everything: evaluation, advice and every format.
#pragma once

#include <cstdint>
#include <string_view>

#include "fuzz/recipe_target.hpp"
#include "random_recipe.hpp"

namespace gelwright::fuzz {

/// Two bytes for a number; the middle of its range when there are no more.
struct Bytes {
  std::string_view left;

  double between(double low, double high) {
    double share = 0.5;
    if (left.size() >= 2) {
      const auto byte = [this](std::size_t i) { return static_cast<unsigned char>(left[i]); };
      share = (byte(0) * 256 + byte(1)) / 65535.0;
      left.remove_prefix(2);
    }
    return low + (high - low) * share;
  }
};

/// Everything made this way is valid, so that a refusal for its text is a find too: it may only be
/// that a dose does not dissolve or a scale cannot weigh it, which its evaluation says.
inline Fate try_whole(std::string_view bytes) {
  return fate_of([bytes] {
    Bytes numbers{bytes};
    const Recipe recipe = read_recipe(test::random_recipe(numbers, 0), "fuzz");
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    const Report sheet = sheet_report(inputs, evaluation, advise(inputs, evaluation));
    return prints(sheet) && render(seen(sheet, View{}), Format::text).size() > 100 &&
           is_sane(evaluation);
  });
}

}  // namespace gelwright::fuzz
