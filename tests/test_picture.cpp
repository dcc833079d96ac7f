// Pictures: round ticks, series where their axes say, words that do not touch, and a sentence.
#include <cmath>
#include <regex>
#include <string>
#include <vector>

#include "catch.hpp"
#include "gelwright/picture.hpp"
#include "picture/ticks.hpp"
#include "program.hpp"

using namespace gelwright;
using namespace gelwright::detail;
using namespace gelwright::test;

namespace {

std::size_t count_of(const std::string& text, const std::string& what) {
  std::size_t seen = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1))
    ++seen;
  return seen;
}

Picture sample() {
  Picture picture;
  picture.key = "sample";
  picture.title = "pH against acid";
  picture.sentence = "It falls.";
  picture.x = {"acid", "g", 0, 10};
  picture.y = {"pH", "", 3, 7};
  picture.curves = {{"ph", "worked out", {0, 5, 10}, {7, 4, 3}}};
  picture.points = {{"cups", "your cups", {5, 20}, {4, 4}, {"A", "off the axis"}, {1, 1}}};
  return picture;
}

}  // namespace

TEST_CASE("ticks stand at whole multiples of 1, 2 or 5 times a power of ten") {
  struct Axis {
    double low, high;
    std::vector<double> at;
    int decimals;
  };
  for (const Axis& axis :
       {Axis{0, 10, {0, 2, 4, 6, 8, 10}, 0}, Axis{3, 7, {3, 4, 5, 6, 7}, 0},
        Axis{0, 7.34, {0, 2, 4, 6}, 0}, Axis{0.1, 0.34, {0.1, 0.15, 0.2, 0.25, 0.3}, 2},
        Axis{0, 120, {0, 50, 100}, 0}, Axis{-0.3, 0.3, {-0.2, 0, 0.2}, 1}}) {
    const Ticks ticks = round_ticks(axis.low, axis.high, 6);
    INFO(axis.low << " to " << axis.high);
    CHECK(ticks.decimals == axis.decimals);
    REQUIRE(ticks.at.size() == axis.at.size());
    for (std::size_t i = 0; i < ticks.at.size(); ++i)
      CHECK(std::abs(ticks.at[i] - axis.at[i]) < 1e-12);
  }
  CHECK(round_ticks(1, 1, 6).at.empty());
  for (double low = -3; low < 3; low += 0.37)
    for (double length = 1e-6; length < 1e6; length *= 3.3) {
      const Ticks ticks = round_ticks(low, low + length, 6);
      CHECK(ticks.at.size() >= 2);
      CHECK(ticks.at.size() <= 6);
    }
}

TEST_CASE("a picture says what it shows, and a point off its axes is not drawn") {
  const std::string svg = draw(sample(), true);
  INFO(svg);
  CHECK(svg.find("<svg xmlns=\"http://www.w3.org/2000/svg\"") == 0);
  CHECK(svg.find("<title id=\"sample-title\">pH against acid</title>") != std::string::npos);
  CHECK(svg.find("<desc id=\"sample-sentence\">It falls.</desc>") != std::string::npos);
  // The marker of the cup, and the one that explains it.
  CHECK(count_of(svg, "<circle") == 2);
  CHECK(svg.find("off the axis") == std::string::npos);
  CHECK(draw(sample(), false).find("<style") == std::string::npos);
}

TEST_CASE("a map is drawn in runs, each kind and strength one path, unknown cells left blank") {
  Picture picture = sample();
  picture.curves.clear();
  picture.points.clear();
  picture.regions = Regions{"texture",
                            "likeliest",
                            {"pours", "thick"},
                            4,
                            2,
                            {0, 0, 1, 1, 0, 1, 1, no_kind},
                            {0.9, 0.9, 0.4, 0.6, 0.9, 0.6, 0.6, 0}};
  const std::string svg = draw(picture, false);
  INFO(svg);
  const std::regex run("data-series=\"texture\"");
  // pours sure; thick unsure; thick middling.
  CHECK(count_of(svg, "data-series=\"texture\"") == 3);
  // Runs: pours 0-1 below, 0 above; thick unsure 2 below; thick middling 3 below, 1-2 above.
  std::size_t runs = 0;
  for (std::size_t at = svg.find("data-series"); at != std::string::npos;
       at = svg.find("data-series", at + 1)) {
    const std::size_t from = svg.rfind("d=\"", at);
    runs += count_of(svg.substr(from, svg.find('"', from + 3) - from), "z");
  }
  CHECK(runs == 5);
}

TEST_CASE("lanes: markers, bars and limits stand where the ticks say") {
  Picture picture;
  picture.key = "lanes";
  picture.title = "Taken when";
  picture.x = {"from the start", "h", 0, 4};
  picture.lanes = Lanes{"warm",
                        "taken",
                        "warm",
                        "limit",
                        {{"pouch 1", "water", {0.5, 1.25}, 0.0, 1.25, 3.0},
                         {"bar 1", "no water", {3.5, 9}, {}, {}, {}},
                         {"pouch 2", "water", {2}, 1.0, 2.0, 5.0}}};
  const std::string svg = draw(picture, false);
  INFO(svg);
  const auto places = [&svg](const std::string& pattern) {
    const std::regex sought(pattern);
    std::vector<double> found;
    for (std::sregex_iterator at(svg.begin(), svg.end(), sought), end; at != end; ++at)
      for (std::size_t i = 1; i < at->size(); ++i) found.push_back(std::stod((*at)[i].str()));
    return found;
  };
  const std::vector<double> ticks = places("<text x=\"([0-9.]+)\"[^>]*class=\"x-tick\"");
  const std::vector<double> numbers = places("class=\"x-tick\">([0-9.]+)<");
  REQUIRE(ticks.size() == numbers.size());
  REQUIRE(ticks.size() >= 2);
  const double per_hour = (ticks.back() - ticks.front()) / (numbers.back() - numbers.front());
  const auto stand_at = [&](const std::vector<double>& drawn, const std::vector<double>& hours) {
    REQUIRE(drawn.size() == hours.size());
    for (std::size_t i = 0; i < hours.size(); ++i)
      CHECK(std::abs(drawn[i] - (ticks.front() + (hours[i] - numbers.front()) * per_hour)) < 0.02);
  };
  std::vector<double> marks = places("<circle cx=\"([0-9.]+)\"");
  marks.pop_back();  // explains the others
  stand_at(marks, {0.5, 1.25, 3.5, 2});
  stand_at(places("d=\"M([0-9.]+) [0-9.]+H([0-9.]+)V[^\"]*\" class=\"band\" data-series=\"warm\""),
           {0, 1.25, 1, 2});
  stand_at(places("d=\"M([0-9.]+) [^\"]*\" class=\"curve\" data-series=\"warm-limit\""), {3});
  CHECK(svg.find("pouch 1: water") != std::string::npos);
  // A label that leaves no room for the words behind it has a line of its own.
  picture.lanes->rows[1].label = std::string(45, 'x');
  CHECK(draw(picture, false).find(">no water<") != std::string::npos);
}

TEST_CASE("a name in a picture cannot become markup") {
  Picture picture = sample();
  picture.title = picture.sentence = picture.x.label = picture.y.label = "</title><script>";
  picture.curves[0].label = picture.points[0].label = picture.points[0].names[0] = "<b>&";
  const std::string svg = draw(picture, false);
  CHECK(svg.find("<script>") == std::string::npos);
  CHECK(svg.find("<b>") == std::string::npos);
}

TEST_CASE("pictures are printed alone, or the command says why there is none") {
  for (const std::string arguments :
       {"sheet recipes/tarn-thick-pouch.json",
        "sheet recipes/tarn-thick-pouch.json --show texture_map",
        "sheet recipes/gellan-xanthan-pouch.json --show gum_map",
        "sheet recipes/tarn-thick-pouch.json --show price_picture",
        "fit recipes/tarn-thick-pouch.json recipes/tarn-thick-pouch.bench.csv",
        "spread recipes/calcium-set-pouch.json --draws 500",
        "carry recipes/tarn-thick-pouch.json --hours 1 --carbohydrate-g-per-hour 60",
        "log --score --notebook tests/data/notebook.jsonl"}) {
    const Printed printed = run_program(arguments + " --format svg");
    INFO(arguments << '\n' << printed.text);
    CHECK(printed.exit_code == 0);
    CHECK(printed.text.find("<svg ") == 0);
    CHECK(printed.text.find("</svg>\n") == printed.text.size() - 7);
  }
  const Printed no_gum = run_program("sheet tests/data/no-gum.json --show gum_map --format svg");
  CHECK(no_gum.exit_code == 2);
  CHECK(no_gum.text.find("No picture: ") != std::string::npos);
  const std::string too_warm =
      "carry recipes/tarn-thick-pouch.json --hours 1 --carbohydrate-g-per-hour 60 "
      "--warm-before-hours 9";
  const Printed nothing_taken = run_program(too_warm + " --format svg");
  CHECK(nothing_taken.exit_code == 2);
  CHECK(nothing_taken.text.find("No picture: nothing is taken on this run.") != std::string::npos);
  const Printed page = run_program(too_warm + " --format html");
  CHECK(page.text.find("No picture: nothing is taken on this run.") != std::string::npos);
  CHECK(page.text.find("<svg") == std::string::npos);
  const Printed unseen = run_program(
      "log --score --notebook tests/data/notebook.jsonl --until 2020-01-01 --format svg");
  CHECK(unseen.exit_code == 2);
  CHECK(unseen.text.find("No picture: no entry has a texture") != std::string::npos);
  const Printed words = run_program("words --format svg");
  CHECK(words.exit_code == 2);
  CHECK(words.text.find("there is no picture here") != std::string::npos);
}

TEST_CASE("text says a picture in its sentence, and a recipe without one says why") {
  const Printed curve = run_program("sheet recipes/tarn-thick-pouch.json --show acid_curve");
  INFO(curve.text);
  CHECK(curve.exit_code == 0);
  CHECK(curve.text.find("MORE OR LESS ACID\nWith citric acid anhydrous from none to ") !=
        std::string::npos);
  const Printed none = run_program("sheet tests/data/no-gum.json --show price_picture,gum_map");
  INFO(none.text);
  CHECK(none.exit_code == 0);
  CHECK(count_of(none.text, "No picture: ") == 2);
}
