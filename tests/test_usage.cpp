// What the program says of a command line it cannot take, and in which order it takes one.
#include "catch.hpp"
#include "program.hpp"

using gelwright::test::Printed;
using gelwright::test::run_program;

TEST_CASE("a misspelt command or option is asked about") {
  const auto said = [](const std::string& arguments) {
    const Printed printed = run_program(arguments);
    CHECK(printed.exit_code == 2);
    return printed.text;
  };
  const std::string help = "; see `gelwright --help`\n";
  CHECK(said("shet recipes/tarn-thick-pouch.json") ==
        "gelwright: \"shet\" is not a command; did you mean \"sheet\" or \"shop\"?" + help);
  CHECK(said("sheet recipes/tarn-thick-pouch.json --servngs 3") ==
        "gelwright: --servngs is not an option of `sheet`; did you mean \"--servings\"?" + help);
  CHECK(said("sheet --servngs=3 recipes/tarn-thick-pouch.json") ==
        "gelwright: --servngs is not an option of `sheet`; did you mean \"--servings\"?" + help);
  CHECK(said("zzzzzz") == "gelwright: \"zzzzzz\" is not a command" + help);
  CHECK(said("check recipes/tarn-thick-pouch.json --qqqqqqq") ==
        "gelwright: --qqqqqqq is not an option of `check`" + help);
  CHECK(said("sheet") == "gelwright: recipe is required" + help);
}

TEST_CASE("options may stand anywhere") {
  const std::string recipe = "recipes/tarn-thick-pouch.json";
  const Printed usual = run_program("sheet " + recipe + " --servings 3 --format csv");
  CHECK(usual.exit_code == 0);
  for (const std::string& order :
       {"sheet --format csv --servings 3 " + recipe, "--format csv sheet --servings 3 " + recipe,
        "--servings 3 --format csv sheet " + recipe,
        "sheet --servings=3 " + recipe + " --format=csv"})
    CHECK(run_program(order).text == usual.text);
}

TEST_CASE("check takes many recipes and says stop where one of them does") {
  const std::string good = "recipes/tarn-thick-pouch.json ";
  const std::string bad = "recipes/mistake-hard-water-drink.json ";
  CHECK(run_program("check " + good).exit_code == 0);
  CHECK(run_program("check " + good + good).exit_code == 0);
  const Printed both = run_program("check " + good + bad);
  CHECK(both.exit_code == 1);
  const auto first = both.text.find("\nrecipes/tarn-thick-pouch.json: Tarn Loop thick pouch");
  const auto second = both.text.find("\nrecipes/mistake-hard-water-drink.json: ");
  CHECK(first != std::string::npos);
  CHECK(second != std::string::npos);
  CHECK(first < second);
  const Printed rows = run_program("check " + good + bad + "--format csv");
  CHECK(rows.text.rfind("file,id,level,message,remedy,source,grade\n", 0) == 0);
  CHECK(rows.text.find("\nrecipes/mistake-hard-water-drink.json,hard-water,stop,") !=
        std::string::npos);
}

TEST_CASE("what was weighed may go by everyday words") {
  const auto mended = [](const std::string& weighed) {
    return run_program("mend recipes/pouch-from-scratch.json " + weighed);
  };
  const Printed exact = mended("--weighed 'water=512 g' --weighed 'citric acid anhydrous=3.5 g'");
  CHECK(exact.exit_code == 0);
  const Printed words = mended("--weighed 'tap water=512 g' --weighed 'citric acid=3.5 g'");
  CHECK(words.text == exact.text);
  const Printed twice = mended("--weighed 'tap water=512 g' --weighed 'water=500 g'");
  CHECK(twice.exit_code == 2);
  CHECK(twice.text.find("it was given before; say it once") != std::string::npos);
}

TEST_CASE("a kitchen that cannot be had does not hide what is wrong with the recipe") {
  const Printed printed =
      run_program("check tests/data/bad_mass_zero.json --kitchen no-such-kitchen.json");
  CHECK(printed.exit_code == 2);
  CHECK(printed.text.find("no-such-kitchen.json: cannot be read") != std::string::npos);
  CHECK(printed.text.find("bad_mass_zero.json: /solids/0/mass_g (line ") != std::string::npos);
}

TEST_CASE("check reports the problems of all its recipes at once") {
  const Printed printed = run_program(
      "check tests/data/bad_mass_zero.json recipes/tarn-thick-pouch.json "
      "tests/data/bad_form_unknown.json "
      "no-such-file.json");
  CHECK(printed.exit_code == 2);
  for (const char* file :
       {"tests/data/bad_mass_zero.json: /", "tests/data/bad_form_unknown.json: /form",
        "no-such-file.json: cannot be read"})
    CHECK(printed.text.find(file) != std::string::npos);
  CHECK(printed.text.find("Tarn Loop") == std::string::npos);
}

TEST_CASE("shares of a blend are typed as shares, percent or parts, before or behind the reports") {
  const std::string a = "recipes/tarn-thick-pouch.json";
  const std::string b = "recipes/mistake-hard-water-drink.json";
  const Printed usual = run_program("water " + a + " " + b + " --blend 0.4 0.6 --format json");
  CHECK(usual.exit_code == 0);
  for (const std::string& shares :
       {"--blend 0.4 0.6 " + a + " " + b, a + " --blend 40/60 " + b, "--blend 2:3 " + a + " " + b,
        a + " " + b + " --blend 40 60", a + " " + b + " --blend '40 %' '60 %'"})
    CHECK(run_program("water " + shares + " --format json").text == usual.text);
  const Printed bad = run_program("water " + a + " " + b + " --blend half");
  CHECK(bad.exit_code == 2);
  CHECK(bad.text.find(
            "--blend: \"half\" is not a share; write --blend 0.6 0.4, or --blend 60/40\n") !=
        std::string::npos);
}
