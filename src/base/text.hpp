// Words and names as they are printed: lists in quotes, near misses, JSON pointers.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gelwright {

/// True for the second and later bytes of a UTF-8 character.
inline bool continues_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

inline bool is_control(char c) {
  return static_cast<unsigned char>(c) < 0x20U || c == 0x7F;
}

/// JSON pointer escape of one reference token (RFC 6901), control characters written as \u001b.
std::string escape_pointer(std::string_view token);

/// Names close to a misspelt one, best first, at most three.
std::vector<std::string> similar_names(std::string_view name,
                                       std::span<const std::string> candidates);

/// "\"a\" or \"b\"": ready for a remedy.
std::string quoted_list(std::span<const std::string> names);

/// "Did you mean \"...\"?" or an empty string.
std::string did_you_mean(std::string_view name, std::span<const std::string> candidates);

}  // namespace gelwright
