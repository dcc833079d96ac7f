// A thing bought ready to eat: a mix of the kitchen, or a label typed in.
#include <fmt/format.h>

#include <algorithm>

#include "base/number.hpp"
#include "base/text.hpp"
#include "read/kitchen.hpp"

namespace gelwright {

namespace {

using nlohmann::json;
using nlohmann::ordered_json;

constexpr double most_piece_g = 5000;
constexpr double most_pieces = 1000;
constexpr double most_price = 1e6;

/// "oat bar=2" or "oat bar,piece_g=45,count=2,carbohydrate_g=30", taken apart.
struct Said {
  std::string name;
  std::optional<double> pieces;
  std::optional<double> piece_g;
  std::optional<double> price;
  ordered_json label = ordered_json::object();
};

Said taken_apart(std::string_view text, const std::string& document) {
  Said said;
  std::vector<Problem> problems;
  for (std::size_t from = 0, field = 0; from <= text.size(); ++field) {
    const std::size_t to = std::min(text.find(',', from), text.size());
    const std::string_view part = text.substr(from, to - from);
    from = to + 1;
    const auto [key, given] = name_and_value(part);
    const std::string value = given.value_or("");
    const std::optional<double> number = to_number(value);
    if (field == 0) {
      said.name = key;
      if (!given) continue;
    } else if (!given) {
      problems.push_back({key, "there is no value after it", "as in carbohydrate_g=30"});
      continue;
    }
    if (field == 0 || key == "count") {
      said.pieces = number;
      if (!number || *number < 1 || *number > most_pieces ||
          *number != static_cast<double>(static_cast<long>(*number)))
        problems.push_back({field == 0 ? said.name : key,
                            fmt::format("\"{}\" is not a number of pieces", value),
                            fmt::format("give a whole number, 1 to {:g}", most_pieces)});
    } else if (key == "piece_g") {
      said.piece_g = number;
      if (!number || !(*number > 0) || *number > most_piece_g)
        problems.push_back({key, fmt::format("\"{}\" is not the mass of a piece", value),
                            fmt::format("give grams, above 0 and at most {:g}", most_piece_g)});
    } else if (key == "price") {
      said.price = number;
      if (!number || *number < 0 || *number > most_price)
        problems.push_back({key, fmt::format("\"{}\" is not a price", value),
                            fmt::format("give what a piece costs, 0 to {:g}", most_price)});
    } else if (number) {
      said.label[key] = *number;
    } else {
      said.label[key] = value;
    }
  }
  if (said.name.empty())
    problems.push_back({"", "it has no name", "begin with one: \"oat bar=2\""});
  if (!problems.empty()) throw InputError(document, std::move(problems));
  return said;
}

/// The mass the label is for, where it is that of a piece; 0 for 100 g, which is nobody's piece.
double labelled_piece_g(const json& label) {
  const auto number = [&label](const char* key) { return label.value(key, 0.0); };
  if (label.contains("per_g")) return number("per_g");
  const std::string per = label.value("per", "");
  if (per == "portion")
    return label.contains("portion_g") ? number("portion_g")
                                       : number("pack_g") / number("portions_in_pack");
  if (per == "pack")
    return label.contains("pack_g") ? number("pack_g")
                                    : number("portion_g") * number("portions_in_pack");
  return 0;
}

/// What a piece costs by the pack the kitchen prices.
void add_kitchen_price(const json& kitchen, Bought& bought) {
  const json prices = kitchen.value("prices", json::object());
  for (const json& pack : prices.value("packs", json::array()))
    if (pack.value("ingredient", "") == bought.ingredient.name) {
      bought.price = pack.value("price", 0.0) * bought.piece_g / pack.value("pack_g", 1.0);
      bought.currency = prices.value("currency", "");
    }
}

}  // namespace

Bought read_bought(std::string_view text, const std::optional<KitchenDocument>& kitchen,
                   std::string document) {
  const Said said = taken_apart(text, document);
  KitchenDocument source;
  if (!said.label.empty()) {
    ordered_json label = said.label;
    if (!label.contains("per_g") && !label.contains("per")) {
      if (!said.piece_g)
        throw InputError(document, {{"piece_g", "nothing says how heavy a piece is",
                                     "add piece_g=45 with its grams"}});
      label["per_g"] = *said.piece_g;
    }
    source.text =
        ordered_json{{"format", "gelwright/kitchen-1"},
                     {"define", {{said.name, {{"kind", "mix"}, {"label", std::move(label)}}}}}}
            .dump();
    source.document = document;
  } else if (kitchen) {
    source = *kitchen;
  } else {
    throw InputError(document, {{said.name, "nothing is known of it",
                                 "add its label, as in piece_g=45,carbohydrate_g=30,sodium_mg=80, "
                                 "or a kitchen that defines it"}});
  }
  const json parsed = detail::checked_kitchen(source);
  const json define = parsed.value("define", json::object());
  if (!define.contains(said.name)) {
    std::vector<std::string> names;
    for (const auto& [name, value] : define.items()) names.push_back(name);
    const std::string meant = detail::did_you_mean(said.name, names);
    throw InputError(document,
                     {{said.name, fmt::format("{} does not define it", source.document),
                       meant.empty() ? "define it there with its label, or type the label here: "
                                       "piece_g=45,carbohydrate_g=30,sodium_mg=80"
                                     : meant}});
  }
  detail::Findings findings;
  detail::Pantry pantry(&define, "/define", {}, findings);
  Bought bought;
  bought.ingredient = *pantry.find(said.name, "/define");
  bought.pieces = said.pieces;
  const json& body = define.at(said.name);
  bought.piece_g =
      said.piece_g.value_or(body.contains("label") ? labelled_piece_g(body.at("label")) : 0.0);
  bought.sugars_stated = !body.contains("label") || body.at("label").contains("sugars_g") ||
                         body.at("label").contains("glucose_to_fructose");
  bought.price = said.price;
  if (!said.price) add_kitchen_price(parsed, bought);
  if (!(bought.piece_g > 0))
    throw InputError(document, {{said.name, "nothing says how heavy a piece of it is",
                                 "add piece_g=45 with its grams"}});
  return bought;
}

}  // namespace gelwright
