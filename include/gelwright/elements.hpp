// Atomic weights and the molar mass of a formula, so that no molar mass is ever typed in.
#pragma once

#include <cstddef>
#include <span>
#include <string_view>

#include "gelwright/source.hpp"

namespace gelwright {

/// Abridged standard atomic weights, g/mol; the key is the element symbol. The uncertainty is the
/// half-width the table gives, which covers the isotopic spread of normal materials.
inline constexpr Datum atomic_weights[] = {
    {"H", 1.0080, "g/mol", 0.0002, "normal materials", "iupac-2021", Standing::confirmed},
    {"C", 12.011, "g/mol", 0.002, "normal materials", "iupac-2021", Standing::confirmed},
    {"N", 14.007, "g/mol", 0.001, "normal materials", "iupac-2021", Standing::confirmed},
    {"O", 15.999, "g/mol", 0.001, "normal materials", "iupac-2021", Standing::confirmed},
    {"Na", 22.990, "g/mol", 0.001, "normal materials", "iupac-2021", Standing::confirmed},
    {"Mg", 24.305, "g/mol", 0.002, "normal materials", "iupac-2021", Standing::confirmed},
    {"P", 30.974, "g/mol", 0.001, "normal materials", "iupac-2021", Standing::confirmed},
    {"S", 32.06, "g/mol", 0.02, "normal materials", "iupac-2021", Standing::confirmed},
    {"Cl", 35.45, "g/mol", 0.01, "normal materials", "iupac-2021", Standing::confirmed},
    {"K", 39.098, "g/mol", 0.001, "normal materials", "iupac-2021", Standing::confirmed},
    {"Ca", 40.078, "g/mol", 0.004, "normal materials", "iupac-2021", Standing::confirmed},
};

/// The table above.
std::span<const Datum> elements_data();

/// Throws InputError naming the formula and the reason. Not constexpr on purpose: reaching it
/// during constant evaluation is a compile error.
[[noreturn]] void refuse_formula(std::string_view formula, const char* reason);

namespace detail {

constexpr bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
constexpr bool is_upper(char c) {
  return c >= 'A' && c <= 'Z';
}
constexpr bool is_lower(char c) {
  return c >= 'a' && c <= 'z';
}

/// Reads a count at `at`; 1 where none is written.
constexpr double read_count(std::string_view formula, std::size_t& at) {
  if (at >= formula.size() || !is_digit(formula[at])) return 1.0;
  double count = 0.0;
  while (at < formula.size() && is_digit(formula[at])) {
    count = 10.0 * count + static_cast<double>(formula[at++] - '0');
    if (count > 1e6) refuse_formula(formula, "count too large");
  }
  if (count <= 0.0) refuse_formula(formula, "a count of zero");
  return count;
}

/// The units of the formula from `at` to the end, a separator, or the closing parenthesis of
/// `depth`: the sum of `weight_of(symbol)` over the atoms.
template <class WeightOf>
constexpr double sum_group(std::string_view formula, std::size_t& at, int depth,
                           WeightOf weight_of) {
  if (depth > 8) refuse_formula(formula, "parentheses nested too deeply");
  double sum = 0.0;
  bool empty = true;
  while (at < formula.size() && formula[at] != ')' && formula[at] != '.') {
    double unit = 0.0;
    if (formula[at] == '(') {
      ++at;
      unit = sum_group(formula, at, depth + 1, weight_of);
      if (at >= formula.size() || formula[at] != ')') refuse_formula(formula, "unclosed '('");
      ++at;
    } else if (is_upper(formula[at])) {
      const std::size_t start = at++;
      while (at < formula.size() && is_lower(formula[at])) ++at;
      unit = weight_of(formula, formula.substr(start, at - start));
    } else {
      refuse_formula(formula, "an element symbol was expected");
    }
    sum += unit * read_count(formula, at);
    empty = false;
  }
  if (empty) refuse_formula(formula, "an empty part");
  return sum;
}

template <class WeightOf>
constexpr double sum_formula(std::string_view formula, WeightOf weight_of) {
  double sum = 0.0;
  std::size_t at = 0;
  while (true) {
    const double multiplier = read_count(formula, at);
    sum += multiplier * sum_group(formula, at, 0, weight_of);
    if (at == formula.size()) return sum;
    if (formula[at] != '.') refuse_formula(formula, "unmatched ')'");
    ++at;
  }
}

/// The row of an element, in g/mol; an unknown symbol is refused.
constexpr double atomic_weight(std::string_view formula, std::string_view symbol) {
  for (const Datum& row : atomic_weights)
    if (row.key == symbol) return row.value;
  refuse_formula(formula, "unknown element");
}

}  // namespace detail

/// Molar mass in g/mol of a formula such as "CaCl2.2H2O" or "Ca(HCO3)2": element symbols with
/// counts, parentheses, and parts joined by '.' with an optional multiplier in front. Charges are
/// not written (the mass of electrons is below the last digit of the weights).
/// A bad formula or an element outside the table is a compile error where the call is constant
/// evaluated, else throws InputError.
constexpr double molar_mass_g_per_mol(std::string_view formula) {
  return detail::sum_formula(formula, detail::atomic_weight);
}

/// Atoms of `symbol` in one formula unit; 0 where it holds none. Throws as above.
constexpr double atom_count(std::string_view formula, std::string_view symbol) {
  return detail::sum_formula(formula, [symbol](std::string_view whole, std::string_view element) {
    detail::atomic_weight(whole, element);  // refuses an unknown element
    return element == symbol ? 1.0 : 0.0;
  });
}

}  // namespace gelwright
