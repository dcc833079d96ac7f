// What is shown, before anyone decides how: sections of typed cells.
//
// Every format is rendered from the same cells, so text, Markdown, JSON and CSV cannot disagree.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "gelwright/picture.hpp"

namespace gelwright {

/// A number with the decimals it deserves, a text, a yes or no, a list of texts, or nothing.
struct Cell {
  std::variant<std::monostate, double, bool, std::string> value;
  int decimals = 0;       ///< shown; JSON carries three more
  bool optional = false;  ///< another result may have it empty, or not

  Cell() = default;
  Cell(double number, int shown_decimals) : value(number), decimals(shown_decimals) {}
  Cell(std::string text) : value(std::move(text)) {}
  Cell(std::string_view text) : value(std::string(text)) {}
  Cell(const char* text) : value(std::string(text)) {}
  explicit Cell(bool yes) : value(yes) {}
  Cell(const std::optional<double>& number, int shown_decimals)
      : decimals(shown_decimals), optional(true) {
    if (number) value = *number;
  }
  bool empty() const { return std::holds_alternative<std::monostate>(value); }
};

/// Where a part of a report appears. `text_only` is every format a person reads, `page_only` the
/// HTML page alone.
enum class Shown { everywhere, text_only, json_only, page_only };

/// One named value.
struct Figure {
  std::string key;    ///< in JSON; a dot opens an object: "pouch.outlook"
  std::string label;  ///< in text
  Cell cell = {};
  std::string unit = {};
  std::string why_empty = {};  ///< printed, and listed under "not_computed", when the cell is empty
  std::string remark = {};     ///< after the value in text: "+- 0.3, estimate"
  Shown shown = Shown::everywhere;
};

struct Column {
  std::string key;
  std::string label;
  bool numeric = false;
  Shown shown = Shown::everywhere;
  bool named_by_recipe = false;  ///< there for this recipe and these options; holds numbers
  bool large = false;            ///< on the page: to be read at arm's length
  bool to_fill_in = false;       ///< on the page: an empty box in each row whose cell is not empty
};

struct Table {
  std::string key;
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows = {};
  Shown shown = Shown::everywhere;
  bool tick_boxes = false;  ///< a box to tick before each row, on paper
  bool wide = false;        ///< too wide for paper: text prints each row as a paragraph
};

/// Sentences: a plain paragraph each, bullets, or numbered steps.
struct Lines {
  enum class Style { paragraph, bullets, steps };
  std::string key;
  std::vector<std::string> items;
  Style style = Style::paragraph;
  Shown shown = Shown::everywhere;
};

/// A part of a report. In JSON a section is an object of its figures, tables and lines; where a
/// table or lines carry the section's own key and are all it holds, they stand in its place.
struct Section {
  std::string key;
  std::string title;  ///< empty: no heading in text
  std::vector<Figure> figures;
  std::vector<Table> tables;
  std::vector<Lines> lines;
  bool in_full_only = false;  ///< on paper only where it is asked for; scripts get it always
  /// A strip to cut out of the page; a figure without a value is a line to write on.
  bool cut_out = false;
  /// On the page and, as their series, in JSON under their keys; text leaves them out.
  std::vector<Picture> pictures = {};
};

struct Report {
  std::string format;  ///< "gelwright/result-1"
  std::string title;
  std::vector<Section> sections;
  /// Key of the table CSV prints. Where there is no such table, CSV prints every value of the JSON,
  /// one in a row with the JSON pointer to it.
  std::string csv_table;
  bool names_program = false;  ///< whether JSON says which program made it, and its version
};

/// What a person asks to see of a report.
struct View {
  bool all = false;                ///< every section
  std::vector<std::string> parts;  ///< only the sections with these keys; empty: the first screen
};

/// The sections a person asked to see; scripts' formats show all of them whatever the view.
Report seen(Report report, const View& view);

/// The keys a view may name, in the order of the report: those of sections with something on paper.
std::vector<std::string> parts_of(const Report& report);

/// "0.1.0"
std::string_view program_version();

enum class Format { text, markdown, html, svg, json, csv };

/// What each format is asked for by, in the order of `Format`: "text", "markdown", ...
std::vector<std::string_view> format_names();

/// The format of this name, if there is one.
std::optional<Format> format_named(std::string_view name);

/// Whether a person reads it as it is; else a script does.
bool for_the_eye(Format format);

/// Whether pictures, or their series, are in it: who prints another need not work them out.
bool shows_pictures(Format format);

/// What SVG prints; null where the report has no picture.
const Picture* first_picture(const Report& report);

/// What text is laid out for.
struct Page {
  std::size_t width = 80;  ///< columns
  bool utf8 = false;       ///< whether a degree sign and a plus-minus sign can be shown
};

/// The report as a document that ends in a newline. Text fits the page. Control characters and
/// characters that turn the direction of writing appear written out (\\u202e) in every format.
std::string render(const Report& report, Format format, const Page& page = {});

}  // namespace gelwright
