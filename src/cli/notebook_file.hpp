// The notebook as a file: read whole, added to at its end, never rewritten.
#pragma once

#include <optional>
#include <string>

#include "gelwright/notebook.hpp"

namespace gelwright::cli {

/// The notebook of the current folder, where no other is named.
inline constexpr const char* usual_notebook = "notebook.jsonl";

/// Its text, or nothing where there is no such file. Throws InputError where it cannot be read.
std::optional<std::string> notebook_text(const std::string& file);

/// Reads it. Throws InputError also where it is not there.
Notebook read_notebook_file(const std::string& file);

/// Puts a line behind the others, on the disk when this returns, one writer at a time. A line that
/// was cut short before is closed first, so that it spoils no other. Where there is no room nothing
/// of the line stays. Throws InputError.
void append_line(const std::string& file, const std::string& line);

}  // namespace gelwright::cli
