// The run on paper: what to pack, when to take it, when to make it, what to watch.
#include "gelwright/carry_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/sheet_parts.hpp"

namespace gelwright {

namespace {

std::string_view noun(CarryKind kind, bool several) {
  switch (kind) {
    case CarryKind::pouch:
      return several ? "pouches" : "pouch";
    case CarryKind::bottle:
      return several ? "bottles" : "bottle";
    case CarryKind::bought:
      return several ? "pieces" : "piece";
  }
  return "";
}

std::string_view share_words(std::size_t parts) {
  constexpr std::string_view words[] = {"", "all of it", "half each", "a third each",
                                        "a quarter each"};
  return parts < std::size(words) ? words[parts] : "equal parts";
}

/// "40 to 55", or one number where both ends are printed alike.
std::string range_words(const CarryRange& range) {
  const std::string low = fixed(range.low, 0);
  const std::string high = fixed(range.high, 0);
  return low == high ? low : fmt::format("{} to {}", low, high);
}

/// "250", "at least 250".
std::string known_words(double amount, bool at_least) {
  return at_least ? fmt::format("{} or more", fixed(amount, 0)) : fixed(amount, 0);
}

std::string sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text.empty() ? text : text + '.';
}

std::string what_to_take(const CarryPlan& plan) {
  std::string text;
  for (std::size_t i = 0; i < plan.items.size(); ++i) {
    const std::size_t count = plan.pieces_of[i];
    if (count == 0) continue;
    text += fmt::format("{}{} {} of {}", text.empty() ? "" : ", ", count,
                        noun(plan.items[i].kind, count > 1), plan.items[i].name);
  }
  if (text.empty()) return "Nothing.";
  return fmt::format("{}: {} g of carbohydrate, {} g an hour.", text,
                     fixed(plan.whole.taken.carbohydrate_g, 0), fixed(plan.g_per_hour, 0));
}

std::string what_to_drink(const CarryPlan& plan) {
  double least = 0;
  double most = 0;
  for (const CarryPiece& piece : plan.pieces)
    if (piece.water_ml > 0) {
      least = least > 0 ? std::min(least, piece.strength_percent) : piece.strength_percent;
      most = std::max(most, piece.strength_percent);
    }
  const double ml_per_hour = plan.whole.taken.fluid_ml / plan.eating_hours;
  if (plan.water_ml <= 0)
    return fmt::format("No water is needed to thin it. {} mL of fluid an hour in all.",
                       fixed(ml_per_hour, 0));
  return fmt::format(
      "{} mL of water with it, so that {} % of what goes down is carbohydrate; {} mL of fluid an "
      "hour in all. That is a ceiling, not an order: drink to thirst, never more than you sweat.",
      fixed(plan.water_ml, 0),
      fixed(least, 0) == fixed(most, 0) ? fixed(most, 0)
                                        : fmt::format("{} to {}", fixed(least, 0), fixed(most, 0)),
      fixed(ml_per_hour, 0));
}

/// Sodium beside what the person's own sweat holds, or what sweat may hold.
std::string salt_words(const CarryPlan& plan) {
  const CarryAmounts& taken = plan.whole.taken;
  CarryReference sweat;
  for (const CarryReference& each : carry_references(plan.wish.hours))
    if (each.unit == "mg/L") sweat = each;
  const double per_hour = taken.sodium_mg / plan.eating_hours;
  std::string text =
      fmt::format("{} mg of sodium an hour", known_words(per_hour, taken.sodium_at_least));
  if (plan.wish.sweat_l_per_hour)
    text += fmt::format("; {} L of sweat holds about {} to {} mg, and yours may hold less or more",
                        significant(*plan.wish.sweat_l_per_hour, 2),
                        significant(*sweat.low * *plan.wish.sweat_l_per_hour, 2),
                        significant(sweat.high * *plan.wish.sweat_l_per_hour, 2));
  else
    text += fmt::format("; a litre of sweat mostly holds {} to {} mg", significant(*sweat.low, 2),
                        significant(sweat.high, 2));
  return text + ".";
}

Section plan_section(const CarryPlan& plan) {
  Section section{"plan", "", {}, {}, {}};
  section.figures = {
      {"take", "TAKE", what_to_take(plan), "", "", "", Shown::text_only},
      {"drink", "DRINK", plan.pieces.empty() ? Cell() : Cell(what_to_drink(plan)), "", "", "",
       Shown::text_only},
      {"salt", "SALT", plan.pieces.empty() ? Cell() : Cell(salt_words(plan)), "", "", "",
       Shown::text_only},
      {"hours", "", Cell(plan.wish.hours, 2), "h", "", "", Shown::json_only},
      {"carbohydrate_wanted_g_per_h", "", Cell(plan.wish.carbohydrate_g_per_hour, 1), "g/h", "", "",
       Shown::json_only},
      {"carbohydrate_g_per_h", "", Cell(plan.g_per_hour, 1), "g/h", "", "", Shown::json_only},
      {"carbohydrate_g", "", Cell(plan.whole.taken.carbohydrate_g, 1), "g", "", "",
       Shown::json_only},
      {"water_ml", "", Cell(plan.water_ml, 0), "mL", "", "", Shown::json_only},
      {"packed_g", "", Cell(plan.packed_g, 0), "g", "", "", Shown::json_only},
      {"missing_g", "", Cell(plan.missing_g, 1), "g", "", "", Shown::json_only},
      {"cold_hours_needed", "", Cell(plan.cold_hours_needed, 2), "h", "", "", Shown::json_only},
  };
  std::erase_if(section.figures, [](const Figure& figure) {
    return figure.shown == Shown::text_only && figure.cell.empty();
  });
  return section;
}

Section watch_section(const CarryPlan& plan) {
  Section section{"watch", "", {}, {}, {}};
  Table table{"findings",
              {{"name", "", false},
               {"level", "", false},
               {"message", "", false},
               {"remedy", "", false},
               {"source", "", false}},
              {},
              Shown::json_only};
  for (const Level level : {Level::stop, Level::care, Level::note})
    for (const CarryFinding& each : plan.findings) {
      if (each.level != level) continue;
      std::string text = sentence(each.message);
      if (!each.remedy.empty()) text += ' ' + sentence(each.remedy);
      section.figures.push_back({each.name,
                                 level == Level::stop   ? "STOP"
                                 : level == Level::care ? "CARE"
                                                        : "NOTE",
                                 std::move(text), "", "", "", Shown::text_only});
      table.rows.push_back(
          {each.name, to_text(each.level), each.message, each.remedy, each.source});
    }
  section.tables.push_back(std::move(table));
  return section;
}

Section take_section(const CarryPlan& plan) {
  Section section{"take", "WHEN", {}, {}, {}};
  Table table{"take",
              {{"at", "at (h:min)", false, Shown::text_only},
               {"what", "what", false},
               {"number", "no.", true},
               {"parts", "how", false, Shown::text_only},
               {"water_ml", "water with it mL", true},
               {"strength_percent", "strength %", true, Shown::json_only},
               {"warm_h", "warm h", true},
               {"warm_limit_h", "limit h", true},
               {"minutes", "", false, Shown::json_only}},
              {}};
  for (const CarryPiece& piece : plan.pieces) {
    std::string at;
    std::string minutes;
    for (const double each : piece.minutes) {
      at += (at.empty() ? "" : ", ") + run_clock(each);
      minutes += (minutes.empty() ? "" : " ") + fixed(each, 0);
    }
    const bool spoils = piece.warm_limit_hours.has_value();
    table.rows.push_back({at, plan.items[piece.item].name,
                          Cell(static_cast<double>(piece.number), 0),
                          share_words(piece.minutes.size()), Cell(piece.water_ml, 0),
                          Cell(piece.strength_percent, 1),
                          Cell(spoils ? std::optional(piece.warm_hours) : std::nullopt, 1),
                          Cell(piece.warm_limit_hours, 1), minutes});
  }
  section.tables.push_back(std::move(table));
  return section;
}

/// "1", "4 (half of it)": an hour of the run, or all of it.
std::string hour_words(const CarryStretch& stretch, bool whole) {
  if (whole) return "all";
  const double hours = stretch.to_hours - stretch.from_hours;
  const std::string number = fixed(stretch.from_hours + 1, 0);
  return hours < 1 ? fmt::format("{} ({:.0f} min)", number, 60 * hours) : number;
}

Section hours_section(const CarryPlan& plan) {
  Section section{"hours", "HOUR BY HOUR", {}, {}, {}};
  Table table{"hours",
              {{"hour", "hour", false, Shown::text_only},
               {"from_h", "", true, Shown::json_only},
               {"to_h", "", true, Shown::json_only},
               {"carbohydrate_g", "carbohydrate g", true},
               {"glucose", "glucose g", true, Shown::text_only},
               {"fructose", "fructose g", true, Shown::text_only},
               {"glucose_low_g", "", true, Shown::json_only},
               {"glucose_high_g", "", true, Shown::json_only},
               {"fructose_low_g", "", true, Shown::json_only},
               {"fructose_high_g", "", true, Shown::json_only},
               {"sodium_mg", "sodium mg", true},
               {"potassium_mg", "", true, Shown::json_only},
               {"caffeine_mg", "", true, Shown::json_only},
               {"fluid_ml", "fluid mL", true}},
              {}};
  Table rest{"rest",
             {{"hour", "hour", false},
              {"potassium_mg", "potassium mg", true},
              {"caffeine_mg", "caffeine mg", true}},
             {},
             Shown::text_only};
  const auto add = [&](const CarryStretch& stretch, bool whole) {
    const CarryAmounts& taken = stretch.taken;
    table.rows.push_back(
        {hour_words(stretch, whole), Cell(stretch.from_hours, 1), Cell(stretch.to_hours, 1),
         Cell(taken.carbohydrate_g, 0), range_words(taken.glucose_g), range_words(taken.fructose_g),
         Cell(taken.glucose_g.low, 1), Cell(taken.glucose_g.high, 1), Cell(taken.fructose_g.low, 1),
         Cell(taken.fructose_g.high, 1), Cell(taken.sodium_mg, 0), Cell(taken.potassium_mg, 0),
         Cell(taken.caffeine_mg, 0), Cell(taken.fluid_ml, 0)});
    rest.rows.push_back(
        {hour_words(stretch, whole), Cell(taken.potassium_mg, 0), Cell(taken.caffeine_mg, 0)});
  };
  for (const CarryStretch& hour : plan.hours) add(hour, false);
  if (plan.hours.size() > 1) add(plan.whole, true);
  const CarryAmounts& all = plan.whole.taken;
  section.figures = {
      {"sodium_at_least", "", Cell(all.sodium_at_least), "", "", "", Shown::json_only},
      {"potassium_at_least", "", Cell(all.potassium_at_least), "", "", "", Shown::json_only}};
  section.tables.push_back(std::move(table));
  if (all.potassium_mg > 0 || all.caffeine_mg > 0) section.tables.push_back(std::move(rest));
  std::string said;
  if (all.sodium_at_least) said = "A label gives no sodium: there may be more of it.";
  if (all.potassium_at_least)
    said += fmt::format("{}Labels need not give potassium: there may be more of it.",
                        said.empty() ? "" : " ");
  if (!said.empty())
    section.lines.push_back({"said", {said}, Lines::Style::paragraph, Shown::text_only});
  return section;
}

Section pack_section(const CarryPlan& plan) {
  Section section{"pack", "PACK", {}, {}, {}};
  Table table{"pack",
              {{"what", "what", false},
               {"pieces", "pieces", true},
               {"each_g", "each g", true},
               {"all_g", "in all g", true}},
              {},
              Shown::everywhere,
              true};
  for (std::size_t i = 0; i < plan.items.size(); ++i) {
    if (plan.pieces_of[i] == 0) continue;
    const auto count = static_cast<double>(plan.pieces_of[i]);
    table.rows.push_back({plan.items[i].name, Cell(count, 0), Cell(plan.items[i].mass_g, 0),
                          Cell(count * plan.items[i].mass_g, 0)});
  }
  section.tables.push_back(std::move(table));
  section.lines.push_back(
      {"weight",
       {fmt::format("{} kg without wrapping, and {} L of water, carried or found on the way.",
                    fixed(plan.packed_g / 1000, 2), fixed(plan.water_ml / 1000, 1))},
       Lines::Style::paragraph,
       Shown::text_only});
  return section;
}

/// "9 hours before the start", or the date and time of that.
std::string before_start(double hours, const std::optional<LocalTime>& start) {
  if (!start) return fmt::format("{:g} h before the start", rounded(hours, 1));
  return time_text({start->minutes - std::lround(60 * hours)});
}

/// The batches to make: what `sheet` is then asked for, and between when and when.
Section make_section(const CarryPlan& plan, const std::optional<LocalTime>& start) {
  Section section{"make", "MAKE", {}, {}, {}};
  Table table{"make",
              {{"recipe", "what", false},
               {"file", "", false, Shown::json_only},
               {"servings", "servings", true},
               {"batches", "batches", true},
               {"not_before", "not before", false, Shown::text_only},
               {"begin_by", "begin by", false, Shown::text_only},
               {"not_before_h", "", true, Shown::json_only},
               {"begin_by_h", "", true, Shown::json_only}},
              {}};
  std::vector<std::string> sheets;
  for (std::size_t i = 0; i < plan.items.size(); ++i) {
    const CarryItem& item = plan.items[i];
    if (!item.keeping || plan.pieces_of[i] == 0) continue;
    double last_hours = 0;
    for (const CarryPiece& piece : plan.pieces)
      if (piece.item == i) last_hours = std::max(last_hours, piece.minutes.back() / 60);
    const double not_before = std::max(0.0, item.keeping->chilled_hours - last_hours);
    const double begin_by = item.making_hours + plan.wish.warm_before_hours;
    const auto servings = static_cast<double>(plan.pieces_of[i]);
    table.rows.push_back({item.name, item.document, Cell(servings, 0),
                          Cell(std::ceil(servings / item.batch_servings), 0),
                          before_start(not_before, start), before_start(begin_by, start),
                          Cell(not_before, 1), Cell(begin_by, 1)});
    sheets.push_back(fmt::format("gelwright sheet {} --servings {:.0f}", item.document, servings));
  }
  if (table.rows.empty()) return section;
  section.tables.push_back(std::move(table));
  section.lines.push_back({"sheets", std::move(sheets), Lines::Style::bullets});
  return section;
}

Section ramp_section(const CarryPlan& plan) {
  Section section{"ramp", "BUILD UP TO IT", {}, {}, {}};
  if (plan.ramp_g_per_hour.empty()) return section;
  Table table{"ramp", {{"run", "long run", true}, {"g_per_h", "carbohydrate g/h", true}}, {}};
  for (std::size_t i = 0; i < plan.ramp_g_per_hour.size(); ++i)
    table.rows.push_back({Cell(static_cast<double>(i + 1), 0), Cell(plan.ramp_g_per_hour[i], 0)});
  section.tables.push_back(std::move(table));
  section.lines.push_back(
      {"how",
       {"Stay a step longer, or go back one, whenever the stomach complains; about one long run a "
        "week. Which pace suits you a sports dietitian can tell better."},
       Lines::Style::paragraph,
       Shown::text_only});
  return section;
}

Section ranges_section(const CarryPlan& plan) {
  Section section{"ranges", "TO HOLD IT AGAINST", {}, {}, {}};
  Table table{"ranges",
              {{"what", "what", false},
               {"low", "from", true},
               {"high", "to", true},
               {"unit", "unit", false},
               {"source", "source", false}},
              {}};
  for (const CarryReference& each : carry_references(plan.wish.hours))
    table.rows.push_back({each.what, Cell(each.low, each.high < 10 ? 1 : 0),
                          Cell(each.high, each.high < 10 ? 1 : 0), each.unit, each.source});
  section.tables.push_back(std::move(table));
  return section;
}

Section cautions_section() {
  Section section{"cautions", "", {}, {}, {}};
  section.lines.push_back(
      {"cautions",
       {"A plan, not advice, and no promise that it makes anyone faster: eat and drink as your "
        "body "
        "says. Your dietitian or doctor comes first, above all with diabetes, kidney, heart or "
        "stomach trouble, in pregnancy, and for children; so do the packs and local food-safety "
        "codes. Times warm count from when a piece leaves the cold; what is left over is thrown "
        "away. Medicines two hours apart from gels."},
       Lines::Style::paragraph});
  return section;
}

}  // namespace

Report carry_report(const CarryPlan& plan, std::optional<LocalTime> start) {
  Report report{"gelwright/carry-1",
                fmt::format("A run of {:g} h at {:g} g of carbohydrate an hour", plan.wish.hours,
                            plan.wish.carbohydrate_g_per_hour),
                {},
                "take"};
  report.names_program = true;
  report.sections = {plan_section(plan),  watch_section(plan),  take_section(plan),
                     hours_section(plan), pack_section(plan),   make_section(plan, start),
                     ramp_section(plan),  ranges_section(plan), cautions_section()};
  return report;
}

}  // namespace gelwright
