// What to add to a batch gone astray, laid out.
#pragma once

#include "gelwright/advise.hpp"
#include "gelwright/mend.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// `evaluation` and `advice` are those of the mended batch.
Report mend_report(const Mend& mend, const Evaluation& evaluation, const Advice& advice);

}  // namespace gelwright
