#include <fmt/format.h>

#include <algorithm>

#include "base/number.hpp"
#include "base/text.hpp"
#include "gelwright/bench.hpp"
#include "gelwright/knob.hpp"
#include "gelwright/read.hpp"
#include "read/csv_reader.hpp"
#include "read/keys.hpp"

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"bench.ph-lowest", 1, "pH", 0, "readings on gel; below it the meter or the cup is wrong",
     "judgement", Standing::judgement},
    {"bench.ph-highest", 10, "pH", 0, "readings on gel; food gel is never that alkaline",
     "judgement", Standing::judgement},
    {"bench.syringe", 10, "mL", 0, "filled to the mark, released for 10 s", "iddsi-2019",
     Standing::from_memory},
    {"bench.cup-narrowest", 1, "cm", 0, "inside; a narrower one holds any liquid", "judgement",
     Standing::judgement},
    {"bench.cup-widest", 20, "cm", 0, "inside; wider is a bowl", "judgement", Standing::judgement},
    {"bench.ring-highest", 50, "mL", 0, "no more liquid than there is cup", "common-practice",
     Standing::common_practice},
};

constexpr std::size_t longest_name = 80;
/// Far above what anybody reads in a kitchen; they bound the work a sheet can ask for.
constexpr std::size_t most_cups = 10'000;
constexpr std::size_t most_columns = 100;
constexpr std::size_t largest_document_bytes = 1U << 20U;
constexpr Bounds ph_bounds{value_of(data, "bench.ph-lowest"), value_of(data, "bench.ph-highest"),
                           false};
constexpr Bounds syringe_bounds{0, value_of(data, "bench.syringe"), false};
constexpr Bounds ring_bounds{0, value_of(data, "bench.ring-highest"), false};
constexpr Bounds cup_width_bounds{value_of(data, "bench.cup-narrowest"),
                                  value_of(data, "bench.cup-widest"), false};
constexpr Bounds computed_ph_bounds{-1, 15, false};

struct NumberColumn {
  std::string_view name;
  Bounds bounds;
  std::string_view remedy;  ///< where the number is out of bounds
};
constexpr std::string_view check_dose = "check the dose and its unit";
constexpr std::string_view check_meter =
    "leave the cell blank and read the cup again with a calibrated meter";

NumberColumn input_column(const KnobInfo& knob) {
  return {knob.name, {knob.least, knob.most, !knob.least_counts}, check_dose};
}

/// The knob of a column; that of a solid is followed by the solid's name.
const KnobInfo* knob_of_column(std::string_view name) {
  for (const KnobInfo& knob : knobs()) {
    const bool of_solid = knob.needs == KnobNeeds::solid;
    if (of_solid ? name.starts_with(fmt::format("{}:", knob.name)) : name == knob.name)
      return &knob;
  }
  return nullptr;
}

struct ReadingColumn {
  NumberColumn column;
  std::optional<double> BenchCup::*value;
};
constexpr ReadingColumn reading_columns[] = {
    {{"predicted_ph", computed_ph_bounds, "leave it as the sheet printed it"},
     &BenchCup::predicted_ph},
    {{"ph", ph_bounds, check_meter}, &BenchCup::ph},
    {{"ph_diluted", ph_bounds, check_meter}, &BenchCup::ph_diluted},
    {{"syringe_ml", syringe_bounds, "write the mL left of 10 mL after 10 s"},
     &BenchCup::syringe_ml},
    {{"cup_width_cm", cup_width_bounds, "write the inner width of the cup that was turned, cm"},
     &BenchCup::cup_width_cm},
    {{"ring_ml", ring_bounds, "write the mL of free liquid per 50 g"}, &BenchCup::ring_ml},
};
constexpr Word cup_turns[] = {word("holds", CupTurn::holds), word("falls", CupTurn::falls)};
constexpr Word grooves[] = {word("stands", Groove::stands), word("closes", Groove::closes)};
constexpr Word lumps_words[] = {word("yes", Lumps::yes), word("no", Lumps::no)};
constexpr Word spoons[] = {word("smears", Spoon::smears), word("cracks", Spoon::cracks)};
/// Text columns; `outlook` is the sheet's own prediction and is not read back.
constexpr std::string_view text_columns[] = {"cup",    "outlook", "cup_turn",
                                             "groove", "lumps",   "spoon"};

std::vector<std::string> known_columns() {
  std::vector<std::string> names;
  for (const std::string_view name : text_columns) names.emplace_back(name);
  for (const KnobInfo& knob : knobs())
    if (knob.needs != KnobNeeds::solid) names.emplace_back(knob.name);
  for (const ReadingColumn& each : reading_columns) names.emplace_back(each.column.name);
  return names;
}

/// As column names are written: "Ring (mL)" and "ring-ml" are one name but for the brackets.
std::string column_style(std::string_view text) {
  std::string made = lower(text);
  std::replace_if(
      made.begin(), made.end(), [](char c) { return c == ' ' || c == '-'; }, '_');
  return made;
}

/// A header cell without what stands in brackets after it: "pH (meter)" is "ph".
std::string bare_name(std::string_view name) {
  std::string made = column_style(name.substr(0, name.find_first_of("([")));
  made.erase(made.find_last_not_of('_') + 1);
  return made;
}

/// A cell as shown in a message.
std::string shown(const std::string& cell) {
  constexpr std::size_t longest_shown = 40;
  return cell.size() <= longest_shown ? '"' + cell + '"'
                                      : "a text of " + std::to_string(cell.size()) + " bytes";
}

class SheetReader {
 public:
  SheetReader(const CsvText& csv, std::vector<Problem>& problems)
      : csv_(csv), problems_(problems), header_(csv.rows.front()) {
    for (const std::string& name : header_.cells) knobs_.push_back(knob_of_column(name));
    if (csv.separator != ';') return;
    for (const CsvRow& row : csv.rows)
      for (const std::string& cell : row.cells)
        decimal_commas_ = decimal_commas_ || with_decimal_point(cell);
  }

  std::vector<BenchCup> read() {
    read_header();
    std::vector<BenchCup> cups;
    for (std::size_t r = 1; r < csv_.rows.size(); ++r)
      if (widths_match(csv_.rows[r])) cups.push_back(read_cup(csv_.rows[r], r));
    return cups;
  }

 private:
  std::string place(std::size_t line, std::size_t column) const {
    const std::string& name = column < header_.cells.size() ? header_.cells[column] : "";
    return name.empty() || name.size() > longest_name
               ? fmt::format("line {}, column {}", line, column + 1)
               : fmt::format("line {}, column {} ({})", line, column + 1, name);
  }
  void refuse(std::string where, std::string what, std::string remedy) {
    problems_.push_back({std::move(where), std::move(what), std::move(remedy)});
  }

  void read_header() {
    const std::vector<std::string> known = known_columns();
    for (std::size_t c = 0; c < header_.cells.size(); ++c) {
      const std::string& name = header_.cells[c];
      const auto first = std::find(header_.cells.begin(), header_.cells.end(), name);
      const auto earlier = static_cast<std::size_t>(first - header_.cells.begin());
      if (name.empty()) {
        check_nameless(c);
      } else if (earlier < c) {
        refuse(place(header_.line, c),
               fmt::format("this column is there twice, first as column {}", earlier + 1),
               "keep one of the two");
      } else if (knobs_[c] == nullptr &&
                 std::find(known.begin(), known.end(), name) == known.end()) {
        refuse_column(c, known);
      }
    }
    refuse_clashes();
    const bool any_ph = column("ph") || column("ph_diluted");
    if (!any_ph && problems_.empty())
      refuse(fmt::format("line {}", header_.line), "there is no column of pH readings",
             "add \"ph\" (on the gel) or \"ph_diluted\" (10 g gel in 10 g low-mineral water)");
  }

  void refuse_clashes() {
    std::vector<std::string> waters;
    std::vector<std::string> taps;
    bool shared = false;
    for (std::size_t c = 0; c < header_.cells.size(); ++c) {
      const KnobInfo* knob = knobs_[c];
      const std::string& name = header_.cells[c];
      if (knob == nullptr) continue;
      if (knob->turns == KnobTurns::water) waters.push_back(name);
      shared = shared || knob->turns == KnobTurns::tap_share;
      if (knob->turns == KnobTurns::tap_share || knob->turns == KnobTurns::tap_ion)
        taps.push_back(name);
    }
    if (waters.size() > 1)
      refuse(fmt::format("line {}", header_.line), "the water is given in more than one way",
             fmt::format("keep one of {}", quoted_list(waters)));
    if (shared && taps.size() > 1)
      refuse(fmt::format("line {}", header_.line), "the tap water is given in more than one way",
             fmt::format("keep one of {}", quoted_list(taps)));
  }

  void refuse_column(std::size_t c, const std::vector<std::string>& known) {
    const std::string& name = header_.cells[c];
    const std::string bare = bare_name(name);
    std::string remedy;
    if (std::find(known.begin(), known.end(), bare) != known.end())
      remedy =
          fmt::format("write \"{}\" alone: the unit is in the name, the method an option", bare);
    else
      remedy = did_you_mean(bare.empty() ? name : bare, known);
    for (const std::string& each : known)
      if (remedy.empty() && bare.starts_with(each + '_')) remedy = "write \"" + each + "\" alone";
    if (remedy.empty()) remedy = "take it out, or start from the table a bench series prints";
    refuse(place(header_.line, c), "this column is not known", remedy);
  }

  /// Spreadsheets leave empty columns behind; only one with something in it matters.
  void check_nameless(std::size_t c) {
    for (std::size_t r = 1; r < csv_.rows.size(); ++r) {
      const CsvRow& row = csv_.rows[r];
      if (row.cells.size() == header_.cells.size() && !row.cells[c].empty()) {
        refuse(place(header_.line, c), "this column has no name", "name it or take it out");
        return;
      }
    }
  }

  bool widths_match(const CsvRow& row) {
    const std::size_t have = row.cells.size();
    const std::size_t want = header_.cells.size();
    if (have == want) return true;
    const std::string what = fmt::format("{} cells, but the header has {}", have, want);
    const std::string where = fmt::format("line {}, column {}", row.line, std::min(have, want) + 1);
    if (have < want)
      refuse(where, what, "give every column its cell, a blank one where nothing was read");
    else
      refuse(where, what,
             csv_.separator == ',' ? "a decimal comma splits a number in two: write 3.85, not 3,85"
                                   : "take out what stands after the last column");
    return false;
  }

  std::optional<std::size_t> column(std::string_view name) const {
    const auto found = std::find(header_.cells.begin(), header_.cells.end(), name);
    if (found == header_.cells.end()) return std::nullopt;
    return static_cast<std::size_t>(found - header_.cells.begin());
  }

  std::optional<double> number(const CsvRow& row, std::size_t c, const NumberColumn& kind) {
    const std::string& cell = row.cells[c];
    if (cell.empty()) return std::nullopt;
    const std::optional<std::string> pointed = with_decimal_point(cell);
    // Who parts cells by semicolons keeps the comma for decimals, and the point for thousands.
    if (decimal_commas_ && cell.find('.') != std::string::npos) {
      refuse(place(row.line, c), shown(cell) + " has a point in a sheet of decimal commas",
             "write all decimals in one way");
      return std::nullopt;
    }
    const std::optional<double> value = to_number(decimal_commas_ && pointed ? *pointed : cell);
    if (!value) {
      std::string remedy = "write a plain number, or leave the cell blank";
      if (pointed) remedy = fmt::format("write {} with a decimal point", *pointed);
      refuse(place(row.line, c), shown(cell) + " is not a number", remedy);
      return std::nullopt;
    }
    const bool low =
        kind.bounds.above ? *value <= kind.bounds.at_least : *value < kind.bounds.at_least;
    if (!low && *value <= kind.bounds.at_most) return value;
    refuse(place(row.line, c),
           fmt::format("{} is not possible, {:.10g} to {:.10g} is", cell, kind.bounds.at_least,
                       kind.bounds.at_most),
           std::string(kind.remedy));
    return std::nullopt;
  }

  template <class T>
  std::optional<T> choice(const CsvRow& row, std::string_view name, std::span<const Word> choices) {
    const std::optional<std::size_t> c = column(name);
    if (!c || row.cells[*c].empty()) return std::nullopt;
    std::vector<std::string> words;
    for (const Word& each : choices) {
      if (each.text == row.cells[*c]) return static_cast<T>(each.value);
      words.emplace_back(each.text);
    }
    refuse(place(row.line, *c), shown(row.cells[*c]) + " is not known",
           fmt::format("use {}, or leave the cell blank", quoted_list(words)));
    return std::nullopt;
  }

  void read_input(const CsvRow& row, std::size_t c, const NumberColumn& kind, BenchCup& cup) {
    if (row.cells[c].empty())
      refuse(place(row.line, c), "the amount is missing",
             "say what went into this cup; only readings may stay blank");
    else if (const auto amount = number(row, c, kind))
      cup.inputs.push_back({header_.cells[c], *amount});
  }

  BenchCup read_cup(const CsvRow& row, std::size_t index) {
    BenchCup cup;
    cup.line = row.line;
    const std::optional<std::size_t> name = column("cup");
    cup.name = name && !row.cells[*name].empty() ? row.cells[*name] : std::to_string(index);
    for (std::size_t c = 0; c < header_.cells.size(); ++c)
      if (knobs_[c] != nullptr) read_input(row, c, input_column(*knobs_[c]), cup);
    for (const ReadingColumn& each : reading_columns)
      if (const auto c = column(each.column.name)) cup.*each.value = number(row, *c, each.column);
    cup.cup_turn = choice<CupTurn>(row, "cup_turn", cup_turns);
    cup.groove = choice<Groove>(row, "groove", grooves);
    cup.lumps = choice<Lumps>(row, "lumps", lumps_words);
    cup.spoon = choice<Spoon>(row, "spoon", spoons);
    return cup;
  }

  const CsvText& csv_;
  std::vector<Problem>& problems_;
  const CsvRow& header_;
  std::vector<const KnobInfo*> knobs_;  ///< of each column; null where it is none
  bool decimal_commas_ = false;         ///< "4,61" is a number
};

bool small_enough(const CsvText& csv, std::vector<Problem>& problems) {
  const std::size_t columns = csv.rows.front().cells.size();
  if (columns > most_columns)
    problems.push_back({fmt::format("line {}", csv.rows.front().line),
                        fmt::format("{} columns", columns),
                        fmt::format("keep at most {}", most_columns)});
  const std::size_t cups = csv.rows.size() - 1;
  if (cups > most_cups)
    problems.push_back(
        {"", fmt::format("{} cups", cups), fmt::format("keep at most {}", most_cups)});
  return columns <= most_columns && cups <= most_cups;
}

}  // namespace

std::optional<double> BenchCup::input(std::string_view wanted) const {
  for (const BenchInput& each : inputs)
    if (each.name == wanted) return each.amount;
  return std::nullopt;
}

Bench read_bench(std::string_view text, std::string document) {
  std::vector<Problem> problems;
  if (text.size() > largest_document_bytes)
    throw InputError(document, {{"", "the sheet is larger than 1 MiB", "is it the right file?"}});
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first != std::string_view::npos && text[first] == '{')
    throw InputError(document, {{"", "this is a JSON document, not a sheet of readings",
                                 "name the recipe first, then the CSV file"}});
  const CsvText csv = split_csv(text, problems);
  if (csv.readable && csv.rows.empty())
    throw InputError(document,
                     {{"", "the file is empty", "a bench series as CSV is a sheet to type into"}});
  Bench bench;
  // What is not text would only be echoed to the terminal.
  if (csv.readable && small_enough(csv, problems)) bench.cups = SheetReader(csv, problems).read();
  if (problems.empty()) {
    const bool read = std::any_of(bench.cups.begin(), bench.cups.end(),
                                  [](const BenchCup& cup) { return cup.ph || cup.ph_diluted; });
    if (!read)
      problems.push_back(
          {"", "there is no pH reading in it", "type the readings into \"ph\" or \"ph_diluted\""});
  }
  if (!problems.empty()) throw InputError(document, std::move(problems));
  bench.document = std::move(document);
  return bench;
}

std::span<const Datum> bench_data() {
  return data;
}

}  // namespace gelwright
