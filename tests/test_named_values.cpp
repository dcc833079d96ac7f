#include <stdexcept>
#include <string>

#include "base/named_values.hpp"
#include "catch.hpp"

using namespace gelwright::detail;
using Values = NamedValues<int>;

TEST_CASE("a named value is made once") {
  Values values;
  int made = 0;
  CHECK(values.find("a") == nullptr);
  CHECK(values.make("a", [&] { return ++made; }) == 1);
  REQUIRE(values.find("a") != nullptr);
  CHECK(*values.find("a") == 1);
  CHECK(made == 1);
}

TEST_CASE("a name is open while it is made, and closed where making it throws") {
  Values values;
  values.make("a", [&] {
    CHECK(values.check("a") == Values::Open::through_itself);
    CHECK(values.check("b") == Values::Open::fine);
    return 1;
  });
  CHECK_THROWS_AS(values.make("b", [&]() -> int { throw std::runtime_error("no"); }),
                  std::runtime_error);
  CHECK(values.check("b") == Values::Open::fine);
  CHECK(values.find("b") == nullptr);
}

TEST_CASE("a chain of open names has a longest length") {
  Values values;
  std::size_t deepest = 0;
  const auto make = [&](const auto& self, std::size_t depth) -> int {
    const std::string name = std::to_string(depth);
    if (values.check(name) == Values::Open::too_deep) return 0;
    deepest = depth + 1;
    return values.make(name, [&] { return self(self, depth + 1); });
  };
  make(make, 0);
  CHECK(deepest == Values::longest_chain);
}
