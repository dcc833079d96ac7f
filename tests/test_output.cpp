// Every command in every format: what it prints is that format, or it says why not.
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "catch.hpp"
#include "cli/exit_code.hpp"
#include "gelwright/error.hpp"
#include "program.hpp"

using namespace gelwright;
using namespace gelwright::test;

namespace {

/// Each command, and each way a command has of giving another document.
const std::vector<std::string>& documents() {
  static const std::vector<std::string> all = {
      "sheet recipes/tarn-thick-pouch.json",
      "sheet recipes/tarn-thick-pouch.json --round-water-to-g 100",
      "sheet tests/data/no-gum.json",
      "check recipes/mistake-hard-water-drink.json",
      "check tests/data/no-gum.json",
      "water recipes/tarn-thick-pouch.json --bring-calcium-to '40 mg/L'",
      "water --ph 7",
      "dose recipes/tarn-thick-pouch.json --to-ph 3.8",
      "dose recipes/pouch-from-scratch.json --to-ph 1",
      "dose recipes/pouch-from-scratch.json --to-soluble-solids 55",
      "dose recipes/mistake-kitchen-scale.json --to-readable",
      "ladder recipes/tarn-thick-pouch.json --vary acid_g=0.1:0.6:0.1",
      "fit recipes/tarn-thick-pouch.json recipes/tarn-thick-pouch.bench.csv",
      "fit recipes/tarn-thick-pouch.json recipes/tarn-thick-pouch.bench.csv --to-ph 3.8",
      "spread recipes/calcium-set-pouch.json --draws 500",
      "spread tests/data/no-gum.json --draws 500",
      "ingredients",
      "sources",
      "sources --numbers",
      "sources --gel",
      "explain",
      "explain hard-water",
      "explain hard-water recipes/mistake-hard-water-drink.json",
  };
  return all;
}

/// Records of RFC 4180 text; throws where a quote is out of place.
std::vector<std::vector<std::string>> csv_records(const std::string& text) {
  std::vector<std::vector<std::string>> records;
  std::size_t at = 0;
  while (at < text.size()) {
    std::vector<std::string> record(1);
    for (bool ended = false; !ended;) {
      std::string& cell = record.back();
      if (at < text.size() && text[at] == '"') {
        for (++at; at < text.size() && (text[at] != '"' || text.substr(at, 2) == "\"\""); ++at) {
          if (text[at] == '"') ++at;
          cell += text[at];
        }
        if (at++ >= text.size()) throw std::runtime_error("quote not closed");
      } else {
        for (; at < text.size() && text[at] != ',' && text[at] != '\n'; ++at) {
          if (text[at] == '"') throw std::runtime_error("quote inside a bare cell");
          cell += text[at];
        }
      }
      if (at >= text.size()) throw std::runtime_error("no line end at the end");
      ended = text[at] == '\n';
      if (!ended && text[at] != ',') throw std::runtime_error("text after a quote");
      ++at;
      if (!ended) record.emplace_back();
    }
    records.push_back(std::move(record));
  }
  return records;
}

std::string first_word(const std::string& arguments) {
  return arguments.substr(0, arguments.find(' '));
}

}  // namespace

TEST_CASE("every command prints every format, or refuses with a sentence") {
  for (const std::string& document : documents())
    for (const std::string format : {"text", "markdown", "html", "svg", "json", "csv"}) {
      const Printed printed = run_program(document + " --format " + format);
      INFO(document << " --format " << format << "\n" << printed.text);
      if (printed.exit_code == cli::unusable_input) {
        CHECK(printed.text.find("gelwright: ") == 0);
        continue;
      }
      CHECK((printed.exit_code == cli::fine || printed.exit_code == cli::answer_is_no));
      REQUIRE(printed.text.size() > 10);
      CHECK(printed.text.back() == '\n');
      if (format == "json") {
        const auto json = nlohmann::json::parse(printed.text);
        CHECK(json.at("format").get<std::string>().find("gelwright/") == 0);
      }
      if (format == "csv") {
        const auto records = csv_records(printed.text);
        CHECK(records.front().size() > 1);
        for (const auto& record : records) CHECK(record.size() == records.front().size());
      }
      if (format == "markdown") CHECK(printed.text.find("# ") == 0);
      if (format == "svg") CHECK(printed.text.find("<svg ") == 0);
      if (format == "html") CHECK(printed.text.find("<!DOCTYPE html>\n") == 0);
    }
}

TEST_CASE("a result without a table of its own is CSV of every value in its JSON") {
  const std::string dose = "dose recipes/tarn-thick-pouch.json --to-ph 3.8 --format ";
  const auto json = nlohmann::json::parse(run_program(dose + "json").text);
  const auto records = csv_records(run_program(dose + "csv").text);
  REQUIRE(records.front() == std::vector<std::string>{"pointer", "value"});
  CHECK(records.size() > 30);
  for (std::size_t i = 1; i < records.size(); ++i) {
    INFO(records[i][0]);
    const auto& value = json.at(nlohmann::json::json_pointer(records[i][0]));
    const std::string text = value.is_null()     ? ""
                             : value.is_string() ? value.get<std::string>()
                                                 : value.dump();
    CHECK((records[i][1] == text || records[i][1] == "'" + text));
  }
}

TEST_CASE("golden.list has every command in every format, and every golden file has its line") {
  std::set<std::string> listed;
  std::set<std::string> shown;
  std::istringstream list(read_text(source_path("tests/golden.list")));
  for (std::string line; std::getline(list, line);) {
    if (line.empty() || line.front() == '#') continue;
    const std::size_t space = line.find(' ');
    CHECK(listed.insert(line.substr(0, space)).second);
    const std::string arguments = line.substr(space + 1);
    const std::size_t option = arguments.find("--format ");
    shown.insert(first_word(arguments) + ' ' +
                 (option == std::string::npos ? "text" : first_word(arguments.substr(option + 9))));
  }
  for (const std::string& document : documents())
    for (const std::string format : {"text", "markdown", "json", "csv"})
      CHECK(shown.count(first_word(document) + ' ' + format) == 1);
  for (const auto& entry : std::filesystem::directory_iterator(source_path("tests/golden"))) {
    INFO(entry.path().filename().string());
    CHECK(listed.count(entry.path().filename().string()) == 1);
  }
}

TEST_CASE("exceptions map to exit codes, and help and documents follow the one table") {
  CHECK(cli::exit_code_of(InputError("", {})) == 2);
  CHECK(cli::exit_code_of(NotConverged("")) == 3);
  CHECK(cli::exit_code_of(std::runtime_error("")) == 4);
  CHECK(cli::exit_code_of(std::bad_alloc()) == 4);
  const auto words = [](const std::string& text) {
    std::string joined;
    std::istringstream in(text);
    for (std::string word; in >> word;) joined += word + ' ';
    return joined;
  };
  const Printed help = run_program("--help");
  CHECK(help.exit_code == 0);
  const std::string commands = read_text(source_path("docs/commands.md"));
  for (const cli::ExitCodeInfo& each : cli::exit_codes()) {
    INFO(each.meaning);
    CHECK(words(help.text).find(std::to_string(each.code) + " " + std::string(each.meaning)) !=
          std::string::npos);
    CHECK(commands.find("| " + std::to_string(each.code) + " | " + std::string(each.meaning) +
                        " |\n") != std::string::npos);
  }
}

TEST_CASE("what an option or a file name says never reaches the terminal raw") {
  // Escape sequence, second control set, right-to-left override, line end, and half a character.
  const Printed printed = run_shell("cd '" + source_dir() + "' && '" + program_path() +
                                    "' check \"$(printf 'a\\033[31mb\\302\\233c\\342\\200\\256d"
                                    "\\ne\\303')\"");
  CHECK(printed.exit_code == 2);
  CHECK(printed.text.find(
            "gelwright: a\\u001b[31mb\\u009bc\\u202ed\\u000ae\\xc3: cannot be read") == 0);
  const Printed option = run_program("check \"--no$(printf '\\033')pe\"");
  CHECK(option.text.find('\033') == std::string::npos);
}
