// They defer to a dietitian, a doctor, the pack. None says that eating more makes anyone faster.
#include "studies/carry/findings.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/dust.hpp"
#include "base/rounding.hpp"
#include "studies/carry/carry_table.hpp"
#include "studies/carry/references.hpp"

namespace gelwright::detail {

namespace {

constexpr double mg_per_g = 1000;
constexpr double ml_per_l = 1000;

class Findings {
 public:
  Findings(const CarryPlan& plan, bool piece_too_big) : plan_(plan), too_big_(piece_too_big) {}

  std::vector<CarryFinding> all() {
    warmth();
    making();
    drinking();
    carbohydrate();
    sugars();
    caffeine();
    potassium();
    gum();
    return std::move(found_);
  }

 private:
  const CarryAmounts& taken() const { return plan_.whole.taken; }
  double per_hour(double amount) const { return amount / plan_.eating_hours; }

  void say(std::string name, Level level, std::string message, std::string remedy,
           std::string_view source) {
    found_.push_back({std::move(name), level, std::move(message), std::move(remedy), source});
  }

  void warmth() {
    if (plan_.missing_g > 0)
      say("warm-too-long", Level::stop,
          fmt::format("{} g of carbohydrate are missing: from {} on, what is carried would have "
                      "been warm for too long to be eaten",
                      fixed(plan_.missing_g, 0), run_clock(60 * plan_.eating_hours)),
          fmt::format("keep the pieces for later at fridge temperature until {} into the run (a "
                      "cool bag with ice, or a friend with a fridge on the way), or take something "
                      "bought that keeps",
                      run_clock(60 * plan_.cold_hours_needed)),
          "judgement");
    for (std::size_t i = 0; i < plan_.items.size(); ++i) {
      const CarryItem& item = plan_.items[i];
      if (item.pieces && plan_.pieces_of[i] < *item.pieces)
        say("left-over", Level::care,
            fmt::format("{} of {} of {} cannot be eaten in time", *item.pieces - plan_.pieces_of[i],
                        *item.pieces, item.name),
            "leave what is over at home, in the fridge", "judgement");
    }
    if (too_big_)
      say("piece-too-big", Level::care,
          "a whole piece is more than twice of what this run asks for",
          "make smaller ones, or take none", "judgement");
  }

  /// It has to be ready before the start, and still good when it is eaten.
  void making() {
    for (std::size_t i = 0; i < plan_.items.size(); ++i) {
      const CarryItem& item = plan_.items[i];
      if (!item.keeping || plan_.pieces_of[i] == 0) continue;
      const double ends = plan_.wish.warm_before_hours + last_hours(i);
      if (item.making_hours + ends > item.keeping->chilled_hours)
        say("no-time-to-make", Level::stop,
            fmt::format("{} takes {} hours to make and keeps {} hours: none of that is left for "
                        "the run",
                        item.name, significant(item.making_hours, 2),
                        significant(item.keeping->chilled_hours, 3)),
            "let it rest for a shorter time, or prove its pH with a meter so that it keeps longer",
            "judgement");
    }
  }

  double last_hours(std::size_t item) const {
    double last = 0;
    for (const CarryPiece& piece : plan_.pieces)
      if (piece.item == item) last = std::max(last, piece.minutes.back() / 60);
    return last;
  }

  void drinking() {
    const double l_per_hour = per_hour(taken().fluid_ml) / ml_per_l;
    const double most =
        plan_.wish.sweat_l_per_hour.value_or(value_of(carry_table, "carry.fluid-most"));
    const bool own = plan_.wish.sweat_l_per_hour.has_value();
    if (is_over(l_per_hour, most))
      say("over-drinking", own ? Level::stop : Level::care,
          fmt::format("the bottles alone hold {} L for each hour, over the {} L {}",
                      fixed(l_per_hour, 2), significant(most, 2),
                      own ? "you sweat" : "a fast, heavy runner in the warm is advised to drink"),
          "take pouches instead of bottles, or less carbohydrate an hour. Drinking more than you "
          "sweat thins the blood and can kill: never drink to a plan, drink to thirst",
          "acsm-2007-fluid");
    double strongest = 0;
    for (const CarryPiece& piece : plan_.pieces)
      if (piece.water_ml > 0) strongest = std::max(strongest, piece.strength_percent);
    const double limit = std::max(plan_.wish.strength_percent.value_or(0),
                                  value_of(carry_table, "carry.strength-most"));
    if (is_over(strongest, limit))
      say("strong-in-the-gut", Level::care,
          fmt::format("with no more water than {}, what goes down is {} % carbohydrate, over {} %",
                      own ? "you sweat" : "is safe without knowing how much you sweat",
                      fixed(strongest, 0), significant(limit, 2)),
          own ? "less carbohydrate an hour: water will not make up for it"
              : "weigh yourself before and after an hour's run, 1 kg lost is 1 L of sweat, and "
                "plan with that; or less carbohydrate an hour",
          "acsm-2007-fluid");
  }

  void carbohydrate() {
    if (plan_.pieces.empty()) return;
    const double pace = plan_.g_per_hour;
    const double range = carbohydrate_range_g_per_hour(plan_.wish.hours);
    const double untried = value_of(carry_table, "carry.untried");
    const std::optional<double> used_to = plan_.wish.used_to_g_per_hour;
    if (is_over(pace, untried) && !(used_to && !is_over(pace, *used_to)))
      say("untried", Level::care,
          fmt::format("{} g of carbohydrate an hour, over {} g: nobody should meet that on the day "
                      "for the first time",
                      fixed(pace, 0), significant(untried, 2)),
          "build up to it over weeks of long runs, or ask a sports dietitian", "jeukendrup-2014");
    else if (is_over(pace, range))
      say("over-the-range", Level::note,
          fmt::format("{} g of carbohydrate an hour; for a run of {} h up to {} g is advised",
                      fixed(pace, 0), significant(plan_.wish.hours, 2), significant(range, 2)),
          "", "jeukendrup-2014");
    if (used_to && is_over(pace, *used_to + value_of(carry_table, "carry.ramp-step")))
      say("more-than-used-to", Level::care,
          fmt::format("{} g an hour, and your stomach is used to {} g", fixed(pace, 0),
                      significant(*used_to, 2)),
          "build up to it on the long runs before, a step at a time", "judgement");
  }

  void sugars() {
    const CarryRange glucose{per_hour(taken().glucose_g.low), per_hour(taken().glucose_g.high)};
    const CarryRange fructose{per_hour(taken().fructose_g.low), per_hour(taken().fructose_g.high)};
    const double most = value_of(carry_table, "carry.glucose-most");
    if (is_over(glucose.high, most)) {
      const bool sure = is_over(glucose.low, most);
      say("glucose-per-hour", sure ? Level::care : Level::note,
          fmt::format("{}{} g of glucose an hour; of one sort about {} g an hour is put to use",
                      sure ? "" : "perhaps ", fixed(glucose.high, 0), significant(most, 2)),
          sure ? "take part of it as fructose or sucrose, or less an hour"
               : "the label does not name its sugars: ask its maker",
          "jeukendrup-2014");
    }
    const double alone = value_of(carry_table, "carry.fructose");
    if (is_over(fructose.high, alone) && is_over(fructose.high, glucose.low))
      say("fructose-per-hour", is_over(fructose.low, glucose.high) ? Level::care : Level::note,
          fmt::format("up to {} g of fructose an hour with only {} g of glucose",
                      fixed(fructose.high, 0), fixed(glucose.low, 0)),
          "match fructose with as much glucose or maltodextrin; none of it with hereditary "
          "fructose intolerance",
          "judgement");
  }

  void caffeine() {
    const double single = flagged("flag.caffeine-single");
    double most_mg = 0;
    for (const CarryPiece& piece : plan_.pieces)
      most_mg = std::max(most_mg, plan_.items[piece.item].holds.caffeine_mg);
    for (const CarryStretch& hour : plan_.hours)
      most_mg = std::max(most_mg, hour.taken.caffeine_mg);
    if (is_over(most_mg, single))
      say("caffeine-single", Level::stop,
          fmt::format("{} mg of caffeine in one piece or within one hour, over {} mg",
                      fixed(most_mg, 0), significant(single, 3)),
          "take less at a time; ask a doctor if in doubt", "efsa-2015-caffeine");
    const double day = flagged("flag.caffeine-day");
    const double pregnancy = flagged("flag.caffeine-pregnancy");
    const double all_mg = taken().caffeine_mg;
    if (is_over(all_mg, day))
      say("caffeine-day", Level::stop,
          fmt::format("{} mg of caffeine in all, over {} mg in a day", fixed(all_mg, 0),
                      significant(day, 3)),
          fmt::format("take less; in pregnancy at most {} mg a day, from all you eat and drink",
                      significant(pregnancy, 3)),
          "efsa-2015-caffeine");
    else if (is_over(all_mg, pregnancy))
      say("caffeine-day", Level::note,
          fmt::format("{} mg of caffeine in all, before any coffee that day; in pregnancy at most "
                      "{} mg",
                      fixed(all_mg, 0), significant(pregnancy, 3)),
          "", "efsa-2015-caffeine");
  }

  void potassium() {
    const double all_g = taken().potassium_mg / mg_per_g;
    const double care = flagged("flag.potassium-care");
    const double stop = flagged("flag.potassium-stop");
    if (is_over(all_g, care))
      say("potassium-day", is_over(all_g, stop) ? Level::stop : Level::care,
          fmt::format("{}{} g of potassium in all, over {} g",
                      taken().potassium_at_least ? "at least " : "", fixed(all_g, 1),
                      significant(is_over(all_g, stop) ? stop : care, 1)),
          "less potassium salt; with weak kidneys, or medicine for heart, kidneys or blood "
          "pressure, ask a doctor first",
          "vkm-2017-potassium");
  }

  void gum() {
    const double day = flagged("flag.gum-day");
    if (is_over(taken().gum_g, day))
      say("gum-day", Level::note,
          fmt::format("{} g of gum in all, over {} g: bulk in the gut", fixed(taken().gum_g, 1),
                      significant(day, 2)),
          "fewer of the pieces with gum", "judgement");
  }

  const CarryPlan& plan_;
  bool too_big_;
  std::vector<CarryFinding> found_;
};

}  // namespace

std::vector<CarryFinding> findings_of(const CarryPlan& plan, bool piece_too_big) {
  return Findings(plan, piece_too_big).all();
}

}  // namespace gelwright::detail
