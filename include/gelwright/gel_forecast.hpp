// What becomes of a serving: the gel model fed with a recipe's formula and its water phase.
//
// A bought mix whose gum is not fully declared is read in several ways, each with its weight, and
// so is sodium of which no label says what salt it is; their chances are mixed. A forecast, not a
// finding: every grade says how far it can be trusted.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "gelwright/formula.hpp"
#include "gelwright/gel_mixture.hpp"
#include "gelwright/gel_state.hpp"
#include "gelwright/water_phase.hpp"

namespace gelwright {

/// What the gel model is told of a serving with the gum its inputs hold. Throws InputError for more
/// additions of gum than a State has room for, and as `water_phase_of`.
gel::State gel_state_of(const Formula& formula, const WaterPhase& phase, const Inputs& inputs);

/// One way to read a pack that does not declare its gum in full.
struct GumReading {
  double weight = 1;
  std::size_t identity = 0;  ///< which of the gums it may be
  int band = 0;              ///< -1 low end of the share, 0 middle, +1 high end
};

/// The readings of a recipe; a single one where every gum is declared.
std::vector<GumReading> gum_readings(const Recipe& recipe);

/// What test cups taught of the mix that brings more than half of this serving's gum; null where
/// there are none. The shifts then stand in for the band of its share too.
const Learned* learned_of(const Inputs& inputs);

/// The same for one gum the mix may hold, as the gel model takes it; absent without cups.
std::optional<gel::Learnt> learnt_of(const Learned* learned, std::size_t identity);

/// The readings that are left once cups were made: each gum the mix may hold, as likely as they
/// leave it.
std::vector<GumReading> gum_readings(const Recipe& recipe, const Learned* learned);

/// The serving with its undeclared gum read this way.
Inputs read_as(const Inputs& inputs, const GumReading& reading);

/// How much of the model to run.
enum class GelDetail : std::uint8_t {
  none,
  centre,   ///< the middle reading at one set of parameters: some fifty times cheaper
  chances,  ///< every reading, every doubt
};
struct GelOptions {
  GelDetail detail = GelDetail::chances;
  bool stomach = true;
  bool bands =
      true;  ///< false: an undeclared share at its middle only, for searches: a third of it
  const gel::Values* values = nullptr;  ///< for `centre`; null: the centre of every parameter
};

/// What becomes of one serving. Chances 0 to 1.
struct GelForecast {
  /// The middle reading: the gum named first, the middle of its band, sodium as chloride.
  gel::State state;
  gel::Outlook outlook;  ///< of that reading
  gel::Mixture all;      ///< of all readings, each with its weight
  struct Band {
    gel::Mixture low, high;  ///< both ends of an undeclared share
  };
  std::optional<Band> band;
  struct ByGum {
    std::string gums;  ///< "sodium alginate and HM pectin"
    gel::Mixture all;  ///< if it is these
  };
  std::vector<ByGum> by_gum;  ///< where it is in doubt which gum it is, as likely each
  Grade grade = Grade::c;     ///< of the weakest parameter it needs
  /// What the model was not made for. Then nothing is forecast and all chances are 0.
  std::vector<gel::OutOfRange> outside;
  /// What the person's own cups say, if the mix holds the gum named first.
  std::optional<gel::Learnt> learnt;
  const Learned* learned = nullptr;  ///< those cups, in the recipe; null: none
  bool made = false;                 ///< false: not asked for, or outside the model's range

  bool any_gum() const { return state.portions > 0; }
  /// Whether any gum in it has a way to set; xanthan has none.
  bool any_route() const;
  gel::Texture likeliest() const { return gel::likeliest(all.chances); }
  double chance(gel::Texture texture) const { return all.chances[texture]; }
  double chance_set() const { return gel::chance_set(all.chances); }
};

/// The forecast of a serving. Throws as `gel_state_of`.
GelForecast gel_forecast_of(const Formula& formula, const WaterPhase& phase, const Inputs& inputs,
                            const GelOptions& options = {});

/// The chances where it is eaten warmer or colder than planned, all else equal.
gel::Chances chances_eaten_at(double eaten_c, const GelForecast& forecast);

/// Whether the likeliest texture is so unsure that the second is to be named beside it.
bool names_two(const gel::Chances& chances);

/// "firm set 91 %", or "thick 62 %, soft set 21 %" where the likeliest is not likely enough.
std::string words_of(const gel::Chances& chances);

/// How gel states are made from a recipe: figures taken where a pack does not say.
std::span<const Datum> gel_serving_data();

}  // namespace gelwright
