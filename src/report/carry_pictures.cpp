// The picture of a run: when each piece is taken, and how long it is warm.
#include <fmt/format.h>

#include "gelwright/carry_report.hpp"
#include "report/picture_parts.hpp"
#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

constexpr double minutes_per_hour = 60;

/// "313 mL of water", "696 mL of water, warm 0.8 h of at most 2.0 h".
std::string words_of(const CarryPiece& piece) {
  std::string text = fmt::format("{} mL of water", fixed(piece.water_ml, 0));
  if (piece.warm_limit_hours)
    text += fmt::format(", warm {} h of at most {} h", fixed(piece.warm_hours, 1),
                        fixed(*piece.warm_limit_hours, 1));
  return text;
}

Lanes::Row row_of(const CarryPlan& plan, const CarryPiece& piece) {
  Lanes::Row row;
  row.label = fmt::format("{} {}", plan.items[piece.item].name, piece.number);
  row.words = words_of(piece);
  for (const double minutes : piece.minutes) row.at.push_back(minutes / minutes_per_hour);
  if (!piece.warm_limit_hours) return row;
  // Warm from the start, or from when it is no longer kept cold.
  const double from = plan.wish.cold_hours;
  if (row.at.back() > from) {
    row.from = from;
    row.to = row.at.back();
  }
  row.limit = from + *piece.warm_limit_hours - plan.wish.warm_before_hours;
  return row;
}

std::string sentence_of(const CarryPlan& plan) {
  std::string text = fmt::format(
      "What is taken when, in hours and minutes from the start of a run "
      "of {:g} h.",
      rounded(plan.wish.hours, 2));
  for (const CarryPiece& piece : plan.pieces) {
    text += fmt::format(" {} {} at ", plan.items[piece.item].name, piece.number);
    for (std::size_t i = 0; i < piece.minutes.size(); ++i)
      text += (i == 0 ? "" : ", ") + run_clock(piece.minutes[i]);
    text += fmt::format(", with {} mL of water", fixed(piece.water_ml, 0));
    if (piece.warm_limit_hours)
      text += fmt::format("; out of the cold for {} h by then, and {} h is the limit",
                          fixed(piece.warm_hours, 1), fixed(*piece.warm_limit_hours, 1));
    text += '.';
  }
  return text;
}

}  // namespace

void add_carry_picture(Report& report, const CarryPlan& plan) {
  Section section{"timeline", "THE RUN DRAWN", {}, {}, {}};
  if (plan.pieces.empty()) {
    section.lines.push_back(no_picture("nothing is taken on this run"));
  } else {
    Picture picture;
    picture.key = section.key;
    picture.title = "What is taken when, and how long it is out of the cold";
    picture.sentence = sentence_of(plan);
    picture.x = {"from the start", "h", 0, plan.wish.hours};
    picture.lanes = Lanes{"warm",
                          "taken, all of it or an equal part",
                          "out of the cold on the run, until all of it is eaten",
                          "from here on it has been out of the cold for too long",
                          {}};
    for (const CarryPiece& piece : plan.pieces) picture.lanes->rows.push_back(row_of(plan, piece));
    section.pictures.push_back(std::move(picture));
  }
  insert_behind(report, "take", std::move(section));
}

}  // namespace gelwright
