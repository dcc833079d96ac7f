// The run: whole pieces, in time, with water; held against published ranges and hand calculations.
#include <algorithm>
#include <cmath>

#include "catch.hpp"
#include "gelwright/carry.hpp"
#include "gelwright/carry_report.hpp"
#include "program.hpp"
#include "recipes.hpp"
#include "statistics/random.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::Printed;
using gelwright::test::refusal_of;
using gelwright::test::run_program;

namespace {

/// A pouch of maltodextrin and fructose; keeps `warm_hours` out of the cold.
CarryItem pouch(double carbohydrate_g, double warm_hours, double mass_g = 115) {
  CarryItem item;
  item.name = "pouch";
  item.kind = CarryKind::pouch;
  item.mass_g = mass_g;
  item.holds.carbohydrate_g = carbohydrate_g;
  item.holds.glucose_g = {carbohydrate_g * 2 / 3, carbohydrate_g * 2 / 3};
  item.holds.fructose_g = {carbohydrate_g / 3, carbohydrate_g / 3};
  item.holds.fluid_ml = mass_g - carbohydrate_g;
  item.keeping = Keeping{.chilled_c = 5,
                         .chilled_hours = 48,
                         .warm_hours = warm_hours,
                         .hot_day_c = 32,
                         .hot_day_warm_hours = 1};
  item.making_hours = 13;
  item.batch_servings = 10;
  return item;
}

CarryItem bar(double carbohydrate_g = 30) {
  CarryItem item;
  item.name = "bar";
  item.mass_g = 45;
  item.holds.carbohydrate_g = carbohydrate_g;
  item.holds.glucose_g = {20, 30};
  item.holds.fructose_g = {0, 10};
  return item;
}

bool found(const CarryPlan& plan, const std::string& name) {
  return std::any_of(plan.findings.begin(), plan.findings.end(),
                     [&](const CarryFinding& each) { return each.name == name; });
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

CarryWish wish(double hours, double g_per_hour) {
  CarryWish made;
  made.hours = hours;
  made.carbohydrate_g_per_hour = g_per_hour;
  return made;
}

double caffeine_of(double mg, std::size_t pieces) {
  CarryItem item = pouch(60, 4);
  item.holds.caffeine_mg = mg;
  item.pieces = pieces;
  const CarryPlan plan = carry({item}, wish(3, 60));
  return plan.whole.taken.caffeine_mg;
}

}  // namespace

TEST_CASE("water with a pouch (hand calculation: m (c / t - 1))") {
  // 68 g in 115 g, wanted at 8 %: 68 / 0.08 = 850 g in all, 735 of it water.
  CarryWish one = wish(1, 68);
  one.sweat_l_per_hour = 2;
  const CarryPlan plan = carry({pouch(68, 2)}, one);
  REQUIRE(plan.pieces.size() == 1);
  CHECK_THAT(plan.pieces[0].water_ml, near(735, 1e-9));
  CHECK_THAT(plan.pieces[0].strength_percent, near(8, 1e-9));
  CHECK_THAT(plan.whole.taken.fluid_ml, near(735 + 47, 1e-9));
}

TEST_CASE("nobody is told to drink more than they sweat") {
  CarryWish one = wish(1, 68);
  one.sweat_l_per_hour = 0.5;
  const CarryPlan plan = carry({pouch(68, 2)}, one);
  CHECK_THAT(plan.whole.taken.fluid_ml, near(500, 1e-9));
  // 68 g in 115 + 453 g are 11.97 %: over the 10 % a drink may have (ACSM 2007).
  CHECK_THAT(plan.pieces[0].strength_percent, near(68 / 5.68, 1e-9));
  CHECK(found(plan, "strong-in-the-gut"));
  // A bottle that alone holds more than is sweated is called what it is.
  CarryItem bottle = pouch(40, 2, 640);
  CHECK(found(carry({bottle}, one), "over-drinking"));
}

TEST_CASE("carbohydrate by the length of the run (Jeukendrup 2014, Sports Med. 44:S25)") {
  CHECK(carbohydrate_range_g_per_hour(1.5) == 30);
  CHECK(carbohydrate_range_g_per_hour(2) == 60);
  CHECK(carbohydrate_range_g_per_hour(2.5) == 60);
  CHECK(carbohydrate_range_g_per_hour(3.5) == 90);
  CHECK(found(carry({pouch(60, 4)}, wish(1.5, 60)), "over-the-range"));
  CHECK_FALSE(found(carry({pouch(60, 4)}, wish(3, 60)), "over-the-range"));
}

TEST_CASE("the ranges shown are those of their sources") {
  for (const CarryReference& each : carry_references(3)) {
    INFO(each.what);
    REQUIRE(find_source(each.source) != nullptr);
    // Baker 2016 (abstract): 35.9 +- 10.4 mmol/L, 0.26 to 5.73 L/h; sodium 22.99 g/mol.
    if (each.unit == "mg/L") {
      CHECK_THAT(*each.low, near(22.99 * 25.5, 1));
      CHECK_THAT(each.high, near(22.99 * 46.3, 1));
    }
    // EFSA 2015: 200 mg at once, 400 mg a day, 200 mg a day in pregnancy.
    if (each.unit == "mg") CHECK((each.high == 200 || each.high == 400));
    // ACSM 2007 (from memory): 0.4 to 0.8 L/h to start from.
    if (each.source == "acsm-2007-fluid") CHECK((each.low == 0.4 && each.high == 0.8));
  }
}

TEST_CASE("glucose over 60 g an hour is flagged, and perhaps where a label names no sugar") {
  CarryItem plain = pouch(60, 4);
  plain.holds.glucose_g = {60, 60};
  plain.holds.fructose_g = {0, 0};
  CHECK(found(carry({plain}, wish(3, 80)), "glucose-per-hour"));
  CHECK_FALSE(found(carry({plain}, wish(3, 60)), "glucose-per-hour"));
  plain.holds.glucose_g = {40, 60};
  const CarryPlan plan = carry({plain}, wish(3, 80));
  for (const CarryFinding& each : plan.findings)
    if (each.name == "glucose-per-hour") CHECK(each.level == Level::note);
  CHECK(found(plan, "glucose-per-hour"));
}

TEST_CASE("over 90 g an hour is untried until it has been trained") {
  CarryWish much = wish(3, 110);
  CHECK(found(carry({pouch(55, 4)}, much), "untried"));
  much.used_to_g_per_hour = 110;
  CHECK_FALSE(found(carry({pouch(55, 4)}, much), "untried"));
  much.used_to_g_per_hour = 70;
  const CarryPlan plan = carry({pouch(55, 4)}, much);
  CHECK(found(plan, "untried"));
  CHECK(found(plan, "more-than-used-to"));
  CHECK(plan.ramp_g_per_hour == std::vector<double>{80, 90, 100});
}

TEST_CASE("caffeine by the dose and by the day (EFSA 2015), potassium by the day (VKM 2017)") {
  CHECK(caffeine_of(100, 3) == 300);
  CarryItem item = pouch(60, 4);
  item.holds.caffeine_mg = 201;
  CHECK(found(carry({item}, wish(1, 60)), "caffeine-single"));
  // Two pieces of 101 mg within one hour count as one dose.
  item = pouch(30, 4);
  item.holds.caffeine_mg = 101;
  CHECK(found(carry({item}, wish(1, 60)), "caffeine-single"));
  item = pouch(60, 4);
  item.holds.caffeine_mg = 134;
  CHECK(found(carry({item}, wish(3, 60)), "caffeine-day"));
  item.holds.caffeine_mg = 60;
  CHECK_FALSE(found(carry({item}, wish(3, 60)), "caffeine-day"));
  item.holds.caffeine_mg = 0;
  item.holds.potassium_mg = 334;
  CHECK(found(carry({item}, wish(3, 60)), "potassium-day"));
  item.holds.potassium_mg = 333;
  CHECK_FALSE(found(carry({item}, wish(3, 60)), "potassium-day"));
}

TEST_CASE("what spoils is eaten while it may be, and what cannot be is missing aloud") {
  const CarryPlan alone = carry({pouch(70, 2)}, wish(3.5, 70));
  CHECK(alone.pieces.size() == 2);  // begun at 0 and 1 h; the third would end at 2 h 50
  CHECK(found(alone, "warm-too-long"));
  CHECK_THAT(alone.missing_g, near(245 - 140, 1e-9));
  // The last part of the last pouch is eaten at 3 h 20 at most: 1.5 h cold brings it to 2 h warm.
  CHECK(alone.cold_hours_needed == 1.5);
  CarryWish cold = wish(3.5, 70);
  cold.cold_hours = alone.cold_hours_needed;
  const CarryPlan kept = carry({pouch(70, 2)}, cold);
  CHECK(kept.missing_g == 0);
  CHECK_FALSE(found(kept, "warm-too-long"));
  // Something bought takes over.
  const CarryPlan both = carry({bar(), pouch(70, 2)}, wish(3.5, 70));
  CHECK(both.missing_g == 0);
  CHECK(both.pieces.front().item == 1);
  CHECK(both.pieces.back().item == 0);
  // On a hot day one hour is all there is.
  CarryWish hot = wish(3.5, 70);
  hot.air_c = 33;
  CHECK(carry({bar(), pouch(70, 4)}, hot).pieces_of[1] == 1);
  hot.air_c = 32;
  CHECK(carry({bar(), pouch(70, 4)}, hot).pieces_of[1] > 1);
}

TEST_CASE("pieces that were counted out come before those that fill up") {
  CarryItem bottle = pouch(40, 2, 500);
  bottle.pieces = 1;
  const CarryPlan plan = carry({pouch(70, 2), bottle, bar()}, wish(4, 60));
  CHECK(plan.pieces_of[1] == 1);
  CHECK_FALSE(found(plan, "left-over"));
}

TEST_CASE("what takes longer to make than it keeps cannot be carried") {
  CarryItem slow = pouch(60, 4);
  slow.making_hours = 47;
  CHECK(found(carry({slow}, wish(3, 60)), "no-time-to-make"));
  slow.making_hours = 40;
  CHECK_FALSE(found(carry({slow}, wish(3, 60)), "no-time-to-make"));
}

TEST_CASE("a thousand random runs keep totals, whole pieces and limits") {
  for (std::uint64_t run = 0; run < 1000; ++run) {
    std::uint64_t next = 0;
    const auto between = [&](double low, double high) {
      return detail::rectangular({20261126, next++, run}, low, high);
    };
    CarryWish asked = wish(between(0.2, 12), between(10, 120));
    if (between(0, 1) < 0.5) asked.sweat_l_per_hour = between(0.3, 2);
    if (between(0, 1) < 0.3) asked.cold_hours = between(0, 6);
    if (between(0, 1) < 0.3) asked.warm_before_hours = between(0, 1.5);
    if (between(0, 1) < 0.3) asked.air_c = between(0, 40);
    std::vector<CarryItem> items;
    const auto kinds = static_cast<std::size_t>(between(1, 5));
    bool any_open = false;
    double biggest_g = 0;
    for (std::size_t i = 0; i < kinds; ++i) {
      items.push_back(between(0, 1) < 0.5 ? pouch(between(20, 80), between(0, 1) < 0.5 ? 2 : 4)
                                          : bar(between(10, 60)));
      if (between(0, 1) < 0.4) items.back().pieces = static_cast<std::size_t>(between(1, 6));
      any_open = any_open || !items.back().pieces;
      biggest_g = std::max(biggest_g, items.back().holds.carbohydrate_g);
    }
    INFO("run " << run);
    const CarryPlan plan = carry(items, asked);

    std::vector<std::size_t> counted(items.size(), 0);
    double carbohydrate_g = 0;
    double fluid_ml = 0;
    double held_ml = 0;
    for (const CarryPiece& piece : plan.pieces) {
      const CarryItem& item = items[piece.item];
      CHECK(piece.number == ++counted[piece.item]);
      carbohydrate_g += item.holds.carbohydrate_g;
      fluid_ml += item.holds.fluid_ml + piece.water_ml;
      held_ml += item.holds.fluid_ml;
      CHECK(piece.water_ml >= 0);
      CHECK(std::is_sorted(piece.minutes.begin(), piece.minutes.end()));
      CHECK(piece.minutes.front() >= 0);
      CHECK(piece.minutes.back() <= 60 * asked.hours);
      if (!item.keeping) continue;
      const double limit = asked.air_c && *asked.air_c > 32 ? 1 : item.keeping->warm_hours;
      const double warm =
          asked.warm_before_hours + std::max(0.0, piece.minutes.back() / 60 - asked.cold_hours);
      CHECK(warm <= limit + 1e-9);
    }
    CHECK(counted == plan.pieces_of);
    for (std::size_t i = 0; i < items.size(); ++i)
      if (items[i].pieces) CHECK(counted[i] <= *items[i].pieces);

    CarryAmounts summed;
    for (const CarryStretch& hour : plan.hours) summed += hour.taken;
    CHECK_THAT(summed.carbohydrate_g, near(carbohydrate_g, 1e-6));
    CHECK_THAT(plan.whole.taken.carbohydrate_g, near(carbohydrate_g, 1e-6));
    CHECK_THAT(summed.fluid_ml, near(fluid_ml, 1e-6));
    CHECK_THAT(plan.whole.taken.fluid_ml, near(fluid_ml, 1e-6));

    const double most_ml = 1000 * asked.hours * asked.sweat_l_per_hour.value_or(0.8);
    CHECK(fluid_ml <= std::max(most_ml, held_ml) + 1e-6);
    if (held_ml > most_ml) CHECK(found(plan, "over-drinking"));
    const double wanted_g = asked.hours * asked.carbohydrate_g_per_hour;
    if (any_open && plan.missing_g == 0 && !plan.pieces.empty()) {
      CHECK(carbohydrate_g >= wanted_g - biggest_g / 2 - 1e-6);
    }
    CHECK((plan.missing_g > 0) == found(plan, "warm-too-long"));
  }
}

TEST_CASE("a wish out of range is refused, all of it at once") {
  CarryWish mad = wish(-3, 500);
  mad.sweat_l_per_hour = 40;
  const std::string said = refusal_of([&] { carry({pouch(60, 4)}, mad); });
  CHECK(holds(said, "hours: -3 is out of range"));
  CHECK(holds(said, "carbohydrate_g_per_hour: 500 is out of range"));
  CHECK(holds(said, "sweat_l_per_hour: 40 is out of range"));
  CHECK(holds(refusal_of([] { carry({}, wish(3, 60)); }), "there is nothing to carry"));
  CHECK(holds(refusal_of([] { carry({bar(0)}, wish(3, 60)); }),
              "no carbohydrate to count pieces by"));
}

TEST_CASE("a bought thing is a mix of the kitchen or a label typed in") {
  const KitchenDocument kitchen = test::shipped_kitchen();
  const Bought mix = read_bought("fell mix=2", kitchen, "--bought");
  CHECK(mix.piece_g == 72);
  CHECK(mix.pieces == 2.0);
  const CarryItem item = carry_item(mix.ingredient, mix.piece_g);
  CHECK_THAT(item.holds.carbohydrate_g, near(68, 1e-9));
  CHECK_THAT(item.holds.sodium_mg, near(250, 1e-6));
  // 31 g of sugars without a name: glucose or fructose, anything between.
  CHECK_THAT(item.holds.fructose_g.low, near(0, 1e-9));
  CHECK_THAT(item.holds.fructose_g.high, near(31, 1e-9));
  CHECK_THAT(item.holds.glucose_g.low, near(68 - 31, 1e-9));
  CHECK_THAT(item.holds.glucose_g.high, near(68, 1e-9));

  const Bought typed =
      read_bought("oat bar,piece_g=45,carbohydrate_g=30,sodium_mg=80", std::nullopt, "--bought");
  CHECK(typed.piece_g == 45);
  CHECK_FALSE(typed.pieces);
  CHECK_THAT(carry_item(typed.ingredient, 45).holds.carbohydrate_g, near(30, 1e-9));

  const auto refused = [&](const std::string& text) {
    return refusal_of([&] { read_bought(text, kitchen, "--bought"); });
  };
  CHECK(holds(refused("fel mix"), "fell mix"));
  CHECK(holds(refused("oat bar,carbohydrate_g=30"), "nothing says how heavy a piece is"));
  CHECK(holds(refused("oat bar,piece_g=45,carbohydrate_g=60"), "carbohydrate"));
  CHECK(holds(refused("oat bar,piece_g=45,carbs=30"), "carbs"));
  CHECK(holds(refused("fell mix=0"), "not a number of pieces"));
  CHECK(holds(refused("fell mix,piece_g=-1"), "not the mass of a piece"));
  CHECK(holds(refused("=3"), "it has no name"));
}

TEST_CASE("the command says its options and takes ISO dates only") {
  const Printed mad =
      run_program("carry recipes/tarn-thick-pouch.json --hours -1 --carbohydrate-g-per-hour 500");
  CHECK(mad.exit_code == 2);
  CHECK(holds(mad.text, "--hours: -1 is out of range"));
  CHECK(holds(mad.text, "--carbohydrate-g-per-hour: 500 is out of range"));
  for (const std::string date :
       {"4.7.2026", "07/04/2026", "2026-7-4T8:00", "2026-02-30T08:00", "2026-07-04", "tomorrow"}) {
    const Printed refused = run_program(
        "carry recipes/tarn-thick-pouch.json --hours 1 "
        "--carbohydrate-g-per-hour 60 --start '" +
        date + "'");
    CHECK(refused.exit_code == 2);
    CHECK(holds(refused.text, "as in 2026-07-04T08:00"));
  }
  CHECK(run_program("carry --hours 1 --carbohydrate-g-per-hour 60").exit_code == 2);
}

TEST_CASE("the run drawn: each piece when it is taken, and its time warm (hand calculation)") {
  CarryWish one = wish(3, 60);
  one.warm_before_hours = 1;
  one.cold_hours = 0.5;
  const CarryPlan plan = carry({pouch(60, 2), bar()}, one);
  Report report = carry_report(plan);
  add_carry_picture(report, plan);
  const auto section = std::find_if(report.sections.begin(), report.sections.end(),
                                    [](const Section& each) { return each.key == "timeline"; });
  REQUIRE(section != report.sections.end());
  REQUIRE(section->pictures.size() == 1);
  const Picture& picture = section->pictures[0];
  CHECK(picture.x.high == 3);
  REQUIRE(picture.lanes->rows.size() == plan.pieces.size());
  std::size_t warm = 0;
  std::size_t bought = 0;
  for (std::size_t i = 0; i < plan.pieces.size(); ++i) {
    const CarryPiece& piece = plan.pieces[i];
    const Lanes::Row& row = picture.lanes->rows[i];
    INFO(row.label);
    REQUIRE(row.at.size() == piece.minutes.size());
    for (std::size_t part = 0; part < row.at.size(); ++part)
      CHECK_THAT(60 * row.at[part], near(piece.minutes[part], 1e-9));
    CHECK(holds(picture.sentence, row.label + " at " + run_clock(piece.minutes[0])));
    if (!piece.warm_limit_hours) {
      ++bought;
      CHECK_FALSE((row.from || row.to || row.limit));
      continue;
    }
    // 1 h of its 2 h is gone at the start, and it is cold until 0:30: until 1:30.
    CHECK_THAT(*row.limit, near(1.5, 1e-9));
    if (!row.to) continue;
    ++warm;
    CHECK(*row.from == 0.5);
    CHECK_THAT(1 + *row.to - *row.from, near(piece.warm_hours, 1e-9));
  }
  CHECK(warm > 0);
  CHECK(bought > 0);
}
