// Which parameters a serving needs, and the first stage each touches.
#pragma once

#include "gelling/setup.hpp"
#include "gelwright/gel_parameters.hpp"

namespace gelwright::gel::detail {

/// Stages in the order they run.
enum class Stage : std::uint8_t { dissolve, routes, sum, viscosity };

/// The first stage that reads this value. `viscosity` is read by no other stage.
Stage first_stage(Id id);

/// Whether this value can move anything for this serving. False is exact: the model would give the
/// same bits whatever it is.
bool matters(Id id, const Setup& setup);

}  // namespace gelwright::gel::detail
