// Changing values of a JSON document where they stand. Private: json does not show in the public
// headers.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace gelwright::detail {

/// `text` with its values changed to those of `wanted`. Only the bytes of what differs change: key
/// order, layout, line ends, spelling of numbers and texts elsewhere stay as the author wrote them,
/// and a value that is equal already is not touched. New members take the indentation of their
/// siblings and stand behind the member they follow in `wanted`; in which order `wanted` holds the
/// members the document already has does not matter. Elements of an array are matched from both
/// ends.
///
/// So a caller parses the text, changes the tree it gets, and hands both in. `text` must be a
/// document that `parse_json` accepts.
std::string edited_json(std::string_view text, const nlohmann::ordered_json& wanted);

}  // namespace gelwright::detail
