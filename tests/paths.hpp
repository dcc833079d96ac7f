// Where this checkout and its program lie.
#pragma once

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

std::string source_dir();
std::string program_path();
/// A library that, loaded before all others, makes exp() give no number.
std::string broken_exp_path();

namespace gelwright::test {

inline std::string source_path(const std::string& name) {
  return source_dir() + "/" + name;
}

inline std::string read_text(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + path);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace gelwright::test
