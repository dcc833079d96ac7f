// The bench sheet of a series, and the table its readings are typed into.
#pragma once

#include "gelwright/ladder.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// The bench sheet, for at most `most_ladder_cups` cups (InputError beyond). For text, Markdown and
/// JSON; CSV is written by `write_ladder_csv`.
Report ladder_report(const Ladder& ladder);

/// The table the readings are typed into, chunk by chunk in order: cup, the varied inputs, acid_g,
/// predicted_ph, outlook and empty columns for ph, ph_diluted, syringe_ml, cup_turn, spoon,
/// ring_ml. Same bytes for any number of threads (0 = all); memory does not grow with the cells.
/// Throws InputError or NotConverged, naming the cup.
void write_ladder_csv(const Ladder& ladder, unsigned threads,
                      const std::function<void(std::string_view)>& sink);

}  // namespace gelwright
