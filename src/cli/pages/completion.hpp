// Completion scripts for shells: commands, options and their choices, knobs, flags, ingredients,
// and the files a command reads.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace gelwright::cli {

/// To be sourced by bash 4.0 or newer.
std::string bash_completion(const CLI::App& program);

/// For a folder of zsh's `fpath`, as `_gelwright`.
std::string zsh_completion(const CLI::App& program);

}  // namespace gelwright::cli
