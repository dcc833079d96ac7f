// Prints how many columns each range of characters takes: first code, last code, columns.
#include <cstdio>

#include "base/text.hpp"

int main() {
  constexpr char32_t last = 0x10FFFF;
  char32_t from = 0x80;  // below are the control characters, which are never printed, and ASCII
  for (char32_t code = from; code <= last; ++code) {
    const auto width = gelwright::detail::character_width(from);
    if (code < last && gelwright::detail::character_width(code + 1) == width) continue;
    std::printf("%x %x %zu\n", static_cast<unsigned>(from), static_cast<unsigned>(code), width);
    from = code + 1;
  }
}
