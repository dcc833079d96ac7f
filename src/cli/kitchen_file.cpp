#include "cli/kitchen_file.hpp"

#include <fmt/format.h>

#include "cli/files.hpp"
#include "gelwright/error.hpp"

namespace gelwright::cli {

namespace {

bool leads_up(const std::string& path) {
  return fmt::format("/{}/", path).find("/../") != std::string::npos;
}

/// Throws where the recipe may not name a kitchen like this.
void require_in_folder(const std::string& recipe_file, const std::string& path) {
  const auto refuse_name = [&](std::string what, std::string remedy) {
    throw InputError(document_name(recipe_file),
                     {{"/kitchen", std::move(what), std::move(remedy)}});
  };
  if (recipe_file == "-")
    refuse_name("a recipe from standard input has no folder to find its kitchen in",
                "name the kitchen with --kitchen FILE");
  if (path.starts_with('/') || leads_up(path))
    refuse_name(fmt::format("\"{}\" leads out of the recipe's folder", path),
                "put the kitchen into that folder, or name it with --kitchen FILE");
}

}  // namespace

void bind_kitchen(CLI::App& command, std::optional<std::string>& file) {
  command
      .add_option("--kitchen", file,
                  "Kitchen file, in place of the one the recipe names; - for standard input")
      ->type_name("FILE");
}

std::optional<KitchenDocument> kitchen_of(const std::string& recipe_file, const std::string& text,
                                          const std::optional<std::string>& asked) {
  if (asked) {
    if (*asked == "-" && recipe_file == "-")
      throw InputError("", {{"--kitchen", "standard input cannot be both recipe and kitchen",
                             "name a file for one of them"}});
    return KitchenDocument{read_file(*asked), document_name(*asked)};
  }
  const std::optional<std::string> path = kitchen_named(text, document_name(recipe_file));
  if (!path) return std::nullopt;
  require_in_folder(recipe_file, *path);
  const std::string folder = recipe_file.substr(0, recipe_file.rfind('/') + 1);
  return KitchenDocument{read_file_below(folder, *path), folder + *path};
}

}  // namespace gelwright::cli
