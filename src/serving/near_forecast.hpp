// Forecasts of servings a little off one that is known in full, for searches. Private.
#pragma once

#include <vector>

#include "gelwright/gel_forecast.hpp"

namespace gelwright::detail {

/// Of every way to read a pack the middle of the gum's share is worked out anew, at the centre of
/// every parameter; how far the ends of the share lie from it, and the doubt, are taken as they are
/// known. A fraction of the work of a forecast, which has the last word on what is found by it.
class NearForecast {
 public:
  explicit NearForecast(const Inputs& inputs);

  /// Throws as `gel_state_of`. The stomach is left out, and so it is for pouches only.
  GelForecast at(const Formula& formula, const WaterPhase& phase, const Inputs& inputs) const;

 private:
  struct Known {
    gel::Outlook outlook;  ///< of this reading
    gel::Outlook centre;   ///< of the middle share of the same gum and salt
  };
  std::vector<Known> known_;  ///< one for each reading, in their order
};

}  // namespace gelwright::detail
