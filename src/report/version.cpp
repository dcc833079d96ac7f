#include "gelwright/report.hpp"

namespace gelwright {

std::string_view program_version() {
  return GELWRIGHT_VERSION;
}

}  // namespace gelwright
