#include "cli/option_names.hpp"

#include <string_view>

namespace gelwright::cli {

namespace {

struct OptionName {
  std::string_view key;  ///< as the core says in `Problem::where`
  std::string_view option;
};

constexpr OptionName names[] = {
    {"axes", "--vary"},
    {"batch_mass_g", "--batch-mass-g"},
    {"carbohydrate_g", "--carbohydrate-g"},
    {"carbohydrate_g_per_hour", "--carbohydrate-g-per-hour"},
    {"cold_hours", "--cold-hours"},
    {"cup_g", "--cup-g"},
    {"draws", "--draws"},
    {"hours", "--hours"},
    {"ingredient", "--ingredient"},
    {"knobs", "--with"},
    {"servings", "--servings"},
    {"shuffle", "--shuffle"},
    {"stock_percent", "--stock-percent"},
    {"strength_percent", "--strength-percent"},
    {"sweat_l_per_hour", "--sweat-l-per-hour"},
    {"used_to_g_per_hour", "--used-to-g-per-hour"},
    {"warm_before_hours", "--warm-before-hours"},
};

}  // namespace

std::string as_option(const std::string& where) {
  const std::string_view first = std::string_view(where).substr(0, where.find(' '));
  for (const OptionName& name : names)
    if (name.key == first) return std::string(name.option) + where.substr(first.size());
  return where;
}

}  // namespace gelwright::cli
