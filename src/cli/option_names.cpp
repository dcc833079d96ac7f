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
    {"cup_g", "--cup-g"},
    {"draws", "--draws"},
    {"ingredient", "--ingredient"},
    {"knobs", "--with"},
    {"servings", "--servings"},
    {"shuffle", "--shuffle"},
    {"stock_percent", "--stock-percent"},
};

}  // namespace

std::string as_option(const std::string& where) {
  const std::string_view first = std::string_view(where).substr(0, where.find(' '));
  for (const OptionName& name : names)
    if (name.key == first) return std::string(name.option) + where.substr(first.size());
  return where;
}

}  // namespace gelwright::cli
