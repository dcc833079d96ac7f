#include "cli/notebook_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstring>

#include "cli/files.hpp"
#include "gelwright/read.hpp"

namespace gelwright::cli {

namespace {

/// A hundred thousand entries with long notes; more is another file.
constexpr off_t most_notebook_bytes = off_t{1} << 28U;

[[noreturn]] void refuse_with_reason(const std::string& file, const char* what) {
  refuse(file, fmt::format("{}: {}", what, std::strerror(errno)),
         "check the name, the folder, the permissions and the room on the disk");
}

/// Closed at the end; a lock on it goes with it.
class Opened {
 public:
  Opened(const std::string& file, int flags) : file_(file) {
    number_ = open(file.c_str(), flags | O_CLOEXEC | O_NOCTTY | O_NONBLOCK, 0666);
    if (number_ < 0) return;
    if (fstat(number_, &status_) != 0) refuse_with_reason(file_, "cannot be looked at");
    if (!S_ISREG(status_.st_mode))
      refuse(file_, "is not a plain file", "name a plain file as the notebook");
  }
  Opened(const Opened&) = delete;
  Opened& operator=(const Opened&) = delete;
  ~Opened() {
    if (number_ >= 0) close(number_);
  }

  int number() const { return number_; }
  bool there() const { return number_ >= 0; }

  off_t size() {
    if (fstat(number_, &status_) != 0) refuse_with_reason(file_, "cannot be looked at");
    return status_.st_size;
  }

  void lock(int how) const {
    while (flock(number_, how) != 0)
      if (errno != EINTR) refuse_with_reason(file_, "cannot be locked");
  }

 private:
  std::string file_;
  int number_ = -1;
  struct stat status_ = {};
};

/// For the name of a new file to survive a power cut; a folder that cannot be synced is no failure.
void sync_folder_of(const std::string& file) {
  const std::size_t slash = file.rfind('/');
  const std::string folder = slash == std::string::npos ? "." : file.substr(0, slash + 1);
  const int opened = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (opened < 0) return;
  fsync(opened);
  close(opened);
}

bool write_all(int number, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = write(number, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

}  // namespace

std::optional<std::string> notebook_text(const std::string& file) {
  Opened opened(file, O_RDONLY);
  if (!opened.there()) {
    if (errno == ENOENT) return std::nullopt;
    refuse_with_reason(file, "cannot be read");
  }
  opened.lock(LOCK_SH);  // not while somebody adds to it
  const off_t size = opened.size();
  if (size > most_notebook_bytes)
    refuse(file, fmt::format("is larger than {} MiB", most_notebook_bytes >> 20U),
           "begin a new notebook, and keep the old one");
  std::string text(static_cast<std::size_t>(size), '\0');
  std::size_t got = 0;
  while (got < text.size()) {
    const ssize_t n = read(opened.number(), text.data() + got, text.size() - got);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) refuse_with_reason(file, "cannot be read");
    if (n == 0) break;
    got += static_cast<std::size_t>(n);
  }
  text.resize(got);
  return text;
}

Notebook read_notebook_file(const std::string& file) {
  const std::optional<std::string> text = notebook_text(file);
  if (!text) refuse(file, "there is no notebook yet", "`gelwright log add RECIPE` begins one");
  return read_notebook(*text, file);
}

void append_line(const std::string& file, const std::string& line) {
  std::signal(SIGXFSZ, SIG_IGN);  // a limit on file sizes is to be an error like a full disk
  struct stat before {};
  const bool is_new = stat(file.c_str(), &before) != 0;
  Opened opened(file, O_RDWR | O_APPEND | O_CREAT);
  if (!opened.there()) refuse_with_reason(file, "cannot be written");
  opened.lock(LOCK_EX);
  const off_t size = opened.size();
  if (size + static_cast<off_t>(line.size()) > most_notebook_bytes)
    refuse(file, fmt::format("would be larger than {} MiB", most_notebook_bytes >> 20U),
           "begin a new notebook, and keep the old one");
  std::string text = line;
  char last = '\n';
  if (size > 0 && pread(opened.number(), &last, 1, size - 1) != 1)
    refuse_with_reason(file, "cannot be read");
  if (last != '\n') text.insert(text.begin(), '\n');
  if (!write_all(opened.number(), text) || fsync(opened.number()) != 0) {
    const int why = errno;
    // Only what was just begun goes away again.
    const bool undone = ftruncate(opened.number(), size) == 0;
    errno = why;
    refuse_with_reason(file, undone ? "nothing was added" : "the line was cut short");
  }
  if (is_new) sync_folder_of(file);
}

}  // namespace gelwright::cli
