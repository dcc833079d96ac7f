// Running the real program, and files that keep what it printed (refreshed with
// GELWRIGHT_REFRESH=1).
#pragma once

#include <sys/wait.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>

#include "paths.hpp"

namespace gelwright::test {

struct Printed {
  std::string text;  ///< standard output and standard error together
  int exit_code = -1;
};

/// Runs a line of shell.
inline Printed run_shell(const std::string& line) {
  const std::string command = "{ " + line + "\n} 2>&1 </dev/null";
  Printed printed;
  std::FILE* pipe = popen(command.c_str(), "r");
  char buffer[4096];
  for (std::size_t n = 0; (n = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;)
    printed.text.append(buffer, n);
  const int status = pclose(pipe);
  printed.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return printed;
}

/// Runs the program from the source folder with a clean environment.
inline Printed run_program(const std::string& arguments) {
  return run_shell("cd '" + source_dir() + "' && env -i '" + program_path() + "' " + arguments);
}

/// What the file holds, or `text` put there where a refresh is asked for.
inline std::string kept(const std::string& path, const std::string& text) {
  if (std::getenv("GELWRIGHT_REFRESH") == nullptr) return read_text(source_path(path));
  std::ofstream(source_path(path), std::ios::binary) << text;
  return text;
}

}  // namespace gelwright::test
