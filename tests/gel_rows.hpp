// Reads rows of the reference grid. Shared by the tests that compare with it.
#pragma once

#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "gelwright/gel_state.hpp"

namespace gelwright::test {

using Row = std::map<std::string, std::string>;

inline std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> parts(1);
  for (const char c : text)
    if (c == at)
      parts.emplace_back();
    else
      parts.back() += c;
  return parts;
}

inline std::vector<Row> read_rows(const std::string& path) {
  std::ifstream in(path);
  if (!in) throw std::runtime_error("cannot open " + path);
  std::string line;
  std::vector<std::string> heads;
  std::vector<Row> rows;
  while (std::getline(in, line)) {
    if (!line.empty() && line.back() == '\r') line.pop_back();
    if (line.empty() || line[0] == '#') continue;
    const std::vector<std::string> cells = split(line, ',');
    if (heads.empty()) {
      heads = cells;
      continue;
    }
    Row row;
    for (std::size_t i = 0; i < heads.size(); ++i)
      row[heads[i]] = i < cells.size() ? cells[i] : std::string();
    rows.push_back(row);
  }
  return rows;
}

inline double number(const Row& row, const char* key) {
  const std::string& text = row.at(key);
  char* end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  if (end == text.c_str()) throw std::runtime_error(std::string("no number in ") + key);
  return value;
}

inline gel::Portion portion_of(const std::string& text) {
  static const std::map<std::string, Gum> gums = {
      {"alginate", Gum::alginate},    {"hm", Gum::hm_pectin},       {"lm", Gum::lm_pectin},
      {"amid", Gum::amidated_pectin}, {"la", Gum::gellan_low_acyl}, {"ha", Gum::gellan_high_acyl},
      {"xanthan", Gum::xanthan}};
  static const std::map<std::string, gel::Dispersed> ways = {{"mix", gel::Dispersed::mix},
                                                             {"sugar", gel::Dispersed::sugar},
                                                             {"blender", gel::Dispersed::blender},
                                                             {"dry", gel::Dispersed::dry}};
  gel::Portion portion;
  const std::vector<std::string> parts = split(text, ';');
  portion.gum = gums.at(parts[0]);
  for (std::size_t i = 1; i < parts.size(); ++i) {
    const std::vector<std::string> pair = split(parts[i], '=');
    if (pair.size() == 1) {
      portion.dispersed = ways.at(pair[0]);
      continue;
    }
    const double value = std::strtod(pair[1].c_str(), nullptr);
    if (pair[0] == "cw") portion.g_per_100_g_water = value;
    if (pair[0] == "ca_met") portion.ca_met_mmol_per_kg = value;
    if (pair[0] == "ss_met") portion.solids_met_percent = value;
    if (pair[0] == "ph_met") portion.ph_met = value;
    if (pair[0] == "hours") portion.hours = value;
    if (pair[0] == "seq") portion.sequestered = value;
    if (pair[0] == "late") portion.late = value != 0;
  }
  return portion;
}

inline gel::State state_of(const Row& row) {
  gel::State state;
  for (const std::string& text : split(row.at("portions"), '|')) add(state, portion_of(text));
  state.ca_mmol_per_kg = number(row, "ca");
  state.mg_mmol_per_kg = number(row, "mg");
  state.na_mmol_per_kg = number(row, "na");
  state.k_mmol_per_kg = number(row, "k");
  state.ph = number(row, "ph");
  state.ph_sd = number(row, "ph_sd");
  state.ionic_mmol_per_kg = number(row, "ion");
  state.solids_percent = number(row, "ss");
  for (const std::string& text : split(row.at("sugars"), '|')) {
    const std::vector<std::string> pair = split(text, '=');
    const double share = std::strtod(pair[1].c_str(), nullptr);
    if (pair[0] == "sucrose") state.sugars.sucrose = share;
    if (pair[0] == "glucose") state.sugars.glucose = share;
    if (pair[0] == "fructose") state.sugars.fructose = share;
    if (pair[0] == "polyol") state.sugars.polyol = share;
    if (pair[0].substr(0, 2) == "md") {
      state.sugars.maltodextrin = share;
      state.sugars.maltodextrin_de = std::strtod(pair[0].c_str() + 2, nullptr);
    }
  }
  state.eaten_c = number(row, "t");
  state.heated_c = number(row, "heated");
  state.hours = number(row, "hours");
  static const std::map<std::string, gel::Acid> acids = {{"none", gel::Acid::none},
                                                         {"poured", gel::Acid::poured},
                                                         {"blade", gel::Acid::blade},
                                                         {"slow", gel::Acid::slow}};
  static const std::map<std::string, gel::Calcium> calcium = {
      {"slow", gel::Calcium::slow}, {"fast", gel::Calcium::fast}, {"blade", gel::Calcium::blade}};
  static const std::map<std::string, ViscosityGrade> grades = {
      {"unknown", ViscosityGrade::unknown},
      {"very low", ViscosityGrade::very_low},
      {"low", ViscosityGrade::low},
      {"medium", ViscosityGrade::medium},
      {"high", ViscosityGrade::high}};
  state.acid = acids.at(row.at("acid"));
  state.calcium = calcium.at(row.at("calcium"));
  state.cooled = row.at("cooled") == "stirred" ? gel::Cooled::stirred : gel::Cooled::still;
  state.ca_added_mmol_per_kg = number(row, "ca_added");
  state.ca_total_mmol_per_kg = number(row, "ca_total");
  state.acid_demand_mmol = number(row, "acid_demand");
  state.guluronate = number(row, "fg");
  state.guluronate_sd = number(row, "fg_sd");
  state.esterification = number(row, "de");
  state.grade = grades.at(row.at("grade"));
  state.gum_lg_sd = number(row, "c_sd");
  state.ca_lg_sd = number(row, "ca_sd");
  return state;
}

}  // namespace gelwright::test
