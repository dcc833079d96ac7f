#include "cli/terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <string_view>

namespace gelwright::cli {

namespace {

/// By the first of the variables that says anything, as POSIX has it.
bool locale_is_utf8() {
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    const char* value = std::getenv(name);
    if (value == nullptr || *value == '\0') continue;
    const std::string_view locale(value);
    return locale.find("UTF-8") != std::string_view::npos ||
           locale.find("utf8") != std::string_view::npos;
  }
  return false;
}

}  // namespace

Page terminal_page() {
  Page page;
  if (isatty(STDOUT_FILENO) == 0) return page;
  winsize size{};
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
    page.width = std::min<std::size_t>(page.width, size.ws_col);
  page.utf8 = locale_is_utf8();
  return page;
}

}  // namespace gelwright::cli
