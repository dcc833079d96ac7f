#include "cli/whole_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <optional>
#include <stdexcept>
#include <utility>

#include "cli/files.hpp"

namespace gelwright::cli {

namespace {

constexpr int ending_signals[] = {SIGHUP,  SIGINT,  SIGQUIT, SIGABRT, SIGPIPE,   SIGALRM,
                                  SIGTERM, SIGUSR1, SIGUSR2, SIGXCPU, SIGVTALRM, SIGPROF};

/// The temporaries a signal has to take away; plain arrays, because a handler may not allocate.
constexpr std::size_t slots = 4;  // more than one command writes
constexpr std::size_t most_name_bytes = 4096;
char unfinished[slots][most_name_bytes] = {};

extern "C" void remove_unfinished(int signal) {
  for (const auto& name : unfinished)
    if (name[0] != 0) unlink(name);
  std::signal(signal, SIG_DFL);
  raise(signal);  // comes through once this handler returns
}

void handle_ending_signals() {
  // A limit on file sizes is to be an error like a full disk.
  std::signal(SIGXFSZ, SIG_IGN);
  for (const int signal : ending_signals) {
    struct sigaction now {};
    sigaction(signal, nullptr, &now);
    if (now.sa_handler == SIG_IGN) continue;  // as the caller chose, with nohup for example
    now = {};
    now.sa_handler = remove_unfinished;
    sigfillset(&now.sa_mask);
    sigaction(signal, &now, nullptr);
  }
}

/// No signal comes through while this lives, so that a file and its entry in `unfinished` change
/// together.
class SignalsHeld {
 public:
  SignalsHeld() {
    sigset_t all;
    sigfillset(&all);
    sigprocmask(SIG_SETMASK, &all, &before_);
  }
  SignalsHeld(const SignalsHeld&) = delete;
  SignalsHeld& operator=(const SignalsHeld&) = delete;
  ~SignalsHeld() { sigprocmask(SIG_SETMASK, &before_, nullptr); }

 private:
  sigset_t before_ = {};
};

/// The folder a name lies in, with its slash.
std::string folder_of(const std::string& name) {
  const std::size_t slash = name.rfind('/');
  return slash == std::string::npos ? "./" : name.substr(0, slash + 1);
}

[[noreturn]] void refuse_existing(const std::string& name) {
  refuse(name, "exists already and is not overwritten", "choose another name, or add --force");
}

/// The file that has to make way, where there is one and it may.
std::optional<struct stat> file_in_the_way(const std::string& name, MayReplace may) {
  struct stat status {};
  if (lstat(name.c_str(), &status) != 0) return std::nullopt;
  if (S_ISDIR(status.st_mode)) refuse(name, "is a folder", "name a file in it");
  if (S_ISLNK(status.st_mode)) refuse(name, "is a link", "name the file it leads to");
  if (!S_ISREG(status.st_mode))
    refuse(name, "is not a plain file", "name a plain file, or use > to send it there");
  if (!may.inputs_too && is_input(status.st_dev, status.st_ino))
    refuse(name, "is an input of this command and is not overwritten", "choose another name");
  if (!may.forced) refuse_existing(name);
  constexpr mode_t any_write = S_IWUSR | S_IWGRP | S_IWOTH;
  if ((status.st_mode & any_write) == 0 || access(name.c_str(), W_OK) != 0)
    refuse(name, "is write-protected", "choose another name, or make it writable");
  return status;
}

/// For the name to survive a power cut. A folder that cannot be synced is no reason to fail: the
/// file is there.
void sync_folder(const std::string& name) {
  const std::string folder = folder_of(name);
  const int opened = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (opened < 0) return;
  fsync(opened);
  close(opened);
}

}  // namespace

void require_writable(const std::string& name, MayReplace may) {
  file_in_the_way(name, may);
  if (access(folder_of(name).c_str(), W_OK | X_OK) != 0)
    refuse(name, fmt::format("cannot be written: {}", std::strerror(errno)), "check the folder");
}

WholeFile::WholeFile(std::string name, MayReplace may) : name_(std::move(name)) {
  static const bool handled = (handle_ending_signals(), true);
  static_cast<void>(handled);
  if (const auto old = file_in_the_way(name_, may)) {
    replaces_ = true;
    mode_ = old->st_mode & 07777U;
    owner_ = old->st_uid;
    group_ = old->st_gid;
  }
  while (unfinished[slot_][0] != 0)
    if (++slot_ == slots) throw std::logic_error("too many files are written at once");
  constexpr int most_tries = 1000;
  for (int attempt = 0; attempt < most_tries; ++attempt) {
    // Not made of the name, which may be as long as a name can be.
    temporary_ = fmt::format("{}.gelwright-{}-{}.part", folder_of(name_), getpid(), attempt);
    if (temporary_.size() >= most_name_bytes) {
      errno = ENAMETOOLONG;
      refuse();
    }
    const SignalsHeld held;
    // Nobody else may look into what replaces a private file before it has that file's mode.
    descriptor_ = open(temporary_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC,
                       replaces_ ? 0600 : 0666);
    if (descriptor_ >= 0) {
      std::memcpy(unfinished[slot_], temporary_.c_str(), temporary_.size() + 1);
      return;
    }
    if (errno != EEXIST) refuse();
  }
  refuse();
}

WholeFile::~WholeFile() {
  if (descriptor_ >= 0) close(descriptor_);
  const SignalsHeld held;
  if (stage_ == Stage::placed && !replaces_) unlink(name_.c_str());
  if (stage_ != Stage::making) return;
  unlink(temporary_.c_str());
  unfinished[slot_][0] = 0;
}

void WholeFile::add(std::string_view piece) {
  while (!piece.empty()) {
    const ssize_t count = write(descriptor_, piece.data(), piece.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) refuse();
    piece.remove_prefix(static_cast<std::size_t>(count));
  }
}

void WholeFile::complete() {
  if (replaces_) {
    struct stat made {};
    if (fstat(descriptor_, &made) != 0) refuse();
    const bool same = made.st_uid == owner_ && made.st_gid == group_;
    // The order matters: a change of owner may take bits off the mode.
    if (!same && fchown(descriptor_, owner_, group_) != 0) refuse();
    if (fchmod(descriptor_, mode_) != 0) refuse();
  }
  // EINVAL: a file system that cannot.
  if (fsync(descriptor_) != 0 && errno != EINVAL) refuse();
  if (close(std::exchange(descriptor_, -1)) != 0) refuse();
}

void WholeFile::give_new_name() {
  if (link(temporary_.c_str(), name_.c_str()) == 0) {
    unlink(temporary_.c_str());
    return;
  }
  if (errno == EEXIST) refuse_existing(name_);
  if (errno != EPERM && errno != ENOTSUP && errno != EOPNOTSUPP && errno != ENOSYS) refuse();
  // A file system without hard links: the name can only be looked at, then taken.
  struct stat status {};
  if (lstat(name_.c_str(), &status) == 0) refuse_existing(name_);
  if (rename(temporary_.c_str(), name_.c_str()) != 0) refuse();
}

void WholeFile::put_in_place() {
  {
    const SignalsHeld held;
    if (!replaces_)
      give_new_name();
    else if (rename(temporary_.c_str(), name_.c_str()) != 0)
      refuse();
    unfinished[slot_][0] = 0;
    stage_ = Stage::placed;
  }
  sync_folder(name_);
}

void WholeFile::refuse() const {
  cli::refuse(name_, fmt::format("cannot be written: {}", std::strerror(errno)),
              "check the folder and the space left");
}

}  // namespace gelwright::cli
