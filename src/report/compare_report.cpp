// Side by side on paper: A, B and so on, what differs marked, and the reason in a sentence.
#include "gelwright/compare_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

/// From this share of the whole difference on, one cause is told as most of it, or as part of it.
constexpr double mostly_from = 0.6;
constexpr double partly_from = 0.25;

std::string letter(std::size_t side) {
  return std::string(1, static_cast<char>('A' + static_cast<char>(side)));
}

std::string_view to_text(ComparePart part) {
  switch (part) {
    case ComparePart::amounts:
      return "amounts";
    case ComparePart::water:
      return "water";
    case ComparePart::outcome:
      return "outcome";
    case ComparePart::label:
      return "label";
    case ComparePart::cost:
      return "cost";
  }
  return "";
}

std::string_view to_text(CompareOutcome outcome) {
  switch (outcome) {
    case CompareOutcome::chance_set:
      return "chance_set";
    case CompareOutcome::firmness:
      return "firmness";
    case CompareOutcome::ph:
      return "ph";
  }
  return "";
}

std::string_view to_text(CompareCause cause) {
  switch (cause) {
    case CompareCause::water:
      return "water";
    case CompareCause::solid:
      return "solid";
    case CompareCause::acid:
      return "acid";
    case CompareCause::calcium_salt:
      return "calcium_salt";
    case CompareCause::tap:
      return "tap";
    case CompareCause::making:
      return "making";
    case CompareCause::mix:
      return "mix";
  }
  return "";
}

/// "B is likelier to set than A: 91 chances in 100 against 12"
std::string what_differs(const CompareReason& reason) {
  const std::string a = letter(reason.first);
  const std::string b = letter(reason.second);
  const bool more = reason.second_value > reason.first_value;
  switch (reason.outcome) {
    case CompareOutcome::chance_set:
      return fmt::format("{} is {} to set than {}: {} chances in 100 against {}", b,
                         more ? "likelier" : "less likely", a, fixed(100 * reason.second_value, 0),
                         fixed(100 * reason.first_value, 0));
    case CompareOutcome::firmness:
      return fmt::format(
          "{} is {} than {}, about {} times", b, more ? "firmer" : "softer", a,
          significant(std::pow(10, std::abs(reason.second_value - reason.first_value)), 2));
    case CompareOutcome::ph:
      return fmt::format("{} is {} than {}: pH {} against {}", b, more ? "less sour" : "sourer", a,
                         fixed(reason.second_value, 1), fixed(reason.first_value, 1));
  }
  return "";
}

/// "it has more citric acid: 0.9 g in 100 g against 0.4 g"
std::string cause_words(const CompareEffect& effect) {
  const std::string_view more = effect.second > effect.first ? "more" : "less";
  const auto amounts = [&] {
    return fmt::format("{} g in 100 g against {} g", significant(effect.second, 2),
                       significant(effect.first, 2));
  };
  switch (effect.cause) {
    case CompareCause::water:
      return fmt::format("it has {} water: {}", more, amounts());
    case CompareCause::solid:
    case CompareCause::acid:
    case CompareCause::calcium_salt:
      return fmt::format("it has {} {}: {}", more, effect.ingredient, amounts());
    case CompareCause::tap:
      if (effect.first == effect.second) return "its tap water is another";
      return fmt::format("its tap water has {} calcium: {} mg/L against {}", more,
                         significant(effect.second, 2), significant(effect.first, 2));
    case CompareCause::making:
      return "it is made another way";
    case CompareCause::mix:
      return fmt::format("other things are known of its {}: label, buffer, what cups taught",
                         effect.ingredient);
  }
  return "";
}

std::string reason_words(const CompareReason& reason) {
  std::string text = what_differs(reason);
  const double all = reason.second_value - reason.first_value;
  const double share = reason.effects.empty() ? 0 : reason.effects.front().change / all;
  if (share >= partly_from)
    text += fmt::format(", {} because {}", share >= mostly_from ? "mostly" : "partly",
                        cause_words(reason.effects.front()));
  else
    text += "; no one difference explains it, several work together";
  if (reason.same_gum && reason.outcome != CompareOutcome::ph) text += "; the gum is the same";
  return text + ".";
}

std::vector<Column> side_columns(const Comparison& comparison) {
  std::vector<Column> columns = {{"differs", "", false}, {"what", "what", false}};
  for (std::size_t i = 0; i < comparison.names.size(); ++i)
    columns.push_back({letter(i), letter(i), true});
  return columns;
}

std::string_view mark(bool differs) {
  return differs ? "*" : "";
}

Section sides_section(const Comparison& comparison) {
  Section section{"sides", "", {}, {}, {}};
  Table table{"sides",
              {{"side", "", false}, {"name", "", false}, {"currency", "", false}},
              {},
              Shown::json_only};
  bool any = false;
  for (const CompareRow& row : comparison.rows) any = any || row.differs;
  for (const CompareWord& word : comparison.words) any = any || word.differs;
  for (const CompareDanger& danger : comparison.dangers) any = any || danger.differs;
  for (std::size_t i = 0; i < comparison.names.size(); ++i) {
    section.figures.push_back(
        {letter(i), letter(i), Cell(comparison.names[i]), "", "", "", Shown::text_only});
    table.rows.push_back({letter(i), comparison.names[i], comparison.currencies[i]});
  }
  section.figures.push_back({"differs", "", Cell(any), "", "", "", Shown::json_only});
  section.tables.push_back(std::move(table));
  std::vector<std::string> said;
  for (const CompareReason& reason : comparison.reasons) said.push_back(reason_words(reason));
  if (!any)
    said.emplace_back("Nothing differs.");
  else if (said.empty())
    said.emplace_back("They come out alike as far as can be foretold; what differs is marked *.");
  section.lines.push_back({"reason", std::move(said), Lines::Style::paragraph});
  return section;
}

Section part_section(const Comparison& comparison, ComparePart part, std::string title) {
  Section section{"in_text_" + std::string(to_text(part)), std::move(title), {}, {}, {}};
  Table table{"rows", side_columns(comparison), {}, Shown::text_only};
  if (part == ComparePart::outcome)
    for (const CompareWord& word : comparison.words) {
      std::vector<Cell> cells = {mark(word.differs), word.label};
      for (const std::string& each : word.values) cells.emplace_back(each.empty() ? "-" : each);
      table.rows.push_back(std::move(cells));
    }
  for (const CompareRow& row : comparison.rows) {
    if (row.part != part) continue;
    const bool all_zero = std::all_of(row.values.begin(), row.values.end(), [&](const auto& each) {
      return !each || rounded(*each, row.decimals) == 0;
    });
    if (all_zero) continue;
    std::vector<Cell> cells = {mark(row.differs),
                               row.unit.empty() ? row.label : row.label + ", " + row.unit};
    for (const std::optional<double>& each : row.values)
      cells.emplace_back(each ? fixed(*each, row.decimals) : "-");
    table.rows.push_back(std::move(cells));
  }
  if (part == ComparePart::cost)
    for (const CompareDanger& danger : comparison.dangers) {
      std::vector<Cell> cells = {mark(danger.differs), danger.called};
      for (const std::optional<Level>& each : danger.levels)
        cells.emplace_back(!each ? "-" : *each == Level::stop ? "STOP" : "CARE");
      table.rows.push_back(std::move(cells));
    }
  if (!table.rows.empty()) section.tables.push_back(std::move(table));
  return section;
}

/// Everything for scripts, one value a row.
Section values_section(const Comparison& comparison) {
  Section section{"values", "", {}, {}, {}};
  Table table{"values",
              {{"part", "", false},
               {"key", "", false},
               {"unit", "", false},
               {"side", "", false},
               {"value", "", true},
               {"differs", "", false}},
              {},
              Shown::json_only};
  for (const CompareRow& row : comparison.rows)
    for (std::size_t i = 0; i < row.values.size(); ++i)
      table.rows.push_back({to_text(row.part), row.key, row.unit, letter(i),
                            Cell(row.values[i], row.decimals), Cell(row.differs)});
  section.tables.push_back(std::move(table));
  return section;
}

Section words_section(const Comparison& comparison) {
  Section section{"words", "", {}, {}, {}};
  Table table{
      "words",
      {{"key", "", false}, {"side", "", false}, {"value", "", false}, {"differs", "", false}},
      {},
      Shown::json_only};
  for (const CompareWord& word : comparison.words)
    for (std::size_t i = 0; i < word.values.size(); ++i)
      table.rows.push_back({word.key, letter(i), word.values[i], Cell(word.differs)});
  section.tables.push_back(std::move(table));
  return section;
}

Section dangers_section(const Comparison& comparison) {
  Section section{"dangers", "", {}, {}, {}};
  Table table{
      "dangers",
      {{"name", "", false}, {"side", "", false}, {"level", "", false}, {"differs", "", false}},
      {},
      Shown::json_only};
  for (const CompareDanger& danger : comparison.dangers)
    for (std::size_t i = 0; i < danger.levels.size(); ++i)
      if (danger.levels[i])
        table.rows.push_back(
            {danger.name, letter(i), gelwright::to_text(*danger.levels[i]), Cell(danger.differs)});
  section.tables.push_back(std::move(table));
  return section;
}

Section effects_section(const Comparison& comparison) {
  Section section{"effects", "", {}, {}, {}};
  Table table{"effects",
              {{"first", "", false},
               {"second", "", false},
               {"outcome", "", false},
               {"first_value", "", true},
               {"second_value", "", true},
               {"cause", "", false},
               {"ingredient", "", false},
               {"change", "", true}},
              {},
              Shown::json_only};
  for (const CompareReason& reason : comparison.reasons)
    for (const CompareEffect& effect : reason.effects)
      table.rows.push_back({letter(reason.first), letter(reason.second), to_text(reason.outcome),
                            Cell(reason.first_value, 3), Cell(reason.second_value, 3),
                            to_text(effect.cause), effect.ingredient, Cell(effect.change, 3)});
  section.tables.push_back(std::move(table));
  return section;
}

}  // namespace

Report compare_report(const Comparison& comparison) {
  Report report{"gelwright/compare-1", "Side by side", {}, "values"};
  report.names_program = true;
  report.sections = {sides_section(comparison),
                     part_section(comparison, ComparePart::amounts, "WHAT GOES IN"),
                     part_section(comparison, ComparePart::water, "WATER"),
                     part_section(comparison, ComparePart::outcome, "WHAT COMES OF IT"),
                     part_section(comparison, ComparePart::label, "WHAT IT FEEDS"),
                     part_section(comparison, ComparePart::cost, "COST AND DANGERS"),
                     values_section(comparison),
                     words_section(comparison),
                     dangers_section(comparison),
                     effects_section(comparison)};
  // A part that no side has says nothing.
  std::erase_if(report.sections, [](const Section& section) {
    return section.figures.empty() && section.tables.empty() && section.lines.empty();
  });
  return report;
}

}  // namespace gelwright
