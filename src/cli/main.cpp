// The command line. The only place that catches.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include "cli/command.hpp"
#include "cli/complain.hpp"
#include "cli/pages/help.hpp"
#include "cli/program.hpp"
#include "cli/usage.hpp"

int main(int argc, char** argv) {
  using namespace gelwright::cli;
  CLI::App app;
  std::vector<char*> arguments(argv, argv + argc);
  try {
    keep_standard_streams();
    Run chosen;
    OutputOptions output;
    add_commands({app, chosen, output});
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
  } catch (const CLI::CallForHelp&) {
    std::cout << help_text(app);
    return std::cout.flush() ? fine : unusable_input;
  } catch (const CLI::Success& wanted) {  // --version
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
