// docs/tutorial.md, followed to the letter: every command it shows is run in one folder, one after
// the other, and prints what stands below it. GELWRIGHT_REFRESH=1 writes the outputs anew.
#include <sstream>
#include <vector>

#include "bench_folder.hpp"
#include "catch.hpp"

using namespace gelwright::test;

namespace {

/// A fenced block: the mark behind its fence, its lines, and where these begin and end in the text.
struct Block {
  std::string mark;  ///< "console", or "json first.json": a file to be written
  std::size_t from;
  std::size_t to;
};

std::vector<Block> blocks_of(const std::string& text) {
  std::vector<Block> blocks;
  for (std::size_t at = text.find("\n```"); at != std::string::npos;) {
    const std::size_t from = text.find('\n', at + 1) + 1;
    const std::size_t to = text.find("```\n", from);
    blocks.push_back({text.substr(at + 4, from - at - 5), from, to});
    at = text.find("\n```", to + 3);
  }
  return blocks;
}

/// The commands of a block, each with what it prints.
std::string played(const Bench& folder, const std::string& block) {
  std::string made;
  std::istringstream lines(block);
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("$ ", 0) != 0) continue;  // what was printed last time
    const Printed printed =
        run_shell("cd '" + folder.path("").string() + "' && gelwright() { env -i '" +
                  program_path() + "' \"$@\"; }; " + line.substr(2));
    made += line + "\n" + printed.text;
  }
  return made;
}

}  // namespace

TEST_CASE("the tutorial's commands print what it shows", "[kept]") {
  const Bench folder;
  const std::string text = read_text(source_path("docs/tutorial.md"));
  std::string now;
  std::size_t done = 0;
  std::size_t commands = 0;
  for (const Block& block : blocks_of(text)) {
    const std::string shown = text.substr(block.from, block.to - block.from);
    std::string made = shown;
    if (block.mark == "console") {
      made = played(folder, shown);
      INFO("in docs/tutorial.md:\n" << shown);
      if (std::getenv("GELWRIGHT_REFRESH") == nullptr) CHECK(made == shown);
      ++commands;
    } else {
      folder.write(block.mark.substr(block.mark.rfind(' ') + 1), shown);
    }
    now += text.substr(done, block.from - done) + made;
    done = block.to;
  }
  now += text.substr(done);
  CHECK(kept("docs/tutorial.md", now) == now);
  CHECK(commands >= 8);
}
