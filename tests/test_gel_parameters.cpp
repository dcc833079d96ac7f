#include <cmath>
#include <set>
#include <string>

#include "catch.hpp"
#include "gelwright/gel_chances.hpp"

using namespace gelwright;
using namespace gelwright::gel;
using test::near;

TEST_CASE("gel parameters: one row each, doubt stated, memory and judgement never above grade C") {
  REQUIRE(parameters().size() == parameter_count);
  std::set<std::string_view> keys;
  std::size_t grade_a = 0;
  for (const Parameter& row : parameters()) {
    INFO(row.key);
    CHECK(keys.insert(row.key).second);
    CHECK(row.sd > 0);
    CHECK(row.means.size() > 5);
    CHECK(find_source(row.source) != nullptr);
    if (row.known == Known::memory || row.known == Known::judgement) CHECK(row.grade == Grade::c);
    if (row.source == "judgement") CHECK(row.grade == Grade::c);
    if (row.grade == Grade::a) ++grade_a;
    CHECK(central_values()[row.id] == row.value);
  }
  // Only the standard jelly was measured as we use it.
  CHECK(grade_a == 1);
}

TEST_CASE("gel parameters: a logarithm is the number its note names") {
  std::size_t found = 0;
  for (const Parameter& row : parameters()) {
    const std::size_t at = row.means.find("(log10 of ");
    if (at == std::string_view::npos) continue;
    INFO(row.key);
    CHECK_THAT(std::pow(10, row.value),
               near(std::stod(std::string(row.means.substr(at + 10))), 1e-12));
    ++found;
  }
  CHECK(found == 21);
}

TEST_CASE("gel parameters: no gum needs nothing but the syrup, and alginate leans on grade C") {
  State syrup;
  CHECK(grade_of(syrup) == Grade::c);
  State state;
  Portion portion;
  portion.g_per_100_g_water = 1;
  add(state, portion);
  CHECK(grade_of(state) == Grade::c);
  CHECK(sd_of(Id::v_alg, state) == 0.17);
  state.grade = ViscosityGrade::medium;
  CHECK(sd_of(Id::v_alg, state) == 0.05);
  CHECK(sd_of(Id::u_k, state) == 0);
}

TEST_CASE("gel state: what is out of range is named, and a full list of additions refuses more") {
  State state;
  for (std::size_t i = 0; i < max_portions; ++i) REQUIRE(add(state, {}));
  CHECK_FALSE(add(state, {}));
  CHECK(state.portions == max_portions);
  CHECK(out_of_range(state).empty());
  state.ph = std::nan("");
  state.portion[3].g_per_100_g_water = 13;
  const auto found = out_of_range(state);
  REQUIRE(found.size() == 2);
  CHECK(found[0].what == "gum");
  CHECK(found[0].portion == 3);
  CHECK(found[0].high == 12);
  CHECK(found[1].what == "pH");
}

TEST_CASE("gel state: a mixture of maltodextrins stands between its parts") {
  const double de[] = {6, 20};
  const double share[] = {0.5, 0.5};
  const double mixed = mixed_dextrose_equivalent(de, share, 2);
  CHECK(mixed > 6);
  CHECK(mixed < 13);
  CHECK_THAT(mixed_dextrose_equivalent(de, share, 1), near(6, 1e-9));
  CHECK(mixed_dextrose_equivalent(de, share, 0) == 0);
}
