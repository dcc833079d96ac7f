#include "paths.hpp"

// The only file whose compilation knows a path, so that a compiler cache can serve all others.
std::string source_dir() {
  return GELWRIGHT_SOURCE_DIR;
}

std::string program_path() {
  return GELWRIGHT_BINARY;
}

std::string broken_exp_path() {
  return GELWRIGHT_BROKEN_EXP;
}
