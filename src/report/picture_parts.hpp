// What pictures of several reports share. Private.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gelwright/acid_curve.hpp"
#include "gelwright/bench.hpp"
#include "gelwright/gel_chances.hpp"
#include "gelwright/picture.hpp"
#include "gelwright/report.hpp"

namespace gelwright::detail {

/// Every texture in words, by the number of its kind.
std::vector<std::string> texture_names();
PictureKind kind_of(gel::Texture texture);

/// The likeliest texture along a curve; nothing where none is foretold. `per_g` makes a dose of a
/// serving what the axis counts.
std::optional<Strip> texture_strip(const AcidCurve& curve, double per_g);

/// An axis from and to whole pH that holds all of these.
Axis ph_axis(const std::vector<double>& all);

/// pH along a dose, and the band it lies in.
Curve ph_curve(std::string key, std::string label, const AcidCurve& curve, double per_g);
Band ph_band(const AcidCurve& curve, double per_g);

/// The cups whose acid and pH are known.
Points cup_points(const Bench& bench, double per_g);

/// "pH 3.5 to 4", "pH 3.5 or more", "at most pH 4".
std::string wanted_ph(const Window& window);

/// In place of a picture, why there is none.
Lines no_picture(const std::string& reason);

/// Puts a section behind the one with this key.
void insert_behind(Report& report, std::string_view key, Section section);

/// The axis of a dose in the batch.
Axis dose_axis(const std::string& ingredient, double most_g);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
