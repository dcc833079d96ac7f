// A folder of its own for what the real program reads and writes.
#pragma once

#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "program.hpp"

namespace gelwright::test {

namespace fs = std::filesystem;

/// A folder of its own with two recipes and a table of readings, gone at the end.
class Bench {
 public:
  // Recipes that need no kitchen.
  Bench() {
    std::string name = (fs::temp_directory_path() / "gelwright-files-XXXXXX").string();
    folder_ = mkdtemp(name.data());
    for (const std::string file :
         {"tarn-thick-pouch.json", "pouch-from-scratch.json", "calcium-set-pouch.json"})
      fs::copy_file(source_path("tests/data/recipe-1/" + file), path(file));
    fs::copy_file(source_path("recipes/tarn-thick-pouch.bench.csv"),
                  path("tarn-thick-pouch.bench.csv"));
    fs::rename(path("tarn-thick-pouch.json"), path("r.json"));
    fs::rename(path("tarn-thick-pouch.bench.csv"), path("b.csv"));
    fs::rename(path("pouch-from-scratch.json"), path("other.json"));
    recipe_ = read_text(path("r.json"));
  }
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;
  ~Bench() {
    fs::permissions(folder_, fs::perms::owner_all);
    fs::remove_all(folder_);
  }

  fs::path path(const std::string& name) const { return folder_ / name; }
  std::string text(const std::string& name) const { return read_text(path(name)); }
  bool has(const std::string& name) const { return fs::exists(fs::symlink_status(path(name))); }
  const std::string& recipe() const { return recipe_; }
  void write(const std::string& name, const std::string& text) const {
    std::ofstream(path(name), std::ios::binary) << text;
  }
  unsigned mode(const std::string& name) const {
    return static_cast<unsigned>(fs::status(path(name)).permissions());
  }
  void set_mode(const std::string& name, unsigned mode) const {
    fs::permissions(path(name), static_cast<fs::perms>(mode));
  }
  /// Temporaries left behind.
  std::size_t unfinished() const {
    std::size_t count = 0;
    for (const auto& entry : fs::directory_iterator(folder_))
      if (entry.path().extension() == ".part") ++count;
    return count;
  }
  /// Runs a line of shell in the folder; `$G` is the program.
  Printed shell(const std::string& line) const {
    return run_shell("cd '" + folder_.string() + "' && G='" + program_path() + "' && " + line);
  }
  /// As `shell`, without the right of root to write and read what permissions forbid.
  Printed unprivileged(const std::string& line) const {
    write("line.sh", "G='" + program_path() + "'\n" + line);
    const std::string drop =
        geteuid() == 0 ? "setpriv --bounding-set=-dac_override,-dac_read_search,-fowner " : "";
    return shell(drop + "sh ./line.sh");
  }

 private:
  fs::path folder_;
  std::string recipe_;
};

inline bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace gelwright::test
