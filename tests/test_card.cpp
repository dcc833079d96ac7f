// The first screen: short, plain, and nothing on it that the scripts' copy does not say too.
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "base/rounding.hpp"
#include "base/text.hpp"
#include "card_random.hpp"
#include "catch.hpp"
#include "gelwright/advise.hpp"
#include "gelwright/sheet.hpp"
#include "recipes.hpp"

using namespace gelwright;

namespace {

struct Card {
  std::string text;
  nlohmann::json json;
  Report seen;
};

Card card_of(const Inputs& inputs, const Page& page = {}) {
  const Evaluation evaluation = evaluate(inputs);
  const Report sheet =
      sheet_report(inputs, evaluation, advise(inputs, evaluation, {.edges = false}));
  Card card;
  card.seen = seen(sheet, {});
  card.text = render(card.seen, Format::text, page);
  card.json = nlohmann::json::parse(render(sheet, Format::json));
  return card;
}

Card shipped_card(const std::string& name, const Page& page = {}) {
  const Recipe recipe = test::shipped(name);
  return card_of(as_measured(as_weighed(resolve(recipe))), page);
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// All that is said on it, cell by cell.
std::vector<std::string> said_on(const Report& report) {
  std::vector<std::string> said;
  const auto say = [&said](const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell.value)) said.push_back(*text);
  };
  for (const Section& section : report.sections) {
    for (const Figure& figure : section.figures)
      if (figure.shown != Shown::json_only) say(figure.cell);
    for (const Table& table : section.tables)
      for (const auto& row : table.rows)
        for (std::size_t c = 0; c < row.size(); ++c)
          if (table.columns[c].shown != Shown::json_only) say(row[c]);
    for (const Lines& lines : section.lines)
      if (lines.shown != Shown::json_only)
        said.insert(said.end(), lines.items.begin(), lines.items.end());
  }
  return said;
}

/// Parted where one ends: a full stop, an exclamation or question mark, then a space.
std::vector<std::string> sentences_of(const std::string& text) {
  std::vector<std::string> sentences;
  std::size_t from = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool ends = std::string(".!?").find(text[at]) != std::string::npos &&
                      (at + 1 == text.size() || text[at + 1] == ' ');
    if (!ends) continue;
    sentences.push_back(text.substr(from, at + 1 - from));
    from = at + 2;
  }
  if (from < text.size()) sentences.push_back(text.substr(from));
  return sentences;
}

std::ptrdiff_t words_in(const std::string& sentence) {
  std::istringstream in(sentence);
  std::ptrdiff_t words = 0;
  for (std::string word; in >> word;)
    if (std::any_of(word.begin(), word.end(), [](unsigned char c) { return std::isalnum(c) != 0; }))
      ++words;
  return words;
}

/// As it stands in the text wherever a line was broken.
std::string unwrapped(const std::string& text) {
  return std::regex_replace(text, std::regex("\\s+"), " ");
}

/// A figure as whole number or with its decimals, not as a part of a longer one.
bool stands(const std::string& text, const std::string& figure) {
  for (std::size_t at = text.find(figure); at != std::string::npos;
       at = text.find(figure, at + 1)) {
    const std::size_t end = at + figure.size();
    const auto digit = [&](std::size_t i) { return i < text.size() && std::isdigit(text[i]) != 0; };
    const bool longer_left = at > 0 && (digit(at - 1) || text[at - 1] == '.');
    const bool longer_right =
        digit(end) || (end < text.size() && text[end] == '.' && digit(end + 1));
    if (!longer_left && !longer_right) return true;
  }
  return false;
}

/// Every figure of the scripts' procedure stands on the card, and what it says about keeping.
void check_figures(const Card& card) {
  const std::string text = unwrapped(card.text);
  for (const auto& step : card.json.at("procedure")) {
    const std::string words = step.at("words");
    INFO(words);
    CHECK(text.find(unwrapped(words)) != std::string::npos);
    for (const char* key : {"weigh_g", "display_g", "solute_g", "solvent_g", "fill_g"}) {
      if (step.at(key).is_null()) continue;
      const double figure = step.at(key);
      INFO(key << " " << figure);
      // Pouches are filled to the gram; without a scale figures are rounded by their size.
      const bool fill = std::string(key) == "fill_g";
      const bool rounded = fill || step.at("scale").is_null();
      const int by_size = figure >= 100 ? 1 : figure >= 1 ? 2 : 3;
      bool found = false;
      for (int decimals = 0; decimals <= 4; ++decimals) {
        if (rounded && decimals != (fill ? 0 : by_size)) continue;
        const std::string shown = detail::fixed(figure, decimals);
        if (rounded || std::abs(std::stod(shown) - figure) <= 1e-9)
          found = found || stands(text, shown);
      }
      CHECK(found);
    }
  }
  const auto& expect = card.json.at("expect");
  const std::string keep = text.substr(text.find("KEEP"));
  for (const char* key : {"where_c", "warm_hours", "hot_day_warm_hours"})
    CHECK(stands(keep, fmt::format("{}", expect.at("keep").at(key).get<double>())));
  const double hours = expect.at("keep").at("hours");
  CHECK((stands(keep, fmt::format("{} hour", hours)) ||
         stands(keep, fmt::format("{} day", hours / 24))));
  CHECK(keep.find(expect.at("keep").at("decided_by").get<std::string>()) != std::string::npos);
  for (const auto& flag : card.json.at("flags")) {
    if (flag.at("level") != "stop") continue;
    const std::string message = unwrapped(flag.at("message"));
    INFO(message);
    CHECK(text.find(message.substr(1)) != std::string::npos);  // the first letter is a capital
  }
}

}  // namespace

TEST_CASE("every shipped recipe's card is one page: 60 lines of 80 columns") {
  // 6 lines to the inch are 66 on Letter (11 in), 70 on A4 (297 mm): 60 leave a margin on both.
  for (const char* name : test::shipped_names) {
    const Card card = shipped_card(name);
    INFO(name << "\n" << card.text);
    const std::vector<std::string> lines = lines_of(card.text);
    CHECK(lines.size() <= 60);
    for (const std::string& line : lines) CHECK(detail::display_width(line) <= 80);
    CHECK(std::count(card.text.begin() + static_cast<std::ptrdiff_t>(card.text.rfind("\n\n") + 2),
                     card.text.end(), '\n') <= 4);
  }
}

TEST_CASE("a card fits a narrower terminal, and shows signs where the terminal can") {
  for (const char* name : test::shipped_names) {
    const Card card = shipped_card(name, {.width = 60, .utf8 = true});
    INFO(name << "\n" << card.text);
    for (const std::string& line : lines_of(card.text)) CHECK(detail::display_width(line) <= 60);
    CHECK(card.text.find("degC") == std::string::npos);
    CHECK(card.text.find("\u00b0C") != std::string::npos);
  }
}

TEST_CASE("a card says it in sentences of at most 20 words, none of them private") {
  const std::regex privately("\\b(R2|routes?|grade|carboxylates?|stocks?|protons?)\\b",
                             std::regex::icase);
  for (const char* name : test::shipped_names)
    for (const std::string& said : said_on(shipped_card(name).seen)) {
      INFO(name << ": " << said);
      CHECK_FALSE(std::regex_search(said, privately));
      for (const std::string& sentence : sentences_of(said)) {
        INFO(sentence);
        CHECK(words_in(sentence) <= 20);
      }
    }
}

TEST_CASE("every figure scripts get of the procedure stands on the card, shipped recipes") {
  for (const char* name : test::shipped_names) {
    INFO(name);
    check_figures(shipped_card(name));
  }
}

TEST_CASE("every figure scripts get of the procedure stands on the card, random recipes") {
  for (std::uint64_t trial = 0; trial < 60; ++trial) {
    const std::string text = test::random_batch(trial);
    INFO(text);
    const Recipe recipe = test::recipe_with(text, trial % 2 == 0 ? "pouch" : "drink");
    const Card card = card_of(as_weighed(inputs_of(recipe)));
    INFO(card.text);
    check_figures(card);
    for (const std::string& line : lines_of(card.text)) CHECK(detail::display_width(line) <= 80);
  }
}

TEST_CASE("a STOP is never left out to save room") {
  // One serving on a coarse scale: each line is a STOP of its own.
  std::string solids;
  for (const char* sugar : {"sucrose", "fructose", "isomaltulose", "maltodextrin DE 12",
                            "sodium chloride", "trisodium citrate dihydrate", "sodium alginate"})
    solids += fmt::format("{}{{\"ingredient\": \"{}\", \"mass_g\": 0.3}}",
                          solids.empty() ? "" : ", ", sugar);
  const Recipe recipe =
      test::recipe_with("\"solids\": [" + solids +
                        R"(], "water": {"mass_g": 40}, "batch": {"servings": 1, "scales": [
         {"name": "kitchen", "readability_g": 1, "capacity_g": 5000}]})");
  const Card card = card_of(as_weighed(inputs_of(recipe)));
  std::ptrdiff_t stops = 0;
  for (const auto& flag : card.json.at("flags")) stops += flag.at("level") == "stop" ? 1 : 0;
  CHECK(stops > 5);
  const std::vector<std::string> lines = lines_of(card.text);
  CHECK(std::count_if(lines.begin(), lines.end(),
                      [](const std::string& line) { return line.starts_with("STOP "); }) == stops);
  check_figures(card);
}
