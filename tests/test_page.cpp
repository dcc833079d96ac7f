// The HTML page: a sound document of its own, and nothing a recipe says can become markup.
#include <set>
#include <string>
#include <vector>

#include "base/markup.hpp"
#include "catch.hpp"
#include "gelwright/report.hpp"
#include "program.hpp"

using namespace gelwright;
using namespace gelwright::detail;
using namespace gelwright::test;

namespace {

/// Elements that are never closed: HTML Living Standard, 13.1.2, void elements (those used here).
const std::set<std::string>& void_elements() {
  static const std::set<std::string> names = {"meta", "input", "br"};
  return names;
}

/// What is wrong with the nesting of tags: empty where each is closed in its turn.
std::string nesting_mistake(const std::string& html) {
  std::vector<std::string> open;
  for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
    const std::size_t end = html.find('>', at);
    if (end == std::string::npos) return "a tag without an end";
    const std::string tag = html.substr(at + 1, end - at - 1);
    const std::string name = tag.substr(0, tag.find_first_of(" /", tag[0] == '/' ? 1 : 0));
    if (tag[0] == '!' || void_elements().count(name) > 0 || tag.back() == '/') continue;
    if (tag[0] != '/') {
      open.push_back(name);
      continue;
    }
    if (open.empty() || '/' + open.back() != tag)
      return "</" + (open.empty() ? std::string("nothing") : open.back()) + "> wanted, not <" +
             tag + '>';
    open.pop_back();
  }
  return open.empty() ? "" : open.back() + " is never closed";
}

/// What stands between <body> and </body>.
std::string body_of(const std::string& html) {
  const std::size_t from = html.find("<body>") + 6;
  return html.substr(from, html.find("</body>") - from);
}

}  // namespace

TEST_CASE("the page has headings, heads of rows and columns, and boxes to tick and to fill in") {
  Report report{"gelwright/test-1", "A title", {}, ""};
  Section section{"batch", "WEIGH", {}, {}, {}};
  section.figures = {{"total_g", "Total", Cell(128.4, 1), "g", "", "+- 2"},
                     {"volume_ml", "Volume", Cell(), "mL", "no density"},
                     {"exact_g", "", Cell(1.0 / 3, 6), "g", "", "", Shown::json_only}};
  section.tables.push_back(
      {"lines",
       {{"step", "", true},
        {"what", "what", false},
        {"weigh_g", "weigh g", true, Shown::everywhere, false, true},
        {"really", "really weighed", true, Shown::page_only, false, false, true}},
       {{Cell(1.0, 0), "water at 5 degC", Cell(48.0, 0), Cell(true)},
        {Cell(2.0, 0), "stir", Cell(), Cell()}},
       Shown::everywhere,
       true});
  section.lines.push_back({"notes", {"First."}, Lines::Style::bullets});
  report.sections.push_back(section);
  CHECK(body_of(render(report, Format::html)) ==
        "<main>\n<h1>A title</h1>\n<div class=\"card\">\n"
        "<section class=\"part batch\" aria-labelledby=\"part-1\">\n"
        "<h2 id=\"part-1\">WEIGH</h2>\n"
        "<table class=\"figures\"><tbody>\n"
        "<tr><th scope=\"row\">Total</th><td>128.4 g \u00b1 2</td></tr>\n"
        "<tr><th scope=\"row\">Volume</th><td>not computed: no density</td></tr>\n"
        "</tbody></table>\n"
        "<table class=\"rows steps\">\n"
        "<thead><tr><th scope=\"col\" class=\"tick\"><span class=\"hidden\">done</span></th>"
        "<th scope=\"col\" class=\"number\"><span class=\"hidden\">step</span></th>"
        "<th scope=\"col\" class=\"words\">what</th>"
        "<th scope=\"col\" class=\"number large\">weigh g</th>"
        "<th scope=\"col\" class=\"write\">really weighed</th></tr></thead>\n"
        "<tbody>\n"
        "<tr><td class=\"tick\"><input type=\"checkbox\" aria-label=\"step 1 done\"></td>"
        "<th scope=\"row\" class=\"number\">1</th>"
        "<td class=\"words\" data-label=\"what\">water at 5 \u00b0C</td>"
        "<td class=\"number large\" data-label=\"weigh g\">48</td>"
        "<td class=\"write\" data-label=\"really weighed\"><input type=\"text\" "
        "inputmode=\"decimal\" aria-label=\"really weighed, step 1\"></td></tr>\n"
        "<tr><td class=\"tick\"><input type=\"checkbox\" aria-label=\"step 2 done\"></td>"
        "<th scope=\"row\" class=\"number\">2</th>"
        "<td class=\"words\" colspan=\"3\">stir</td></tr>\n"
        "</tbody></table>\n"
        "<ul>\n<li>First.</li>\n</ul>\n"
        "</section>\n</div>\n</main>");
}

TEST_CASE("what only the page shows stays out of every other format") {
  Report report{"gelwright/test-1", "A title", {}, "lines"};
  Section strip{"label", "LABEL TO CUT OUT", {}, {}, {}};
  strip.cut_out = true;
  strip.figures = {{"made_on", "Made on", Cell(), "", "", "", Shown::page_only},
                   {"total_g", "Total", Cell(1.0, 0), "g"}};
  strip.tables = {{"lines",
                   {{"what", "what", false},
                    {"really", "really weighed", true, Shown::page_only, false, false, true}},
                   {{"salt", Cell(true)}}}};
  report.sections.push_back(strip);
  for (const Format format : {Format::text, Format::markdown, Format::json, Format::csv}) {
    const std::string printed = render(report, format);
    INFO(printed);
    for (const std::string each : {"made", "Made", "really", "yes", "true"})
      CHECK(printed.find(each) == std::string::npos);
  }
  const std::string page = render(report, Format::html);
  CHECK(page.find("<th scope=\"row\">Made on</th><td><span class=\"blank\">") != std::string::npos);
  CHECK(page.find("yes") == std::string::npos);
}

TEST_CASE("a text cannot become markup, wherever it stands on the page") {
  // The characters HTML 13.1.2.4 and 13.1.3 set apart in text and in attribute values.
  const std::string evil = "</title><script>alert(\"1\" & '2')</script>&lt;";
  const std::string harmless =
      "&lt;/title&gt;&lt;script&gt;alert(&quot;1&quot; &amp; &#39;2&#39;)&lt;/script&gt;&amp;lt;";
  Report report{"gelwright/test-1", evil, {}, ""};
  Section section{"part", evil, {}, {}, {}};
  section.figures = {{"a", evil, evil, evil, "", evil}, {"b", "b", Cell(), "", evil}};
  section.tables = {{"lines", {{"step", evil}, {"what", evil}}, {{evil, evil}}}};
  section.lines = {{"notes", {evil}, Lines::Style::steps}, {"more", {evil}}};
  report.sections.push_back(section);
  const std::string page = render(report, Format::html);
  INFO(page);
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("alert(\"") == std::string::npos);
  CHECK(page.find("&lt;/title&gt;") != std::string::npos);
  std::size_t seen = 0;
  for (std::size_t at = page.find(harmless); at != std::string::npos;
       at = page.find(harmless, at + 1))
    ++seen;
  // Title twice; heading; label, value, unit, remark, reason; two heads, a name for narrow pages,
  // two cells; two sentences.
  CHECK(seen == 15);
  CHECK(nesting_mistake(page).empty());
}

TEST_CASE("words written from right to left turn nothing around them") {
  // Hebrew and Arabic letters, with the spaces between them.
  Markup page;
  page.text("a \u05d0\u05d1 \u05d2, 10 g, \u0627\u0644 b");
  CHECK(page.str() == "a <bdi>\u05d0\u05d1 \u05d2</bdi>, 10 g, <bdi>\u0627\u0644</bdi> b");
  Markup title;
  title.open("title").plain("\u05d0").close();
  CHECK(title.str() == "<title>\u05d0</title>");
}

TEST_CASE("every command prints a sound page that asks for nothing and runs nothing") {
  for (const std::string document :
       {"sheet recipes/tarn-thick-pouch.json --all", "sheet tests/data/no-gum.json --all",
        "check recipes/mistake-hard-water-drink.json recipes/tarn-thick-pouch.json",
        "water recipes/tarn-thick-pouch.json --bring-calcium-to '40 mg/L'",
        "dose recipes/tarn-thick-pouch.json --to-ph 3.8",
        "ladder recipes/tarn-thick-pouch.json --vary acid_g=0.1:0.6:0.1",
        "fit recipes/tarn-thick-pouch.json recipes/tarn-thick-pouch.bench.csv --to-ph 3.8",
        "spread recipes/calcium-set-pouch.json --draws 500", "ingredients", "sources --numbers",
        "explain hard-water recipes/mistake-hard-water-drink.json", "words",
        "shop recipes/tarn-thick-pouch.json=20 recipes/pouch-from-scratch.json"}) {
    const Printed printed = run_program(document + " --format html");
    INFO(document);
    CHECK((printed.exit_code == 0 || printed.exit_code == 1));
    CHECK(printed.text.find("<!DOCTYPE html>\n<html lang=\"en\">\n") == 0);
    CHECK(nesting_mistake(printed.text).empty());
    CHECK(printed.text.find("<h1>") != std::string::npos);
    for (const std::string reach : {"<script", "src=", "@import", "url(h", "<link", "href="})
      CHECK(printed.text.find(reach) == std::string::npos);
    CHECK(printed.text.substr(printed.text.size() - 8) == "</html>\n");
  }
}
