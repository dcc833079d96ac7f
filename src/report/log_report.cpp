// The notebook on paper.
#include "gelwright/log_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

/// "thick 62 %", "-".
std::string foretold_words(const NotebookEntry& entry) {
  if (!entry.forecast.chances) return "-";
  const gel::Texture likeliest = gel::likeliest(*entry.forecast.chances);
  return fmt::format("{} {} %", gel::to_text(likeliest),
                     fixed(100 * (*entry.forecast.chances)[likeliest], 0));
}

std::string ph_words(const NotebookEntry& entry) {
  return entry.ph ? fixed(*entry.ph, 1) : "-";
}

std::string seen_words(const NotebookEntry& entry) {
  std::string text = entry.texture ? std::string(gel::to_text(*entry.texture)) : "";
  const auto add = [&text](const std::string& more) { text += (text.empty() ? "" : ", ") + more; };
  if (entry.syringe_ml) add(fmt::format("{:g} mL left", *entry.syringe_ml));
  if (entry.cup_turn) add(*entry.cup_turn == CupTurn::holds ? "cup holds" : "cup falls");
  if (entry.spoon) add(*entry.spoon == Spoon::smears ? "smears" : "cracks");
  return text.empty() ? "-" : text;
}

Cell texture_cell(const std::optional<gel::Texture>& texture) {
  if (!texture) return {};
  return gel::to_text(*texture);
}

/// Numbers a list of line numbers stays readable up to.
constexpr std::size_t most_lines_named = 10;

/// What of the file was not understood: kept there, and said.
Section unread_section(const Notebook& notebook) {
  Section section{"unread", "", {}, {}, {}};
  Table table{"unread", {{"line", "", true}, {"why", "", false}}, {}, Shown::json_only};
  std::map<std::string, std::vector<std::size_t>> by_reason;
  for (const NotebookUnread& each : notebook.unread) {
    table.rows.push_back({Cell(static_cast<double>(each.line), 0), each.why});
    by_reason[each.why].push_back(each.line);
  }
  section.tables.push_back(std::move(table));
  std::vector<std::string> said;
  for (const auto& [why, lines] : by_reason) {
    std::string numbers;
    for (std::size_t i = 0; i < std::min(lines.size(), most_lines_named); ++i)
      numbers += fmt::format("{}{}", i == 0 ? "" : ", ", lines[i]);
    if (lines.size() > most_lines_named)
      numbers += fmt::format(" and {} more", lines.size() - most_lines_named);
    said.push_back(fmt::format("Line{} {} of {} not read, and kept as {}: {}.",
                               lines.size() == 1 ? "" : "s", numbers,
                               notebook.document + (lines.size() == 1 ? " is" : " are"),
                               lines.size() == 1 ? "it is" : "they are", why));
  }
  if (!said.empty())
    section.lines.push_back({"said", std::move(said), Lines::Style::paragraph, Shown::text_only});
  return section;
}

/// The newest content of each recipe, by which an older one is told.
std::map<std::string, std::string> newest_content(const Notebook& notebook) {
  std::map<std::string, std::pair<LocalTime, std::string>> newest;
  for (const NotebookEntry& entry : notebook.entries) {
    auto& known = newest[entry.recipe];
    if (known.second.empty() || !(entry.made < known.first)) known = {entry.made, entry.content};
  }
  std::map<std::string, std::string> content;
  for (const auto& [recipe, known] : newest) content[recipe] = known.second;
  return content;
}

}  // namespace

Report log_report(const Notebook& notebook, std::span<const std::size_t> places, std::size_t most,
                  const std::optional<std::string>& now) {
  Report report{"gelwright/log-1", "Notebook", {}, "entries"};
  report.names_program = true;
  const std::map<std::string, std::string> newest = newest_content(notebook);
  const std::size_t first = most > 0 && places.size() > most ? places.size() - most : 0;

  Section entries{"entries", "", {}, {}, {}};
  Table table{"entries",
              {{"line", "", true, Shown::json_only},
               {"made", "made", false},
               {"recipe", "recipe", false},
               {"foretold", "foretold", false, Shown::text_only},
               {"seen", "seen", false, Shown::text_only},
               {"ph_said", "pH", true, Shown::text_only},
               {"went_down", "went down", true},
               {"note", "note", false},
               {"file", "", false, Shown::json_only},
               {"content", "", false, Shown::json_only},
               {"changed_since", "", false, Shown::json_only},
               {"texture_foretold", "", false, Shown::json_only},
               {"chance_foretold", "", true, Shown::json_only},
               {"ph_foretold", "", true, Shown::json_only},
               {"texture", "", false, Shown::json_only},
               {"ph", "", true, Shown::json_only},
               {"syringe_ml", "", true, Shown::json_only}},
              {}};
  bool any_changed = false;
  for (std::size_t i = first; i < places.size(); ++i) {
    const NotebookEntry& entry = notebook.entries[places[i]];
    const bool changed = entry.content != (now ? *now : newest.at(entry.recipe));
    any_changed = any_changed || changed;
    std::optional<gel::Texture> likeliest;
    if (entry.forecast.chances) likeliest = gel::likeliest(*entry.forecast.chances);
    std::optional<double> went_down;
    if (entry.went_down) went_down = *entry.went_down;
    table.rows.push_back(
        {Cell(static_cast<double>(entry.line), 0), day_text(entry.made) + (changed ? " *" : ""),
         entry.recipe, foretold_words(entry), seen_words(entry), ph_words(entry),
         Cell(went_down, 0), entry.note, entry.file, entry.content, Cell(changed),
         texture_cell(likeliest),
         Cell(likeliest ? std::optional((*entry.forecast.chances)[*likeliest]) : std::nullopt, 2),
         Cell(entry.forecast.ph, 2), texture_cell(entry.texture), Cell(entry.ph, 2),
         Cell(entry.syringe_ml, 1)});
  }
  entries.tables.push_back(std::move(table));
  report.sections.push_back(std::move(entries));

  Section sum{"sum", "", {}, {}, {}};
  sum.figures = {
      {"notebook", "", Cell(notebook.document), "", "", "", Shown::json_only},
      {"entries", "", Cell(static_cast<double>(notebook.entries.size()), 0), "", "", "",
       Shown::json_only},
      {"chosen", "", Cell(static_cast<double>(places.size()), 0), "", "", "", Shown::json_only},
      {"shown", "", Cell(static_cast<double>(places.size() - first), 0), "", "", "",
       Shown::json_only}};
  std::string said = fmt::format(
      "{} of {} in {}.", places.size() - first,
      notebook.entries.size() == 1 ? "1 entry" : fmt::format("{} entries", notebook.entries.size()),
      notebook.document);
  if (first > 0) said += fmt::format(" {} earlier: --last 0 shows them all.", first);
  if (any_changed) said += " * The recipe, or what it takes from its kitchen, has changed since.";
  sum.lines.push_back({"said", {said}, Lines::Style::paragraph, Shown::text_only});
  report.sections.push_back(std::move(sum));
  report.sections.push_back(unread_section(notebook));
  return report;
}

Report added_report(const NotebookEntry& entry, const std::string& notebook) {
  Report report{"gelwright/logged-1", "Logged", {}, ""};
  report.names_program = true;
  Section section{"entry", "", {}, {}, {}};
  section.figures = {
      {"made", "Made", day_text(entry.made)},
      {"recipe", "Recipe", entry.recipe},
      {"foretold", "Foretold", foretold_words(entry)},
      {"ph_foretold", "pH foretold", Cell(entry.forecast.ph, 1), "", "",
       fmt::format("({} to {})", fixed(entry.forecast.ph_low, 1),
                   fixed(entry.forecast.ph_high, 1))},
      {"seen", "Seen", seen_words(entry)},
      {"content", "", entry.content, "", "", "", Shown::json_only},
      {"notebook", "", notebook, "", "", "", Shown::json_only},
  };
  section.lines.push_back(
      {"said", {fmt::format("Added to {}.", notebook)}, Lines::Style::paragraph, Shown::text_only});
  report.sections.push_back(std::move(section));
  return report;
}

Report score_report(const Notebook& notebook, std::span<const std::size_t> places) {
  Report report{"gelwright/score-1", "Forecasts against what was seen", {}, "each"};
  report.names_program = true;
  const NotebookScore found = score(notebook, places);
  Section sum{"sum", "", {}, {}, {}};
  const auto count = [](std::size_t number) { return static_cast<double>(number); };
  const std::string none = "no entry has a texture beside a forecast";
  const bool any = found.textures > 0;
  const auto if_any = [any](double value) { return any ? std::optional(value) : std::nullopt; };
  sum.figures = {
      {"textures", "", Cell(count(found.textures), 0), "", "", "", Shown::json_only},
      {"hits", "", Cell(count(found.hits), 0), "", "", "", Shown::json_only},
      {"hit_rate", "", Cell(if_any(any ? count(found.hits) / count(found.textures) : 0), 3), "",
       none, "", Shown::json_only},
      {"mean_ln_chance", "", Cell(if_any(found.mean_ln_chance), 3), "", none, "", Shown::json_only},
      {"ph_readings", "", Cell(count(found.ph_readings), 0), "", "", "", Shown::json_only},
      {"ph_within", "", Cell(count(found.ph_within), 0), "", "", "", Shown::json_only},
      {"ph_mean_miss", "",
       Cell(found.ph_readings > 0 ? std::optional(found.ph_mean_miss) : std::nullopt, 2), "",
       "no entry has a pH", "", Shown::json_only}};
  std::vector<std::string> said;
  if (any)
    said.push_back(fmt::format(
        "The likeliest texture was seen {} of {} times. What was seen had been given {} chances in "
        "100, as a geometric mean; a blind guess among seven gives it 14.",
        found.hits, found.textures, fixed(100 * std::exp(found.mean_ln_chance), 0)));
  else
    said.emplace_back(
        "No entry has a texture beside a forecast yet: say what you see with --texture.");
  if (found.ph_readings > 0)
    said.push_back(
        fmt::format("The pH was within the band foretold {} of {} times; on average it was {} {} "
                    "than foretold.",
                    found.ph_within, found.ph_readings, fixed(std::abs(found.ph_mean_miss), 1),
                    found.ph_mean_miss >= 0 ? "higher" : "lower"));
  sum.lines.push_back({"said", std::move(said), Lines::Style::paragraph, Shown::text_only});
  report.sections.push_back(std::move(sum));

  Section textures{"by_texture", "BY WHAT WAS SEEN", {}, {}, {}};
  Table by_texture{"by_texture",
                   {{"texture", "seen", false},
                    {"seen", "times", true},
                    {"hits", "foretold", true},
                    {"mean_ln_chance", "mean ln chance", true}},
                   {}};
  for (std::size_t i = 0; i < gel::texture_count; ++i)
    if (const auto& each = found.by_texture[i]; each.seen > 0)
      by_texture.rows.push_back({gel::to_text(static_cast<gel::Texture>(i)),
                                 Cell(count(each.seen), 0), Cell(count(each.hits), 0),
                                 Cell(each.mean_ln_chance, 2)});
  textures.tables.push_back(std::move(by_texture));
  report.sections.push_back(std::move(textures));

  Section bins{"calibration", "WHAT CHANCES WERE WORTH", {}, {}, {}};
  Table calibration{"calibration",
                    {{"from_percent", "from %", true},
                     {"to_percent", "to %", true},
                     {"chances", "chances", true},
                     {"mean_percent", "mean %", true},
                     {"came_true_percent", "came true %", true}},
                    {}};
  for (const NotebookScore::Bin& bin : found.bins)
    if (bin.chances > 0)
      calibration.rows.push_back({Cell(100 * bin.low, 0), Cell(100 * bin.high, 0),
                                  Cell(count(bin.chances), 0), Cell(100 * bin.mean_chance, 0),
                                  Cell(100 * count(bin.came_true) / count(bin.chances), 0)});
  bins.tables.push_back(std::move(calibration));
  report.sections.push_back(std::move(bins));

  Section each{"each", "", {}, {}, {}};
  Table series{"each",
               {{"line", "", true},
                {"made", "", false},
                {"recipe", "", false},
                {"foretold", "", false},
                {"seen", "", false},
                {"chance_of_seen", "", true}},
               {},
               Shown::json_only};
  for (const NotebookScore::Each& one_each : found.each) {
    const NotebookEntry& entry = notebook.entries[one_each.entry];
    series.rows.push_back({Cell(count(entry.line), 0), day_text(entry.made), entry.recipe,
                           gel::to_text(one_each.foretold), gel::to_text(one_each.seen),
                           Cell(one_each.chance_of_seen, 3)});
  }
  each.tables.push_back(std::move(series));
  report.sections.push_back(std::move(each));
  report.sections.push_back(unread_section(notebook));
  return report;
}

Section logged_section(const NotebookBench& found) {
  Section section{"from_log", "", {}, {}, {}};
  const auto count = [](std::size_t number) { return Cell(static_cast<double>(number), 0); };
  section.figures = {
      {"used", "", count(found.bench.cups.size()), "", "", "", Shown::json_only},
      {"changed", "", count(found.changed), "", "", "", Shown::json_only},
      {"without_reading", "", count(found.unreadable), "", "", "", Shown::json_only}};
  std::string said =
      fmt::format("From {} entries of {}.", found.bench.cups.size(), found.bench.document);
  if (found.changed > 0)
    said += fmt::format(" Left out: {} from before the recipe changed.", found.changed);
  if (found.unreadable > 0)
    said += fmt::format(" Left out: {} without a reading.", found.unreadable);
  section.lines.push_back({"said", {said}, Lines::Style::paragraph, Shown::text_only});
  return section;
}

Section last_time_section(const NotebookEntry& entry, const std::string& now) {
  Section section{"last_time", "", {}, {}, {}};
  std::string text = day_text(entry.made);
  if (entry.texture) {
    text += fmt::format(": {}", gel::to_text(*entry.texture));
    if (entry.forecast.chances) {
      const gel::Texture likeliest = gel::likeliest(*entry.forecast.chances);
      text += likeliest == *entry.texture
                  ? ", as foretold"
                  : fmt::format(", foretold was {}", gel::to_text(likeliest));
    }
  }
  if (entry.ph) text += fmt::format("; pH {}", fixed(*entry.ph, 1));
  if (entry.went_down) text += fmt::format("; went down {} of 5", *entry.went_down);
  text += '.';
  if (!entry.note.empty()) text += fmt::format(" \"{}\"", entry.note);
  if (entry.content != now) text += " The recipe has changed since.";
  std::optional<double> went_down;
  if (entry.went_down) went_down = *entry.went_down;
  section.figures = {
      {"line", "LAST TIME", text, "", "", "", Shown::text_only},
      {"made", "", day_text(entry.made), "", "", "", Shown::json_only},
      {"texture", "", texture_cell(entry.texture), "", entry.texture ? "" : "not noted", "",
       Shown::json_only},
      {"ph", "", Cell(entry.ph, 2), "", entry.ph ? "" : "not read", "", Shown::json_only},
      {"went_down", "", Cell(went_down, 0), "", entry.went_down ? "" : "not noted", "",
       Shown::json_only},
      {"note", "", entry.note, "", "", "", Shown::json_only},
      {"changed_since", "", Cell(entry.content != now), "", "", "", Shown::json_only}};
  return section;
}

}  // namespace gelwright
