#include "report/width.hpp"

#include <algorithm>

namespace gelwright {

std::size_t display_width(std::string_view text) {
  // Continuation bytes of UTF-8 look like 10xxxxxx.
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) >> 6U) != 2; }));
}

std::vector<std::string> wrap(std::string_view text, std::size_t width) {
  std::vector<std::string> lines(1);
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    std::string& line = lines.back();
    if (!line.empty() && display_width(line) + 1 + display_width(word) > width)
      lines.emplace_back(word);
    else
      line += (line.empty() ? "" : " ") + std::string(word);
  }
  return lines;
}

}  // namespace gelwright
