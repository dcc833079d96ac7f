// The least a program could do with the same libraries: parse the recipe, the options, print a
// line. `sheet_latency.py` compares the real program with it.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

int main(int argc, char** argv) {
  CLI::App app("minimal");
  std::string name;
  app.add_option("recipe", name)->required();
  CLI11_PARSE(app, argc, argv);
  std::ifstream in(name, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  const auto recipe = nlohmann::json::parse(text);
  fmt::print("{}\n", recipe.value("name", ""));
}
