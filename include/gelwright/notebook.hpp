// The notebook: what was made, weighed, read and eaten, with what had been foretold beside it.
//
// Plain data. A notebook is a file of lines that is only ever added to; `read_notebook` makes this
// from it, docs/notebook.md describes it.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "gelwright/bench.hpp"
#include "gelwright/calendar.hpp"
#include "gelwright/evaluate.hpp"

namespace gelwright {

/// What was foretold of a batch as it was weighed.
struct NotebookForecast {
  double ph = 7;
  double ph_low = 0;  ///< 95 %
  double ph_high = 14;
  std::optional<gel::Chances> chances;  ///< absent without gum, or outside the model's range
};

/// One thing weighed otherwise than planned, in the whole batch.
struct NotebookWeighed {
  std::string what;  ///< "acid", "calcium salt", "water", or the name of a solid
  double batch_g = 0;
};

/// One batch.
struct NotebookEntry {
  std::size_t line = 0;  ///< in the file, from 1
  LocalTime made;        ///< the day
  std::string recipe;    ///< its name
  std::string file;      ///< where it was read from
  std::string content;   ///< hash of what of recipe and kitchen decides the gel
  std::string program;   ///< version that wrote it
  double servings = 1;
  NotebookForecast forecast;
  std::vector<NotebookWeighed> weighed;
  std::optional<double> ph;  ///< read
  PhMethod ph_with = PhMethod::meter;
  std::optional<double> syringe_ml;  ///< of 10 mL, left after 10 s
  std::optional<CupTurn> cup_turn;
  std::optional<Spoon> spoon;
  std::optional<gel::Texture> texture;  ///< seen
  std::optional<int> went_down;         ///< 1 badly to 5 well
  std::string note;
};

/// A line that is kept and not understood.
struct NotebookUnread {
  std::size_t line = 0;
  std::string why;
};

struct Notebook {
  std::string document;  ///< file it was read from
  std::vector<NotebookEntry> entries;
  std::vector<NotebookUnread> unread;
};

/// What is foretold of this batch, kept beside it.
NotebookForecast forecast_for_notebook(const Inputs& inputs, const Evaluation& evaluation);

/// Which entries are wanted; what is absent does not matter.
struct NotebookFilter {
  std::optional<std::string> recipe;  ///< its name, its file, or a part of either
  std::optional<LocalTime> since;     ///< that day and later
  std::optional<LocalTime> until;     ///< that day and earlier
  std::optional<gel::Texture> texture;
};

/// Places of the entries it lets through, by the day they were made, those of a day as they stand.
std::vector<std::size_t> chosen(const Notebook& notebook, const NotebookFilter& filter);

/// Entries as cups of a bench series, for what they can teach.
struct NotebookBench {
  Bench bench;
  std::size_t changed = 0;     ///< entries left out: the recipe has changed since
  std::size_t unreadable = 0;  ///< entries left out: nothing was read on them that teaches
};

/// Those of `recipe` whose content is `now`. `planned` are its inputs, every dose a mass.
NotebookBench bench_of(const Notebook& notebook, const std::string& recipe, const std::string& now,
                       const Inputs& planned);

/// What was foretold of entries against what was seen.
struct NotebookScore {
  /// Of the entries with a texture, foretold and seen.
  std::size_t textures = 0;
  std::size_t hits = 0;       ///< the likeliest was seen
  double mean_ln_chance = 0;  ///< of what was seen; 0 would be certain, ln(1/7) a blind guess
  struct ByTexture {
    std::size_t seen = 0;
    std::size_t hits = 0;
    double mean_ln_chance = 0;
  };
  std::array<ByTexture, gel::texture_count> by_texture = {};
  /// Every chance that was foretold, in tenths, and how often it came true.
  struct Bin {
    double low = 0;
    double high = 0;
    std::size_t chances = 0;
    double mean_chance = 0;
    std::size_t came_true = 0;
  };
  std::vector<Bin> bins;
  struct Each {
    std::size_t entry = 0;  ///< in Notebook::entries
    gel::Texture seen = gel::Texture::pours;
    gel::Texture foretold = gel::Texture::pours;
    double chance_of_seen = 0;
  };
  std::vector<Each> each;
  std::size_t ph_readings = 0;
  std::size_t ph_within = 0;  ///< within the band foretold
  double ph_mean_miss = 0;    ///< read less foretold
};
NotebookScore score(const Notebook& notebook, std::span<const std::size_t> entries);

/// What the score takes for itself.
std::span<const Datum> notebook_data();

}  // namespace gelwright
