#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <iterator>
#include <string>

#include "gelling/constant_table.hpp"
#include "gelling/parameter_table.hpp"

namespace gelwright::gel {

namespace {

constexpr bool in_order() {
  std::size_t index = 0;
  for (const Parameter& row : detail::parameter_table)
    if (static_cast<std::size_t>(row.id) != index++) return false;
  return index == parameter_count;
}
static_assert(in_order(), "the table has one row for each parameter, in the order of Id");

constexpr Values at_centre() {
  Values values{};
  for (const Parameter& row : detail::parameter_table)
    values.value[static_cast<std::size_t>(row.id)] = row.value;
  return values;
}
constexpr Values centre = at_centre();

constexpr Standing standing_of(Known known) {
  switch (known) {
    case Known::abstract:
      return Standing::confirmed;
    // Weaker than read in the source, so it must not pass for it.
    case Known::secondary:
    case Known::memory:
      return Standing::from_memory;
    case Known::judgement:
      break;
  }
  return Standing::judgement;
}

constexpr auto as_data() {
  std::array<Datum, parameter_count> data{};
  std::size_t index = 0;
  for (const Parameter& row : detail::parameter_table)
    data[index++] = {
        row.key, row.value, row.unit, row.sd, row.means, row.source, standing_of(row.known)};
  return data;
}
constexpr auto data = as_data();

/// FNV-1a of every value and doubt, to the sixth decimal.
std::uint32_t fingerprint() {
  std::uint32_t hash = 2166136261u;
  const auto count = [&hash](double value) {
    constexpr double sixth_decimal = 1e6;
    auto whole = static_cast<std::uint64_t>(std::llround(value * sixth_decimal));
    for (int byte = 0; byte < 8; ++byte, whole >>= 8)
      hash = (hash ^ static_cast<std::uint32_t>(whole & 0xffu)) * 16777619u;
  };
  for (const Parameter& row : detail::parameter_table) {
    count(row.value);
    count(row.sd);
  }
  return hash;
}

}  // namespace

std::span<const Parameter> parameters() {
  return detail::parameter_table;
}

std::span<const Datum> parameter_data() {
  return data;
}

std::span<const Datum> gel_constant_data() {
  return detail::constant_table;
}

const Values& central_values() {
  return centre;
}

std::string_view model_version() {
  static const std::string version = fmt::format("gel-{:08x}", fingerprint());
  return version;
}

std::string_view to_text(Known known) {
  switch (known) {
    case Known::abstract:
      return "abstract read";
    case Known::secondary:
      return "quoted elsewhere";
    case Known::memory:
      return "from memory";
    case Known::judgement:
      return "judgement";
  }
  return "";
}

std::string_view to_text(Shift shift) {
  switch (shift) {
    case Shift::none:
      return "";
    case Shift::strength:
      return "strength";
    case Shift::ph:
      return "pH";
    case Shift::calcium:
      return "calcium";
    case Shift::viscosity:
      return "viscosity";
  }
  return "";
}

}  // namespace gelwright::gel
