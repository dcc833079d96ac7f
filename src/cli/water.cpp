#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/number.hpp"
#include "cli/command.hpp"
#include "cli/kitchen_file.hpp"
#include "gelwright/error.hpp"
#include "gelwright/read.hpp"
#include "gelwright/water_report.hpp"

namespace gelwright::cli {

namespace {

constexpr double most_parts = 1e6;

struct WaterOptions {
  std::vector<std::string> reports;
  std::optional<std::string> kitchen;  ///< of the reports that are recipes
  std::vector<std::string> blend;      ///< as typed: "0.6", "60/40"
  std::map<Ion, std::string> ions;     ///< as typed, "23 mg/L"
  std::string hardness;
  std::string alkalinity;
  double ph = -1;
  std::string at_least;
  std::string at_most;
  std::string bring_to;
  std::string low_mineral = "0 mg/L";
};

/// Values typed on the command line, each with its unit; every problem is reported at once.
class Amounts {
 public:
  std::optional<double> read(const ParsedAmount& parsed, std::string where) {
    if (!parsed.value) problems_.push_back({std::move(where), parsed.reason, ""});
    return parsed.value;
  }
  std::optional<double> calcium(const std::string& text, std::string where) {
    if (text.empty()) return std::nullopt;
    return read(parse_concentration(Ion::calcium, text), std::move(where));
  }
  void refuse(std::string where, std::string what, std::string remedy) {
    problems_.push_back({std::move(where), std::move(what), std::move(remedy)});
  }
  void finish() const {
    if (!problems_.empty()) throw InputError("", problems_);
  }

 private:
  std::vector<Problem> problems_;
};

Water typed_water(const WaterOptions& options, Amounts& amounts) {
  Water water;
  water.name = "as typed";
  for (const auto& [ion, text] : options.ions)
    if (!text.empty())
      water.mg_per_l[ion] =
          amounts.read(parse_concentration(ion, text), fmt::format("--{}", info(ion).key_stem));
  if (!options.hardness.empty())
    water.hardness_mmol_per_l = amounts.read(parse_hardness(options.hardness), "--hardness");
  if (!options.alkalinity.empty())
    water.alkalinity_meq_per_l = amounts.read(parse_alkalinity(options.alkalinity), "--alkalinity");
  if (options.ph >= 0) water.ph = options.ph;
  if (water.mg_per_l[Ion::calcium] && water.hardness_mmol_per_l &&
      hardness_contradicts(*water.mg_per_l[Ion::calcium], *water.hardness_mmol_per_l))
    amounts.refuse("--calcium", "calcium alone is more than the total hardness",
                   "check the units of both");
  return water;
}

bool anything_typed(const WaterOptions& options) {
  for (const auto& [ion, text] : options.ions)
    if (!text.empty()) return true;
  return !options.hardness.empty() || !options.alkalinity.empty() || options.ph >= 0;
}

/// "60", "60 %": the number, and whether it is a share in percent.
struct TypedShare {
  double share = 0;
  bool percent = false;
};
std::optional<TypedShare> typed_share(std::string text) {
  const std::size_t percent = text.find('%');
  if (percent != std::string::npos) text.erase(percent, 1);
  const std::optional<double> share = detail::to_number(text);
  if (!share || *share < 0 || *share > most_parts) return std::nullopt;
  return TypedShare{*share, percent != std::string::npos};
}

/// Shares as typed, one by one or as "60/40" and "3:2"; parts and percent become shares of 1.
std::vector<double> shares_of(const std::vector<std::string>& typed, Amounts& amounts) {
  std::vector<double> shares;
  bool parts = false;
  for (const std::string& text : typed)
    for (std::size_t at = 0; at <= text.size();) {
      const std::size_t end = std::min(text.find_first_of("/:", at), text.size());
      const std::optional<TypedShare> piece = typed_share(text.substr(at, end - at));
      if (!piece) {
        amounts.refuse("--blend", fmt::format("\"{}\" is not a share", text),
                       "write --blend 0.6 0.4, or --blend 60/40");
        return {};
      }
      shares.push_back(piece->share);
      parts = parts || piece->percent || end < text.size();
      at = end + 1;
    }
  const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
  if (sum > 0 && (parts || std::abs(sum - 100) < 1e-6))
    for (double& share : shares) share /= sum;
  return shares;
}

/// A share behind the first one is typed where a report might stand.
void move_shares(WaterOptions& options) {
  if (options.blend.empty()) return;
  const auto is_report = [](const std::string& text) { return !typed_share(text); };
  const auto first_share =
      std::stable_partition(options.reports.begin(), options.reports.end(), is_report);
  options.blend.insert(options.blend.end(), first_share, options.reports.end());
  options.reports.erase(first_share, options.reports.end());
}

Water water_of(WaterOptions options, Amounts& amounts) {
  move_shares(options);

  if (options.reports.empty()) {
    if (options.kitchen)
      amounts.refuse("--kitchen", "there is no recipe to take from it", "name the recipe as well");
    if (!anything_typed(options))
      amounts.refuse("REPORT", "no water given",
                     "name a report file, or type --calcium \"23 mg/L\" and the like");
    return typed_water(options, amounts);
  }
  if (anything_typed(options))
    amounts.refuse("REPORT", "a report and typed figures together", "use one or the other");
  std::vector<std::pair<Water, double>> waters;
  for (const std::string& name : options.reports) {
    const std::string text = read_file(name);
    const auto kitchen = kitchen_of(name, text, options.kitchen);
    waters.emplace_back(read_water_report(text, document_name(name), kitchen).water, 0);
  }
  if (waters.size() == 1 && options.blend.empty()) return waters.front().first;
  const std::vector<double> shares = shares_of(options.blend, amounts);
  if (shares.empty() && !options.blend.empty()) return {};
  if (shares.size() != waters.size()) {
    amounts.refuse("--blend", fmt::format("{} waters and {} shares", waters.size(), shares.size()),
                   "give one share for each report, in their order: --blend 0.6 0.4");
    return {};
  }
  double sum = 0;
  for (std::size_t i = 0; i < waters.size(); ++i) sum += waters[i].second = shares[i];
  if (std::abs(sum - 1) > 1e-6) {
    amounts.refuse("--blend", fmt::format("the shares add up to {:g}, not 1", sum),
                   "shares are parts of the whole");
    return {};
  }
  Water blended = blend(waters);
  blended.name = "blend";
  return blended;
}

Outcome run_water(const WaterOptions& options, const OutputOptions& output) {
  Amounts amounts;
  const Water water = water_of(options, amounts);
  WaterQuestion question;
  question.calcium_mg_per_l.at_least = amounts.calcium(options.at_least, "--at-least");
  question.calcium_mg_per_l.at_most = amounts.calcium(options.at_most, "--at-most");
  question.bring_calcium_to_mg_per_l = amounts.calcium(options.bring_to, "--bring-calcium-to");
  question.low_mineral_calcium_mg_per_l =
      amounts.calcium(options.low_mineral, "--low-mineral-calcium").value_or(0);
  amounts.finish();
  return {rendered(water_report(water, question), output),
          judge(calcium_mg_per_l(water), question.calcium_mg_per_l) == LimitVerdict::kept
              ? fine
              : answer_is_no};
}

}  // namespace

void add_water(Registry registry) {
  auto options = std::make_shared<WaterOptions>();
  CLI::App* command = registry.app.add_subcommand(
      "water",
      "A water in every unit, against calcium limits, blended; exit 1 if a limit is broken");
  command
      ->add_option("report", options->reports, "Water reports or recipes; several go with --blend")
      ->type_name("REPORT");
  bind_kitchen(*command, options->kitchen);
  command
      ->add_option("--blend", options->blend,
                   "Share of each report, in their order: 0.6 0.4, or 60/40")
      ->type_name("SHARE")
      ->allow_extra_args(false);
  for (const IonInfo& ion : ions())
    command
        ->add_option(fmt::format("--{}", ion.key_stem), options->ions[ion.ion],
                     fmt::format("{} with its unit: \"23 mg/L\", \"0.6 mmol/L\"", ion.key_stem))
        ->type_name("AMOUNT");
  command
      ->add_option("--hardness", options->hardness,
                   "Total hardness with its unit: \"7.5 dH\", \"134 mg/L CaCO3\", \"8 gpg\"")
      ->type_name("AMOUNT");
  command
      ->add_option("--alkalinity", options->alkalinity,
                   "Alkalinity with its unit: \"2.1 meq/L\", \"128 mg/L HCO3\"")
      ->type_name("AMOUNT");
  command->add_option("--ph", options->ph, "pH")->type_name("PH")->check(number_between(0.0, 14.0));
  command->add_option("--at-least", options->at_least, "Least calcium allowed, \"40 mg/L\"")
      ->type_name("AMOUNT");
  command->add_option("--at-most", options->at_most, "Most calcium allowed, \"40 mg/L\"")
      ->type_name("AMOUNT");
  command
      ->add_option("--bring-calcium-to", options->bring_to,
                   "How to bring calcium there: low-mineral water, or a calcium salt")
      ->type_name("AMOUNT");
  command
      ->add_option("--low-mineral-calcium", options->low_mineral,
                   "Calcium of the low-mineral water")
      ->type_name("AMOUNT")
      ->capture_default_str();
  bind_output(*command, registry.output);
  command->callback([options, registry] {
    registry.run = [options, &output = registry.output] { return run_water(*options, output); };
  });
}

}  // namespace gelwright::cli
