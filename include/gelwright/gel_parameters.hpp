// The parameters of the gel model: what each is, how far it can be trusted, who says so.
//
// log10 throughout where the unit says so. Change a row of the table and every prediction, chance
// and sentence follows.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

#include "gelwright/source.hpp"

namespace gelwright::gel {

/// Parameters by name, in the order of the table; then what a person's own cups shift; then what
/// the serving itself is unsure of.
enum class Id : std::uint8_t {
  // clang-format off
  k_ca, k_acid, k_blend, k_lm, k_lmacid, k_jam, k_la, k_ha, res,
  c_ca, c_acid, c_blend, c_lm, c_lmacid, c_jam, c_la, c_ha,
  fg_ca, fg_acid, fg_ph,
  ca_a, ca_n, ca_b, ca_blm, ca_s, ca_pk, ca_ss,
  lm_x, lm_xss, lm_gain, lm_acidss,
  ph_h, ph_acid, ph_blend, ph_de, ph_lm, ph_jam,
  amid_ph, amid_k,
  jam_ss, jam_slope, jam_cold, jam_coldph, jam_phss, jam_md,
  la_q, la_own, la_x, la_na, la_h, la_t, la_ss,
  hyd_r, hyd_t, pour_e, shear, tau, hot,
  v_sugar, v_md, v_alg, v_gum, v_xan, y_still, y_shear,
  u_k, u_ph, u_ca, u_v,
  in_ph, in_fg, in_c, in_ca,
  // clang-format on
};
/// What a person's own cups shift: strength, the pH it sets at, calcium, viscosity.
inline constexpr std::array<Id, 4> shift_ids = {Id::u_k, Id::u_ph, Id::u_ca, Id::u_v};
inline constexpr std::size_t parameter_count = static_cast<std::size_t>(Id::u_k);
inline constexpr std::size_t value_count = static_cast<std::size_t>(Id::in_ca) + 1;

/// How a number is known.
enum class Known : std::uint8_t {
  abstract,   ///< the abstract or first page was read
  secondary,  ///< seen quoted in another text, or on a maker's sheet
  memory,     ///< recalled, not looked up
  judgement,  ///< our own choice where nothing better is known
};

/// The shift of a person's own cups that takes a parameter's place once cups exist.
enum class Shift : std::uint8_t { none, strength, ph, calcium, viscosity };

/// One row.
struct Parameter {
  Id id;
  std::string_view key;  ///< "gel.k.ca"
  double value;          ///< in `unit`
  double sd;             ///< in `unit`
  std::string_view unit;
  std::string_view source;  ///< a Source::id
  Known known;
  Grade grade;
  Shift shift;
  std::string_view means;  ///< what it is and what it rests on
};

/// All of them, in the order of `Id`.
std::span<const Parameter> parameters();

/// Where every number of the room comes from, as the other rooms say it: the parameters, and the
/// numbers of the shape that are not varied.
std::span<const Datum> parameter_data();
std::span<const Datum> gel_constant_data();

/// A value for each Id: parameters at their centre, shifts and inputs at 0.
struct Values {
  std::array<double, value_count> value;

  double operator[](Id id) const { return value[static_cast<std::size_t>(id)]; }
  double& operator[](Id id) { return value[static_cast<std::size_t>(id)]; }
};
const Values& central_values();

/// Names the parameters with their values and doubts: a change of any of them changes it.
std::string_view model_version();

std::string_view to_text(Known known);  ///< "abstract read", "quoted elsewhere", ...
std::string_view to_text(Shift shift);  ///< "strength", "pH", "calcium", "viscosity", "" for none

}  // namespace gelwright::gel
