// The command line. The only place that catches.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include "cli/command.hpp"
#include "cli/complain.hpp"
#include "cli/usage.hpp"

int main(int argc, char** argv) {
  using namespace gelwright::cli;
  CLI::App app;
  std::vector<char*> arguments(argv, argv + argc);
  try {
    keep_standard_streams();
    app.description(
        "Formulation calculator for hydrogel sports-fuel batches.\n"
        "Estimates only: local food-safety codes and the label come first.");
    app.set_version_flag("--version", "gelwright " GELWRIGHT_VERSION);
    app.footer(exit_code_help());
    app.require_subcommand(1);
    Run chosen;
    OutputOptions output;
    for (const auto add :
         {add_start, add_sheet, add_check, add_water, add_dose, add_ladder, add_fit, add_spread,
          add_mend, add_shop, add_flatten, add_ingredients, add_sources, add_words, add_explain})
      add({app, chosen, output});
    arguments = command_first(app, std::move(arguments));
    app.parse(argc, arguments.data());
    for (const CLI::App* command : app.get_subcommands())
      for (const CLI::Option* option : command->get_options())
        if (option->get_positional() || option->check_lname("kitchen"))
          for (const std::string& name : option->results()) expect_input(name);
    require_deliverable(output);
    const Outcome outcome = chosen();
    deliver(outcome, output);
    return outcome.exit_code;
  } catch (const CLI::Success& wanted) {  // --help and --version
    app.exit(wanted);
    return std::cout.flush() ? fine : unusable_input;
  } catch (const CLI::ParseError& error) {
    complain(fmt::format("{}; see `gelwright --help`", usage_problem(app, arguments, error)));
    return unusable_input;
  } catch (const std::exception& error) {
    complain(error);
    return exit_code_of(error);
  } catch (...) {
    complain("internal error, please report it");
    return internal_error;
  }
}
