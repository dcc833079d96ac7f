// What the program knows, laid out to be read: ingredients, numbers, rules, flags.
#pragma once

#include "gelwright/advise.hpp"
#include "gelwright/flag.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// Every built-in ingredient and what 1 g of it delivers.
Report ingredients_report();

/// The bibliography, with how many numbers and rules rest on each entry.
Report sources_report();

/// Every literature number, table by table.
Report numbers_report();

/// Every set rule, pouch then stomach, with its conditions in words.
Report rules_report();

/// Every flag there is.
Report flags_report();

/// One flag: when it fires, why, its source and grade.
Report explain_report(const FlagInfo& info);

/// The same with the arithmetic of one recipe: the numbers that go into the rule, and the finding.
Report explain_report(const FlagInfo& info, const Inputs& inputs, const Evaluation& evaluation,
                      const Advice& advice);

/// "0.2 <= gum < 0.4 g per 100 g water, acid poured in": what a rule asks.
std::string conditions_of(const SetWhen& when);

}  // namespace gelwright
