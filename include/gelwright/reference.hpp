// What the program knows, laid out to be read: ingredients, numbers, the gel model, flags.
#pragma once

#include "gelwright/advise.hpp"
#include "gelwright/flag.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// Every built-in ingredient and what 1 g of it delivers.
Report ingredients_report();

/// The bibliography, with how many numbers rest on each entry.
Report sources_report();

/// Every literature number, table by table.
Report numbers_report();

/// Every parameter of the gel model.
Report gel_report();

/// The words of the card and what they mean.
Report words_report();

/// Every flag there is.
Report flags_report();

/// One flag: when it fires, why, its source and grade.
Report explain_report(const FlagInfo& info);

/// The same with the arithmetic of one recipe: the numbers that go in, and the finding.
Report explain_report(const FlagInfo& info, const Inputs& inputs, const Evaluation& evaluation,
                      const Advice& advice);

}  // namespace gelwright
