#include "cli/usage.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "base/text.hpp"

namespace gelwright::cli {

namespace {

std::vector<std::string> command_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::App* each : app.get_subcommands([](const CLI::App*) { return true; }))
    names.push_back(each->get_name());
  return names;
}

bool is_one_of(const std::vector<std::string>& names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// "--servings" for each option of the command, and the help that all have.
std::vector<std::string> option_names(const CLI::App& command) {
  std::vector<std::string> names;
  for (const CLI::Option* option : command.get_options())
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  return names;
}

std::string asked(std::string_view name, const std::vector<std::string>& names) {
  const std::string question = did_you_mean(name, names);
  return question.empty() ? question : "; " + question;
}

}  // namespace

std::vector<char*> command_first(const CLI::App& app, std::vector<char*> arguments) {
  const std::vector<std::string> commands = command_names(app);
  const auto begin = arguments.begin() + (arguments.empty() ? 0 : 1);
  const auto command = std::find_if(begin, arguments.end(),
                                    [&](const char* each) { return is_one_of(commands, each); });
  if (command != arguments.end()) std::rotate(begin, command, command + 1);
  return arguments;
}

std::string usage_problem(const CLI::App& app, const std::vector<char*>& arguments,
                          const CLI::ParseError& error) {
  const std::vector<CLI::App*> chosen = app.get_subcommands();
  if (chosen.empty()) {
    for (std::size_t i = 1; i < arguments.size(); ++i) {
      const std::string_view word = arguments[i];
      if (word.starts_with('-')) continue;
      return fmt::format("\"{}\" is not a command{}", word, asked(word, command_names(app)));
    }
    return error.what();
  }
  const CLI::App& command = *chosen.front();
  for (const std::string& word : app.remaining(true)) {
    if (!word.starts_with("--") || word == "--") continue;
    const std::string name = word.substr(0, word.find('='));
    return fmt::format("{} is not an option of `{}`{}", name, command.get_name(),
                       asked(name, option_names(command)));
  }
  return error.what();
}

}  // namespace gelwright::cli
