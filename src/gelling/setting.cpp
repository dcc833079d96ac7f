#include "gelwright/setting.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "gelling/setting_detail.hpp"
#include "gelwright/error.hpp"

namespace gelwright {
namespace {

constexpr SetAxis axes[] = {
    {"gum", "g per 100 g water", &SetWhen::gum_percent, &SetPoint::gum_percent},
    {"calcium ratio R2", "1", &SetWhen::ratio_r2, &SetPoint::ratio_r2},
    {"pH", "1", &SetWhen::ph, &SetPoint::ph},
    {"soluble solids", "%", &SetWhen::soluble_solids_percent, &SetPoint::soluble_solids_percent},
    {"alginate share", "1", &SetWhen::alginate_share, &SetPoint::alginate_share},
    {"alginate", "g per 100 g water", &SetWhen::alginate_percent, &SetPoint::alginate_percent},
    {"calcium ratio R2 before acid", "1", &SetWhen::early_ratio_r2, &SetPoint::early_ratio_r2},
    {"guluronate share", "1", &SetWhen::guluronate_share, &SetPoint::guluronate_share},
    {"esterification of HM pectin", "1", &SetWhen::hm_pectin_esterification,
     &SetPoint::hm_pectin_esterification},
    {"maltodextrin share of solids", "1", &SetWhen::maltodextrin_share,
     &SetPoint::maltodextrin_share},
    {"acid demand", "mmol per serving", &SetWhen::acid_demand_mmol, &SetPoint::acid_demand_mmol},
};

constexpr bool meets(Need need, bool is) {
  return need == Need::either || (need == Need::yes) == is;
}

double alginate_share(const SetInput& input) {
  const double both = input.alginate_percent + input.hm_pectin_percent;
  return both > 0 ? input.alginate_percent / both : 0.0;
}

/// The amount of the route's gum; 0 where the route is not in play.
double gum_percent(const SetInput& in, Route route) {
  switch (route) {
    case Route::calcium_alginate:
    case Route::acid_alginate:
      return in.alginate_percent;
    case Route::acid_alginate_pectin:
      return in.alginate_percent > 0 && in.hm_pectin_percent > 0
                 ? in.alginate_percent + in.hm_pectin_percent
                 : 0.0;
    case Route::calcium_pectin:
      return in.lm_pectin_percent;
    case Route::sugar_acid_pectin:
      return in.hm_pectin_percent;
    case Route::gellan_low_acyl:
      return in.gellan_low_acyl_percent;
    case Route::gellan_high_acyl:
      return in.gellan_high_acyl_percent;
    case Route::thickener:
      return in.xanthan_percent;
  }
  return 0.0;
}

/// Firmer first; of equals the better grade.
bool drives(const Verdict& a, const Verdict& b) {
  if (a.texture != b.texture) return a.texture > b.texture;
  return a.grade < b.grade;
}

void start_from_rule(Verdict& verdict, Route route) {
  verdict.route = route;
  if (verdict.rule == nullptr)
    throw InputError(
        "",
        {{"set rules", "no rule for " + std::string(to_text(route)) + " covers these conditions",
          "the rows of a route must tile its conditions"}});
  verdict.texture = verdict.rule->texture;
  verdict.defects = verdict.rule->defects;
  verdict.grade = verdict.rule->grade;
}

/// What adjustments ask for that counts only after all of them: a limit is a limit whatever the
/// order, and one that clears the rule's defects must not clear another's.
struct Pending {
  Texture at_most = Texture::hard;
  Defects added;
  std::size_t count = 0;
};

void adjust(Verdict& verdict, Pending& pending, const SetAdjustment& adjustment) {
  if (pending.count < verdict.adjustments.size())
    verdict.adjustments[pending.count++] = &adjustment;
  verdict.texture = shifted(verdict.texture, adjustment.classes);
  pending.at_most = std::min(pending.at_most, adjustment.at_most);
  if (adjustment.clears_defects) verdict.defects = {};
  pending.added |= adjustment.defects;
  verdict.grade = std::max(verdict.grade, adjustment.grade);
}

/// The firmest, the worst and who drove them.
void combine(Outlook& outlook) {
  for (std::size_t i = 0; i < outlook.count; ++i) {
    const Verdict& verdict = outlook.verdicts[i];
    if (i == 0 || drives(verdict, outlook.verdicts[outlook.firmest])) outlook.firmest = i;
    outlook.defects |= verdict.defects;
    const std::optional<Defect> worst = worst_of(verdict.defects);
    if (worst && (!outlook.worst_defect || *worst > *outlook.worst_defect)) {
      outlook.worst = i;
      outlook.worst_defect = worst;
    }
  }
  if (outlook.count > 0) outlook.texture = outlook.verdicts[outlook.firmest].texture;
}

}  // namespace

bool holds(const SetWhen& when, const SetPoint& point) {
  const bool numbers = [&]<std::size_t... i>(std::index_sequence<i...>) {
    return (... && (when.*axes[i].range).holds(point.*axes[i].value));
  }
  (std::make_index_sequence<std::size(axes)>{});
  return numbers && when.acid.has(point.acid) && when.calcium.has(point.calcium) &&
         meets(when.heated, point.heated) && meets(when.hydrated, point.hydrated) &&
         meets(when.amidated, point.amidated) && meets(when.set_by_calcium, point.set_by_calcium) &&
         meets(when.acid_reducing_medicine, point.acid_reducing_medicine);
}

Outlook judge(const RoutePoints& points, SetTable table) {
  Outlook outlook;
  std::array<Verdict*, route_count> verdicts = {};  // null for a route without its gum
  for (std::size_t at = 0; at < route_count; ++at)
    if (points[at]) verdicts[at] = &outlook.verdicts[outlook.count++];
  for (const SetRule& rule : table.rules) {
    const auto at = static_cast<std::size_t>(rule.route);
    if (verdicts[at] == nullptr) continue;
    const SetRule*& slot = rule.contests ? verdicts[at]->contested_by : verdicts[at]->rule;
    if (slot == nullptr && holds(rule.when, *points[at])) slot = &rule;
  }
  for (std::size_t at = 0; at < route_count; ++at)
    if (verdicts[at] != nullptr) start_from_rule(*verdicts[at], static_cast<Route>(at));
  std::array<Pending, route_count> pending = {};
  for (const SetAdjustment& adjustment : table.adjustments) {
    const auto at = static_cast<std::size_t>(adjustment.route);
    if (verdicts[at] != nullptr && holds(adjustment.when, *points[at]))
      adjust(*verdicts[at], pending[at], adjustment);
  }
  for (std::size_t at = 0; at < route_count; ++at) {
    if (verdicts[at] == nullptr) continue;
    verdicts[at]->texture = std::min(verdicts[at]->texture, pending[at].at_most);
    verdicts[at]->defects |= pending[at].added;
  }
  combine(outlook);
  return outlook;
}

bool is_active(const SetInput& input, Route route) {
  return gum_percent(input, route) > 0;
}

void require_usable(const SetInput& in) {
  const std::pair<const char*, double> not_negative[] = {
      {"alginate_percent", in.alginate_percent},
      {"hm_pectin_percent", in.hm_pectin_percent},
      {"lm_pectin_percent", in.lm_pectin_percent},
      {"gellan_low_acyl_percent", in.gellan_low_acyl_percent},
      {"gellan_high_acyl_percent", in.gellan_high_acyl_percent},
      {"xanthan_percent", in.xanthan_percent},
      {"calcium_ratio_r2", in.calcium_ratio_r2},
      {"divalent_ratio_r2", in.divalent_ratio_r2},
      {"early_ratio_r2", in.early_ratio_r2},
  };
  const std::pair<const char*, double> finite[] = {
      {"guluronate_share", in.guluronate_share},
      {"hm_pectin_esterification", in.hm_pectin_esterification},
      {"ph", in.ph},
      {"soluble_solids_percent", in.soluble_solids_percent},
      {"maltodextrin_share", in.maltodextrin_share},
  };
  const auto bad_amount = [](const auto& v) { return !(std::isfinite(v.second) && v.second >= 0); };
  const auto bad_number = [](const auto& v) { return !std::isfinite(v.second); };
  if (std::ranges::none_of(not_negative, bad_amount) && std::ranges::none_of(finite, bad_number))
    return;
  std::vector<Problem> problems;
  for (const auto& v : not_negative)
    if (bad_amount(v)) problems.push_back({v.first, "must be a number, 0 or more", ""});
  for (const auto& v : finite)
    if (bad_number(v)) problems.push_back({v.first, "must be a number", ""});
  throw InputError("", std::move(problems));
}

SetPoint pouch_point(const SetInput& in, Route route) {
  const bool gellan = route == Route::gellan_low_acyl || route == Route::gellan_high_acyl;
  return {.gum_percent = gum_percent(in, route),
          .alginate_percent = in.alginate_percent,
          .alginate_share = alginate_share(in),
          .ratio_r2 = gellan ? in.divalent_ratio_r2 : in.calcium_ratio_r2,
          .early_ratio_r2 = in.early_ratio_r2,
          .ph = in.ph,
          .soluble_solids_percent = in.soluble_solids_percent,
          .guluronate_share = in.guluronate_share,
          .hm_pectin_esterification = in.hm_pectin_esterification,
          .maltodextrin_share = in.maltodextrin_share,
          .acid = in.acid,
          .calcium = in.calcium,
          .heated = in.heated,
          .hydrated = in.hydrated,
          .amidated = in.lm_pectin_amidated};
}

Outlook predict_pouch(const SetInput& input, SetTable table) {
  require_usable(input);
  RoutePoints points;
  for (std::size_t at = 0; at < route_count; ++at) {
    const auto route = static_cast<Route>(at);
    if (is_active(input, route)) points[at] = pouch_point(input, route);
  }
  return judge(points, table);
}

Texture shifted(Texture texture, int classes) {
  constexpr Texture ladder[] = {Texture::pours, Texture::thick, Texture::soft, Texture::firm,
                                Texture::hard};
  if (classes == 0) return texture;
  if (texture == Texture::bits) return classes < 0 ? Texture::pours : texture;
  if (texture == Texture::sheared) {
    if (classes > 0) return texture;
    return classes == -1 ? Texture::thick : Texture::pours;
  }
  const auto at = std::ranges::find(ladder, texture) - std::begin(ladder);
  return ladder[std::clamp<std::ptrdiff_t>(at + classes, 0, std::ssize(ladder) - 1)];
}

std::optional<Defect> worst_of(Defects defects) {
  if (defects.empty()) return std::nullopt;
  return static_cast<Defect>(std::bit_width(defects.bits) - 1);
}

std::span<const SetAxis> set_axes() {
  return axes;
}

std::string_view to_text(Route route) {
  switch (route) {
    case Route::calcium_alginate:
      return "calcium and alginate";
    case Route::calcium_pectin:
      return "calcium and LM pectin";
    case Route::acid_alginate:
      return "acid and alginate";
    case Route::acid_alginate_pectin:
      return "acid, alginate and HM pectin";
    case Route::sugar_acid_pectin:
      return "sugar, acid and HM pectin";
    case Route::gellan_low_acyl:
      return "low-acyl gellan";
    case Route::gellan_high_acyl:
      return "high-acyl gellan";
    case Route::thickener:
      return "thickener only";
  }
  return "";
}

std::string_view to_text(Texture texture) {
  switch (texture) {
    case Texture::pours:
      return "pours";
    case Texture::bits:
      return "pours, with bits of gel";
    case Texture::thick:
      return "thick";
    case Texture::sheared:
      return "smooth sheared gel";
    case Texture::soft:
      return "soft set";
    case Texture::firm:
      return "firm set";
    case Texture::hard:
      return "hard set";
  }
  return "";
}

std::string_view to_text(Defect defect) {
  switch (defect) {
    case Defect::specks:
      return "specks";
    case Defect::stringy:
      return "strings";
    case Defect::fragile:
      return "fragile";
    case Defect::brittle:
      return "brittle";
    case Defect::patchy:
      return "patchy";
    case Defect::gritty:
      return "gritty";
    case Defect::weeps:
      return "weeps";
    case Defect::presets:
      return "sets before it can be filled";
    case Defect::lumps:
      return "lumps";
    case Defect::may_fail:
      return "may not gel";
  }
  return "";
}

std::string_view to_text(AcidDelivery acid) {
  switch (acid) {
    case AcidDelivery::none:
      return "no acid added";
    case AcidDelivery::poured:
      return "poured in";
    case AcidDelivery::under_blade:
      return "under the blade";
    case AcidDelivery::slow:
      return "released slowly";
  }
  return "";
}

std::string_view to_text(CalciumDelivery calcium) {
  switch (calcium) {
    case CalciumDelivery::tap_only:
      return "from the water only";
    case CalciumDelivery::fast:
      return "all at once";
    case CalciumDelivery::slow:
      return "slowly";
    case CalciumDelivery::insoluble_until_acid:
      return "freed by acid";
  }
  return "";
}

}  // namespace gelwright
