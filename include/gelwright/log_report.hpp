// The notebook, laid out: entries, one entry just added, the score of the forecasts.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "gelwright/notebook.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// The entries at these places, of which text shows the last `most` (0: all). An entry whose
/// content is not that of the newest entry of its recipe, or not `now`, is marked: the recipe has
/// changed since. `now` is the content of the recipe the list is of.
Report log_report(const Notebook& notebook, std::span<const std::size_t> places, std::size_t most,
                  const std::optional<std::string>& now = std::nullopt);

/// The entry that was added, and to what.
Report added_report(const NotebookEntry& entry, const std::string& notebook);

Report score_report(const Notebook& notebook, std::span<const std::size_t> places);

/// Adds what chances were given against how often that came true; or why there is no such picture.
void add_score_picture(Report& report, const NotebookScore& score);

/// How many entries teach, and which do not.
Section logged_section(const NotebookBench& found);

/// "2026-07-04: thick, as foretold; pH 3.7; went down 4 of 5." of the newest entry, for the first
/// screen; `now` as above.
Section last_time_section(const NotebookEntry& entry, const std::string& now);

}  // namespace gelwright
