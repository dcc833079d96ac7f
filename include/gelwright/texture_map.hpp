// The likeliest texture over two knobs of a recipe, for a picture.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "gelwright/evaluate.hpp"
#include "gelwright/knob.hpp"

namespace gelwright {

/// One side of a map, in the unit of its knob.
struct MapAxis {
  KnobOf knob;
  double low = 0;
  double high = 1;
  double here = 0;  ///< where the recipe stands
};

/// What is likeliest in one cell, at its middle.
struct MapCell {
  std::optional<gel::Texture> texture;  ///< absent where nothing can be foretold
  double chance = 0;                    ///< of it, 0 to 1
};

struct TextureMap {
  MapAxis x;
  MapAxis y;
  std::size_t columns = 0;
  std::size_t rows = 0;
  std::vector<MapCell> cells;  ///< row by row, lowest y first
};

struct MapOptions {
  std::size_t columns = 60;
  std::size_t rows = 40;
  unsigned threads = 0;  ///< 0: all there are; does not change the result
};

/// Which two knobs.
enum class MapOf {
  water_and_acid,
  calcium_and_gum,  ///< the calcium salt, or the water's calcium, and the first gum of the solids
};

/// Or why there is none: a recipe may lack what is turned.
struct MapOrReason {
  std::optional<TextureMap> map;
  std::string reason;
};

/// From none, or a half, to twice what the recipe has. Throws as `evaluate`.
MapOrReason texture_map(const Inputs& inputs, MapOf of, const MapOptions& options = {});

}  // namespace gelwright
