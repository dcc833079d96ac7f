// Reading files and printing, for the command line. Every error is an InputError that names the
// file.
#pragma once

#include <sys/types.h>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace gelwright::cli {

/// The most a file that is read may hold: recipes, water reports and bench readings alike.
constexpr std::size_t most_input_bytes = std::size_t{1} << 20U;

/// Throws the InputError of one file.
[[noreturn]] void refuse(const std::string& document, std::string what, std::string remedy);

/// What errors call the file: its name, or "standard input" for "-".
std::string document_name(const std::string& name);

/// Reads a whole file, or standard input for "-". Refuses a folder, a device, a pipe nobody writes
/// to, and more than `most_input_bytes`, of a plain file before reading any of it.
std::string read_file(const std::string& name);

/// Reads a file that a document in `folder` names ("" is the current folder, else it ends in a
/// slash). The path leads down from there: no link is followed on the way, nor as the file itself,
/// and `..` is not for the caller to pass. Else as `read_file`.
std::string read_file_below(const std::string& folder, const std::string& path);

/// What has been read under this name of a document, or nothing.
std::optional<std::string_view> text_read(const std::string& document);

/// Takes note that `name` is going to be read, where it is a plain file, or standard input one.
void expect_input(const std::string& name);

/// True where the plain file of that device and number has been read, or is going to be: by any
/// name, or as standard input.
bool is_input(dev_t device, ino_t number);

/// Prints to standard output. Refuses where that is an input.
void print(std::string_view piece);
/// After the last piece. Throws where anything of it could not be written.
void finish_printing();

/// Makes sure that 0, 1 and 2 are open, so that no file takes the place of a closed standard
/// stream. One that was closed still fails when used.
void keep_standard_streams();

}  // namespace gelwright::cli
