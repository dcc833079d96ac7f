#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <memory>

#include "cli/command.hpp"
#include "cli/recipe_options.hpp"
#include "gelwright/error.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/spread_report.hpp"

namespace gelwright::cli {

namespace {

struct SpreadCommand {
  RecipeOptions recipe;
  SpreadOptions options;
};

/// A bar on standard error, once a run has taken long enough to make one wonder. Erases itself.
class ProgressBar {
 public:
  void show(double share) {
    const auto now = std::chrono::steady_clock::now();
    if (now - started_ < patience || now - shown_ < refresh) return;
    shown_ = now;
    drawn_ = true;
    const int full = static_cast<int>(share * width);
    std::fprintf(stderr, "\r[%.*s%.*s] %3.0f %%", full, bar, width - full, gap, 100 * share);
    std::fflush(stderr);
  }
  ~ProgressBar() {
    if (drawn_) std::fprintf(stderr, "\r%*s\r", width + 8, "");
  }

 private:
  static constexpr std::chrono::milliseconds patience{1500};
  static constexpr std::chrono::milliseconds refresh{100};
  static constexpr int width = 40;
  static constexpr const char* bar = "########################################";
  static constexpr const char* gap = "                                        ";
  std::chrono::steady_clock::time_point started_ = std::chrono::steady_clock::now();
  std::chrono::steady_clock::time_point shown_ = started_;
  bool drawn_ = false;
};

Outcome run_spread(const SpreadCommand& command, const OutputOptions& output) {
  const Recipe recipe = load_recipe(command.recipe);
  const Inputs inputs = resolve(recipe);
  SpreadOptions options = command.options;
  ProgressBar bar;
  if (isatty(STDERR_FILENO) != 0) options.progress = [&bar](double share) { bar.show(share); };
  const SpreadResult result = spread(inputs, options);
  Report report = spread_report(inputs, result);
  if (shows_pictures(format_of(output))) add_spread_pictures(report, result);
  return {rendered(report, output), fine};
}

}  // namespace

void add_spread(Registry registry) {
  auto options = std::make_shared<SpreadCommand>();
  CLI::App* command = registry.app.add_subcommand(
      "spread", "Monte Carlo over everything not known exactly: intervals, chances, what matters");
  bind_recipe(*command, options->recipe);
  command->add_option("--draws", options->options.draws, "How many batches to draw")
      ->type_name("N")
      ->check(number_between(100, 20000000))
      ->capture_default_str();
  command->add_option("--seed", options->options.seed, "Same seed, same numbers")
      ->type_name("N")
      ->check(number_between(std::uint64_t{0}, std::uint64_t{1} << 53))
      ->capture_default_str();
  command
      ->add_option("--threads", options->options.threads,
                   "0 = all there are; does not change the result")
      ->type_name("N")
      ->check(number_between(0, 256));
  bind_output(*command, registry.output);
  command->callback([options, registry] {
    registry.run = [options, &output = registry.output] { return run_spread(*options, output); };
  });
}

}  // namespace gelwright::cli
