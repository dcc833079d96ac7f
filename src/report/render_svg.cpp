// A picture alone.
#include "report/render.hpp"

namespace gelwright {

const Picture* first_picture(const Report& report) {
  for (const Section& section : report.sections)
    if (!section.pictures.empty()) return &section.pictures.front();
  return nullptr;
}

std::string detail::render_svg(const Report& report, const Page&) {
  const Picture* picture = first_picture(report);
  return picture != nullptr ? draw(*picture, true) : "";
}

}  // namespace gelwright
