// The house has rooms, and one direction: what a file includes lies in its own room or in one
// below.
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <string>
#include <vector>

#include "catch.hpp"
#include "paths.hpp"

namespace fs = std::filesystem;

namespace {

using Rooms = std::vector<std::string>;

/// What each room may look into besides itself.
const std::map<std::string, Rooms>& direct_ways_down() {
  static const std::map<std::string, Rooms> down = {
      {"base", {}},
      {"statistics", {"base"}},
      {"data", {"base"}},
      {"chemistry", {"data"}},
      {"water", {"chemistry"}},
      {"ingredients", {"chemistry"}},
      {"gelling", {"water", "ingredients"}},
      {"serving", {"gelling"}},
      {"flags", {"serving"}},
      {"evaluation", {"flags"}},
      {"studies", {"evaluation", "statistics"}},
      {"notebook", {"evaluation", "statistics"}},
      {"read", {"studies", "notebook"}},
      {"picture", {"base"}},
      {"report", {"read", "picture"}},
      {"cli", {"report"}},
  };
  return down;
}

bool may_see(const std::string& from, const std::string& to) {
  if (from == to) return true;
  for (const std::string& below : direct_ways_down().at(from))
    if (may_see(below, to)) return true;
  return false;
}

/// Public headers without a source file of their name, and the room they describe.
const std::map<std::string, std::string>& headers_without_source() {
  static const std::map<std::string, std::string> rooms = {
      {"assumption", "base"},  {"bench", "evaluation"}, {"read", "read"},       {"recipe", "serving"},
      {"reference", "report"}, {"report", "report"},    {"picture", "picture"}, {"remedy", "flags"},
      {"serving", "serving"},  {"step", "serving"},
  };
  return rooms;
}

std::string first_part(const fs::path& path) {
  return path.begin()->string();
}

/// The room of every file, by the name it is included with.
std::map<std::string, std::string> rooms_of_files(const fs::path& source) {
  std::map<std::string, std::string> rooms;
  std::map<std::string, std::string> room_of_stem;
  for (const auto& entry : fs::recursive_directory_iterator(source / "src")) {
    if (!entry.is_regular_file()) continue;
    const fs::path inside = fs::relative(entry.path(), source / "src");
    rooms[inside.string()] = first_part(inside);
    // A report and a command may share their study's name; the study owns the header.
    if (inside.extension() == ".cpp" && first_part(inside) != "cli")
      room_of_stem[inside.stem().string()] = first_part(inside);
  }
  for (const auto& entry : fs::directory_iterator(source / "include/gelwright")) {
    const std::string stem = entry.path().stem().string();
    const auto fixed = headers_without_source().find(stem);
    const std::string include = "gelwright/" + entry.path().filename().string();
    if (fixed != headers_without_source().end())
      rooms[include] = fixed->second;
    else if (room_of_stem.count(stem) > 0)
      rooms[include] = room_of_stem[stem];
  }
  return rooms;
}

/// Every line in `source` that includes a file of a room it may not see.
std::vector<std::string> upward_includes(const fs::path& source) {
  const std::map<std::string, std::string> rooms = rooms_of_files(source);
  std::vector<std::string> found;
  const std::regex include(R"re(^\s*#include "([^"]+)")re");
  const auto walk = [&](const fs::path& file, const std::string& name) {
    const auto room = rooms.find(name);
    if (room == rooms.end()) {
      found.push_back(name + " belongs to no room");
      return;
    }
    std::ifstream in(file);
    for (std::string line; std::getline(in, line);) {
      std::smatch match;
      if (!std::regex_search(line, match, include)) continue;
      const auto target = rooms.find(match[1]);
      if (target == rooms.end())
        found.push_back(name + " includes " + match[1].str() + ", which belongs to no room");
      else if (!may_see(room->second, target->second))
        found.push_back(name + " (" + room->second + ") looks up into " + match[1].str() + " (" +
                        target->second + ")");
    }
  };
  for (const auto& entry : fs::recursive_directory_iterator(source / "src"))
    if (entry.is_regular_file())
      walk(entry.path(), fs::relative(entry.path(), source / "src").string());
  for (const auto& entry : fs::directory_iterator(source / "include/gelwright"))
    walk(entry.path(), "gelwright/" + entry.path().filename().string());
  return found;
}

}  // namespace

TEST_CASE("no file looks up into a room above its own") {
  const fs::path source = source_dir();
  REQUIRE(rooms_of_files(source).size() > 100);
  CHECK(upward_includes(source) == std::vector<std::string>{});
}

TEST_CASE("an upward include and a file outside every room are found") {
  const fs::path house = fs::temp_directory_path() / "gelwright-rooms";
  fs::remove_all(house);
  fs::create_directories(house / "src/base");
  fs::create_directories(house / "src/water");
  fs::create_directories(house / "include/gelwright");
  std::ofstream(house / "src/base/floor.cpp") << "#include \"water/pipe.hpp\"\n";
  std::ofstream(house / "src/water/pipe.hpp") << "#include \"gelwright/stray.hpp\"\n";
  std::ofstream(house / "include/gelwright/stray.hpp") << "";
  const std::vector<std::string> found = upward_includes(house);
  fs::remove_all(house);
  CHECK(found.size() == 3);
}

// What to type is the command line's business. The remedies of flags are text for people and may
// name a command; errors and messages below the reports may not.
TEST_CASE("errors of the core name no option and no command") {
  const std::regex told(R"re("[^"]*(--[a-z]|`gelwright ))re");
  std::vector<std::string> found;
  for (const auto& entry : fs::recursive_directory_iterator(fs::path(source_dir()) / "src")) {
    const fs::path inside = fs::relative(entry.path(), fs::path(source_dir()) / "src");
    const std::string room = first_part(inside);
    if (!entry.is_regular_file() || room == "cli" || room == "report" || room == "flags") continue;
    std::ifstream in(entry.path());
    for (std::string line; std::getline(in, line);)
      if (std::regex_search(line, told)) found.push_back(inside.string() + ": " + line);
  }
  CHECK(found == std::vector<std::string>{});
}
