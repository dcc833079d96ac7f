// The glossary: the words of the card, and how to tell one from the next in a kitchen.
#include <fmt/format.h>

#include "gelwright/gel_kitchen.hpp"
#include "gelwright/reference.hpp"

namespace gelwright {

namespace {

struct Entry {
  std::string_view word;
  std::string_view means;
  std::string_view how_to_tell;
};

constexpr Entry defects[] = {
    {"lumps", "gel or undissolved gum in an uneven mass", "push it through a sieve"},
    {"specks", "gum that had no time to dissolve", "hold a spoonful against the light"},
    {"weeps", "liquid leaves the gel", "more than half a millilitre on 50 g after 12 hours"},
    {"cracks easily", "the gel breaks before it bends", "bend a slice: it snaps"},
    {"gritty", "acid gel in fine hard grains", "rub it between tongue and palate"},
};

constexpr Entry terms[] = {
    {"gum", "alginate, pectin, gellan or xanthan: what thickens and sets",
     "on the pack: E 400 to "
     "405, E 440, E 418, E 415"},
    {"hardness", "calcium and magnesium of the water", "the water report, or a drop test"},
    {"alkalinity", "how much acid the water takes up before it turns sour",
     "the water report; also "
     "called acid capacity"},
    {"solids", "everything weighed in but water, acid and calcium salt", ""},
    {"soluble solids", "sugars, salts and acids, g in 100 g", "a refractometer shows about this"},
    {"under the blade", "poured into a running blender, so that it cannot set in one piece", ""},
    {"solution", "acid or salt dissolved beforehand, so that a coarse scale can weigh it", ""},
    {"chance in 10", "of ten pouches made like this, how many turn out so", ""},
    {"STOP", "do not make or eat it like this", ""},
    {"CARE", "likely to spoil something: read it before you start", ""},
    {"grade A, B, C", "published for this case; carried over from another; judgement", ""},
};

}  // namespace

Report words_report() {
  Report report{"gelwright/words-1", "Words", {}, "words"};
  Table table{"words",
              {{"word", "word", false}, {"means", "means", false}, {"test", "how to tell", false}}};
  for (const gel::Words& each : gel::words())
    table.rows.push_back({gel::to_text(each.texture), each.what, each.test});
  for (const Entry& each : defects) table.rows.push_back({each.word, each.means, each.how_to_tell});
  for (const Entry& each : terms) table.rows.push_back({each.word, each.means, each.how_to_tell});
  report.sections.push_back({"words", "", {}, {std::move(table)}, {}});
  return report;
}

}  // namespace gelwright
