// A recipe and its kitchen made one: what the recipe names and does not describe is put in, and
// where it came from is kept. The recipe wins where both speak. Private.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "gelwright/read.hpp"
#include "read/json_reader.hpp"
#include "read/readers.hpp"

namespace gelwright::detail {

/// A recipe that needs no kitchen any more, and what its kitchen gave.
struct Merged {
  nlohmann::ordered_json recipe;
  KitchenUse use;
  KitchenNames names;               ///< all the kitchen holds, used or not
  std::vector<Assumption> assumed;  ///< what of the kitchen could not be used
};

/// `kitchen` must be one that `checked_kitchen` let pass; `recipe` is any object, judged later.
Merged merged(nlohmann::ordered_json recipe, const nlohmann::ordered_json& kitchen,
              std::string kitchen_document);

/// The kitchen as a tree in the order of its keys, read strictly to its last unused line. Throws
/// InputError, which names it.
nlohmann::ordered_json checked_kitchen(const KitchenDocument& kitchen);

/// The recipe without its `kitchen` key, which has done its work once the two are one.
void drop_kitchen_key(nlohmann::ordered_json& recipe);

/// Makes pointers to what the kitchen gave point into the kitchen itself, and say so.
void point_into_kitchen(const KitchenUse& use, Findings& findings);

/// Throws where the document says it is of another format than the one wanted: nothing else that
/// could be said of it would help. `kind` and `remedy` are for a document of that other format.
void refuse_other_format(const nlohmann::json& document, const std::string& document_name,
                         std::string_view other_format, std::string what, std::string remedy);

}  // namespace gelwright::detail
