// Why two recipes come out differently: one difference at a time, evaluated. Private.
#pragma once

#include "gelwright/compare.hpp"

namespace gelwright::detail {

/// Nothing where the two come out alike.
std::optional<CompareReason> reason_of(const CompareSide& first, const CompareSide& second);

std::span<const Datum> reason_data();

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
