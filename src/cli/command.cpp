#include "cli/command.hpp"

#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <iostream>
#include <iterator>
#include <sstream>
#include <utility>

#include "gelwright/error.hpp"
#include "gelwright/read.hpp"

namespace gelwright::cli {

namespace {

constexpr std::pair<std::string_view, Format> formats[] = {{"text", Format::text},
                                                           {"markdown", Format::markdown},
                                                           {"json", Format::json},
                                                           {"csv", Format::csv}};

/// Files this run has read: none of them may be written over.
std::vector<std::string>& files_read() {
  static std::vector<std::string> names;
  return names;
}

/// Only a plain file that was not read may be replaced: no device, pipe, folder or link.
void require_replaceable(const std::string& name) {
  struct stat target {};
  if (lstat(name.c_str(), &target) != 0) return;  // a new file
  if (!S_ISREG(target.st_mode))
    throw InputError(name,
                     {{"", "is not a plain file", "name a plain file, or use > to send it there"}});
  for (const std::string& read : files_read()) {
    struct stat source {};
    if (stat(read.c_str(), &source) == 0 && source.st_dev == target.st_dev &&
        source.st_ino == target.st_ino)
      throw InputError(name, {{"", "is the file that was read", "choose another name"}});
  }
}

bool is_directory(const std::string& name) {
  struct stat status {};
  return stat(name.c_str(), &status) == 0 && S_ISDIR(status.st_mode);
}

/// The temporary a signal has to take away; a plain array, because a handler may not allocate.
char unfinished[4096] = "";
constexpr int ending_signals[] = {SIGINT, SIGTERM, SIGHUP};

extern "C" void remove_unfinished(int signal) {
  if (unfinished[0] != 0) unlink(unfinished);
  std::signal(signal, SIG_DFL);
  raise(signal);
}

/// A file that appears under its name only once it is whole. Throws InputError.
class WholeFile {
 public:
  explicit WholeFile(std::string name)
      : name_(std::move(name)), temporary_(fmt::format("{}.{}.part", name_, getpid())) {
    require_replaceable(name_);
    if (temporary_.size() < sizeof unfinished) {
      std::memcpy(unfinished, temporary_.c_str(), temporary_.size() + 1);
      for (const int signal : ending_signals)
        // A signal the caller chose to ignore (nohup) stays ignored.
        if (std::signal(signal, remove_unfinished) == SIG_IGN) std::signal(signal, SIG_IGN);
    }
    out_ = std::fopen(temporary_.c_str(), "wb");
    if (out_ == nullptr) refuse();
  }
  WholeFile(const WholeFile&) = delete;
  WholeFile& operator=(const WholeFile&) = delete;
  ~WholeFile() {
    if (out_ != nullptr) std::fclose(out_);
    if (!whole_) std::remove(temporary_.c_str());
    unfinished[0] = 0;
  }

  void add(std::string_view piece) {
    if (std::fwrite(piece.data(), 1, piece.size(), out_) != piece.size()) refuse();
  }

  void finish() {
    std::FILE* out = std::exchange(out_, nullptr);
    if (std::fclose(out) != 0) refuse();
    if (std::rename(temporary_.c_str(), name_.c_str()) != 0) refuse();
    whole_ = true;
  }

 private:
  [[noreturn]] void refuse() const {
    throw InputError(name_, {{"", fmt::format("cannot be written: {}", std::strerror(errno)),
                              "check the folder and the space left"}});
  }

  std::string name_;
  std::string temporary_;
  std::FILE* out_ = nullptr;
  bool whole_ = false;
};

}  // namespace

CLI::Validator number_between(double low, double high) {
  const std::string range = fmt::format("a number from {:g} to {:g}", low, high);
  return CLI::Validator(
      [low, high, range](std::string& text) {
        double number = 0;
        const char* end = text.data() + text.size();
        const auto [stop, error] = std::from_chars(text.data(), end, number);
        const bool good = error == std::errc() && stop == end && number >= low && number <= high;
        return good ? std::string() : fmt::format("\"{}\" is not {}", text, range);
      },
      range);
}

void bind_format(CLI::App& command, OutputOptions& output) {
  std::vector<std::string> names;
  for (const auto& [name, format] : formats) names.emplace_back(name);
  command.add_option("--format", output.format, "How to print it")
      ->check(CLI::IsMember(names))
      ->capture_default_str();
}

void bind_output(CLI::App& command, OutputOptions& output) {
  bind_format(command, output);
  command.add_option("-o,--output", output.file, "Write to FILE, whole or not at all");
}

Format format_of(const OutputOptions& output) {
  for (const auto& [name, format] : formats)
    if (name == output.format) return format;
  return Format::text;
}

std::string read_file(const std::string& name) {
  if (name == "-") return {std::istreambuf_iterator<char>(std::cin), {}};
  if (is_directory(name)) throw InputError(name, {{"", "is a folder", "name a file"}});
  files_read().push_back(name);
  std::ifstream in(name, std::ios::binary);
  std::ostringstream text;
  if (!in || !(text << in.rdbuf()).good())
    // An empty file puts the stream in a failed state too; the reader reports that better.
    if (!in.is_open())
      throw InputError(name, {{"", fmt::format("cannot be read: {}", std::strerror(errno)),
                               "check the name and the folder"}});
  return std::move(text).str();
}

Recipe load_recipe(const std::string& name) {
  return read_recipe(read_file(name), name == "-" ? "standard input" : name);
}

void write_file(const std::string& name, const std::string& document) {
  WholeFile file(name);
  file.add(document);
  file.finish();
}

void write_new_file(const std::string& name, const std::string& document) {
  if (access(name.c_str(), F_OK) == 0)
    throw InputError(name, {{"", "exists already and is not overwritten", "choose another name"}});
  write_file(name, document);
}

void deliver(const Outcome& outcome, const OutputOptions& output) {
  const auto produce = [&outcome](const Sink& sink) {
    if (outcome.stream)
      outcome.stream(sink);
    else
      sink(outcome.document);
  };
  if (!output.file.empty()) {
    WholeFile file(output.file);
    produce([&file](std::string_view piece) { file.add(piece); });
    file.finish();
    return;
  }
  const auto require = [](bool written) {
    if (!written) throw InputError("standard output", {{"", "cannot be written", ""}});
  };
  produce([&](std::string_view piece) {
    require(std::fwrite(piece.data(), 1, piece.size(), stdout) == piece.size());
  });
  require(std::fflush(stdout) == 0);
}

}  // namespace gelwright::cli
