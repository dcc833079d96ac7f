// Help, manual pages and completion: whole, narrow enough, and what they promise works.
#include <algorithm>
#include <sstream>

#include "base/text.hpp"
#include "bench_folder.hpp"
#include "catch.hpp"
#include "cli/pages/completion.hpp"
#include "cli/pages/manual.hpp"
#include "cli/pages/page.hpp"
#include "cli/program.hpp"

using namespace gelwright;
using gelwright::test::Bench;
using gelwright::test::Printed;
using gelwright::test::run_program;
using gelwright::test::run_shell;

namespace {

/// The parser with all commands in it.
struct Program {
  CLI::App app;
  cli::Run run;
  cli::OutputOptions output;
  Program() { cli::add_commands({app, run, output}); }
};

std::string words(const std::string& text) {
  std::string joined;
  std::istringstream in(text);
  for (std::string word; in >> word;) joined += word + ' ';
  return joined;
}

/// The words completion offers for the line, the cursor at its end.
std::vector<std::string> offered(const Bench& bench, const std::string& line) {
  // Cut into words as bash does it, at blanks, = and : (none of the lines has quotes).
  const std::string shell = "cd '" + source_dir() + "' && bash --norc -c 'source \"" +
                            bench.path("completion").string() +
                            "\"; COMP_LINE=\"$1\"; COMP_POINT=${#COMP_LINE}; "
                            "COMP_WORDS=($(sed \"s/[=:]/ & /g\" <<< \"$1\")); [[ $1 == *[\\ =:] ]] "
                            "&& COMP_WORDS+=(\"\"); "
                            "COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _gelwright; printf \"%s\\n\" "
                            "\"${COMPREPLY[@]}\"' x '" +
                            line + "'";
  std::istringstream in(run_shell(shell).text);
  std::vector<std::string> lines;
  for (std::string each; std::getline(in, each);)
    if (!each.empty()) lines.push_back(each);
  return lines;
}

bool has(const std::vector<std::string>& list, const std::string& word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

}  // namespace

TEST_CASE("help fits 80 columns, names every value, and has two examples") {
  const Program program;
  std::vector<std::string> commands{""};
  for (const cli::CommandPage& page : cli::pages_of(program.app)) commands.push_back(page.name);
  for (const std::string& command : commands) {
    INFO("the help of \"" << command << "\"; its examples stand in src/cli/pages/examples.cpp");
    const Printed help = run_program(command + " --help");
    CHECK(help.exit_code == 0);
    std::istringstream in(help.text);
    for (std::string line; std::getline(in, line);) {
      INFO(line);
      CHECK(display_width(line) <= 80);
    }
    CHECK(help.text.rfind("Usage: gelwright", 0) == 0);
    CHECK(help.text.find("\nExit codes:\n  0  fine\n") != std::string::npos);
    const auto count = std::count_if(
        cli::examples().begin(), cli::examples().end(),
        [&command](const cli::Example& example) { return example.command == command; });
    CHECK(count >= 2);
  }
  for (const cli::CommandPage& page : cli::pages_of(program.app))
    for (const cli::OptionGroup& group : page.groups)
      for (const cli::OptionPage& option : group.options)
        for (const char* type : {"TEXT", "FLOAT", "INT", "UINT"}) {
          INFO(page.name << " " << cli::as_typed(option) << ": give it a ->type_name()");
          CHECK(option.value != type);
        }
}

TEST_CASE("every example of the help works as it stands") {
  for (const cli::Example& example : cli::examples()) {
    INFO(example.line);
    if (example.command.empty()) continue;  // the first asks questions, the second is below again
    const Bench bench;
    const std::string line(example.line.substr(std::string_view("gelwright ").size()));
    const Printed printed =
        run_shell("cd '" + bench.path("").string() + "' && ln -s '" + source_dir() +
                  "/recipes' recipes && '" + program_path() + "' " + line);
    INFO(printed.text);
    CHECK(printed.exit_code == 0);
  }
}

TEST_CASE("a manual page says of every option what help says") {
  const Program program;
  for (const CLI::App* command :
       program.app.get_subcommands([](const CLI::App*) { return true; })) {
    std::string manual = cli::manual_of_command(*command, "0");
    CHECK(manual.rfind(".TH GELWRIGHT\\-", 0) == 0);
    manual.erase(std::remove(manual.begin(), manual.end(), '\\'), manual.end());
    const cli::CommandPage page = cli::page_of(*command);
    const std::string help = words(run_program(page.name + " --help").text);
    for (const cli::OptionGroup& group : page.groups)
      for (const cli::OptionPage& option : group.options) {
        INFO(page.name << " " << cli::as_typed(option));
        CHECK(manual.find(".TP\n.B " + cli::as_typed(option) + "\n" + option.text + "\n") !=
              std::string::npos);
        CHECK(help.find(words(option.text)) != std::string::npos);
      }
  }
  const std::string all = cli::manual_of_program(program.app, "0");
  for (const cli::CommandPage& page : cli::pages_of(program.app)) {
    INFO(page.name);
    CHECK(all.find(".BR gelwright\\-" + page.name + " (1)") != std::string::npos);
  }
}

TEST_CASE("bash offers commands, options, choices, knobs, ingredients, flags and recipes") {
  const Program program;
  const Bench bench;
  bench.write("completion", cli::bash_completion(program.app));
  CHECK(offered(bench, "gelwright sh") == std::vector<std::string>{"sheet", "shop"});
  CHECK(offered(bench, "gelwright sheet recipes/tarn-thick-pouch.json --ser") ==
        std::vector<std::string>{"--servings"});
  CHECK(offered(bench, "gelwright check --format m") == std::vector<std::string>{"markdown"});
  CHECK(offered(bench, "gelwright sheet --with aci") == std::vector<std::string>{"acid_g="});
  CHECK(offered(bench, "gelwright sheet --with mass_g:fruct") ==
        std::vector<std::string>{"fructose="});
  CHECK(has(offered(bench, "gelwright ladder --vary mass_g:"), "maltodextrin\\ DE\\ 18="));
  CHECK(offered(bench, "gelwright explain hard-w") == std::vector<std::string>{"hard-water"});
  CHECK(offered(bench, "gelwright explain hard-water recipes/syr") ==
        std::vector<std::string>{"recipes/syrup-pouch.json"});
  const auto readings = offered(bench, "gelwright fit recipes/tarn-thick-pouch.json recipes/");
  CHECK(readings ==
        std::vector<std::string>{"recipes/goals", "recipes/tarn-thick-pouch.bench.csv"});
  CHECK(has(offered(bench, "gelwright sheet recipes/ta"), "recipes/tarn-thin-drink.json"));
  CHECK(offered(bench, "gelwright sheet --servings ").empty());
}
