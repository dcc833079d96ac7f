// The notebook: lines in and out, what is kept unread, the score against hand calculations.
#include <algorithm>
#include <cmath>

#include "catch.hpp"
#include "gelwright/log_report.hpp"
#include "gelwright/notebook.hpp"
#include "program.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::Printed;
using gelwright::test::run_program;

namespace {

/// An entry whose likeliest texture was `foretold`, at `chance`, the rest shared out evenly.
NotebookEntry entry(const std::string& day, gel::Texture foretold, double chance,
                    std::optional<gel::Texture> seen) {
  NotebookEntry made;
  made.made = *read_day(day);
  made.recipe = "thick pouch";
  made.file = "thick.json";
  made.content = "0123456789abcdef";
  made.program = "0.1.0";
  made.forecast.ph = 3.7;
  made.forecast.ph_low = 3.2;
  made.forecast.ph_high = 4.2;
  made.forecast.chances.emplace();
  for (double& each : made.forecast.chances->chance) each = (1 - chance) / 6;
  (*made.forecast.chances)[foretold] = chance;
  made.texture = seen;
  return made;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("an entry comes back from its line as it went in") {
  NotebookEntry made = entry("2026-07-04", gel::Texture::soft, 0.7, gel::Texture::bits);
  made.servings = 10;
  made.weighed = {{"acid", 4.1}, {"fell mix", 735}};
  made.ph = 3.55;
  made.ph_with = PhMethod::strips;
  made.syringe_ml = 6;
  made.cup_turn = CupTurn::falls;
  made.spoon = Spoon::cracks;
  made.went_down = 4;
  made.note = "froth; \"too sweet\" \xc3\xa9 \x1b[31m";
  const std::string line = notebook_line(made);
  CHECK(line.back() == '\n');
  CHECK(line.find('\n') == line.size() - 1);
  const Notebook back = read_notebook(line, "book");
  REQUIRE(back.unread.empty());
  REQUIRE(back.entries.size() == 1);
  const NotebookEntry& read = back.entries[0];
  CHECK(read.line == 1);
  CHECK(read.made == made.made);
  CHECK(read.recipe == made.recipe);
  CHECK(read.content == made.content);
  CHECK(read.servings == 10);
  REQUIRE(read.weighed.size() == 2);
  CHECK(read.weighed[0].batch_g + read.weighed[1].batch_g == 739.1);
  CHECK(read.ph == 3.55);
  CHECK(read.ph_with == PhMethod::strips);
  CHECK(read.syringe_ml == 6.0);
  CHECK(read.cup_turn == CupTurn::falls);
  CHECK(read.spoon == Spoon::cracks);
  CHECK(read.texture == gel::Texture::bits);
  CHECK(read.went_down == 4);
  CHECK(read.note == made.note);
  CHECK_THAT((*read.forecast.chances)[gel::Texture::soft], near(0.7, 1e-4));
  CHECK(notebook_line(read) == line);
}

TEST_CASE("a torn line, one of a newer version and one that is no entry are kept and said") {
  const std::string good =
      notebook_line(entry("2026-07-04", gel::Texture::soft, 0.7, gel::Texture::soft));
  const std::string newer = "{\"format\": \"gelwright/notebook-2\", \"made\": {\"at\": 3}}\n";
  const std::string torn = good.substr(0, 40);
  const Notebook read =
      read_notebook(good + newer + "\n" + "[1, 2]\n" + torn + "\n" + good + torn, "book");
  REQUIRE(read.entries.size() == 2);
  CHECK(read.entries[0].line == 1);
  CHECK(read.entries[1].line == 6);
  REQUIRE(read.unread.size() == 4);
  CHECK(read.unread[0].line == 2);
  CHECK(read.unread[0].why == "a newer version of the program wrote it");
  CHECK(read.unread[1].line == 4);
  CHECK(read.unread[1].why == "it is not an object");
  CHECK(read.unread[2].line == 5);
  CHECK(holds(read.unread[2].why, "not JSON"));
  CHECK(read.unread[3].line == 7);
  CHECK(holds(read.unread[3].why, "breaks off"));
  // What is missing or wrong in a line is named.
  const auto why = [](const std::string& members) {
    const Notebook bad =
        read_notebook("{\"format\": \"gelwright/notebook-1\", " + members + "}\n", "book");
    REQUIRE(bad.unread.size() == 1);
    return bad.unread[0].why;
  };
  CHECK(holds(why(R"("made": "4.7.2026")"), "4.7.2026"));
  CHECK(holds(why(R"("made": "2026-07-04")"), "names no \"recipe\""));
  CHECK(holds(why(R"("made": "2026-07-04", "recipe": "a")"), "\"predicted\""));
  CHECK(holds(why(R"("made": "2026-07-04", "recipe": "a", "predicted": {"ph": "x"})"), "number"));
}

TEST_CASE("the last entry of a recipe is the one that was added last") {
  NotebookEntry first = entry("2026-07-04", gel::Texture::soft, 0.7, gel::Texture::soft);
  NotebookEntry other = first;
  other.recipe = "thin bottle";
  NotebookEntry second = first;
  second.note = "second";
  const std::string text =
      notebook_line(first) + notebook_line(second) + notebook_line(other) + "{torn";
  CHECK(last_entry(text, "thick pouch")->note == "second");
  CHECK(last_entry(text, "thin bottle")->note.empty());
  CHECK_FALSE(last_entry(text, "thin"));
  CHECK_FALSE(last_entry("", "thick pouch"));
}

TEST_CASE("the list is chosen by recipe, days and texture, in order of the days") {
  Notebook book;
  book.entries = {entry("2026-07-04", gel::Texture::soft, 0.7, gel::Texture::soft),
                  entry("2026-05-01", gel::Texture::soft, 0.7, gel::Texture::bits),
                  entry("2026-06-01", gel::Texture::soft, 0.7, std::nullopt)};
  book.entries[2].recipe = "thin bottle";
  book.entries[2].file = "thin.json";
  using Places = std::vector<std::size_t>;
  CHECK(chosen(book, {}) == Places{1, 2, 0});
  NotebookFilter filter;
  filter.recipe = "thin";
  CHECK(chosen(book, filter) == Places{2});
  filter = {};
  filter.since = read_day("2026-06-01");
  CHECK(chosen(book, filter) == Places{2, 0});
  filter.until = read_day("2026-06-30");
  CHECK(chosen(book, filter) == Places{2});
  filter = {};
  filter.texture = gel::Texture::bits;
  CHECK(chosen(book, filter) == Places{1});
}

TEST_CASE("the score: hits, mean logarithm, and what chances were worth (hand calculation)") {
  Notebook book;
  book.entries = {entry("2026-07-01", gel::Texture::soft, 0.7, gel::Texture::soft),
                  entry("2026-07-02", gel::Texture::soft, 0.7, gel::Texture::thick),
                  entry("2026-07-03", gel::Texture::thick, 0.94, gel::Texture::thick),
                  entry("2026-07-04", gel::Texture::firm, 1, gel::Texture::pours),
                  entry("2026-07-05", gel::Texture::firm, 0.5, std::nullopt)};
  book.entries[0].ph = 3.6;  // within 3.2 to 4.2
  book.entries[1].ph = 4.4;  // not
  const std::vector<std::size_t> all = {0, 1, 2, 3, 4};
  const NotebookScore found = score(book, all);
  CHECK(found.textures == 4);
  CHECK(found.hits == 2);
  // 0.3 shared by six is 0.05; a chance of nothing counts as 1 in 100.
  CHECK_THAT(found.mean_ln_chance,
             near((std::log(0.7) + std::log(0.05) + std::log(0.94) + std::log(0.01)) / 4, 1e-12));
  const auto& thick = found.by_texture[static_cast<std::size_t>(gel::Texture::thick)];
  CHECK(thick.seen == 2);
  CHECK(thick.hits == 1);
  CHECK_THAT(thick.mean_ln_chance, near((std::log(0.05) + std::log(0.94)) / 2, 1e-12));
  // Four entries have seven chances each; the four that came true are counted once.
  std::size_t chances = 0;
  std::size_t came_true = 0;
  for (const NotebookScore::Bin& bin : found.bins) {
    chances += bin.chances;
    came_true += bin.came_true;
    if (bin.chances > 0) {
      CHECK(bin.mean_chance >= bin.low - 1e-12);
      CHECK(bin.mean_chance <= bin.high + 1e-12);
    }
  }
  CHECK(chances == 28);
  CHECK(came_true == 4);
  CHECK(found.bins.back().came_true == 1);
  CHECK(found.bins.back().chances == 2);
  CHECK(found.each.size() == 4);
  CHECK(found.ph_readings == 2);
  CHECK(found.ph_within == 1);
  CHECK_THAT(found.ph_mean_miss, near((-0.1 + 0.7) / 2, 1e-12));
  CHECK(score(book, {}).textures == 0);
}

TEST_CASE("the score drawn: what chances were worth, and of how many (hand calculation)") {
  Notebook book;
  book.entries = {entry("2026-07-01", gel::Texture::soft, 0.7, gel::Texture::soft),
                  entry("2026-07-02", gel::Texture::soft, 0.7, gel::Texture::thick)};
  const std::vector<std::size_t> all = {0, 1};
  Report report = score_report(book, all);
  add_score_picture(report, score(book, all));
  const auto section =
      std::find_if(report.sections.begin(), report.sections.end(),
                   [](const Section& each) { return each.key == "calibration_picture"; });
  REQUIRE(section != report.sections.end());
  REQUIRE(section->pictures.size() == 1);
  const Picture& picture = section->pictures[0];
  // Twelve chances of 0.3 / 6, one of which came true, and two of 0.7, of which one did.
  const Points& bins = picture.points[0];
  REQUIRE(bins.x.size() == 2);
  CHECK_THAT(bins.x[0], near(5, 1e-9));
  CHECK_THAT(bins.y[0], near(100.0 / 12, 1e-9));
  CHECK_THAT(bins.x[1], near(70, 1e-9));
  CHECK_THAT(bins.y[1], near(50, 1e-9));
  CHECK(bins.names == std::vector<std::string>{"1/12", "1/2"});
  CHECK(holds(picture.sentence, "Of 12 chances given 0 to 10 %, 5 on average, 1 came true."));
  const std::string svg = draw(picture, false);
  for (const std::string& count : bins.names) CHECK(holds(svg, '>' + count + '<'));
}

TEST_CASE("the content of a recipe changes with its gel, and with nothing else") {
  const std::string text = test::read_text(test::source_path("recipes/tarn-thick-pouch.json"));
  const KitchenDocument kitchen = test::shipped_kitchen();
  const std::string now = content_hash(text, "r", kitchen);
  CHECK(now.size() == 16);
  const auto with = [](std::string changed, const std::string& from, const std::string& to) {
    const std::size_t at = changed.find(from);
    REQUIRE(at != std::string::npos);
    return changed.replace(at, from.size(), to);
  };
  CHECK(content_hash(with(text, "\"servings\": 10", "\"servings\": 12"), "r", kitchen) == now);
  CHECK(content_hash(with(text, "Club batch", "Batch"), "r", kitchen) == now);
  CHECK(content_hash(with(text, "{ \"per_g", "{\n\"per_g"), "r", kitchen) == now);
  CHECK(content_hash(with(text, "0.60", "0.61"), "r", kitchen) != now);
  KitchenDocument other = kitchen;
  other.text = with(other.text, "\"sodium_mg\": 250", "\"sodium_mg\": 260");
  CHECK(content_hash(text, "r", other) != now);
  other = kitchen;  // of a water the recipe does not use
  other.text = with(other.text, "\"calcium_mg_per_l\": 104", "\"calcium_mg_per_l\": 105");
  CHECK(content_hash(text, "r", other) == now);
}

TEST_CASE("entries become cups of a bench series, by what was weighed") {
  const Recipe recipe = test::shipped("tarn-thick-pouch.json");
  const Inputs planned = resolve(recipe);
  Notebook book;
  book.entries = {entry("2026-07-01", gel::Texture::soft, 0.7, gel::Texture::soft),
                  entry("2026-07-02", gel::Texture::soft, 0.7, gel::Texture::soft),
                  entry("2026-07-03", gel::Texture::soft, 0.7, gel::Texture::soft)};
  for (NotebookEntry& each : book.entries) each.recipe = recipe.name;
  book.entries[0].servings = 10;
  book.entries[0].weighed = {{"acid", 4.1}, {"water", 450}};
  book.entries[0].ph = 3.6;
  book.entries[1].content = "another";
  book.entries[1].ph = 3.6;
  const NotebookBench found = bench_of(book, recipe.name, "0123456789abcdef", planned);
  CHECK(found.changed == 1);
  CHECK(found.unreadable == 1);
  REQUIRE(found.bench.cups.size() == 1);
  // Ten servings of which 2 % are lost: 4.1 g of the batch are 4.1 x 0.98 / 10 g of a serving.
  CHECK_THAT(*found.bench.cups[0].input("acid_g"), near(0.4018, 1e-9));
  CHECK_THAT(*found.bench.cups[0].input("water_g"), near(44.1, 1e-9));
  CHECK(found.bench.cups[0].ph == 3.6);
}

TEST_CASE("the card tells of the last time, and fit learns from the entries") {
  const std::string with = " recipes/tarn-thick-pouch.json --notebook tests/data/notebook.jsonl";
  const Printed card = run_program("sheet" + with);
  CHECK(card.exit_code == 0);
  CHECK(holds(card.text, "LAST TIME  2026-06-20. \"no time to read anything\"\n"));
  CHECK_FALSE(holds(run_program("sheet recipes/tarn-thick-pouch.json").text, "LAST TIME"));
  CHECK_FALSE(holds(run_program("sheet recipes/syrup-pouch.json --notebook "
                                "tests/data/notebook.jsonl")
                        .text,
                    "LAST TIME"));
  CHECK(holds(run_program("sheet recipes/syrup-pouch.json --notebook none.jsonl").text,
              "there is no notebook yet"));
  const Printed fit = run_program("fit --from-log" + with);
  CHECK(fit.exit_code == 0);
  CHECK(holds(fit.text,
              "From 3 entries of tests/data/notebook.jsonl. Left out: 1 without a reading."));
  CHECK(holds(run_program("fit recipes/tarn-thick-pouch.json").text, "or say --from-log"));
  const Printed none =
      run_program("fit --from-log recipes/syrup-pouch.json --notebook tests/data/notebook.jsonl");
  CHECK(none.exit_code == 2);
  CHECK(holds(none.text, "no entry of the recipe as it is now has a reading"));
}

TEST_CASE("what an entry may not say, and how it is told") {
  const std::string add = "log add recipes/tarn-thick-pouch.json --notebook /nonexistent/n.jsonl ";
  for (const std::string date : {"4.7.2026", "07/04/2026", "2026-7-4", "2026-02-30", "today"}) {
    const Printed refused = run_program(add + "--made '" + date + "'");
    CHECK(refused.exit_code == 2);
    CHECK(refused.text == "gelwright: --made " + date +
                              ": this is not a day; year, month and day, as in 2026-07-04\n");
  }
  CHECK(holds(run_program(add).text, "nobody said when it was made"));
  CHECK(
      holds(run_program(add + "--made 2026-07-04 --texture nice").text, "\"nice\" is no texture"));
  CHECK(run_program(add + "--made 2026-07-04 --went-down 9").exit_code == 2);
  CHECK(run_program(add + "--made 2026-07-04 --ph 30").exit_code == 2);
  CHECK(holds(run_program(add + "--made 2026-07-04 --weighed milk=3").text,
              "\"milk\" is not in this recipe"));
  CHECK(holds(run_program(add + "--made 2026-07-04 --score").text, "is for lists"));
  CHECK(holds(run_program(add + "--made 2026-07-04").text, "cannot be written"));
  CHECK(holds(run_program("log --notebook /nonexistent/n.jsonl").text, "there is no notebook yet"));
  CHECK(holds(run_program("log --ph 4 --notebook tests/data/notebook.jsonl").text,
              "belongs to an entry"));
  CHECK(holds(run_program("log --since yesterday --notebook tests/data/notebook.jsonl").text,
              "as in 2026-07-04"));
}
