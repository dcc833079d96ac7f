// Which kitchen the real program reads, and what it says of one that cannot be read.
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>

#include "bench_folder.hpp"
#include "catch.hpp"

using namespace gelwright::test;

namespace {

const std::string hut = R"({"format": "gelwright/kitchen-1",
  "define": {"fell mix": {"kind": "mix", "label": {"per_g": 72, "carbohydrate_g": 68, "sugars_g": 31,
    "sodium_mg": 250}, "undeclared_gum": {"ingredient": "sodium alginate",
    "fraction_at_least": 0.006, "fraction_at_most": 0.014}}},
  "waters": {"hut tap": {"calcium_mg_per_l": 23, "alkalinity_mg_caco3_per_l": 58}}
}
)";

std::string pouch(const std::string& kitchen) {
  return R"({"format": "gelwright/recipe-1", "name": "pouch", "form": "pouch", "kitchen": )" +
         nlohmann::json(kitchen).dump() +
         R"(, "solids": [{"ingredient": "fell mix", "mass_g": 72}], "water": {"per_g_solids": 0.6},
         "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.36}, "tap": "hut tap"}
)";
}

/// What `check` says of a recipe that names this kitchen; it must refuse.
std::string refusal(const Bench& bench, const std::string& kitchen) {
  bench.write("sub/p.json", pouch(kitchen));
  const Printed printed = bench.shell("timeout 20 \"$G\" check sub/p.json");
  CHECK(printed.exit_code == 2);
  return printed.text;
}

struct Hut {
  Bench bench;
  Hut() {
    fs::create_directory(bench.path("sub"));
    bench.write("sub/kitchen.json", hut);
    bench.write("sub/p.json", pouch("kitchen.json"));
  }
};

}  // namespace

TEST_CASE("a kitchen is looked up in the recipe's own folder, wherever the program stands") {
  const Hut made;
  const Bench& bench = made.bench;
  const Printed sheet = bench.shell("\"$G\" sheet sub/p.json --all");
  CHECK(sheet.exit_code == 0);
  CHECK(contains(sheet.text, "FROM THE KITCHEN, sub/kitchen.json; the rest stands in the recipe"));
  CHECK(contains(sheet.text, "- ingredient: fell mix\n- water: hut tap\n"));
  CHECK(bench.shell("cd sub && \"$G\" check p.json").exit_code == 0);
  fs::create_directory(bench.path("sub/deep"));
  fs::rename(bench.path("sub/kitchen.json"), bench.path("sub/deep/k.json"));
  bench.write("sub/p.json", pouch("./deep//k.json"));
  CHECK(bench.shell("\"$G\" check sub/p.json").exit_code == 0);
}

TEST_CASE("a kitchen is not searched for") {
  const Hut made;
  const Bench& bench = made.bench;
  fs::copy_file(bench.path("sub/kitchen.json"), bench.path("kitchen.json"));
  fs::remove(bench.path("sub/kitchen.json"));
  CHECK(refusal(bench, "kitchen.json") ==
        "gelwright: sub/kitchen.json: cannot be read: No such file or directory; check the name, "
        "the folder and the permissions\n");
  // A kitchen beside a recipe that names none is left alone.
  bench.write("p.json", R"({"format": "gelwright/recipe-1", "name": "p", "form": "pouch",
    "solids": [{"ingredient": "fell mix", "mass_g": 72}], "water": {"mass_g": 40}})");
  CHECK(contains(bench.shell("\"$G\" check p.json").text, "ingredient \"fell mix\" is not known"));
}

TEST_CASE("a recipe cannot lead out of its own folder") {
  const Hut made;
  const Bench& bench = made.bench;
  bench.write("outside.json", hut);
  const std::string absolute = bench.path("outside.json").string();
  for (const std::string& name :
       {std::string("../outside.json"), std::string("x/../../outside.json"), std::string(".."),
        absolute}) {
    const std::string said = refusal(bench, name);
    CHECK(said.starts_with("gelwright: sub/p.json: /kitchen (line 1, column "));
    CHECK(contains(said, ": \"" + name +
                             "\" leads out of the recipe's folder; put the kitchen into that "
                             "folder, or name it with --kitchen FILE\n"));
  }
  // Two dots in a name lead nowhere.
  bench.write("sub/..kitchen..json", hut);
  bench.write("sub/p.json", pouch("..kitchen..json"));
  CHECK(bench.shell("\"$G\" check sub/p.json").exit_code == 0);
  // Nor through a link, as the file or on the way.
  fs::create_symlink(bench.path("outside.json"), bench.path("sub/link.json"));
  fs::create_directory(bench.path("elsewhere"));
  bench.write("elsewhere/k.json", hut);
  fs::create_directory_symlink(bench.path("elsewhere"), bench.path("sub/way"));
  for (const std::string name : {"link.json", "way/k.json"})
    CHECK(refusal(bench, name) ==
          "gelwright: sub/" + name +
              ": is a link, or lies behind one, and a document may not lead through it; put the "
              "file itself there, or name it yourself\n");
  // A person may, and a link to the recipe leads to no other folder.
  CHECK(bench.shell("\"$G\" check sub/p.json --kitchen sub/link.json").exit_code == 0);
  CHECK(bench.shell("\"$G\" check sub/p.json --kitchen " + absolute).exit_code == 0);
  fs::create_symlink("sub/p.json", bench.path("p.json"));
  bench.write("sub/p.json", pouch("kitchen.json"));
  CHECK(contains(bench.shell("\"$G\" check p.json").text, "kitchen.json: cannot be read"));
}

TEST_CASE("a kitchen that cannot be read is said in one line, by either name") {
  const Hut made;
  const Bench& bench = made.bench;
  REQUIRE(mkfifo(bench.path("sub/pipe").c_str(), 0600) == 0);
  fs::create_directory(bench.path("sub/folder"));
  bench.write("sub/large", "");
  fs::resize_file(bench.path("sub/large"), 100U << 20U);
  fs::create_symlink("circle", bench.path("sub/circle"));
  bench.write("sub/secret", hut);
  bench.set_mode("sub/secret", 0);
  bench.write("sub/self.json", pouch("self.json"));
  bench.write("sub/led.json", R"({"format": "gelwright/kitchen-1", "kitchen": "kitchen.json"})");
  bench.write("sub/empty", "");
  struct Case {
    std::string file;
    std::string what;
  };
  const Case cases[] = {
      {"pipe", "is a pipe that nothing was written to; start its writer first"},
      {"folder", "is a folder; name a file"},
      {"nowhere", "cannot be read: No such file or directory"},
      {"large", "is larger than 1 MiB; is it the right file?"},
      {"self.json", "this is a recipe, not a kitchen"},
      {"led.json", "a kitchen leads to no other kitchen; describe all in this one"},
      {"empty", "the document is empty"},
  };
  for (const Case& each : cases) {
    INFO(each.file);
    const std::string file = "gelwright: sub/" + each.file + ": ";
    const std::string by_recipe = refusal(bench, each.file);
    CHECK(by_recipe.starts_with(file));
    CHECK(contains(by_recipe, each.what));
    bench.write("sub/p.json", pouch("kitchen.json"));
    const Printed named =
        bench.shell("timeout 20 \"$G\" sheet sub/p.json --kitchen sub/" + each.file);
    CHECK(named.exit_code == 2);
    CHECK(named.text == by_recipe);
  }
  CHECK(contains(refusal(bench, "circle"), "sub/circle: is a link, or lies behind one"));
  CHECK(contains(bench.shell("\"$G\" check sub/p.json --kitchen sub/circle").text,
                 "sub/circle: cannot be read: Too many levels of symbolic links"));
  CHECK(contains(bench.shell("\"$G\" check sub/p.json --kitchen /dev/zero").text,
                 "/dev/zero: is a device"));
  bench.write("sub/p.json", pouch("secret"));
  const Printed secret = bench.unprivileged("\"$G\" check sub/p.json");
  CHECK(secret.exit_code == 2);
  CHECK(contains(secret.text, "sub/secret: cannot be read: Permission denied"));
}

TEST_CASE("a kitchen named on the command line wins, for every command that takes a recipe") {
  const Hut made;
  const Bench& bench = made.bench;
  std::string hard = hut;
  hard.replace(hard.find(": 23"), 4, ": 99");
  bench.write("hard.json", hard);
  CHECK(contains(bench.shell("\"$G\" water sub/p.json").text, "23"));
  bench.write("b.csv", "cup,acid_g,ph\n1,0.1,4.6\n2,0.3,4.0\n3,0.5,3.6\n");
  for (const std::string command :
       {"sheet sub/p.json --format json", "check sub/p.json", "water sub/p.json",
        "dose sub/p.json --to-ph 3.9", "ladder sub/p.json --vary acid_g=0.1:0.3:0.1",
        "fit sub/p.json b.csv", "spread sub/p.json --draws 100", "explain hard-water sub/p.json",
        "mend sub/p.json --weighed water=50g", "flatten sub/p.json"}) {
    INFO(command);
    const Printed own = bench.shell("\"$G\" " + command);
    const Printed other = bench.shell("\"$G\" " + command + " --kitchen hard.json");
    CHECK(own.exit_code == 0);
    CHECK((other.exit_code == 0 || other.exit_code == 1));
    CHECK(own.text != other.text);
    const Printed none = bench.shell("\"$G\" " + command + " --kitchen none.json");
    CHECK(none.exit_code == 2);
    CHECK(contains(none.text, "none.json: cannot be read"));
  }
  CHECK(bench.shell("\"$G\" sheet sub/p.json --kitchen - < hard.json").exit_code == 0);
  CHECK(bench.shell("\"$G\" sheet - --kitchen hard.json < sub/p.json").exit_code == 0);
  CHECK(contains(bench.shell("\"$G\" sheet - < sub/p.json").text,
                 "a recipe from standard input has no folder to find its kitchen in; name the "
                 "kitchen with --kitchen FILE"));
  CHECK(contains(bench.shell("\"$G\" sheet - --kitchen - < sub/p.json").text,
                 "standard input cannot be both recipe and kitchen"));
  CHECK(bench.shell("\"$G\" water --calcium '20 mg/L' --kitchen hard.json").exit_code == 2);
  CHECK(run_program("shop recipes/tarn-thick-pouch.json=20").exit_code == 0);
  CHECK(contains(run_program("shop recipes/tarn-thick-pouch.json=20 --kitchen none.json").text,
                 "none.json: cannot be read"));
  CHECK(bench.shell("\"$G\" explain hard-water --kitchen hard.json").exit_code == 2);
}

TEST_CASE("a flattened recipe is printed or written, and stands alone") {
  const Hut made;
  const Bench& bench = made.bench;
  const Printed flat = bench.shell("\"$G\" flatten sub/p.json");
  CHECK(flat.exit_code == 0);
  CHECK(bench.shell("\"$G\" flatten sub/p.json -o alone.json").text.empty());
  CHECK(bench.text("alone.json") == flat.text);
  CHECK(bench.shell("\"$G\" flatten sub/p.json -o alone.json").exit_code == 2);
  CHECK(bench.shell("\"$G\" flatten sub/p.json -o sub/p.json --force").exit_code == 2);
  // The kitchen is an input, though the command line does not name it.
  CHECK(bench.shell("\"$G\" flatten sub/p.json -o sub/kitchen.json --force").exit_code == 2);
  CHECK(bench.text("sub/kitchen.json") == hut);
  CHECK(bench.shell("\"$G\" check sub/p.json").text == bench.shell("\"$G\" check alone.json").text);
}

TEST_CASE("what fit learns is written to the kitchen by the rules of --write") {
  const Hut made;
  const Bench& bench = made.bench;
  bench.write("b.csv", "cup,acid_g,ph\n1,0.1,4.6\n2,0.3,4.0\n3,0.5,3.6\n4,0.7,3.4\n");
  const std::string fit = "\"$G\" fit sub/p.json b.csv ";
  const std::string report = bench.shell(fit).text;
  CHECK(bench.shell(fit + "--write-kitchen new.json").text == report);
  CHECK(contains(bench.text("new.json"), "\"buffer\""));
  CHECK(bench.text("sub/kitchen.json") == hut);
  CHECK(bench.shell(fit + "--write-kitchen sub/kitchen.json").exit_code == 2);
  CHECK(bench.shell(fit + "--write-kitchen -").exit_code == 2);
  CHECK(bench.shell(fit + "--write-kitchen same -o same").exit_code == 2);
  CHECK(bench.shell(fit + "--write-kitchen same --write same").exit_code == 2);
  CHECK(bench.shell(fit + "--write-kitchen never.json > /dev/full").exit_code == 2);
  CHECK_FALSE(bench.has("never.json"));
  CHECK_FALSE(bench.has("same"));
  CHECK(contains(bench.shell(fit + "--write never.json").text,
                 "\"fell mix\" is described in the kitchen, not here; write the kitchen instead"));
  CHECK(bench.text("sub/kitchen.json") == hut);
  CHECK(bench.shell(fit + "--write-kitchen sub/kitchen.json --force").exit_code == 0);
  CHECK(bench.text("sub/kitchen.json") == bench.text("new.json"));
  // Every recipe of that mix is better for it.
  CHECK_FALSE(contains(bench.shell("\"$G\" check sub/p.json").text, "buffer-unknown"));
  bench.shell("\"$G\" flatten sub/p.json -o alone.json");
  CHECK(contains(bench.shell("\"$G\" fit alone.json b.csv --write-kitchen never.json").text,
                 "the recipe has no kitchen to write to"));
  CHECK(bench.unfinished() == 0);
}
