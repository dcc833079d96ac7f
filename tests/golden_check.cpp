// Runs lines of tests/golden.list and compares what the program prints with what it printed before.
//
// usage: gelwright_golden [NAME...]     all lines where no name is given
//
// A difference is shown by its first lines. GELWRIGHT_REFRESH=1 writes the files anew instead.
#include <algorithm>
#include <cstddef>
#include <cstdio>
#include <sstream>
#include <string>
#include <vector>

#include "program.hpp"

namespace {

using namespace gelwright::test;

constexpr std::size_t most_shown = 6;

struct Line {
  std::string name;
  std::string arguments;
};

std::vector<Line> lines_of_list() {
  std::vector<Line> lines;
  std::istringstream list(read_text(source_path("tests/golden.list")));
  for (std::string text; std::getline(list, text);) {
    if (text.empty() || text.front() == '#') continue;
    const std::size_t space = std::min(text.find(' '), text.size());
    lines.push_back({text.substr(0, space), text.substr(std::min(space + 1, text.size()))});
  }
  return lines;
}

std::vector<std::string> split(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

void show_difference(const std::string& before, const std::string& now) {
  const std::vector<std::string> old_lines = split(before);
  const std::vector<std::string> new_lines = split(now);
  std::size_t shown = 0;
  for (std::size_t i = 0; i < std::max(old_lines.size(), new_lines.size()); ++i) {
    const bool had = i < old_lines.size();
    const bool has = i < new_lines.size();
    if (had && has && old_lines[i] == new_lines[i]) continue;
    if (shown++ == most_shown) {
      std::puts("  ...");
      return;
    }
    if (had) std::printf("  line %zu was  %s\n", i + 1, old_lines[i].c_str());
    if (has) std::printf("  line %zu is   %s\n", i + 1, new_lines[i].c_str());
  }
  if (shown == 0) std::puts("  the line end at the end of the file");
}

bool same_as_before(const Line& line) {
  const Printed printed = run_program(line.arguments);
  const std::string now = "exit " + std::to_string(printed.exit_code) + "\n" + printed.text;
  const std::string before = kept("tests/golden/" + line.name, now);
  if (now == before) return true;
  std::printf("%s: gelwright %s\n", line.name.c_str(), line.arguments.c_str());
  show_difference(before, now);
  std::puts("  if this is meant: GELWRIGHT_REFRESH=1 build/tests/gelwright_golden, read the diff");
  return false;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> wanted(argv + 1, argv + argc);
  std::size_t run = 0;
  bool good = true;
  for (const Line& line : lines_of_list()) {
    if (!wanted.empty() && std::count(wanted.begin(), wanted.end(), line.name) == 0) continue;
    ++run;
    good = same_as_before(line) && good;
  }
  const bool all_found = wanted.empty() ? run > 0 : run == wanted.size();
  if (!all_found) std::puts("not every name is in tests/golden.list");
  return good && all_found ? 0 : 1;
}
