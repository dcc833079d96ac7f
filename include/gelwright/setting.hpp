// What sets, by which route, how firm, what can go wrong, and how sure that is.
//
// Every threshold is a row of data with its source and grade; the code only finds the row that
// covers the conditions. Each route is judged on its own, the firmest texture is the likely one,
// the worst defect the warning. Nothing here allocates; a prediction takes well under a
// microsecond.
//
// Units throughout: gum in g of active gum per 100 g of the water phase (all water, whatever
// brought it); calcium as the ratio R2 = 2[Ca]/[COO-], dissolved calcium before the gum binds any,
// over the carboxylate of all gums; soluble solids in % of the total mass; shares between 0 and 1.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string_view>

#include "gelwright/source.hpp"

namespace gelwright {

enum class Gum;  // composition.hpp

/// A way in which a gum can thicken or set.
enum class Route : std::uint8_t {
  calcium_alginate,      ///< calcium bridges guluronate blocks
  calcium_pectin,        ///< LM or amidated pectin with calcium; also its acid gel
  acid_alginate,         ///< alginic acid, alginate alone
  acid_alginate_pectin,  ///< alginate and HM pectin together, no calcium needed
  sugar_acid_pectin,     ///< HM pectin in hot concentrated sugar and acid: jam
  gellan_low_acyl,
  gellan_high_acyl,
  thickener,  ///< xanthan: never sets
};
inline constexpr std::size_t route_count = 8;

/// Ordered from the most liquid to the firmest.
enum class Texture : std::uint8_t {
  pours,
  bits,  ///< a liquid with bits of gel in it: no even set
  thick,
  sheared,  ///< smooth gel broken by the blade as it formed: holds, softer than left alone
  soft,
  firm,
  hard,
};

/// Ordered from the mildest to the worst.
enum class Defect : std::uint8_t {
  specks,
  stringy,
  fragile,
  brittle,
  patchy,
  gritty,
  weeps,
  presets,  ///< sets in the pot before it can be filled
  lumps,
  may_fail,  ///< may not gel at all
};

/// How the acid meets the gum: the same dose gels, shears or curdles.
enum class AcidDelivery : std::uint8_t {
  none,         ///< no acid added; if the water phase is acid, it was so before the gum went in
  poured,       ///< citric acid at once or in a stream: sudden
  under_blade,  ///< blended in while the blade runs
  slow,         ///< released over hours, as by glucono-delta-lactone
};

/// How the calcium meets the gum.
enum class CalciumDelivery : std::uint8_t {
  tap_only,              ///< no calcium salt
  fast,                  ///< soluble salt, all at once
  slow,                  ///< dropwise, chelated or sparingly soluble
  insoluble_until_acid,  ///< carbonate, phosphate, citrate: dissolves as acid reaches it
};

/// A small set of enumerators, for masks in the rules and for defects.
template <class E>
struct SetOf {
  std::uint16_t bits = 0;

  constexpr SetOf() = default;
  template <class... Es>
  constexpr SetOf(E first, Es... rest)
      : bits(static_cast<std::uint16_t>((bit(first) | ... | bit(rest)))) {}
  static constexpr SetOf all() {
    SetOf set;
    set.bits = 0xffff;
    return set;
  }
  constexpr bool has(E e) const { return (bits & bit(e)) != 0; }
  constexpr bool empty() const { return bits == 0; }
  constexpr SetOf& operator|=(SetOf other) {
    bits = static_cast<std::uint16_t>(bits | other.bits);
    return *this;
  }
  friend constexpr bool operator==(SetOf, SetOf) = default;

 private:
  static constexpr unsigned bit(E e) { return 1u << static_cast<unsigned>(e); }
};
using Defects = SetOf<Defect>;

/// from <= x < below; open on a side by default.
struct SetRange {
  double from = -std::numeric_limits<double>::infinity();
  double below = std::numeric_limits<double>::infinity();

  constexpr bool holds(double x) const { return from <= x && x < below; }
};

/// A yes-or-no condition of a rule.
enum class Need : std::uint8_t { either, yes, no };

/// The conditions one route sees. `pouch_point` and `stomach_point` make it from a recipe's values.
struct SetPoint {
  double gum_percent = 0;       ///< the route's gum, g per 100 g water phase
  double alginate_percent = 0;  ///< as eaten even in the stomach, g per 100 g water phase
  double alginate_share = 1;    ///< alginate / (alginate + HM pectin), by mass
  double ratio_r2 = 0;          ///< for gellan magnesium counts in part
  double early_ratio_r2 = 0;    ///< the calcium that met the gum before any acid did
  double ph = 7;
  double soluble_solids_percent = 0;
  double guluronate_share = 0.5;          ///< F_G of the alginate
  double hm_pectin_esterification = 0.7;  ///< DE of the HM pectin
  double maltodextrin_share = 0;          ///< of the soluble solids
  double acid_demand_mmol = 0;  ///< per serving, to bring it to the pH of the stomach fluid
  AcidDelivery acid = AcidDelivery::none;
  CalciumDelivery calcium = CalciumDelivery::tap_only;
  bool heated = false;   ///< gum heated in the water, hot enough to dissolve it
  bool hydrated = true;  ///< gum fully hydrated before the bulk of the sugar
  bool amidated = false;
  bool set_by_calcium = false;  ///< already set by this route's calcium when eaten
  bool acid_reducing_medicine = false;
};

/// What a rule asks of a `SetPoint`; what it does not mention it does not ask. Same units.
struct SetWhen {
  SetRange gum_percent = {};
  SetRange alginate_percent = {};
  SetRange alginate_share = {};
  SetRange ratio_r2 = {};
  SetRange early_ratio_r2 = {};
  SetRange ph = {};
  SetRange soluble_solids_percent = {};
  SetRange guluronate_share = {};
  SetRange hm_pectin_esterification = {};
  SetRange maltodextrin_share = {};
  SetRange acid_demand_mmol = {};
  SetOf<AcidDelivery> acid = SetOf<AcidDelivery>::all();
  SetOf<CalciumDelivery> calcium = SetOf<CalciumDelivery>::all();
  Need heated = Need::either;
  Need hydrated = Need::either;
  Need amidated = Need::either;
  Need set_by_calcium = Need::either;
  Need acid_reducing_medicine = Need::either;
};

bool holds(const SetWhen& when, const SetPoint& point);

/// One numeric condition, for printing rules and for walking their edges.
struct SetAxis {
  std::string_view name;  ///< in words: "gum"
  std::string_view unit;  ///< "g per 100 g water", "1"
  SetRange SetWhen::*range;
  double SetPoint::*value;
};
std::span<const SetAxis> set_axes();

/// The rows of one route cover every condition exactly once. Rows that `contest` stand beside them:
/// a second reading of the same window, reported and never used.
struct SetRule {
  std::string_view id;  ///< "calcium-alginate.3.4"
  Route route;
  SetWhen when;
  Texture texture;
  Defects defects;
  Grade grade;
  Standing standing;
  std::string_view source;  ///< a Source::id
  std::string_view note;    ///< in words for the user; may be empty
  bool contests = false;
};

/// Changes the verdict of a rule of the same route where it holds. Any number may hold at once.
struct SetAdjustment {
  std::string_view id;
  Route route;
  SetWhen when;
  int classes;          ///< classes firmer (+) or softer (-), along pours thick soft firm hard
  Texture at_most;      ///< no firmer than this; `hard` for no limit
  Defects defects;      ///< added
  bool clears_defects;  ///< the rule's own defects no longer apply
  Grade grade;          ///< the verdict is no better than this
  Standing standing;
  std::string_view source;
  std::string_view note;
};

/// The data one prediction reads.
struct SetTable {
  std::span<const SetRule> rules;
  std::span<const SetAdjustment> adjustments;
};
SetTable pouch_table();    ///< as filled, cold, before it is eaten
SetTable stomach_table();  ///< after mixing with the standard stomach fluid

/// Every rule the program knows, pouch then stomach, to print as a table.
std::span<const SetRule> setting_rules();
std::span<const SetRule> stomach_rules();

/// Equivalent weights, default compositions, ratios and the standard stomach test.
std::span<const Datum> setting_data();

/// What a recipe comes to, as far as setting goes. The gum amounts are g of active gum per 100 g of
/// water phase, 0 or more; a route without its gum is not judged.
struct SetInput {
  double alginate_percent = 0;
  double hm_pectin_percent = 0;
  double lm_pectin_percent = 0;  ///< LM and amidated pectin together
  double gellan_low_acyl_percent = 0;
  double gellan_high_acyl_percent = 0;
  double xanthan_percent = 0;
  double guluronate_share = 0.5;
  double hm_pectin_esterification = 0.7;
  bool lm_pectin_amidated = false;
  double calcium_ratio_r2 = 0;        ///< 0 or more
  double divalent_ratio_r2 = 0;       ///< for gellan: with `divalent_for_gum`; 0 or more
  double early_ratio_r2 = 0;          ///< of the calcium that met the gum before any acid did
  double ph = 7;                      ///< of the water phase
  double soluble_solids_percent = 0;  ///< 0 to 100
  double maltodextrin_share = 0;      ///< of the soluble solids
  AcidDelivery acid = AcidDelivery::none;
  CalciumDelivery calcium = CalciumDelivery::tap_only;
  bool heated = false;
  bool hydrated = true;
};

/// A serving as eaten and what the stomach test needs besides.
struct StomachInput {
  SetInput eaten;
  double water_fraction = 1;                  ///< g water phase per g serving, above 0 to 1
  double calcium_mmol_per_kg_water = 0;       ///< of the serving: all of it, hidden or insoluble
  double food_calcium_mmol_per_kg_water = 0;  ///< from food in the stomach, same basis
  double carboxylate_mmol_per_kg_water = 0;   ///< of all gums of the serving
  double acid_demand_mmol = 0;                ///< per serving, to the pH of the stomach fluid
  bool acid_reducing_medicine = false;
};

/// What one route comes to. Pointers are into the table used.
struct Verdict {
  Route route = Route::thickener;
  const SetRule* rule = nullptr;          ///< never null in an Outlook
  const SetRule* contested_by = nullptr;  ///< another reading of the same conditions, if any
  std::array<const SetAdjustment*, 6> adjustments = {};  ///< those that held; null after the last
  Texture texture = Texture::pours;
  Defects defects;
  Grade grade = Grade::a;
};

/// All routes together.
struct Outlook {
  std::array<Verdict, route_count> verdicts = {};
  std::size_t count = 0;    ///< verdicts in use, one for each gum route present; 0 = no gum
  std::size_t firmest = 0;  ///< the verdict that gives `texture`; of equals, the surest
  std::size_t worst = 0;    ///< the verdict that gives `worst_defect`
  Texture texture = Texture::pours;
  Defects defects;  ///< of every route
  std::optional<Defect> worst_defect;
};

/// Before it is eaten. Throws InputError if a number is not finite or a gum or ratio is negative,
/// or if `table` does not cover the conditions (the built-in ones always do).
Outlook predict_pouch(const SetInput& input, SetTable table = pouch_table());

/// In the standard stomach test: 1:1 by mass with fluid of pH 3, 37 degC, with calcium, all calcium
/// of the serving released. Throws as `predict_pouch`, and if `water_fraction` is not in (0, 1].
Outlook predict_stomach(const StomachInput& input, SetTable table = stomach_table());

/// What `route` sees of the recipe, before and after the stomach.
SetPoint pouch_point(const SetInput& input, Route route);
SetPoint stomach_point(const StomachInput& input, Route route);

/// A texture that keeps its shape on a spoon: sheared, soft, firm or hard.
constexpr bool keeps_shape(Texture texture) {
  return texture >= Texture::sheared;
}

/// `classes` firmer or softer along pours, thick, soft, firm, hard, stopping at the ends. Bits of
/// gel and a sheared gel stand beside that ladder: softer they pour or are thick, never firmer.
Texture shifted(Texture texture, int classes);

/// The worst of them, if any.
std::optional<Defect> worst_of(Defects defects);

/// R2 = 2[Ca]/[COO-]; both in the same unit of amount. 0 where there is no carboxylate.
constexpr double saturation_ratio_r2(double ca_mol, double coo_mol) {
  return coo_mol > 0 ? 2.0 * ca_mol / coo_mol : 0.0;
}

/// The calcium at which the ratio is `r2`: where hard water stops mattering.
constexpr double calcium_mol_at_r2(double r2, double coo_mol) {
  return r2 * coo_mol / 2.0;
}

/// R_G = [Ca]/[guluronate] = R2 / (2 F_G). F_G above 0, at most 1; throws InputError outside.
double guluronate_ratio_from_r2(double r2, double guluronate_share);

/// What the ratio from the water alone means for a drink that must not set in the bottle.
enum class HardWater : std::uint8_t { fine, care, stop };
HardWater hard_water(double r2_from_water);

/// Single numbers other parts of the model need, from `setting_data`.
struct SettingConstants {
  double hot_enough_c;        ///< dissolves pectin and low-acyl gellan, degC
  double hard_water_care_r2;  ///< of the calcium of the water alone, for a drink
  double hard_water_stop_r2;
  double acid_demand_limit_mmol;  ///< per serving; above it gelling is slow or patchy
  double stomach_fluid_g_per_g_serving;
  double stomach_ph;
  double stomach_calcium_mmol_per_kg_water;  ///< in the mixture, brought by the fluid
};
const SettingConstants& setting_constants();

std::string_view to_text(Route route);      ///< "calcium and alginate"
std::string_view to_text(Texture texture);  ///< "pours", "thick", "soft set", "smooth sheared gel"
std::string_view to_text(Defect defect);    ///< "lumps", "weeps"
std::string_view to_text(AcidDelivery acid);
std::string_view to_text(CalciumDelivery calcium);

}  // namespace gelwright
