// Run at build time: writes the manual pages and the completion scripts into a folder.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <stdexcept>

#include "cli/command.hpp"
#include "cli/pages/completion.hpp"
#include "cli/pages/manual.hpp"
#include "cli/program.hpp"
#include "gelwright/report.hpp"

namespace {

void write(const std::filesystem::path& file, const std::string& text) {
  std::filesystem::create_directories(file.parent_path());
  std::ofstream out(file, std::ios::binary);
  out << text;
  if (!out.flush()) throw std::runtime_error("cannot write " + file.string());
}

void write_all(const std::filesystem::path& folder) {
  using namespace gelwright;
  CLI::App app;
  cli::Run run;
  cli::OutputOptions output;
  cli::add_commands({app, run, output});
  write(folder / "man1/gelwright.1", cli::manual_of_program(app, program_version()));
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
    write(folder / ("man1/gelwright-" + command->get_name() + ".1"),
          cli::manual_of_command(*command, program_version()));
  write(folder / "bash/gelwright", cli::bash_completion(app));
  write(folder / "zsh/_gelwright", cli::zsh_completion(app));
}

}  // namespace

int main(int argc, char** argv) {
  try {
    if (argc != 2) throw std::runtime_error("usage: gelwright_pages FOLDER");
    write_all(argv[1]);
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "gelwright_pages: %s\n", error.what());
    return 1;
  }
}
