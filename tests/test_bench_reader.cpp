#include "catch.hpp"
#include "gelwright/bench.hpp"
#include "gelwright/error.hpp"
#include "gelwright/ladder.hpp"
#include "gelwright/ladder_report.hpp"
#include "gelwright/read.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

Bench read(const std::string& name) {
  return read_bench(test::read_text(test::source_path("tests/data/" + name)), name);
}

/// Every problem on a line of its own, as the command line prints them.
template <class Call>
std::string complaint(Call call) {
  try {
    call();
  } catch (const InputError& error) {
    std::string text;
    for (const Problem& problem : error.problems())
      text += problem.where + ": " + problem.what + "; " + problem.remedy + '\n';
    return text;
  }
  return "nothing wrong";
}

std::string complaint_about(const std::string& name) {
  return complaint([&] { read(name); });
}

std::string complaint_of(const std::string& text) {
  return complaint([&] { read_bench(text, "x"); });
}

}  // namespace

TEST_CASE("a filled sheet is read cup by cup") {
  const Bench bench =
      read_bench(test::read_text(test::source_path("recipes/tarn-thick-pouch.bench.csv")), "tarn");
  CHECK(bench.document == "tarn");
  REQUIRE(bench.cups.size() == 7);
  const BenchCup& second = bench.cups[1];
  CHECK(second.line == 3);
  CHECK(second.name == "2");
  CHECK(second.input("acid_g") == 0.27);
  CHECK_FALSE(second.input("water_g"));
  CHECK(second.predicted_ph == 3.75);
  CHECK(second.ph == 4.25);
  CHECK_FALSE(second.ph_diluted);
  CHECK(second.syringe_ml == 9.8);
  CHECK(second.cup_turn == CupTurn::falls);
  CHECK(second.spoon == Spoon::smears);
  CHECK(second.ring_ml == 0.0);
  CHECK(bench.cups[6].groove == Groove::stands);
}

TEST_CASE("columns in any order, byte order mark, CR LF, quotes, blank cells and lines") {
  const Bench bench = read("bench_reordered_bom_crlf.csv");
  REQUIRE(bench.cups.size() == 3);
  CHECK(bench.cups[0].ph == 4.61);
  CHECK(bench.cups[0].name == "b 1");
  CHECK(bench.cups[1].name == "b, 2");
  CHECK(bench.cups[1].input("acid_g") == 0.4);
  CHECK(bench.cups[1].line == 4);
  CHECK_FALSE(bench.cups[1].spoon);
  CHECK_FALSE(bench.cups[2].ph);
}

TEST_CASE("a cup without a name is called by its number") {
  const Bench bench = read_bench("acid_g,ph\r0.2,4.6\r0.3,4.3", "x");
  REQUIRE(bench.cups.size() == 2);
  CHECK(bench.cups[1].name == "2");
}

TEST_CASE("semicolons and tabs part cells too, while numbers keep their point") {
  CHECK(read_bench("cup;acid_g;ph\n1;0.2;4.6\n", "x").cups[0].ph == 4.6);
  CHECK(read_bench("cup\tacid_g\tph\n1\t0.2\t4.6\n", "x").cups[0].ph == 4.6);
}

TEST_CASE("what the ladder prints, the reader reads") {
  const Recipe recipe = test::shipped("tarn-thick-pouch.json");
  const Inputs inputs = inputs_of(recipe);
  const std::string texts[] = {"acid_g=0.2:0.6:0.2", "mass_g:fell mix=62:72:10",
                               "water_per_g_solids=0.5:0.6:0.1"};
  std::string sheet;
  write_ladder_csv(plan_ladder(inputs, read_ladder_axes(texts, inputs)), 1,
                   [&](std::string_view piece) { sheet += piece; });
  // A reading in the first cup: the last nine cells are outlook and eight readings.
  const std::size_t first_end = sheet.find('\n', sheet.find('\n') + 1);
  sheet.replace(first_end - 7, 0, "4.20");
  const Bench bench = read_bench(sheet, "sheet");
  REQUIRE(bench.cups.size() == 12);
  CHECK(bench.cups[0].ph == 4.20);
  CHECK(bench.cups[11].input("acid_g") == 0.6);
  CHECK(bench.cups[11].input("mass_g:fell mix") == 72.0);
  CHECK(bench.cups[11].input("water_per_g_solids") == 0.6);
  CHECK(bench.cups[11].predicted_ph.has_value());
}

TEST_CASE("a sheet parted by semicolons may have decimal commas, but not points beside them") {
  const Bench bench = read("bench_decimal_comma_semicolons.csv");
  CHECK(bench.cups[0].input("acid_g") == 0.2);
  CHECK(bench.cups[0].ph == 4.61);
  // The header may hold a comma of its own.
  CHECK(
      complaint_of("cup;acid_g;ph (gel, meter)\n1;0,2;4\n") ==
      "line 1, column 3 (ph (gel, meter)): this column is not known; write \"ph\" alone: the unit "
      "is in the name, the method an option\n");
  CHECK(complaint_of("cup;acid_g;ph\n1;0,2;4.61\n") ==
        "line 2, column 3 (ph): \"4.61\" has a point in a sheet of decimal commas; write all "
        "decimals in one way\n");
  CHECK(complaint_of("cup;acid_g;ph\n1;0,2;4,6,1\n") ==
        "line 2, column 3 (ph): \"4,6,1\" is not a number; write a plain number, or leave the "
        "cell blank\n");
}

TEST_CASE("elsewhere decimal commas are refused, each with its place and its mended form") {
  CHECK(complaint_of("cup\tacid_g\tph\n1\t0,2\t4.6\n") ==
        "line 2, column 2 (acid_g): \"0,2\" is not a number; write 0.2 with a decimal point\n");
  CHECK(complaint_about("bench_bad_decimal_comma_quoted.csv") ==
        "line 2, column 2 (acid_g): \"0,2\" is not a number; write 0.2 with a decimal point\n"
        "line 3, column 4: 4 cells, but the header has 3; a decimal comma splits a number in two: "
        "write 3.85, not 3,85\n");
  CHECK(complaint_of("cup,acid_g,ph\n1,0.2,\"1,234.5\"\n") ==
        "line 2, column 3 (ph): \"1,234.5\" is not a number; write a plain number, or leave the "
        "cell blank\n");
}

TEST_CASE("columns that are not known, named with a unit, or there twice") {
  CHECK(complaint_about("bench_bad_header.csv") ==
        "line 1, column 3 (ph (meter)): this column is not known; write \"ph\" alone: the unit is "
        "in the name, the method an option\n"
        "line 1, column 4 (spon): this column is not known; did you mean \"spoon\"?\n"
        "line 1, column 5 (pH): this column is not known; write \"ph\" alone: the unit is in the "
        "name, the method an option\n"
        "line 1, column 6 (acid_g): this column is there twice, first as column 2; keep one of the "
        "two\n"
        "line 1, column 7 (blend): this column is not known; take it out, or start from "
        "the table a bench series prints\n");
  CHECK(complaint_of("cup,ph,\n1,4.2,note\n") ==
        "line 1, column 3: this column has no name; name it or take it out\n");
}

TEST_CASE("cells that cannot be read are all reported at once") {
  CHECK(
      complaint_about("bench_bad_cells.csv") ==
      "line 2, column 3 (ph): 14 is not possible, 1 to 10 is; leave the cell blank and read the "
      "cup again with a calibrated meter\n"
      "line 3, column 2 (acid_g): the amount is missing; say what went into this cup; only "
      "readings may stay blank\n"
      "line 3, column 3 (ph): \"4.2 pH\" is not a number; write a plain number, or leave the cell "
      "blank\n"
      "line 3, column 4 (cup_turn): \"hold\" is not known; use \"holds\" or \"falls\", or leave "
      "the cell blank\n"
      "line 4, column 3: 2 cells, but the header has 5; give every column its cell, a blank one "
      "where nothing was read\n"
      "line 5, column 3 (ph): \"nan\" is not a number; write a plain number, or leave the cell "
      "blank\n"
      "line 5, column 5 (ring_ml): -1 is not possible, 0 to 50 is; write the mL of free liquid "
      "per 50 g\n"
      "line 6, column 6: 6 cells, but the header has 5; a decimal comma splits a number in two: "
      "write 3.85, not 3,85\n");
}

TEST_CASE("a sheet without pH readings has nothing to fit") {
  CHECK(complaint_about("bench_bad_no_reading.csv") ==
        ": there is no pH reading in it; type the readings into \"ph\" or \"ph_diluted\"\n");
  CHECK(complaint_about("bench_bad_no_ph_column.csv") ==
        "line 1: there is no column of pH readings; add \"ph\" (on the gel) or \"ph_diluted\" "
        "(10 g gel in 10 g low-mineral water)\n");
  CHECK(complaint_of("") == ": the file is empty; a bench series as CSV is a sheet to type into\n");
  CHECK(complaint_of("\n ,\n") ==
        ": the file is empty; a bench series as CSV is a sheet to type into\n");
}

TEST_CASE("what is no sheet at all is said to be none") {
  CHECK(complaint_of("  {\"format\": 1}") ==
        ": this is a JSON document, not a sheet of readings; name the recipe first, then the CSV "
        "file\n");
  CHECK(complaint_about("bench_bad_utf16.csv") ==
        ": this is not plain text (UTF-16, or not a CSV file at all); save the sheet as \"CSV "
        "UTF-8\"\n");
  CHECK(complaint_about("bench_bad_latin1.csv") ==
        "line 2: byte 1 is not text in UTF-8; save the sheet as \"CSV UTF-8\"\n");
  CHECK(complaint_of("cup,ph\n\x1b[2J,4\n") ==
        "line 2: byte 1 is not text in UTF-8; save the sheet as \"CSV UTF-8\"\n");
  CHECK(complaint_about("bench_bad_quote.csv") ==
        "line 2, column 3: a double quote is opened and not closed on this line; close it, or take "
        "it out\n");
  CHECK(complaint_of("cup,ph\n\"a\" b,4\n") ==
        "line 2, column 1: there is text after the closing quote; put the whole cell in quotes, or "
        "none of it\n");
  CHECK(complaint_about("bench_bad_two_waters.csv") ==
        "line 1: the water is given in more than one way; keep one of \"water_g\" or "
        "\"water_per_g_solids\"\n");
  CHECK(complaint_of(std::string((1U << 20U) + 1, ' ')) ==
        ": the sheet is larger than 1 MiB; is it the right file?\n");
}

TEST_CASE("letters beyond ASCII are text") {
  CHECK(read_bench("cup,ph\n\xc3\xbc\xe2\x82\xac\xf0\x9f\x8d\xaf,4\n", "x").cups[0].name ==
        "\xc3\xbc\xe2\x82\xac\xf0\x9f\x8d\xaf");
}
