// Flags about slips of the pen: amounts far from the usual for this form, and batches nobody means.
//
// What is usual is a judgement, wide on purpose: it is there to find a stray decimal, a share taken
// of the total instead of the solids, a pinch ten times too big, not to teach taste.
#include <fmt/format.h>

#include <optional>

#include "base/dust.hpp"
#include "base/rounding.hpp"
#include "flags/record.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum rows[] = {
    {"flag.pouch-least", 20, "g", 0, "a pouch, all of it", "judgement", Standing::judgement},
    {"flag.pouch-most", 300, "g", 0, "a pouch, all of it", "judgement", Standing::judgement},
    {"flag.drink-least", 120, "g", 0, "a drink, all of it", "judgement", Standing::judgement},
    {"flag.drink-most", 1200, "g", 0, "a drink, all of it", "judgement", Standing::judgement},
    {"flag.pouch-water-least", 0.2, "g/g", 0, "water for each g of solids in a pouch", "judgement",
     Standing::judgement},
    {"flag.pouch-water-most", 4, "g/g", 0, "water for each g of solids in a pouch", "judgement",
     Standing::judgement},
    {"flag.drink-water-least", 3, "g/g", 0, "water for each g of solids in a drink", "judgement",
     Standing::judgement},
    {"flag.drink-water-most", 60, "g/g", 0, "water for each g of solids in a drink", "judgement",
     Standing::judgement},
    {"flag.acid-usual", 2, "g per 100 g water", 0, "food acid", "judgement", Standing::judgement},
    {"flag.salt-usual", 2, "g per 100 g water", 0, "calcium salt", "judgement",
     Standing::judgement},
    {"flag.serving-absurd", 2500, "g", 0, "no one eats that much at once", "judgement",
     Standing::judgement},
    {"flag.acid-absurd", 10, "g", 0, "food acid in one serving: two lemons' and a half, at once",
     "judgement", Standing::judgement},
};
constexpr std::array<std::string_view, 0> borrowed = {};
consteval Threshold at(std::string_view key) {
  return place_of(rows, borrowed, key);
}
constexpr Threshold serving_absurd_g = at("flag.serving-absurd");
constexpr Threshold acid_absurd_g = at("flag.acid-absurd");

/// What is looked at, in the order it is told.
enum class Amount { serving, water, acid, calcium_salt };

struct Unusual {
  Amount what;
  double amount;
};

/// What is usual for this form; nothing is too little of an acid or a salt.
struct Usual {
  std::optional<Threshold> least;
  Threshold most;
};

Usual usual(Amount what, const Judged& j) {
  switch (what) {
    case Amount::serving:
      return j.drink() ? Usual{at("flag.drink-least"), at("flag.drink-most")}
                       : Usual{at("flag.pouch-least"), at("flag.pouch-most")};
    case Amount::water:
      return j.drink() ? Usual{at("flag.drink-water-least"), at("flag.drink-water-most")}
                       : Usual{at("flag.pouch-water-least"), at("flag.pouch-water-most")};
    case Amount::acid:
      return {std::nullopt, at("flag.acid-usual")};
    case Amount::calcium_salt:
      break;
  }
  return {std::nullopt, at("flag.salt-usual")};
}

double per_100_g_water(double mass_g, const Judged& j) {
  return 100 * mass_g / j.serving.formula.chemistry_water_g;
}

void check_unusual(const Judged& j, Raise& raise) {
  if (raise.already("absurd-batch")) return;
  const Formula& formula = j.serving.formula;
  const auto compare = [&](Amount what, double amount) {
    const Usual ends = usual(what, j);
    if ((ends.least && is_under(amount, j[*ends.least])) || is_over(amount, j[ends.most]))
      raise(Level::care, Unusual{what, amount});
  };
  compare(Amount::serving, formula.total_g);
  // Of a syrup much of the water is in the solids already.
  if (formula.solids_g > 0 && formula.delivered.water_g < formula.water_g)
    compare(Amount::water, formula.water_per_g_solids());
  compare(Amount::acid, per_100_g_water(formula.acid_g, j));
  compare(Amount::calcium_salt, per_100_g_water(formula.calcium_salt_g, j));
}

std::string tell_unusual(const Flag& flag, const Judged& j) {
  const auto n = flag.numbers.as<Unusual>();
  const std::string_view form = j.drink() ? "drink" : "pouch";
  const std::string amount = significant(n.amount, 2);
  const Usual ends = usual(n.what, j);
  const std::string range =
      (ends.least ? j.quoted(*ends.least) + " to " : std::string("up to ")) + j.quoted(ends.most);
  switch (n.what) {
    case Amount::serving:
      return fmt::format("a {} of {} g; {} g is usual", form, amount, range);
    case Amount::water:
      return fmt::format(
          "{} g of water for each g of solids, {} % of the total; {} g is usual for a {}", amount,
          significant(100 * j.serving.formula.water_fraction_of_total(), 2), range, form);
    case Amount::acid:
      return fmt::format("{} g of acid in 100 g of water; {} g is usual", amount, range);
    case Amount::calcium_salt:
      break;
  }
  return fmt::format("{} g of calcium salt in 100 g of water; {} g is usual", amount, range);
}

struct Absurd {
  double serving_g;
  double acid_g;
};

void check_absurd(const Judged& j, Raise& raise) {
  const Formula& formula = j.serving.formula;
  if (formula.total_g > j[serving_absurd_g] || formula.acid_g > j[acid_absurd_g])
    raise(Level::stop, Absurd{formula.total_g, formula.acid_g});
}

std::string tell_absurd(const Flag& flag, const Judged& j) {
  const auto n = flag.numbers.as<Absurd>();
  if (n.acid_g > j[acid_absurd_g])
    return fmt::format("{} g of acid in one serving, over {} g: nobody can mean that",
                       significant(n.acid_g, 3), j.quoted(acid_absurd_g));
  return fmt::format("one serving weighs {} g, over {} g: nobody can mean that",
                     significant(n.serving_g, 3), j.quoted(serving_absurd_g));
}

constexpr FlagRecord records[] = {
    {.name = "absurd-batch",
     .called = "an amount nobody can mean",
     .when = "a serving over {flag.serving-absurd} g, or over {flag.acid-absurd} g of acid in one",
     .why = "A stray decimal, or grams of the batch taken for grams of a serving.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_absurd,
     .message = tell_absurd,
     .remedy = "check the decimals, and whether water is meant for each g of solids, as a share of "
               "the total, or in grams"},
    {.name = "unusual-amount",
     .called = "an unusual amount",
     .when = "a pouch outside {flag.pouch-least} to {flag.pouch-most} g or a drink outside "
             "{flag.drink-least} to {flag.drink-most} g; water outside {flag.pouch-water-least} to "
             "{flag.pouch-water-most} (pouch) or {flag.drink-water-least} to "
             "{flag.drink-water-most} (drink) g for each g of solids; over {flag.acid-usual} g of "
             "acid or {flag.salt-usual} g of calcium salt in 100 g of water",
     .why = "It may be meant. But a share taken of the total instead of the solids, a pinch ten "
            "times too big and a stray decimal look like this.",
     .source = "judgement",
     .grade = Grade::c,
     .check = check_unusual,
     .message = tell_unusual,
     .remedy = "check that it is meant"},
};

}  // namespace

FlagSubject slip_flags() {
  return {records, rows, borrowed};
}

}  // namespace gelwright::detail
