// The series of a picture as JSON. Private.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "gelwright/picture.hpp"

namespace gelwright::detail {

nlohmann::ordered_json json_of(const Picture& picture);

}  // namespace gelwright::detail
