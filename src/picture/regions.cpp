#include "picture/regions.hpp"

#include <algorithm>
#include <map>
#include <string>

namespace gelwright::detail {

namespace {

class Grid {
 public:
  Grid(const Regions& regions, const Box& frame) : regions_(regions), frame_(frame) {}

  PictureKind kind(std::size_t c, std::size_t r) const {
    return regions_.kind[r * regions_.columns + c];
  }
  double chance(std::size_t c, std::size_t r) const {
    return regions_.chance[r * regions_.columns + c];
  }
  double x(std::size_t c) const {
    return frame_.x0 +
           (frame_.x1 - frame_.x0) * static_cast<double>(c) / static_cast<double>(regions_.columns);
  }
  /// Of the lower side of a row; rows count from below.
  double y(std::size_t r) const {
    return frame_.y1 -
           (frame_.y1 - frame_.y0) * static_cast<double>(r) / static_cast<double>(regions_.rows);
  }

 private:
  const Regions& regions_;
  const Box& frame_;
};

/// Borders between unlike cells, whole stretches at a time.
std::string borders(const Regions& regions, const Grid& grid) {
  std::string d;
  const auto stretch = [&d](double x0, double y0, double x1, double y1) {
    d += 'M' + coordinate(x0) + ' ' + coordinate(y0) +
         (y0 == y1 ? 'H' + coordinate(x1) : 'V' + coordinate(y1));
  };
  for (std::size_t r = 1; r < regions.rows; ++r)
    for (std::size_t c = 0; c < regions.columns;) {
      std::size_t end = c;
      while (end < regions.columns && grid.kind(end, r) != grid.kind(end, r - 1)) ++end;
      if (end > c) stretch(grid.x(c), grid.y(r), grid.x(end), grid.y(r));
      c = end + 1;
    }
  for (std::size_t c = 1; c < regions.columns; ++c)
    for (std::size_t r = 0; r < regions.rows;) {
      std::size_t end = r;
      while (end < regions.rows && grid.kind(c, end) != grid.kind(c - 1, end)) ++end;
      if (end > r) stretch(grid.x(c), grid.y(r), grid.x(c), grid.y(end));
      r = end + 1;
    }
  return d;
}

}  // namespace

void draw_regions(Canvas& canvas, const Regions& regions, const Box& frame) {
  const Grid grid(regions, frame);
  std::map<std::pair<PictureKind, int>, std::string> paths;
  for (std::size_t r = 0; r < regions.rows; ++r)
    for (std::size_t c = 0; c < regions.columns;) {
      const PictureKind kind = grid.kind(c, r);
      const int sure = picture_strength(grid.chance(c, r));
      std::size_t end = c + 1;
      while (end < regions.columns && grid.kind(end, r) == kind &&
             picture_strength(grid.chance(end, r)) == sure)
        ++end;
      if (kind != no_kind)
        paths[{kind, sure}] += 'M' + coordinate(grid.x(c)) + ' ' + coordinate(grid.y(r + 1)) + 'H' +
                               coordinate(grid.x(end)) + 'V' + coordinate(grid.y(r)) + 'H' +
                               coordinate(grid.x(c)) + 'z';
      c = end;
    }
  constexpr double of_strength[] = {0.3, 0.6, 0.9};
  for (const auto& [what, d] : paths)
    canvas.kind(d, what.first, of_strength[what.second], regions.key);
  const std::string lines = borders(regions, grid);
  if (!lines.empty()) canvas.path(lines, "edge");
}

void name_regions(Canvas& canvas, const Regions& regions, const Box& frame) {
  const Grid grid(regions, frame);
  for (PictureKind k = 0; k < picture_kinds; ++k) {
    if (std::find(regions.kind.begin(), regions.kind.end(), k) == regions.kind.end()) continue;
    const std::string& name = regions.kinds[k];
    bool placed = false;
    double widest = 0;
    double best_x = 0;
    double best_y = 0;
    // As many rows as a line of text is tall have to be of this kind.
    constexpr std::size_t tall = 3;
    for (std::size_t r = 0; r + tall <= regions.rows; ++r) {
      const auto whole = [&](std::size_t c) {
        for (std::size_t i = 0; i < tall; ++i)
          if (grid.kind(c, r + i) != k) return false;
        return true;
      };
      for (std::size_t c = 0; c < regions.columns;) {
        std::size_t end = c;
        while (end < regions.columns && whole(end)) ++end;
        if (end > c) {
          const double width = grid.x(end) - grid.x(c);
          const double x = (grid.x(c) + grid.x(end)) / 2;
          const double y = (grid.y(r) + grid.y(r + tall)) / 2 + 3.5;
          const Box box = Canvas::box_of(x, y, name, Anchor::middle);
          if (width > widest && width >= text_width(name) + 4 && canvas.is_free(box, frame)) {
            placed = true;
            widest = width;
            best_x = x;
            best_y = y;
          }
        }
        c = end + 1;
      }
    }
    if (placed) canvas.text(best_x, best_y, name, Anchor::middle, "halo");
    canvas.explain({Canvas::KeyItem::Sample::kind, k, name});
  }
}

}  // namespace gelwright::detail
