// Flags about scales, stock solutions and vessels.
#include <fmt/format.h>

#include "base/rounding.hpp"
#include "flags/record.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum rows[] = {
    {"flag.hopeless-error", 50, "%", 0, "a dose this uncertain is no dose", "judgement",
     Standing::judgement},
};
constexpr std::array<std::string_view, 0> borrowed = {};
constexpr Threshold hopeless_percent = place_of(rows, borrowed, "flag.hopeless-error");

/// In the batch's list of lines, or of stocks.
struct Line {
  std::size_t place;
};

const UnweighableLine& unweighable(const Flag& flag, const Judged& j) {
  return j.serving.batch.unweighable[flag.numbers.as<Line>().place];
}

const StockPlan& stock(const Flag& flag, const Judged& j) {
  return j.serving.batch.stocks[flag.numbers.as<Line>().place];
}

void check_cannot_weigh(const Judged& j, Raise& raise) {
  const auto& lines = j.serving.batch.unweighable;
  for (std::size_t i = 0; i < lines.size(); ++i)
    raise(lines[i].error_percent >= j[hopeless_percent] ? Level::stop : Level::care, Line{i});
}

std::string tell_cannot_weigh(const Flag& flag, const Judged& j) {
  const UnweighableLine& line = unweighable(flag, j);
  return fmt::format(
      "{} g of {} cannot be weighed on these scales: {} % error against {:g} % "
      "allowed",
      significant(line.exact_g, 2),
      line.role == LineRole::water ? "water" : j.recipe().ingredients[line.ingredient].name,
      significant(line.error_percent, 2), j.recipe().batch.dose_tolerance_percent);
}

std::string mend_cannot_weigh(const Flag& flag, const Judged& j) {
  const UnweighableLine& line = unweighable(flag, j);
  return fmt::format("use a scale of {} g or finer, or make at least {:.0f} servings",
                     significant(line.readability_needed_g, 1), line.servings_needed);
}

void check_dosed_from_stock(const Judged& j, Raise& raise) {
  const auto& stocks = j.serving.batch.stocks;
  for (std::size_t i = 0; i < stocks.size(); ++i)
    if (stocks[i].chosen_by_plan) raise(Level::note, Line{i});
}

std::string tell_dosed_from_stock(const Flag& flag, const Judged& j) {
  const StockPlan& plan = stock(flag, j);
  return fmt::format("{} cannot be weighed neat: use {} g of a {:.0f} % stock",
                     j.recipe().ingredients[plan.ingredient].name, significant(plan.use_g, 3),
                     100 * plan.stock_fraction);
}

std::string mend_dosed_from_stock(const Flag& flag, const Judged& j) {
  return fmt::format("make at least {} g of it, so that the stock itself is right",
                     significant(stock(flag, j).make_g, 3));
}

void check_vessel(const Judged& j, Raise& raise) {
  const auto& fits = j.serving.batch.fits_vessel;
  if (fits && !*fits) raise(Level::care);
}

std::string tell_vessel(const Flag&, const Judged& j) {
  return fmt::format("the batch needs {:.0f} mL with headroom, the vessel holds {:.0f}",
                     j.serving.batch.vessel_needed_ml, *j.recipe().batch.vessel_ml);
}

constexpr FlagRecord records[] = {
    {.name = "cannot-weigh",
     .called = "an amount these scales cannot weigh",
     .when = "no scale of the recipe weighs a line within its tolerance; to {flag.hopeless-error} "
             "% or worse it is no dose at all",
     .why = "A line clears if 2 u and the rounding fit the tolerance, u from the scale's "
            "repeatability and readability.",
     .source = "usp-41",
     .grade = Grade::c,
     .check = check_cannot_weigh,
     .message = tell_cannot_weigh,
     .remedy = mend_cannot_weigh,
     .by_plan = true},
    {.name = "dosed-from-stock",
     .called = "a dose to be made as a solution",
     .when = "the plan doses from a stock solution because the neat dose cannot be weighed",
     .why = "A heavier amount of a weak solution carries a smaller relative error.",
     .source = "arithmetic",
     .grade = Grade::a,
     .check = check_dosed_from_stock,
     .message = tell_dosed_from_stock,
     .remedy = mend_dosed_from_stock,
     .by_plan = true},
    {.name = "vessel-too-small",
     .called = "too small a vessel",
     .when = "volume with headroom exceeds `vessel_ml`",
     .why = "A blended gel holds foam.",
     .source = "common-practice",
     .grade = Grade::c,
     .check = check_vessel,
     .message = tell_vessel,
     .remedy = "make fewer servings, or take a bigger vessel",
     .by_plan = true},
};

}  // namespace

FlagSubject weighing_flags() {
  return {records, rows, borrowed};
}

}  // namespace gelwright::detail
