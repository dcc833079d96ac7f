// From a texture that is wanted to the amount of one thing that gives it the best chance.
//
// A search over `evaluate`; the recipe's own pH limits are kept.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "gelwright/evaluate.hpp"
#include "gelwright/knob.hpp"

namespace gelwright {

struct TextureAim {
  gel::Texture texture = gel::Texture::soft;
  KnobOf turn = {};
};

struct AimFound {
  TextureAim aim;
  bool possible = false;        ///< some amount keeps the limits and can be forecast
  double amount = 0;            ///< of what is turned, in its unit, rounded as a kitchen weighs
  double chance = 0;            ///< of the wanted texture at that amount
  double chance_before = 0;     ///< as the recipe stands
  gel::Chances chances = {};    ///< at that amount
  double ph = 7;                ///< likewise
  bool likeliest = false;       ///< the wanted texture is then the likeliest
  bool ph_limit_binds = false;  ///< outside the pH limits there is a clearly better amount
};

/// Throws InputError where the recipe lacks what is to be turned, or it cannot decide a texture.
AimFound aim_at(const Inputs& inputs, const TextureAim& aim);

/// The inputs with the answer in place; the water keeps its mass.
Inputs aimed(const Inputs& inputs, const AimFound& found);

/// Why it is not the likeliest texture, in a sentence without full stop; empty where it is.
std::string reason_of(const AimFound& found, const Recipe& recipe);

/// The texture called by its own words ("soft set") or their first ("soft"); absent if none is.
std::optional<gel::Texture> texture_called(std::string_view words);

/// Every texture's words, for remedies.
std::string textures_in_words();

}  // namespace gelwright
