// The bench sheet of a series, and the table its readings are typed into.
#pragma once

#include "gelwright/ladder.hpp"
#include "gelwright/report.hpp"
#include "gelwright/teach.hpp"

namespace gelwright {

/// The bench sheet, for at most `most_ladder_cups` cups (InputError beyond). For text, Markdown and
/// JSON; with what each cup could tell, where they were chosen to teach. CSV is written by
/// `write_ladder_csv`.
Report ladder_report(const Ladder& ladder, const Teaching* teaching = nullptr);

/// The table the readings are typed into, chunk by chunk in order: cup, the varied inputs, acid_g,
/// predicted_ph, outlook and empty columns for ph, ph_diluted, syringe_ml, cup_turn,
/// groove, lumps, spoon, ring_ml. Same bytes for any number of threads (0 = all); memory does not
/// grow with the cells. Throws InputError or NotConverged, naming the cup.
void write_ladder_csv(const Ladder& ladder, unsigned threads,
                      const std::function<void(std::string_view)>& sink);

}  // namespace gelwright
