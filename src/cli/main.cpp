// The command line. The only place that catches.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>

#include "cli/command.hpp"
#include "gelwright/error.hpp"

namespace gelwright::cli {

namespace {

void complain(const std::string& text) {
  fmt::print(stderr, "gelwright: {}\n", text);
}

void complain(const InputError& error) {
  for (const Problem& problem : error.problems()) {
    std::string text = error.document().empty() ? "" : error.document() + ": ";
    if (!problem.where.empty()) text += problem.where + ": ";
    text += problem.what;
    if (!problem.remedy.empty()) text += "; " + problem.remedy;
    complain(text);
  }
}

int run(int argc, char** argv) {
  CLI::App app(
      "Formulation calculator for hydrogel sports-fuel batches.\n"
      "Estimates only: local food-safety codes and the label come first.");
  app.set_version_flag("--version", "gelwright " GELWRIGHT_VERSION);
  app.require_subcommand(1);
  Run chosen;
  OutputOptions output;
  for (const auto add : {add_sheet, add_check, add_water, add_dose, add_ladder, add_fit, add_spread,
                         add_ingredients, add_sources, add_explain})
    add({app, chosen, output});
  try {
    app.parse(argc, argv);
  } catch (const CLI::Success& wanted) {  // --help and --version
    return app.exit(wanted);
  } catch (const CLI::ParseError& error) {
    complain(fmt::format("{}; see `gelwright --help`", error.what()));
    return unusable_input;
  }
  const Outcome outcome = chosen();
  deliver(outcome, output);
  return outcome.exit_code;
}

}  // namespace

}  // namespace gelwright::cli

int main(int argc, char** argv) {
  using namespace gelwright;
  try {
    return cli::run(argc, argv);
  } catch (const InputError& error) {
    cli::complain(error);
    return cli::unusable_input;
  } catch (const NotConverged& error) {
    cli::complain(error.what());
    return cli::not_converged;
  } catch (const std::exception& error) {
    cli::complain(fmt::format("internal error, please report it: {}", error.what()));
    return cli::not_converged;
  }
}
