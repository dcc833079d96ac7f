// What may become of a text from outside, for the fuzzers and the test that replays their finds.
#pragma once

#include "gelwright/error.hpp"
#include "gelwright/report.hpp"

namespace gelwright::fuzz {

enum class Fate {
  refused,        ///< InputError, with at least one problem that says something
  not_converged,  ///< NotConverged
  evaluated,      ///< finite and printable
  nonsense,       ///< accepted, and yet a number is not finite or an error says nothing
};

/// True if every format prints something.
inline bool prints(const Report& report) {
  for (const Format format :
       {Format::text, Format::markdown, Format::html, Format::json, Format::csv})
    if (render(report, format).empty()) return false;
  return true;
}

/// What becomes of `work`, which says whether its result is sane. Anything but the two exceptions
/// of the library escapes to the caller.
template <class Work>
Fate fate_of(const Work& work) {
  try {
    return work() ? Fate::evaluated : Fate::nonsense;
  } catch (const InputError& error) {
    if (error.problems().empty()) return Fate::nonsense;
    for (const Problem& problem : error.problems())
      if (problem.what.empty()) return Fate::nonsense;
    return Fate::refused;
  } catch (const NotConverged&) {
    return Fate::not_converged;
  }
}

}  // namespace gelwright::fuzz
