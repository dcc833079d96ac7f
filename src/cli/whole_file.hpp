// Writing a file whole or not at all: into a temporary beside it, which takes the name once it is
// complete and on the disk. Every error is an InputError that names the file.
#pragma once

#include <sys/types.h>

#include <cstddef>
#include <string>
#include <string_view>

namespace gelwright::cli {

/// What may make way for a new file. Nothing makes a link, a device, a pipe, a folder or a
/// write-protected file make way.
struct MayReplace {
  bool forced = false;      ///< --force: a plain file
  bool inputs_too = false;  ///< then also one that this run reads
};

/// Throws where `name` cannot be written as things stand now.
void require_writable(const std::string& name, MayReplace may);

/// A file in the making. Unless kept, it goes away again, also where a signal ends the program.
class WholeFile {
 public:
  WholeFile(std::string name, MayReplace may);
  WholeFile(const WholeFile&) = delete;
  WholeFile& operator=(const WholeFile&) = delete;
  ~WholeFile();

  void add(std::string_view piece);
  /// After the last piece: on the disk, with owner and mode of the file it replaces. Once this is
  /// done, nothing fails any more for want of room.
  void complete();
  /// Gives it its name. Where no file was in the way at the start, one that has come since is not
  /// replaced.
  void put_in_place();
  /// From here on it stays. A file that replaced another stays from `put_in_place` on.
  void keep() { stage_ = Stage::kept; }
  bool replaces() const { return replaces_; }

 private:
  enum class Stage { making, placed, kept };
  [[noreturn]] void refuse() const;
  void give_new_name();

  std::string name_;
  std::string temporary_;
  Stage stage_ = Stage::making;
  int descriptor_ = -1;
  std::size_t slot_ = 0;  ///< where the signal handler finds the temporary
  bool replaces_ = false;
  mode_t mode_ = 0;  ///< of the file it replaces, as are the next two
  uid_t owner_ = 0;
  gid_t group_ = 0;
};

}  // namespace gelwright::cli
