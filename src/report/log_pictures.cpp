// The picture of a score: what chances were given, and how often that came true.
#include <fmt/format.h>

#include "gelwright/log_report.hpp"
#include "report/picture_parts.hpp"
#include "report/sheet_parts.hpp"

namespace gelwright {

void add_score_picture(Report& report, const NotebookScore& score) {
  Section section{"calibration_picture", "WHAT CHANCES WERE WORTH, DRAWN", {}, {}, {}};
  if (score.textures == 0) {
    section.lines.push_back(no_picture("no entry has a texture beside a forecast yet"));
    insert_behind(report, "calibration", std::move(section));
    return;
  }
  constexpr double percent = 100;
  Points bins{"bins", "a tenth of the scale: how many came true, of how many chances", {}, {}, {},
              {}};
  std::string sentence =
      "How often textures came true against the chance they were given; on the line, as often as "
      "foretold.";
  std::size_t chances = 0;
  for (const NotebookScore::Bin& bin : score.bins) {
    if (bin.chances == 0) continue;
    chances += bin.chances;
    bins.x.push_back(percent * bin.mean_chance);
    bins.y.push_back(percent * static_cast<double>(bin.came_true) /
                     static_cast<double>(bin.chances));
    bins.names.push_back(fmt::format("{}/{}", bin.came_true, bin.chances));
    sentence += fmt::format(" Of {} given {} to {} %, {} on average, {} came true.",
                            bin.chances == 1 ? "1 chance" : fmt::format("{} chances", bin.chances),
                            fixed(percent * bin.low, 0), fixed(percent * bin.high, 0),
                            fixed(bins.x.back(), 0), bin.came_true);
  }
  Picture picture;
  picture.key = section.key;
  picture.title =
      fmt::format("Chances foretold against what came true: {} chances of {}", chances,
                  score.textures == 1 ? "1 entry" : fmt::format("{} entries", score.textures));
  picture.sentence = std::move(sentence);
  // A little beyond the ends, where there is room for a marker and its count.
  constexpr double beyond = 4;
  picture.x = {"chance foretold", "%", -beyond, percent + beyond};
  picture.y = {"came true", "%", -beyond, percent + beyond};
  picture.curves = {{"same", "as often as foretold", {0, percent}, {0, percent}}};
  picture.points = {std::move(bins)};
  section.pictures.push_back(std::move(picture));
  insert_behind(report, "calibration", std::move(section));
}

}  // namespace gelwright
