// Numbers as they are printed: the one place where a number is rounded for a reader. Private.
//
// Halves go away from zero, and a half that binary arithmetic has pushed down by a few units in the
// last place is still a half. Nothing here writes "-0", and only `plain` writes an exponent.
#pragma once

#include <string>

namespace gelwright::detail {

/// `value` to that many decimals; a negative count rounds to tens, hundreds and so on. What is not
/// finite, or too large to have such decimals, comes back as it is.
double rounded(double value, int decimals);

/// The decimals that show `value` with `figures` (1 or more) significant figures, counted after the
/// rounding: 9.96 with two is 10, not 10.0. Negative where the last figure stands left of the
/// point; 0 for a value of zero or one that is not finite.
int decimals_for(double value, int figures);

/// `value` to `figures` significant figures.
double to_figures(double value, int figures);

/// The same, away from zero wherever a figure is lost: for amounts of which at least so much is
/// needed.
double to_figures_away_from_zero(double value, int figures);

/// A fixed count of decimals, 0 or more; "-" for what is not finite.
std::string fixed(double value, int decimals);

/// `figures` significant figures, written plainly: 107.3 with two is "110", 0.5 is "0.50".
std::string significant(double value, int figures);

/// At most `figures` significant figures and no zeros that say nothing, as a table of data holds
/// it; with an exponent below 0.0001 and where the last figure stands left of the point.
std::string plain(double value, int figures = 12);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
