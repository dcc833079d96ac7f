#include "cli/files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <map>
#include <memory>
#include <utility>
#include <vector>

#include "gelwright/error.hpp"

namespace gelwright::cli {

void refuse(const std::string& document, std::string what, std::string remedy) {
  throw InputError(document, {{"", std::move(what), std::move(remedy)}});
}

namespace {

/// A file by itself, not by its name: links and `./` lead to the same one.
using Identity = std::pair<dev_t, ino_t>;

/// Plain files this run reads, standard input among them.
std::vector<Identity>& inputs() {
  static std::vector<Identity> files;
  return files;
}

/// Texts of the documents this run has read, to say where in them a mistake is.
std::map<std::string, std::string>& texts() {
  static std::map<std::string, std::string> by_document;
  return by_document;
}

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ > STDERR_FILENO) close(number_);
  }
  int get() const { return number_; }

 private:
  int number_;
};

[[noreturn]] void refuse_reading(const std::string& document) {
  refuse(document, fmt::format("cannot be read: {}", std::strerror(errno)),
         "check the name, the folder and the permissions");
}

[[noreturn]] void refuse_size(const std::string& document) {
  refuse(document, fmt::format("is larger than {} MiB", most_input_bytes >> 20U),
         "is it the right file?");
}

// Without O_NONBLOCK, opening a pipe waits for a writer that may never come.
constexpr int reading = O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY;

int open_input(const std::string& name) {
  if (name == "-") return STDIN_FILENO;
  const int number = open(name.c_str(), reading);
  if (number < 0) refuse_reading(name);
  return number;
}

/// The steps of a path, those that lead nowhere left out.
std::vector<std::string> steps_of(const std::string& path) {
  std::vector<std::string> steps;
  for (std::size_t at = 0; at <= path.size();) {
    const std::size_t slash = std::min(path.find('/', at), path.size());
    std::string step = path.substr(at, slash - at);
    if (!step.empty() && step != ".") steps.push_back(std::move(step));
    at = slash + 1;
  }
  return steps;
}

/// Opens step by step, so that nothing can lead elsewhere between a look and the opening.
int open_below(const std::string& folder, const std::string& path) {
  const std::string document = folder + path;
  constexpr int passing = O_RDONLY | O_DIRECTORY | O_CLOEXEC;
  auto here = std::make_unique<Descriptor>(open(folder.empty() ? "." : folder.c_str(), passing));
  if (here->get() < 0) refuse_reading(document);
  const std::vector<std::string> steps = steps_of(path);
  if (steps.empty()) refuse(document, "is a folder", "name a file");
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const bool last = i + 1 == steps.size();
    const int next = openat(here->get(), steps[i].c_str(), (last ? reading : passing) | O_NOFOLLOW);
    if (next < 0) {
      const int why = errno;
      struct stat status {};
      const bool link = fstatat(here->get(), steps[i].c_str(), &status, AT_SYMLINK_NOFOLLOW) == 0 &&
                        S_ISLNK(status.st_mode);
      if (link)
        refuse(document, "is a link, or lies behind one, and a document may not lead through it",
               "put the file itself there, or name it yourself");
      errno = why;
      refuse_reading(document);
    }
    if (last) return next;
    here = std::make_unique<Descriptor>(next);
  }
  return -1;
}

}  // namespace

bool is_input(dev_t device, ino_t number) {
  return std::count(inputs().begin(), inputs().end(), Identity{device, number}) > 0;
}

void expect_input(const std::string& name) {
  struct stat status {};
  const int found = name == "-" ? fstat(STDIN_FILENO, &status) : stat(name.c_str(), &status);
  if (found == 0 && S_ISREG(status.st_mode)) inputs().emplace_back(status.st_dev, status.st_ino);
}

std::string document_name(const std::string& name) {
  return name == "-" ? "standard input" : name;
}

namespace {

/// Reads to the end. What was opened by a name may not be a device.
std::string read_all(const Descriptor& input, const std::string& document, bool by_name) {
  struct stat status {};
  if (fstat(input.get(), &status) != 0) refuse_reading(document);
  if (S_ISDIR(status.st_mode)) refuse(document, "is a folder", "name a file");
  const bool plain = S_ISREG(status.st_mode);
  const bool pipe = S_ISFIFO(status.st_mode);
  if (by_name) {
    if (!plain && !pipe) refuse(document, "is a device", "name a plain file");
    if (pipe) fcntl(input.get(), F_SETFL, 0);  // from here on a slow writer is waited for
  }
  if (plain) {
    if (status.st_size > static_cast<off_t>(most_input_bytes)) refuse_size(document);
    inputs().emplace_back(status.st_dev, status.st_ino);
  }
  std::string text;
  char buffer[1U << 16U];
  while (true) {
    const ssize_t count = read(input.get(), buffer, sizeof buffer);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) refuse_reading(document);
    if (count == 0) break;
    text.append(buffer, static_cast<std::size_t>(count));
    if (text.size() > most_input_bytes) refuse_size(document);
  }
  if (pipe && by_name && text.empty())
    refuse(document, "is a pipe that nothing was written to", "start its writer first");
  texts()[document] = text;
  return text;
}

}  // namespace

std::optional<std::string_view> text_read(const std::string& document) {
  const auto found = texts().find(document);
  return found == texts().end() ? std::nullopt : std::optional<std::string_view>(found->second);
}

std::string read_file(const std::string& name) {
  return read_all(Descriptor(open_input(name)), document_name(name), name != "-");
}

std::string read_file_below(const std::string& folder, const std::string& path) {
  return read_all(Descriptor(open_below(folder, path)), folder + path, true);
}

namespace {

void require_printed(bool printed) {
  if (!printed)
    refuse("standard output", fmt::format("cannot be written: {}", std::strerror(errno)),
           "check where it goes");
}

}  // namespace

void print(std::string_view piece) {
  struct stat status {};
  if (fstat(STDOUT_FILENO, &status) == 0 && S_ISREG(status.st_mode) &&
      is_input(status.st_dev, status.st_ino))
    refuse("standard output", "is an input of this command", "send it elsewhere");
  require_printed(std::fwrite(piece.data(), 1, piece.size(), stdout) == piece.size());
}

void finish_printing() {
  require_printed(std::fflush(stdout) == 0);
}

void keep_standard_streams() {
  for (const int number : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
    if (fcntl(number, F_GETFD) < 0 && errno == EBADF)
      // The wrong way round, so that reading or writing it fails as on a closed one. The lowest
      // free number is the closed one, since those below it are open by now.
      static_cast<void>(open("/dev/null", number == STDIN_FILENO ? O_WRONLY : O_RDONLY));
}

}  // namespace gelwright::cli
