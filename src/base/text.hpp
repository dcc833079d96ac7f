// Words and names as they are printed: lists in quotes, near misses, JSON pointers, CSV cells, and
// how wide a text stands on paper. Private.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gelwright::detail {

/// True for the second and later bytes of a UTF-8 character.
inline bool continues_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

inline bool is_control(char c) {
  return static_cast<unsigned char>(c) < 0x20U || c == 0x7F;
}

/// Small letters for the capitals A to Z; every other byte stays, whatever the locale.
inline char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
std::string lower(std::string_view text);

/// JSON pointer escape of one reference token (RFC 6901), control characters written as \u001b.
std::string escape_pointer(std::string_view token);

/// Names close to a misspelt one, best first, at most three.
std::vector<std::string> similar_names(std::string_view name,
                                       std::span<const std::string> candidates);

/// "\"a\" or \"b\"": ready for a remedy.
std::string quoted_list(std::span<const std::string> names);

/// "Did you mean \"...\"?" or an empty string.
std::string did_you_mean(std::string_view name, std::span<const std::string> candidates);

/// One cell of comma-separated values, RFC 4180: quoted where it holds a comma, a quote or a line
/// end. A spreadsheet runs a cell that begins with = + - @ or a tab as a formula, so such a text
/// gets an apostrophe in front, which spreadsheets take as "this is text"; a number does not.
std::string csv_cell(std::string_view text);

/// Columns of a terminal one character takes: 0, 1 or 2. Sequences that a terminal may draw as one
/// (joined emoji) are counted piece by piece.
std::size_t character_width(char32_t code);

/// Columns a UTF-8 text takes on a terminal: none for combining marks and other characters of no
/// width, two for wide ones (East Asian, most pictures), one for the rest and for a byte that is
/// not UTF-8.
std::size_t display_width(std::string_view text);

/// The text with spaces added to stand in `width` columns, to the left or to the right.
std::string pad(std::string_view text, std::size_t width, bool right = false);

/// The text in lines of at most `width` columns, broken at spaces; a longer word stands alone.
std::vector<std::string> wrap(std::string_view text, std::size_t width);

/// The text without the blanks, tabs and carriage returns around it.
std::string_view trimmed(std::string_view text);

/// "water=512 g" as its two sides, without blanks around them; the value is absent where there is
/// no equals sign. The last one counts: a name may hold one itself.
struct NameAndValue {
  std::string name;
  std::optional<std::string> value;
};
NameAndValue name_and_value(std::string_view text);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
