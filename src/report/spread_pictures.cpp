// Pictures of a spread: how wide pH and stiffness are, and how wide without each kind of doubt.
#include <fmt/format.h>

#include "gelwright/picture.hpp"
#include "gelwright/spread_report.hpp"
#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

struct Quantity {
  const char* key;
  const char* heading;
  const char* what;
  double Improvement::*before;
  double Improvement::*after;
};
constexpr Quantity quantities[] = {
    {"ph_doubts", "WHAT LEAVES THE pH IN DOUBT", "The pH may be off by",
     &Improvement::half_width_before, &Improvement::half_width_after},
    {"gel_doubts", "WHAT LEAVES THE STIFFNESS IN DOUBT",
     "The stiffness, in tenfolds, may be off by", &Improvement::lg_modulus_before,
     &Improvement::lg_modulus_after},
};

std::optional<Section> section_of(const Quantity& quantity, const SpreadResult& result) {
  if (result.improvements.empty() || !(result.improvements.front().*quantity.before > 0))
    return std::nullopt;
  const auto row = [](std::string label, double half) {
    return Bars::Row{std::move(label), half, "\u00b1 " + fixed(half, 2)};
  };
  Picture picture;
  picture.key = quantity.key;
  picture.title = fmt::format("{}, 95 in 100", quantity.what);
  picture.bars =
      Bars{"half_width", {row("as it is", result.improvements.front().*quantity.before)}};
  picture.sentence = fmt::format("{} {}", quantity.what, picture.bars->rows[0].words);
  for (const Improvement& each : result.improvements) {
    picture.bars->rows.push_back(
        row(fmt::format("without the doubt about {}", to_text(each.kind)), each.*quantity.after));
    picture.sentence +=
        fmt::format("; {} {}", picture.bars->rows.back().label, picture.bars->rows.back().words);
  }
  picture.sentence += '.';
  Section section{quantity.key, quantity.heading, {}, {}, {}};
  section.pictures.push_back(std::move(picture));
  return section;
}

}  // namespace

void add_spread_pictures(Report& report, const SpreadResult& result) {
  for (const Quantity& quantity : quantities)
    if (auto section = section_of(quantity, result)) report.sections.push_back(std::move(*section));
}

}  // namespace gelwright
