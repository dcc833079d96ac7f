// The gel model against 327 servings worked out by an independent trial implementation of the same
// equations: every route, the total, viscosity, yield, doubt, defects, stomach and textures.
#include <cmath>
#include <cstdio>

#include "catch.hpp"
#include "gel_rows.hpp"
#include "gelwright/gel_mixture.hpp"
#include "paths.hpp"

using namespace gelwright;
using namespace gelwright::gel;

namespace {

/// Largest gap in each column, and the row it was found in.
class Gaps {
 public:
  void add(const test::Row& row, const std::string& column, double got) {
    const std::string& text = row.at(column);
    // A route whose gum is not in the serving is left empty there, and is none at all here.
    const double expected = text.empty() ? -9.0 : std::strtod(text.c_str(), nullptr);
    const double gap = std::fabs(got - expected);
    Worst& worst = worst_[column];
    ++compared_;
    if (gap <= worst.gap) return;
    worst = {gap, row.at("row") + " " + row.at("kind")};
  }

  void check(double tolerance) const {
    for (const auto& [column, worst] : worst_) {
      INFO(column << ", row " << worst.row);
      CHECK(worst.gap <= tolerance);
    }
  }

  std::size_t compared() const { return compared_; }

 private:
  struct Worst {
    double gap = 0;
    std::string row;
  };
  std::map<std::string, Worst> worst_;
  std::size_t compared_ = 0;
};

void add_routes(Gaps& gaps, const test::Row& row, const Gel& gel) {
  const auto lg_pa = [&gel](Route route) {
    return gel.route_lg_pa[static_cast<std::size_t>(route)];
  };
  // The trial kept one entry for both kinds of LM pectin: the kind that went in last.
  const bool amidated = gel.has_gum[static_cast<std::size_t>(Route::calcium_amidated_pectin)];
  gaps.add(row, "g:calcium-alginate", lg_pa(Route::calcium_alginate));
  gaps.add(row, "g:acid-alginate", lg_pa(Route::acid_alginate));
  gaps.add(row, "g:acid-alginate-pectin", lg_pa(Route::acid_alginate_pectin));
  gaps.add(row, "g:calcium-pectin",
           lg_pa(amidated ? Route::calcium_amidated_pectin : Route::calcium_lm_pectin));
  gaps.add(row, "g:acid-lm", lg_pa(amidated ? Route::acid_amidated_pectin : Route::acid_lm_pectin));
  gaps.add(row, "g:sugar-acid-pectin", lg_pa(Route::sugar_acid_pectin));
  gaps.add(row, "g:gellan-low-acyl", lg_pa(Route::gellan_low_acyl));
  gaps.add(row, "g:gellan-high-acyl", lg_pa(Route::gellan_high_acyl));
}

}  // namespace

TEST_CASE("gel model matches an independent implementation in every column") {
  const auto rows = test::read_rows(source_dir() + "/tests/data/gel_reference_grid.csv");
  REQUIRE(rows.size() == 327);
  Gaps gaps;
  for (const test::Row& row : rows) {
    const State state = test::state_of(row);
    REQUIRE(out_of_range(state).empty());
    const Outlook outlook = outlook_of(state);
    const Stomach stomach = stomach_of(state, outlook);
    add_routes(gaps, row, outlook.centre);
    gaps.add(row, "g", outlook.centre.lg_modulus_pa);
    gaps.add(row, "eta", outlook.centre.lg_viscosity_mpa_s);
    gaps.add(row, "yield", outlook.centre.lg_yield_pa);
    gaps.add(row, "thickness", outlook.centre.lg_thickness_mpa_s);
    gaps.add(row, "sheared", outlook.centre.sheared_share);
    gaps.add(row, "mean_g", outlook.doubt.lg_modulus.mean);
    gaps.add(row, "sd_g", outlook.doubt.lg_modulus.sd);
    gaps.add(row, "mean_thickness", outlook.doubt.lg_thickness.mean);
    gaps.add(row, "sd_thickness", outlook.doubt.lg_thickness.sd);
    gaps.add(row, "lumps", outlook.defects.lumps);
    gaps.add(row, "weeps", outlook.defects.weeps);
    gaps.add(row, "specks", outlook.defects.specks);
    gaps.add(row, "brittle", outlook.defects.brittle);
    gaps.add(row, "grit", outlook.defects.grit);
    gaps.add(row, "stomach_one_gel", stomach.one_gel);
    gaps.add(row, "stomach_pieces", stomach.pieces);
    const char* textures[] = {"pours", "thick", "bits", "flowing", "soft", "firm", "hard"};
    for (std::size_t t = 0; t < texture_count; ++t)
      gaps.add(row, textures[t], outlook.chances.chance[t]);
  }
  CHECK(gaps.compared() == 327 * 31);
  gaps.check(1e-6);
}

TEST_CASE(
    "a mixture of readings is the weighted mean, and wider than its parts where they differ") {
  const auto rows = test::read_rows(source_dir() + "/tests/data/gel_reference_grid.csv");
  const State thin = test::state_of(rows.front());
  const State firm = test::state_of(rows[40]);
  std::array<Reading, 2> readings;
  readings[0] = {1, outlook_of(thin), {}};
  readings[1] = {3, outlook_of(firm), {}};
  const Mixture mixture = mix(readings);
  double sum = 0;
  for (std::size_t t = 0; t < texture_count; ++t) {
    sum += mixture.chances.chance[t];
    CHECK_THAT(mixture.chances.chance[t],
               test::near(0.25 * readings[0].outlook.chances.chance[t] +
                              0.75 * readings[1].outlook.chances.chance[t],
                          1e-12));
  }
  CHECK_THAT(sum, test::near(1, 1e-12));
  CHECK(mixture.lg_modulus.sd > readings[0].outlook.doubt.lg_modulus.sd);
  CHECK(mixture.lg_modulus.sd > readings[1].outlook.doubt.lg_modulus.sd);
  CHECK(mix({}).lg_modulus.sd == 0);
}
