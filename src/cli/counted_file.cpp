#include "cli/counted_file.hpp"

#include <fmt/format.h>

#include "base/number.hpp"
#include "base/text.hpp"
#include "gelwright/error.hpp"

namespace gelwright::cli {

CountedFile read_counted_file(const std::string& text) {
  const auto [file, value] = detail::name_and_value(text);
  if (!value) return {text, std::nullopt};
  const std::optional<double> count = detail::to_number(*value);
  if (!count || *count != static_cast<double>(static_cast<long>(*count)) || *count < 1 ||
      *count > 1e5)
    throw InputError("", {{text, "after = stands a whole number of servings, 1 to 100000",
                           fmt::format("as in {}=20", file)}});
  return {file, count};
}

}  // namespace gelwright::cli
