// Something a document does not say and the program had to take, so that it can be said aloud.
#pragma once

#include <string>

namespace gelwright {

struct Assumption {
  std::string where;  ///< JSON pointer of the key that would say it
  std::string what;   ///< "how the acid goes in", "fell mix: its sugars"
  std::string value;  ///< what was taken, with its unit: "poured at once", "12 h"
  std::string range;  ///< what else it may well be, "8 to 24 h"; empty where nothing is known of it
  std::string why;    ///< why it had to be; empty where the document merely does not say
  std::string kitchen = {};  ///< the document `where` points into, where that is the kitchen
};

}  // namespace gelwright
