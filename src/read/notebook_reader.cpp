// Notebook lines to entries and back: JSON, one object a line.
//
// Lines are read by hand-written rules, not by rows of keys: a line of an older or newer hand must
// never keep the others from being read.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <nlohmann/json.hpp>

#include "base/parallel.hpp"
#include "gelwright/read.hpp"
#include "gelwright/recipe_edit.hpp"

namespace gelwright {

namespace {

using nlohmann::json;
using nlohmann::ordered_json;

constexpr std::string_view format_stem = "gelwright/notebook-";
constexpr std::string_view this_format = "gelwright/notebook-1";

/// Why a line is no entry.
struct NotAnEntry {
  std::string why;
};

const json* member(const json& object, const char* key) {
  const auto found = object.find(key);
  return found == object.end() || found->is_null() ? nullptr : &*found;
}

std::string text_of(const json& object, const char* key) {
  const json* value = member(object, key);
  if (value == nullptr) return "";
  if (!value->is_string()) throw NotAnEntry{fmt::format("\"{}\" is not a text", key)};
  return value->get<std::string>();
}

std::optional<double> number_of(const json& object, const char* key) {
  const json* value = member(object, key);
  if (value == nullptr) return std::nullopt;
  if (!value->is_number() || !std::isfinite(value->get<double>()))
    throw NotAnEntry{fmt::format("\"{}\" is not a number", key)};
  return value->get<double>();
}

double needed_number(const json& object, const char* key) {
  const std::optional<double> value = number_of(object, key);
  if (!value) throw NotAnEntry{fmt::format("it has no \"{}\"", key)};
  return *value;
}

std::optional<gel::Texture> texture_of(const std::string& words) {
  for (std::size_t i = 0; i < gel::texture_count; ++i)
    if (words == gel::to_text(static_cast<gel::Texture>(i))) return static_cast<gel::Texture>(i);
  return std::nullopt;
}

NotebookForecast forecast_of(const json& entry) {
  const json* predicted = member(entry, "predicted");
  if (predicted == nullptr || !predicted->is_object()) throw NotAnEntry{"it has no \"predicted\""};
  NotebookForecast forecast;
  forecast.ph = needed_number(*predicted, "ph");
  forecast.ph_low = needed_number(*predicted, "ph_low");
  forecast.ph_high = needed_number(*predicted, "ph_high");
  const json* chances = member(*predicted, "chances");
  if (chances == nullptr) return forecast;
  if (!chances->is_object()) throw NotAnEntry{"\"chances\" is not an object"};
  gel::Chances& read = forecast.chances.emplace();
  for (const auto& [name, chance] : chances->items()) {
    const auto texture = texture_of(name);
    if (!texture || !chance.is_number())
      throw NotAnEntry{fmt::format("\"{}\" is no chance of a texture", name)};
    read[*texture] = chance.get<double>();
  }
  return forecast;
}

template <class Word>
std::optional<Word> word_of(const json& object, const char* key, std::string_view first,
                            Word first_value, std::string_view second, Word second_value) {
  const std::string text = text_of(object, key);
  if (text.empty()) return std::nullopt;
  if (text == first) return first_value;
  if (text == second) return second_value;
  throw NotAnEntry{fmt::format("\"{}\" is neither \"{}\" nor \"{}\"", key, first, second)};
}

NotebookEntry entry_of(const json& line) {
  NotebookEntry entry;
  const std::string made = text_of(line, "made");
  const auto day = read_day(made);
  if (!day) throw NotAnEntry{fmt::format("\"made\" is \"{}\", not a day like 2026-07-04", made)};
  entry.made = *day;
  entry.recipe = text_of(line, "recipe");
  if (entry.recipe.empty()) throw NotAnEntry{"it names no \"recipe\""};
  entry.file = text_of(line, "file");
  entry.content = text_of(line, "content");
  entry.program = text_of(line, "program");
  entry.servings = number_of(line, "servings").value_or(1);
  entry.forecast = forecast_of(line);
  if (const json* weighed = member(line, "weighed_g")) {
    if (!weighed->is_object()) throw NotAnEntry{"\"weighed_g\" is not an object"};
    for (const auto& [what, mass_g] : weighed->items()) {
      if (!mass_g.is_number()) throw NotAnEntry{fmt::format("\"{}\" is not a mass", what)};
      entry.weighed.push_back({what, mass_g.get<double>()});
    }
  }
  entry.ph = number_of(line, "ph");
  entry.ph_with = word_of(line, "ph_with", "meter", PhMethod::meter, "strips", PhMethod::strips)
                      .value_or(PhMethod::meter);
  entry.syringe_ml = number_of(line, "syringe_ml");
  entry.cup_turn = word_of(line, "cup_turn", "holds", CupTurn::holds, "falls", CupTurn::falls);
  entry.spoon = word_of(line, "spoon", "smears", Spoon::smears, "cracks", Spoon::cracks);
  if (const std::string seen = text_of(line, "texture"); !seen.empty()) {
    entry.texture = texture_of(seen);
    if (!entry.texture) throw NotAnEntry{fmt::format("\"{}\" is no texture", seen)};
  }
  if (const auto went_down = number_of(line, "went_down"))
    entry.went_down = static_cast<int>(std::lround(*went_down));
  entry.note = text_of(line, "note");
  return entry;
}

/// "a newer version wrote it", where its format says so.
std::string why_other_format(const std::string& format) {
  if (format.starts_with(format_stem)) return "a newer version of the program wrote it";
  return format.empty() ? "it does not say \"format\": \"gelwright/notebook-1\""
                        : fmt::format("it is \"{}\", not a notebook line", format);
}

/// One line that is not blank.
struct Line {
  std::size_t number = 0;  ///< from 1
  std::string_view text;
  bool whole = true;  ///< a line end follows it
};

std::vector<Line> lines_of(std::string_view text) {
  std::vector<Line> lines;
  std::size_t number = 0;
  for (std::size_t from = 0; from < text.size();) {
    ++number;
    const std::size_t end = text.find('\n', from);
    const bool whole = end != std::string_view::npos;
    const std::string_view line = text.substr(from, (whole ? end : text.size()) - from);
    from = whole ? end + 1 : text.size();
    if (line.find_first_not_of(" \t\r") != std::string_view::npos)
      lines.push_back({number, line, whole});
  }
  return lines;
}

/// Adds the line to the entries, or to what could not be read.
void read_line(const Line& line, Notebook& notebook) {
  const json parsed = json::parse(line.text, nullptr, false);
  try {
    if (parsed.is_discarded())
      throw NotAnEntry{line.whole ? "it is not JSON, perhaps torn by a power cut"
                                  : "it breaks off: writing it was cut short"};
    if (!parsed.is_object()) throw NotAnEntry{"it is not an object"};
    const std::string format = text_of(parsed, "format");
    if (format != this_format) throw NotAnEntry{why_other_format(format)};
    notebook.entries.push_back(entry_of(parsed));
    notebook.entries.back().line = line.number;
  } catch (const NotAnEntry& no) {
    notebook.unread.push_back({line.number, no.why});
  }
}

}  // namespace

Notebook read_notebook(std::string_view text, std::string document) {
  const std::vector<Line> lines = lines_of(text);
  // A long notebook is shared over threads; blocks keep the order of its lines.
  constexpr std::size_t lines_in_block = 4096;
  std::vector<Notebook> blocks((lines.size() + lines_in_block - 1) / lines_in_block);
  for_each_block(blocks.size(), 0, [&](std::size_t block) {
    const std::size_t from = block * lines_in_block;
    for (std::size_t i = from; i < std::min(from + lines_in_block, lines.size()); ++i)
      read_line(lines[i], blocks[block]);
  });
  Notebook notebook;
  notebook.document = std::move(document);
  for (Notebook& block : blocks) {
    std::move(block.entries.begin(), block.entries.end(), std::back_inserter(notebook.entries));
    std::move(block.unread.begin(), block.unread.end(), std::back_inserter(notebook.unread));
  }
  return notebook;
}

std::optional<NotebookEntry> last_entry(std::string_view text, const std::string& recipe) {
  const std::string name = json(recipe).dump();
  while (!text.empty()) {
    if (text.back() == '\n') text.remove_suffix(1);
    const std::size_t before = text.rfind('\n');
    const std::size_t from = before == std::string_view::npos ? 0 : before + 1;
    const std::string_view line = text.substr(from);
    text = text.substr(0, from);
    if (line.find(name) == std::string_view::npos) continue;
    const json parsed = json::parse(line, nullptr, false);
    try {
      if (!parsed.is_object() || text_of(parsed, "format") != this_format) continue;
      NotebookEntry entry = entry_of(parsed);
      if (entry.recipe == recipe) return entry;
    } catch (const NotAnEntry&) {  // the list says what is wrong with it
    }
  }
  return std::nullopt;
}

std::string notebook_line(const NotebookEntry& entry) {
  ordered_json line = {{"format", this_format},     {"made", day_text(entry.made)},
                       {"recipe", entry.recipe},    {"file", entry.file},
                       {"content", entry.content},  {"program", entry.program},
                       {"servings", entry.servings}};
  ordered_json predicted = {{"ph", entry.forecast.ph},
                            {"ph_low", entry.forecast.ph_low},
                            {"ph_high", entry.forecast.ph_high}};
  const auto rounded_to = [](double value) { return std::round(1e4 * value) / 1e4; };
  for (auto& [key, value] : predicted.items()) value = rounded_to(value.get<double>());
  if (entry.forecast.chances)
    for (std::size_t i = 0; i < gel::texture_count; ++i)
      predicted["chances"][std::string(gel::to_text(static_cast<gel::Texture>(i)))] =
          rounded_to(entry.forecast.chances->chance[i]);
  line["predicted"] = std::move(predicted);
  for (const NotebookWeighed& each : entry.weighed) line["weighed_g"][each.what] = each.batch_g;
  if (entry.ph) {
    line["ph"] = *entry.ph;
    line["ph_with"] = entry.ph_with == PhMethod::meter ? "meter" : "strips";
  }
  if (entry.syringe_ml) line["syringe_ml"] = *entry.syringe_ml;
  if (entry.cup_turn) line["cup_turn"] = *entry.cup_turn == CupTurn::holds ? "holds" : "falls";
  if (entry.spoon) line["spoon"] = *entry.spoon == Spoon::smears ? "smears" : "cracks";
  if (entry.texture) line["texture"] = gel::to_text(*entry.texture);
  if (entry.went_down) line["went_down"] = *entry.went_down;
  if (!entry.note.empty()) line["note"] = entry.note;
  return line.dump() + '\n';
}

std::string content_hash(std::string_view json_text, const std::string& document,
                         const std::optional<KitchenDocument>& kitchen) {
  // Parsed anew, so that the order of keys and the layout do not count.
  json content = json::parse(flattened_recipe(json_text, document, kitchen));
  for (const char* key : {"$schema", "name", "note", "kitchen", "prices", "compare_with", "batch",
                          "avoid", "limits", "measured", "format"})
    content.erase(key);
  // FNV-1a, 64 bits (Fowler, Noll, Vo): to notice a change, not to keep anyone from making one.
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : content.dump()) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 1099511628211ULL;
  }
  return fmt::format("{:016x}", hash);
}

}  // namespace gelwright
