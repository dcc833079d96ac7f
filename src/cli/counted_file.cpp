#include "cli/counted_file.hpp"

#include <fmt/format.h>

#include "base/number.hpp"
#include "gelwright/error.hpp"

namespace gelwright::cli {

CountedFile read_counted_file(const std::string& text) {
  const std::size_t equals = text.rfind('=');
  if (equals == std::string::npos) return {text, std::nullopt};
  const std::optional<double> count = detail::to_number(text.substr(equals + 1));
  if (!count || *count != static_cast<double>(static_cast<long>(*count)) || *count < 1 ||
      *count > 1e5)
    throw InputError("", {{text, "after = stands a whole number of servings, 1 to 100000",
                           fmt::format("as in {}=20", text.substr(0, equals))}});
  return {text.substr(0, equals), count};
}

}  // namespace gelwright::cli
