// Golden files: what the real program prints, refreshed with GELWRIGHT_REFRESH=1.
#pragma once

#include <sys/wait.h>

#include <cstdio>
#include <cstdlib>
#include <string>

#include "recipes.hpp"

namespace gelwright::test {

struct Printed {
  std::string text;  ///< standard output and standard error together
  int exit_code = -1;
};

/// Runs the program from the source folder with a clean environment.
inline Printed run_program(const std::string& arguments) {
  const std::string command = "cd '" + std::string(GELWRIGHT_SOURCE_DIR) + "' && env -i '" +
                              std::string(GELWRIGHT_BINARY) + "' " + arguments + " 2>&1 </dev/null";
  Printed printed;
  std::FILE* pipe = popen(command.c_str(), "r");
  char buffer[4096];
  for (std::size_t n = 0; (n = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;)
    printed.text.append(buffer, n);
  const int status = pclose(pipe);
  printed.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return printed;
}

/// The golden text of a run, or the run itself where a refresh is asked for.
inline std::string golden(const std::string& name, const Printed& printed) {
  const std::string path = source_path("tests/golden/" + name);
  const std::string text = "exit " + std::to_string(printed.exit_code) + "\n" + printed.text;
  if (std::getenv("GELWRIGHT_REFRESH") != nullptr) {
    std::ofstream(path, std::ios::binary) << text;
    return text;
  }
  return read_text(path);
}

}  // namespace gelwright::test
