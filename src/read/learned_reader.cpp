#include <fmt/format.h>

#include <algorithm>

#include "gelwright/gel_parameters.hpp"
#include "read/readers.hpp"

namespace gelwright::detail {

namespace {

constexpr std::size_t covariance_count = 10;

LearnedGum read_gum(ObjectReader& body) {
  LearnedGum gum;
  gum.weight = body.number_or("weight");
  const std::vector<double> shifts = body.numbers("shifts");
  const std::vector<double> covariance = body.numbers("covariance");
  constexpr std::string_view again = "fit the cups again, or take \"learned\" out";
  if (body.has("shifts") && shifts.size() != learned_shift_count)
    body.refuse("shifts", fmt::format("{} numbers, four are needed", shifts.size()),
                std::string(again));
  else
    std::copy(shifts.begin(), shifts.end(), gum.mean.begin());
  if (body.has("covariance") && covariance.size() != covariance_count) {
    body.refuse("covariance", fmt::format("{} numbers, ten are needed", covariance.size()),
                std::string(again));
  } else if (!covariance.empty()) {
    gum.covariance = unpacked(covariance);
    if (!is_covariance(gum.covariance))
      body.refuse("covariance", "no covariance: a variance is negative or a correlation over 1",
                  std::string(again));
  }
  return gum;
}

}  // namespace

void read_learned(ObjectReader& ingredient, Ingredient& made) {
  ingredient.object("learned", [&](ObjectReader& body) {
    Learned learned;
    learned.mix = body.text("mix").value_or("");
    learned.model = body.text("model").value_or("");
    learned.bench = body.text("bench").value_or("");
    learned.read_on = body.text("read_on").value_or("");
    learned.cups = static_cast<std::size_t>(body.number("cups").value_or(1));
    learned.seen = body.texts("seen");
    body.objects("gums",
                 [&](ObjectReader& gum, std::size_t) { learned.gums.push_back(read_gum(gum)); });
    double weight = 0;
    for (const LearnedGum& gum : learned.gums) weight += gum.weight;
    for (LearnedGum& gum : learned.gums) gum.weight /= weight > 0 ? weight : 1;
    // What cannot be used is left out and said, never used in silence.
    std::string why_not;
    const std::size_t may_hold = std::max<std::size_t>(1, made.undeclared.size());
    if (learned.mix != made.name)
      why_not = fmt::format("they were cups of \"{}\"", learned.mix);
    else if (learned.model != gel::model_version())
      why_not = fmt::format("they were read with gel model {}, this is {}: fit them again",
                            learned.model, gel::model_version());
    else if (learned.gums.size() != may_hold)
      why_not = fmt::format("they speak of {} gums, the mix may hold {}: fit them again",
                            learned.gums.size(), may_hold);
    if (why_not.empty())
      made.learned = std::move(learned);
    else
      body.assume("", fmt::format("test cups of {}", made.name), "not used", why_not);
  });
}

}  // namespace gelwright::detail
