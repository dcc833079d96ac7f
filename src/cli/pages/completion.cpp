#include "cli/pages/completion.hpp"

#include <fmt/format.h>

#include <string_view>

#include "cli/pages/page.hpp"
#include "gelwright/flag.hpp"
#include "gelwright/ingredient.hpp"
#include "gelwright/knob.hpp"

namespace gelwright::cli {

namespace {

/// What can stand for the value of an option or an operand.
struct Candidates {
  std::vector<std::string> words;  ///< complete, or to be gone on with where they end in =
  std::string_view files;          ///< pattern of file names; empty where none are wanted
};

std::vector<std::string> ingredient_names() {
  std::vector<std::string> names;
  for (const Ingredient& each : builtin_ingredients()) names.push_back(each.name);
  return names;
}

std::vector<std::string> knob_starts() {
  std::vector<std::string> words;
  for (const KnobInfo& knob : knobs())
    if (knob.needs == KnobNeeds::solid)
      for (const std::string& name : ingredient_names())
        words.push_back(fmt::format("{}:{}=", knob.name, name));
    else
      words.push_back(fmt::format("{}=", knob.name));
  return words;
}

std::vector<std::string> weighed_starts() {
  std::vector<std::string> words{"water=", "acid=", "calcium salt="};
  for (const std::string& name : ingredient_names()) words.push_back(name + "=");
  return words;
}

/// By what help calls the value, so that an option added later needs nothing here.
Candidates candidates_for(const OptionPage& option) {
  const std::string_view value = option.value;
  if (!option.choices.empty()) return {option.choices, ""};
  if (value.starts_with("KNOB=")) return {knob_starts(), ""};
  if (value.starts_with("THING=")) return {weighed_starts(), ""};
  if (value == "NAME") return {ingredient_names(), ""};
  if (value == "FLAG") {
    Candidates flags;
    for (const FlagInfo& each : flag_catalogue()) flags.words.emplace_back(each.name);
    return flags;
  }
  if (value == "FILE") return {{}, "*"};
  if (value.ends_with(".csv")) return {{}, "*.csv"};
  if (value.starts_with("RECIPE") || value == "REPORT") return {{}, "*.json"};
  return {};
}

/// One a line, for a here-string in single quotes.
std::string lines(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : "\n") + word;
  return out;
}

std::string as_bash(const Candidates& candidates) {
  if (!candidates.files.empty()) return fmt::format("_gelwright_files '{}'", candidates.files);
  if (!candidates.words.empty())
    return fmt::format("_gelwright_words '{}'", lines(candidates.words));
  return ":";
}

/// A case of the command: what follows each option, else options or operands.
std::string bash_case(const CommandPage& page) {
  std::string out = fmt::format("    {})\n      case $prev in\n", page.name);
  std::vector<std::string> names;
  for (const OptionGroup& group : page.groups)
    for (const OptionPage& option : group.options) {
      names.insert(names.end(), option.names.begin(), option.names.end());
      if (option.value.empty()) continue;
      std::string pattern;
      for (const std::string& name : option.names) pattern += (pattern.empty() ? "" : "|") + name;
      out += fmt::format("        {}) {}; return ;;\n", pattern, as_bash(candidates_for(option)));
    }
  out += "      esac\n";
  out += fmt::format("      if [[ $cur == -* ]]; then _gelwright_words '{}'; return; fi\n",
                     lines(names));
  for (std::size_t i = 0; i < page.operands.size(); ++i) {
    const bool last = i + 1 == page.operands.size();
    out += fmt::format("      {}{}\n", last ? "" : fmt::format("if ((operand == {})); then ", i),
                       as_bash(candidates_for(page.operands[i])) + (last ? "" : "; return; fi"));
  }
  return out + "      ;;\n";
}

constexpr std::string_view bash_start =
    R"bash(# bash completion of gelwright, made with it: do not edit.

# The word under the cursor as typed so far, with = and : in it, which bash takes for ends of words.
_gelwright_current() {
  local line=${COMP_LINE:0:COMP_POINT}
  line=${line//\\ /$'\x01'}
  cur=${line##* }
  cur=${cur//$'\x01'/ }
}

# Offers the lines of $1 that begin with the word; what bash counts as an earlier word is left out.
_gelwright_words() {
  local word before=${cur%"${cur##*[=:]}"}
  while IFS= read -r word; do
    [[ $word == "$cur"* ]] || continue
    [[ $word == *= ]] && compopt -o nospace 2> /dev/null
    COMPREPLY+=("$(printf '%q' "${word#"$before"}")")
  done <<< "$1"
}

_gelwright_files() {
  compopt -o filenames 2> /dev/null
  local file
  while IFS= read -r file; do
    [[ -d $file || $file == $1 ]] && COMPREPLY+=("$file")
  done < <(compgen -f -- "$cur")
}

_gelwright() {
  local cur prev=${COMP_WORDS[COMP_CWORD - 1]} command='' operand=0 i
  _gelwright_current
  COMPREPLY=()
  # Within KNOB=VALUE the option stands further in front.
  if [[ $cur == *[=:]* || ${COMP_WORDS[COMP_CWORD]} == [=:] ]]; then
    for ((i = COMP_CWORD - 1; i > 1; --i)); do
      [[ ${COMP_WORDS[i]} == -* ]] && prev=${COMP_WORDS[i]} && break
    done
  fi
  for ((i = 1; i < COMP_CWORD; ++i)); do
    [[ ${COMP_WORDS[i]} == -* ]] && continue
    if [[ -z $command ]]; then
      command=${COMP_WORDS[i]}
    elif [[ ${COMP_WORDS[i - 1]} != -* ]]; then
      ((++operand))
    fi
  done
  case $command in
)bash";

/// A text in single quotes of a zsh specification, where brackets and colons mean something.
std::string in_zsh(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\'') {
      out += "'\\''";
      continue;
    }
    if (c == '[' || c == ']' || c == ':' || c == '\\') out += '\\';
    out += c;
  }
  return out;
}

std::string as_zsh(const Candidates& candidates) {
  if (candidates.files == "*") return "_files";
  if (!candidates.files.empty()) return fmt::format("_files -g \"{}\"", candidates.files);
  std::string words;
  for (const std::string& word : candidates.words) {
    std::string quoted;
    for (const char c : word) {
      if (c == ' ' || c == ':' || c == '(' || c == ')') quoted += '\\';
      quoted += c;
    }
    words += (words.empty() ? "" : " ") + quoted;
  }
  return words.empty() ? " " : fmt::format("({})", words);
}

std::string zsh_case(const CommandPage& page) {
  std::string out = fmt::format("        {})\n          _arguments", page.name);
  for (const OptionGroup& group : page.groups)
    for (const OptionPage& option : group.options)
      for (const std::string& name : option.names) {
        out += fmt::format(" \\\n            '{}{}[{}]", option.repeats ? "*" : "", name,
                           in_zsh(option.text));
        if (!option.value.empty())
          out += fmt::format(":{}:{}", in_zsh(option.value), as_zsh(candidates_for(option)));
        out += "'";
      }
  for (const OptionPage& operand : page.operands)
    out += fmt::format(" \\\n            '{}:{}:{}'", operand.repeats ? "*" : "",
                       in_zsh(operand.value), as_zsh(candidates_for(operand)));
  return out + "\n          ;;\n";
}

}  // namespace

std::string bash_completion(const CLI::App& program) {
  std::string out(bash_start);
  std::vector<std::string> commands;
  for (const CommandPage& page : pages_of(program)) {
    out += bash_case(page);
    commands.push_back(page.name);
  }
  commands.insert(commands.end(), {"--help", "--version"});
  return out + fmt::format(
                   "    '') _gelwright_words '{}' ;;\n  esac\n}}\n"
                   "complete -F _gelwright gelwright\n",
                   lines(commands));
}

std::string zsh_completion(const CLI::App& program) {
  std::string commands;
  std::string cases;
  for (const CommandPage& page : pages_of(program)) {
    commands += fmt::format("        '{}:{}'\n", page.name, in_zsh(page.summary));
    cases += zsh_case(page);
  }
  return fmt::format(
      "#compdef gelwright\n# zsh completion of gelwright, made with it: do not edit.\n\n"
      "_gelwright() {{\n  local state line\n"
      "  _arguments -C '1:command:->command' '*::argument:->argument'\n"
      "  case $state in\n    command)\n      local -a commands=(\n{}      )\n"
      "      _describe command commands\n      ;;\n    argument)\n      case $words[1] in\n{}"
      "      esac\n      ;;\n  esac\n}}\n\n_gelwright \"$@\"\n",
      commands, cases);
}

}  // namespace gelwright::cli
