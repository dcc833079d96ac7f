#include "base/harmless.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

#include "base/utf8.hpp"

namespace gelwright::detail {

namespace {

struct Range {
  char32_t from;
  char32_t to;
};

/// Sorted by their first character.
constexpr Range steering[] = {
    {0x0000, 0x001F},  // control characters, escape among them
    {0x007F, 0x009F},  // delete and the second set of control characters
    {0x061C, 0x061C},  // Arabic letter mark
    {0x200E, 0x200F},  // left-to-right and right-to-left mark
    {0x2028, 0x202E},  // line and paragraph separator, embeddings and overrides
    {0x2066, 0x2069},  // isolates
};

bool steers(char32_t character) {
  return std::any_of(std::begin(steering), std::end(steering), [character](const Range& range) {
    return character >= range.from && character <= range.to;
  });
}

std::string escaped(std::string_view text, bool keep_line_ends) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const Character next = first_character(text);
    const std::string_view bytes = text.substr(0, next.bytes);
    text.remove_prefix(next.bytes);
    if (!next.valid)
      out += fmt::format("\\x{:02x}", static_cast<unsigned char>(bytes.front()));
    else if (steers(next.code) && !(keep_line_ends && next.code == '\n'))
      out += fmt::format("\\u{:04x}", static_cast<std::uint32_t>(next.code));
    else
      out += bytes;
  }
  return out;
}

}  // namespace

std::string visible(std::string_view text) {
  return escaped(text, false);
}

std::string visible_document(std::string_view text) {
  return escaped(text, true);
}

}  // namespace gelwright::detail
