// Each exit code of the table, reached through the program.
#include "catch.hpp"
#include "program.hpp"

using namespace gelwright::test;

TEST_CASE("the program ends with 0, 1 or 2 as the answer and the input are") {
  CHECK(run_program("check recipes/tarn-thick-pouch.json").exit_code == 0);
  CHECK(run_program("check recipes/mistake-hard-water-drink.json").exit_code == 1);
  CHECK(run_program("water --calcium '100 mg/L' --at-most '40 mg/L'").exit_code == 1);
  CHECK(run_program("dose recipes/pouch-from-scratch.json --to-ph 1").exit_code == 1);
  CHECK(run_program("check no-such-file.json").exit_code == 2);
  CHECK(run_program("no-such-command").exit_code == 2);
}

TEST_CASE("the program ends with 3, and one sentence, where the solver finds no answer") {
  // An address sanitizer would want to be loaded first.
  const Printed printed =
      run_shell("cd '" + source_dir() + "' && env -i LD_PRELOAD='" + broken_exp_path() +
                "' ASAN_OPTIONS=verify_asan_link_order=0 '" + program_path() +
                "' sheet recipes/tarn-thick-pouch.json");
  CHECK(printed.exit_code == 3);
  CHECK(printed.text.rfind("gelwright: no answer was found; please report it with the recipe: ",
                           0) == 0);
  CHECK(printed.text.find('\n') == printed.text.size() - 1);
}
