// What is written and read by the real program: all of it or nothing, and nothing lost.
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <string>
#include <thread>
#include <vector>

#include "bench_folder.hpp"
#include "catch.hpp"

using namespace gelwright::test;

TEST_CASE("a recipe read from standard input is not written over by -o") {
  const Bench bench;
  for (const std::string force : {"", " --force"}) {
    const Printed printed = bench.shell("\"$G\" sheet - -o r.json < r.json" + force);
    CHECK(printed.exit_code == 2);
    CHECK(printed.text ==
          "gelwright: r.json: is an input of this command and is not overwritten; choose another "
          "name\n");
    CHECK(bench.text("r.json") == bench.recipe());
  }
}

TEST_CASE("an input is not written over by -o under any of its names") {
  const Bench bench;
  fs::create_hard_link(bench.path("r.json"), bench.path("same.json"));
  for (const std::string name : {"r.json", "./r.json", "same.json"}) {
    INFO(name);
    CHECK(bench.shell("\"$G\" sheet r.json --force -o " + name).exit_code == 2);
  }
  CHECK(bench.shell("\"$G\" fit r.json b.csv --force -o b.csv").exit_code == 2);
  CHECK(bench.shell("\"$G\" fit r.json b.csv --force -o r.json").exit_code == 2);
  const Printed appended = bench.shell("\"$G\" sheet r.json >> r.json");
  CHECK(appended.exit_code == 2);
  CHECK(contains(appended.text, "standard output: is an input of this command"));
  CHECK(bench.text("r.json") == bench.recipe());
  CHECK(bench.unfinished() == 0);
}

TEST_CASE("any other existing file is replaced only with --force") {
  const Bench bench;
  const std::string other = bench.text("other.json");
  const Printed refused = bench.shell("\"$G\" sheet r.json -o other.json");
  CHECK(refused.exit_code == 2);
  CHECK(refused.text ==
        "gelwright: other.json: exists already and is not overwritten; choose another name, or "
        "add --force\n");
  CHECK(bench.text("other.json") == other);
  CHECK(bench.shell("\"$G\" sheet r.json -o other.json --force").exit_code == 0);
  CHECK(bench.text("other.json") == bench.shell("\"$G\" sheet r.json").text);
}

TEST_CASE("the edited recipe goes where --write says, the report where -o says") {
  const Bench bench;
  const std::string report = bench.shell("\"$G\" dose r.json --to-ph 3.8").text;
  const Printed printed = bench.shell("\"$G\" dose r.json --to-ph 3.8 --write new.json");
  CHECK(printed.exit_code == 0);
  CHECK(printed.text == report);
  CHECK(bench.shell("\"$G\" check new.json").exit_code == 0);
  CHECK(bench.text("new.json") != bench.recipe());
  CHECK(bench.shell("\"$G\" dose r.json --to-ph 3.8 -o report.txt --write two.json").text.empty());
  CHECK(bench.text("report.txt") == report);
  CHECK(bench.text("two.json") == bench.text("new.json"));
  CHECK(bench.shell("\"$G\" fit r.json b.csv --write fitted.json -o fit.json --format json")
            .exit_code == 0);
  CHECK(contains(bench.text("fitted.json"), "\"buffer\""));
}

TEST_CASE("the option --write replaces the recipe that was read only with --force") {
  const Bench bench;
  CHECK(bench.shell("\"$G\" dose r.json --to-ph 3.8 --write r.json").exit_code == 2);
  CHECK(bench.text("r.json") == bench.recipe());
  CHECK(bench.shell("\"$G\" dose r.json --to-ph 3.8 --write r.json --force").exit_code == 0);
  CHECK(bench.text("r.json") != bench.recipe());
  CHECK(bench.shell("\"$G\" check r.json").exit_code == 0);
}

TEST_CASE("what is not reached is not written") {
  const Bench bench;
  CHECK(bench.shell("\"$G\" dose other.json --to-ph 1 --write new.json").exit_code == 1);
  CHECK_FALSE(bench.has("new.json"));
}

TEST_CASE("neither the recipe nor the report stays behind where the other cannot be had") {
  const Bench bench;
  const std::string dose = "\"$G\" dose r.json --to-ph 3.8 ";
  CHECK(bench.shell(dose + "--write new.json > /dev/full").exit_code == 2);
  CHECK(bench.shell(dose + "--write new.json >&-").exit_code == 2);
  CHECK(bench.shell(dose + "--write new.json -o no/such/folder").exit_code == 2);
  CHECK(bench.shell(dose + "--write no/such/folder -o report.txt").exit_code == 2);
  CHECK(bench.shell(dose + "--write new.json -o other.json").exit_code == 2);
  CHECK(bench.shell(dose + "--write same -o same").exit_code == 2);
  // The same name, spelt so that only the file system sees it.
  CHECK(bench.shell(dose + "--write same -o ./same").exit_code == 2);
  CHECK(bench.shell(dose + "--write -").exit_code == 2);
  CHECK(bench.shell("\"$G\" fit r.json b.csv --write new.json > /dev/full").exit_code == 2);
  for (const std::string name : {"new.json", "report.txt", "same", "-"}) {
    INFO(name);
    CHECK_FALSE(bench.has(name));
  }
  CHECK(bench.unfinished() == 0);
}

TEST_CASE("a lone - is standard output and never a file") {
  const Bench bench;
  CHECK(bench.shell("\"$G\" sheet r.json -o -").text == bench.shell("\"$G\" sheet r.json").text);
  CHECK_FALSE(bench.has("-"));
}

TEST_CASE("a file that is replaced keeps its mode, a write-protected one stays") {
  const Bench bench;
  bench.write("private", "old");
  bench.set_mode("private", 0600);
  CHECK(bench.shell("umask 022; \"$G\" sheet r.json -o private --force").exit_code == 0);
  CHECK(bench.mode("private") == 0600);
  CHECK(bench.text("private") != "old");
  bench.write("shared", "old");
  bench.set_mode("shared", 0664);
  CHECK(bench.shell("umask 077; \"$G\" sheet r.json -o shared --force").exit_code == 0);
  CHECK(bench.mode("shared") == 0664);
  bench.write("protected", "old");
  bench.set_mode("protected", 0444);
  const Printed printed = bench.shell("\"$G\" sheet r.json -o protected --force");
  CHECK(printed.exit_code == 2);
  CHECK(contains(printed.text, "protected: is write-protected"));
  CHECK(bench.text("protected") == "old");
  CHECK(bench.shell("umask 027; \"$G\" sheet r.json -o new").exit_code == 0);
  CHECK(bench.mode("new") == 0640);
}

TEST_CASE("a link, a pipe, a device and a folder are not written over, forced or not") {
  const Bench bench;
  fs::create_symlink("other.json", bench.path("link"));
  fs::create_symlink("nowhere", bench.path("dangling"));
  REQUIRE(mkfifo(bench.path("pipe").c_str(), 0600) == 0);
  fs::create_directory(bench.path("folder"));
  const std::string other = bench.text("other.json");
  const auto refusal = [&bench](const std::string& name) {
    const Printed printed = bench.shell("\"$G\" sheet r.json --force -o " + name);
    CHECK(printed.exit_code == 2);
    return printed.text;
  };
  CHECK(refusal("link") == "gelwright: link: is a link; name the file it leads to\n");
  CHECK(refusal("dangling") == "gelwright: dangling: is a link; name the file it leads to\n");
  CHECK(contains(refusal("pipe"), "pipe: is not a plain file"));
  CHECK(contains(refusal("/dev/null"), "/dev/null: is not a plain file"));
  CHECK(contains(refusal("folder"), "folder: is a folder"));
  CHECK(contains(refusal("folder/"), "folder/: is a folder"));
  CHECK(bench.text("other.json") == other);
  CHECK_FALSE(bench.has("nowhere"));
}

TEST_CASE("no room, no permission and no folder are one line, exit 2, and leave nothing behind") {
  const Bench bench;
  const Printed full = bench.shell("\"$G\" sheet r.json > /dev/full");
  CHECK(full.exit_code == 2);
  CHECK(full.text ==
        "gelwright: standard output: cannot be written: No space left on device; check where it "
        "goes\n");
  CHECK(bench.shell("\"$G\" --help > /dev/full").exit_code == 2);
  // A limit on file sizes fails in the same call as a full disk.
  const Printed limited = bench.shell("ulimit -f 1; \"$G\" sheet r.json -o new");
  CHECK(limited.exit_code == 2);
  CHECK(contains(limited.text, "new: cannot be written: File too large"));
  CHECK(bench.shell("\"$G\" sheet r.json -o no/such/folder/new").exit_code == 2);
  CHECK(bench.shell("\"$G\" sheet r.json -o ''").exit_code == 2);
  fs::create_directory(bench.path("closed"));
  bench.set_mode("closed", 0555);
  const Printed closed = bench.unprivileged("\"$G\" sheet r.json -o closed/new");
  CHECK(closed.exit_code == 2);
  CHECK(closed.text ==
        "gelwright: closed/new: cannot be written: Permission denied; check the folder\n");
  CHECK_FALSE(bench.has("new"));
  CHECK_FALSE(bench.has("closed/new"));
  CHECK(bench.unfinished() == 0);
}

TEST_CASE("a full disk leaves the file that was to be replaced as it was") {
  const Bench bench;
  fs::create_directory(bench.path("small"));
  // Only root may mount; without it this is left to the limit on file sizes above.
  const std::string mount = "mount -t tmpfs -o size=4k none small 2>/dev/null";
  if (bench.shell(mount).exit_code != 0) return;
  bench.write("small/old", "old");
  const Printed printed = bench.shell("\"$G\" sheet r.json -o small/old --force");
  const std::string kept = bench.text("small/old");
  const auto left = std::distance(fs::directory_iterator(bench.path("small")), {});
  bench.shell("umount small");
  CHECK(printed.exit_code == 2);
  CHECK(contains(printed.text, "small/old: cannot be written: No space left on device"));
  CHECK(kept == "old");
  CHECK(left == 1);
}

TEST_CASE("what cannot be read is said in one line") {
  const Bench bench;
  REQUIRE(mkfifo(bench.path("pipe").c_str(), 0600) == 0);
  fs::create_directory(bench.path("folder"));
  bench.write("large", std::string((1U << 20U) + 1, ' '));
  bench.write("secret", "{}");
  bench.set_mode("secret", 0);
  const auto refusal = [&bench](const std::string& input) {
    const Printed printed = bench.shell("timeout 20 \"$G\" check " + input);
    CHECK(printed.exit_code == 2);
    return printed.text;
  };
  CHECK(refusal("pipe") ==
        "gelwright: pipe: is a pipe that nothing was written to; start its writer first\n");
  CHECK(refusal("folder") == "gelwright: folder: is a folder; name a file\n");
  CHECK(refusal("- < folder") == "gelwright: standard input: is a folder; name a file\n");
  CHECK(refusal("/dev/zero") == "gelwright: /dev/zero: is a device; name a plain file\n");
  CHECK(refusal("large") == "gelwright: large: is larger than 1 MiB; is it the right file?\n");
  CHECK(contains(refusal("- < /dev/zero"), "standard input: is larger than 1 MiB"));
  CHECK(contains(refusal("- <&-"), "standard input: cannot be read"));
  CHECK(contains(refusal("nowhere"), "nowhere: cannot be read: No such file or directory"));
  CHECK(contains(bench.unprivileged("\"$G\" check secret").text,
                 "secret: cannot be read: Permission denied"));
}

TEST_CASE("a pipe somebody writes to is read, by name and on standard input") {
  const Bench bench;
  const std::string sheet = bench.shell("\"$G\" sheet r.json").text;
  CHECK(bench.shell("cat r.json | \"$G\" sheet /dev/stdin").text == sheet);
  CHECK(bench.shell("cat r.json | \"$G\" sheet -").text == sheet);
}

TEST_CASE("a closed standard stream is an error of its own, never an abort or a lost file") {
  const Bench bench;
  CHECK(bench.shell("\"$G\" sheet r.json >&-").exit_code == 2);
  CHECK(bench.shell("\"$G\" sheet nowhere 2>&-").exit_code == 2);
  CHECK(bench.shell("\"$G\" sheet nowhere 2>/dev/full").exit_code == 2);
  CHECK(bench.shell("\"$G\" nonsense 2>&-").exit_code == 2);
  const std::string sheet = bench.shell("\"$G\" sheet r.json").text;
  CHECK(bench.shell("\"$G\" sheet r.json -o new <&- >&- 2>&-").exit_code == 0);
  CHECK(bench.text("new") == sheet);
}

TEST_CASE("a signal that ends the program takes the unfinished file along") {
  for (const int signal : {SIGINT, SIGTERM, SIGHUP, SIGQUIT, SIGUSR1, SIGALRM}) {
    const Bench bench;
    const pid_t child = fork();
    if (child == 0) {
      const int nothing = open("/dev/null", O_RDWR);
      dup2(nothing, STDOUT_FILENO);
      dup2(nothing, STDERR_FILENO);
      if (chdir(bench.path("").c_str()) != 0) _exit(126);
      execl(program_path().c_str(), "gelwright", "ladder", "r.json", "--vary",
            "acid_g=0.1:0.6:0.0005", "--vary", "water_g=40:60:0.01", "--format", "csv", "-o",
            "grid.csv", static_cast<char*>(nullptr));
      _exit(127);
    }
    for (int wait = 0; wait < 3000 && bench.unfinished() == 0; ++wait)
      std::this_thread::sleep_for(std::chrono::milliseconds(10));
    CHECK(bench.unfinished() == 1);
    kill(child, signal);
    int status = 0;
    waitpid(child, &status, 0);
    INFO("signal " << signal);
    CHECK(WIFSIGNALED(status));
    CHECK(WTERMSIG(status) == signal);
    CHECK(bench.unfinished() == 0);
    CHECK_FALSE(bench.has("grid.csv"));
  }
}

TEST_CASE("of many writers of one new name one wins, and its file is whole") {
  const Bench bench;
  const std::string sheet = bench.shell("\"$G\" sheet r.json").text;
  const Printed codes = bench.shell(
      "for i in 1 2 3 4 5 6 7 8; do (\"$G\" sheet r.json -o new 2>/dev/null; echo $?) & done; "
      "wait");
  CHECK(std::count(codes.text.begin(), codes.text.end(), '0') == 1);
  CHECK(std::count(codes.text.begin(), codes.text.end(), '2') == 7);
  CHECK(bench.text("new") == sheet);
  const Printed forced = bench.shell(
      "for i in 1 2 3 4 5 6 7 8; do (\"$G\" sheet r.json -o new --force; echo $?) & done; wait");
  CHECK(std::count(forced.text.begin(), forced.text.end(), '0') == 8);
  CHECK(bench.text("new") == sheet);
  CHECK(bench.unfinished() == 0);
}

TEST_CASE("a series whose cups cannot all be computed prints nothing") {
  const Bench bench;
  const Printed printed =
      bench.shell("\"$G\" ladder r.json --vary water_g=0.001:30:10 --format csv 2>/dev/null");
  CHECK(printed.exit_code != 0);
  CHECK(printed.text.empty());
}
