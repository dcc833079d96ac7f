// "thick.json=20": a file and how many of it.
#pragma once

#include <optional>
#include <string>

namespace gelwright::cli {

struct CountedFile {
  std::string file;
  std::optional<double> count;  ///< whole, 1 or more
};

/// Takes it apart at the last "=". Throws InputError.
CountedFile read_counted_file(const std::string& text);

}  // namespace gelwright::cli
