// Gums as a pack or a seller's sheet describes them, and packs that do not.
#include <fmt/format.h>

#include <algorithm>

#include "gelwright/gums.hpp"
#include "read/readers.hpp"

namespace gelwright::detail {

/// What is stated of a gum in `part`, `share` g of which goes into `whole`, which does not hold it
/// yet. Of two amounts of a gum a figure is known where it is for both.
void inherit_gum_facts(const Ingredient& part, double share, Ingredient& whole) {
  const auto inherit = [&](Gum gum, std::optional<double> GumFacts::*figure) {
    const double part_g = share * part.per_g.gum(gum);
    const double whole_g = whole.per_g.gum(gum);
    const std::optional<double>& more = part.gum_facts.*figure;
    std::optional<double>& known = whole.gum_facts.*figure;
    if (part_g <= 0) return;
    if (whole_g <= 0 || !more)
      known = more;
    else if (known)
      known = (*known * whole_g + *more * part_g) / (whole_g + part_g);
  };
  inherit(Gum::alginate, &GumFacts::guluronate_share);
  inherit(Gum::hm_pectin, &GumFacts::esterification);
  inherit(Gum::lm_pectin, &GumFacts::lm_esterification);
  inherit(Gum::amidated_pectin, &GumFacts::amidated_esterification);
  inherit(Gum::amidated_pectin, &GumFacts::amidation);
  if (share * part.per_g.gum(Gum::alginate) <= 0) return;
  ViscosityGrade& grade = whole.gum_facts.alginate_grade;
  if (whole.per_g.gum(Gum::alginate) <= 0)
    grade = part.gum_facts.alginate_grade;
  else if (grade != part.gum_facts.alginate_grade)
    grade = ViscosityGrade::unknown;
}

namespace {

/// One gum that a pack names without saying how much. `whole` learns what is stated of it.
std::optional<UndeclaredGum> read_undeclared_gum(ObjectReader& gum, Pantry& pantry,
                                                 Ingredient& whole) {
  UndeclaredGum read;
  const Ingredient* found = nullptr;
  if (const auto name = gum.text("ingredient")) {
    found = pantry.find(*name, gum.at("ingredient"));
    const bool any_gum =
        found != nullptr && std::any_of(found->per_g.gum_g.begin(), found->per_g.gum_g.end(),
                                        [](double gum_g) { return gum_g > 0; });
    if (found != nullptr && found->kind != Kind::gum) {
      gum.refuse("ingredient", fmt::format("\"{}\" is not a gum", *name), "name a gum");
      found = nullptr;
    } else if (found != nullptr && !any_gum) {
      gum.refuse("ingredient", fmt::format("\"{}\" holds no gum", *name),
                 "name a built-in gum under its \"contains\"");
      found = nullptr;
    }
  }
  const std::optional<double> low = gum.number("fraction_at_least");
  const std::optional<double> high = gum.number("fraction_at_most");
  if (low && high && *low > *high)
    gum.refuse("fraction_at_most", "smaller than \"fraction_at_least\"", "swap the two");
  if (found == nullptr || !low || !high) return std::nullopt;
  inherit_gum_facts(*found, (*low + *high) / 2, whole);
  return UndeclaredGum{found->name, found->per_g, *low, *high};
}

/// "0.6 to 1.4 %".
std::string band_of(const UndeclaredGum& gum) {
  return fmt::format("{:.3g} to {:.3g} %", 100 * gum.share_low, 100 * gum.share_high);
}

void assume_middle(ObjectReader& where, const UndeclaredGum& gum, const std::string& mix) {
  std::string_view kind = gum.name;
  for (std::size_t g = 0; g < gum_count; ++g)
    if (gum.per_g.gum_g[g] > 0) kind = to_text(static_cast<Gum>(g));
  where.assume(
      "", fmt::format("{} in {}", kind, mix),
      fmt::format("{:.3g} %, the middle of its band", 50 * (gum.share_low + gum.share_high)),
      "the pack does not say how much", band_of(gum));
}

/// The gums that are in it together, under `key` of `body`.
UndeclaredGums read_gums(ObjectReader& body, std::string_view key, Pantry& pantry,
                         Ingredient& whole, bool assumed) {
  UndeclaredGums read;
  body.objects(key, [&](ObjectReader& entry, std::size_t) {
    const auto gum = read_undeclared_gum(entry, pantry, whole);
    if (!gum) return;
    const bool twice = std::any_of(read.gums.begin(), read.gums.end(),
                                   [&](const auto& each) { return each.name == gum->name; });
    if (twice)
      entry.refuse("ingredient", fmt::format("\"{}\" is listed twice", gum->name),
                   "give it one band");
    else
      read.gums.push_back(*gum);
    if (assumed) assume_middle(entry, *gum, whole.name);
  });
  return read;
}

void read_alginate(ObjectReader& body, Ingredient& made) {
  const bool has_alginate =
      made.per_g.gum(Gum::alginate) > 0 ||
      std::any_of(made.undeclared.begin(), made.undeclared.end(),
                  [](const UndeclaredGums& each) { return each.has(Gum::alginate); });
  const auto refuse_without = [&](std::string_view key) {
    if (!has_alginate)
      body.refuse(key, "there is no alginate in it", "name the gum under \"contains\"");
  };
  if (const auto grade = body.word<ViscosityGrade>("viscosity_grade")) {
    made.gum_facts.alginate_grade = *grade;
    refuse_without("viscosity_grade");
  }
  if (const auto mpa_s = body.number("viscosity_1_percent_mpa_s")) {
    made.gum_facts.alginate_grade = viscosity_grade_of(*mpa_s);
    refuse_without("viscosity_1_percent_mpa_s");
  }
}

/// The one pectin in it; empty where there is none or there are several.
std::optional<Gum> only_pectin(const Composition& per_g) {
  std::optional<Gum> found;
  for (const Gum each : {Gum::hm_pectin, Gum::lm_pectin, Gum::amidated_pectin}) {
    if (per_g.gum(each) <= 0) continue;
    if (found) return std::nullopt;
    found = each;
  }
  return found;
}

/// Free carboxylate of a pectin over all its galacturonate.
double free_share(const Composition& per_g, Gum gum) {
  if (gum == Gum::hm_pectin) return 1 - per_g.hm_pectin_esterified_g / per_g.gum(gum);
  return 1000 * per_g.carboxylate(gum) /
         (per_g.gum(gum) *
          pectin_carboxylate_mmol_per_g(gum_defaults().pectin_galacturonic_share, 0, 0));
}

/// The galacturonic acid stays; what is free carboxylate is sold neutralised as far as before.
void set_free_share(Composition& per_g, Gum gum, double share) {
  const double change = per_g.carboxylate(gum) * (share / free_share(per_g, gum) - 1);
  per_g.carboxylate_mol[index_of(gum)] += change;
  per_g.dissolved(Component::uronate) += change;
  per_g.dissolved(Component::sodium) += change * neutralised_fraction(gum);
}

void read_pectin(ObjectReader& body, Ingredient& made) {
  const std::optional<double> esterified = body.number("degree_of_esterification");
  const std::optional<double> amidated = body.number("degree_of_amidation");
  if (!esterified && !amidated) return;
  const std::optional<Gum> gum = only_pectin(made.per_g);
  const std::string_view key = esterified ? "degree_of_esterification" : "degree_of_amidation";
  if (!gum) {
    body.refuse(key, "there is no pectin in it, or more than one",
                "name one pectin under \"contains\"");
    return;
  }
  const bool hm = *gum == Gum::hm_pectin;
  constexpr double hm_from = 0.5;
  if (!hm && esterified && *esterified >= hm_from)
    body.refuse(key, fmt::format("a pectin of {:g} is an HM pectin", *esterified),
                "name \"HM pectin\" under \"contains\", or check the figure: 0.35 is 35 %");
  if (amidated && *gum != Gum::amidated_pectin)
    body.refuse("degree_of_amidation", "there is no amidated pectin in it",
                "name \"amidated pectin\" under \"contains\"");
  GumFacts& facts = made.gum_facts;
  const GumDefaults& usual = gum_defaults();
  if (hm) {
    if (!esterified) return;
    set_free_share(made.per_g, *gum, 1 - *esterified);
    made.per_g.hm_pectin_esterified_g = made.per_g.gum(*gum) * *esterified;
    facts.esterification = *esterified;
  } else if (*gum == Gum::lm_pectin) {
    if (!esterified) return;
    set_free_share(made.per_g, *gum, 1 - *esterified);
    facts.lm_esterification = *esterified;
  } else {
    const double degree = esterified.value_or(usual.amidated_pectin_esterification);
    const double amide = amidated.value_or(usual.amidated_pectin_amidation);
    set_free_share(made.per_g, *gum, 1 - degree - amide);
    if (esterified) facts.amidated_esterification = *esterified;
    if (amidated) facts.amidation = *amidated;
  }
}

}  // namespace

void read_undeclared_gums(ObjectReader& body, Pantry& pantry, Ingredient& made) {
  const auto take = [&made](UndeclaredGums gums) {
    if (!gums.gums.empty()) made.undeclared.push_back(std::move(gums));
  };
  body.object("undeclared_gum", [&](ObjectReader& gum) {
    if (const auto read = read_undeclared_gum(gum, pantry, made)) {
      take({{*read}});
      assume_middle(gum, *read, made.name);
    }
  });
  take(read_gums(body, "undeclared_gums", pantry, made, true));
  std::string choices;
  body.objects("undeclared_gums_any_of", [&](ObjectReader& choice, std::size_t) {
    UndeclaredGums gums = read_gums(choice, "gums", pantry, made, false);
    std::string words;
    for (const UndeclaredGum& each : gums.gums)
      words += fmt::format("{}{} {}", words.empty() ? "" : " with ", each.name, band_of(each));
    choices += (choices.empty() ? "" : ", or ") + words;
    take(std::move(gums));
  });
  if (!choices.empty())
    body.assume("undeclared_gums_any_of", fmt::format("the gum in {}", made.name),
                choices + "; each as likely", "the pack does not say which");
  if (!made.undeclared.empty()) {
    made.gum_share_low = made.undeclared.front().share_low();
    made.gum_share_high = made.undeclared.front().share_high();
  }
  read_alginate(body, made);
}

/// What a seller's sheet may say about a gum, in place of the table's middle values.
void read_gum_composition(ObjectReader& body, Ingredient& made) {
  if (const auto share = body.number("guluronate_share")) {
    made.gum_facts.guluronate_share = *share;
    if (made.per_g.gum(Gum::alginate) <= 0)
      body.refuse("guluronate_share", "there is no alginate in it",
                  "name the gum under \"contains\"");
    made.per_g.guluronate_mol = made.per_g.carboxylate(Gum::alginate) * *share;
  }
  read_pectin(body, made);
}

}  // namespace gelwright::detail
