// Which sections of a report a person sees.
#include <algorithm>

#include "report/render.hpp"

namespace gelwright {

namespace {

bool on_paper(const Section& section) {
  const auto shown = [](const auto& part) { return detail::in_text(part.shown); };
  return std::any_of(section.figures.begin(), section.figures.end(), shown) ||
         std::any_of(section.tables.begin(), section.tables.end(), shown) ||
         std::any_of(section.lines.begin(), section.lines.end(), shown) ||
         !section.pictures.empty();
}

bool named(const Section& section, const std::vector<std::string>& parts) {
  return std::find(parts.begin(), parts.end(), section.key) != parts.end();
}

}  // namespace

Report seen(Report report, const View& view) {
  if (view.all) return report;
  std::erase_if(report.sections, [&view](const Section& section) {
    return view.parts.empty() ? section.in_full_only : !named(section, view.parts);
  });
  return report;
}

std::vector<std::string> parts_of(const Report& report) {
  std::vector<std::string> parts;
  for (const Section& section : report.sections)
    if (on_paper(section) && std::find(parts.begin(), parts.end(), section.key) == parts.end())
      parts.push_back(section.key);
  return parts;
}

}  // namespace gelwright
