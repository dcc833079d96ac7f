#include "cli/pages/page.hpp"

#include <algorithm>
#include <string_view>

namespace gelwright::cli {

namespace {

/// The parser joins what is typed for an option and what it is checked for by a colon, and what is
/// typed may have colons of its own.
struct Typed {
  std::string value;
  std::string check;
};
Typed typed(const std::string& type_name) {
  const std::size_t end = std::min(type_name.find(":a number"), type_name.find(":{"));
  if (end == std::string::npos) return {type_name, ""};
  return {type_name.substr(0, end), type_name.substr(end + 1)};
}

/// "{pouch,drink}" as names.
std::vector<std::string> choices_in(std::string_view check) {
  std::vector<std::string> names;
  if (!check.starts_with('{')) return names;
  const std::string_view inside = check.substr(1, check.find('}') - 1);
  for (std::size_t at = 0; at <= inside.size();) {
    const std::size_t end = std::min(inside.find(',', at), inside.size());
    names.emplace_back(inside.substr(at, end - at));
    at = end + 1;
  }
  return names;
}

std::string one_of(const std::vector<std::string>& names) {
  std::string list;
  for (std::size_t i = 0; i < names.size(); ++i)
    list += (i == 0 ? "" : i + 1 == names.size() ? " or " : ", ") + names[i];
  return list;
}

/// The range, where the text does not say it already.
std::string range_of(std::string_view check) {
  constexpr std::string_view start = "a number ";
  return std::string(check.starts_with(start) ? check.substr(start.size()) : "");
}

std::string not_with(const CLI::Option& option) {
  std::vector<std::string> names;
  for (const CLI::Option* other : option.get_excludes()) names.push_back(other->get_name());
  std::sort(names.begin(), names.end());
  return names.empty() ? "" : "not with " + one_of(names);
}

OptionPage option_page(const CLI::Option& option) {
  OptionPage page;
  for (const std::string& name : option.get_snames()) page.names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) page.names.push_back("--" + name);
  page.text = option.get_description();
  page.required = option.get_required();
  page.repeats = option.get_items_expected_max() > 1;
  if (option.get_items_expected_max() == 0) return page;
  const auto [value, check] = typed(option.get_type_name());
  page.value = value;
  page.choices = choices_in(check);
  const std::string usual = option.get_default_str();
  for (const std::string& more :
       {one_of(page.choices), range_of(check), usual.empty() ? "" : "usually " + usual,
        std::string(page.required && !page.names.empty() ? "required" : ""), not_with(option)})
    if (!more.empty()) page.text += "; " + more;
  return page;
}

void add_options(CommandPage& page, const CLI::App& app, std::string title) {
  OptionGroup group{std::move(title), {}};
  for (const CLI::Option* option : app.get_options())
    if (!app.get_name().empty() || option != app.get_help_ptr())  // a group has one too
      (option->get_positional() ? page.operands : group.options).push_back(option_page(*option));
  if (!group.options.empty()) page.groups.push_back(std::move(group));
}

}  // namespace

std::string as_typed(const OptionPage& option) {
  std::string typed;
  for (const std::string& name : option.names) typed += (typed.empty() ? "" : ", ") + name;
  if (!option.value.empty()) typed += (typed.empty() ? "" : " ") + option.value;
  return option.names.empty() && option.repeats ? typed + "..." : typed;
}

std::string usage_line(const CommandPage& page) {
  std::string line = "gelwright";
  if (page.name.empty()) return line + " COMMAND [OPTIONS]";
  line += " " + page.name;
  for (const OptionPage& operand : page.operands)
    line += " " + (operand.required ? as_typed(operand) : "[" + as_typed(operand) + "]");
  return line + " [OPTIONS]";
}

CommandPage page_of(const CLI::App& command) {
  const bool is_program = command.get_parent() == nullptr;
  CommandPage page{is_program ? "" : command.get_name(), command.get_description(), {}, {}, {}};
  const auto all = [](const CLI::App*) { return true; };
  for (const CLI::App* group : command.get_subcommands(all))
    if (group->get_name().empty()) add_options(page, *group, group->get_description());
  add_options(page, command, "Options");
  for (const Example& example : examples())
    if (example.command == page.name) page.examples.push_back(example);
  return page;
}

std::vector<CommandPage> pages_of(const CLI::App& program) {
  std::vector<CommandPage> pages;
  for (const CLI::App* command : program.get_subcommands([](const CLI::App*) { return true; }))
    pages.push_back(page_of(*command));
  return pages;
}

}  // namespace gelwright::cli
