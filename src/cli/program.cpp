#include "cli/program.hpp"

#include <fmt/format.h>

#include "gelwright/report.hpp"

namespace gelwright::cli {

std::string version_text() {
  return fmt::format("gelwright {}\n{}", program_version(), GELWRIGHT_LIBRARIES);
}

void add_commands(Registry registry) {
  CLI::App& app = registry.app;
  app.name("gelwright");
  app.description("Formulation calculator for hydrogel sports-fuel batches");
  app.set_help_flag("-h,--help", "Show this and stop");
  app.set_version_flag("--version", version_text(), "Show the version and the libraries, and stop");
  app.require_subcommand(1);
  for (const auto add :
       {add_start, add_formulate, add_sheet, add_check, add_water, add_dose, add_ladder, add_fit,
        add_spread, add_mend, add_carry, add_compare, add_log, add_shop, add_flatten,
        add_ingredients, add_sources, add_words, add_explain})
    add(registry);
}

}  // namespace gelwright::cli
