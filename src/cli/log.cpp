#include <fmt/format.h>
#include <unistd.h>

#include <iostream>

#include "cli/command.hpp"
#include "cli/notebook_file.hpp"
#include "cli/questions.hpp"
#include "cli/recipe_options.hpp"
#include "cli/weighed.hpp"
#include "gelwright/aim.hpp"
#include "gelwright/error.hpp"
#include "gelwright/log_report.hpp"
#include "gelwright/read.hpp"
#include "gelwright/resolve.hpp"

namespace gelwright::cli {

namespace {

constexpr std::size_t longest_note_bytes = 1000;
constexpr const char* iso_only = "year, month and day, as in 2026-07-04";

struct LogOptions {
  std::vector<std::string> words;  ///< "add RECIPE", a recipe, or nothing
  RecipeOptions recipe;
  std::string notebook = usual_notebook;
  // Of an entry.
  std::string made;
  double servings = 0;  ///< 0: as in the recipe
  std::vector<std::string> weighed;
  std::optional<double> ph;
  std::string ph_with = "meter";
  std::optional<double> syringe_ml;
  std::optional<std::string> cup_turn;
  std::optional<std::string> spoon;
  std::optional<std::string> texture;  ///< of a list: only those
  std::optional<int> went_down;
  std::optional<std::string> note;
  // Of a list.
  bool score = false;
  std::string since;
  std::string until;
  std::size_t last = 20;

  bool adds() const { return !words.empty() && words.front() == "add"; }
};

LocalTime day_of(const std::string& option, const std::string& text) {
  const std::optional<LocalTime> day = read_day(text);
  if (!day)
    throw InputError("", {{fmt::format("{} {}", option, text), "this is not a day", iso_only}});
  return *day;
}

std::optional<gel::Texture> texture_of(const std::optional<std::string>& words) {
  if (!words) return std::nullopt;
  const std::optional<gel::Texture> texture = texture_called(*words);
  if (!texture)
    throw InputError("", {{"--texture", fmt::format("\"{}\" is no texture", *words),
                           "name one of " + textures_in_words()}});
  return texture;
}

/// The day it was made, asked for where nobody said and somebody can answer.
LocalTime made_on(const LogOptions& options) {
  if (!options.made.empty()) return day_of("--made", options.made);
  if (isatty(STDIN_FILENO) == 0)
    throw InputError("", {{"--made", "nobody said when it was made", iso_only}});
  LocalTime made;
  ask(std::cin, std::cerr, "When was it made (year-month-day)", "",
      [&made](const std::string& answer) -> std::string {
        const std::optional<LocalTime> day = read_day(answer);
        if (!day) return iso_only;
        made = *day;
        return "";
      });
  return made;
}

void require_note(const std::string& note) {
  const bool one_line = note.find_first_of("\n\r") == std::string::npos;
  if (note.size() > longest_note_bytes || !one_line)
    throw InputError("", {{"--note", one_line ? "it is too long" : "it has more than one line",
                           fmt::format("one line of at most {} bytes", longest_note_bytes)}});
}

/// What an entry calls it, whatever the person called it.
std::string name_of(const WeighedInstead& weighed, const Recipe& recipe) {
  switch (weighed.role) {
    case LineRole::water:
      return "water";
    case LineRole::acid:
      return "acid";
    case LineRole::calcium_salt:
      return "calcium salt";
    case LineRole::solid:
      return recipe.ingredients[recipe.solids[weighed.solid].ingredient].name;
  }
  return "";
}

NotebookEntry entry_of(const LogOptions& options) {
  RecipeOptions which = options.recipe;
  which.file = options.words.at(1);
  const RecipeTexts texts = read_texts(which);
  const Recipe recipe = read_recipe(texts);
  NotebookEntry entry;
  entry.made = made_on(options);
  entry.recipe = recipe.name;
  entry.file = texts.document;
  entry.content = content_hash(texts.text, texts.document, texts.kitchen);
  entry.program = program_version();
  Inputs planned = resolve(recipe);
  if (options.servings > 0) planned.servings = options.servings;
  entry.servings = planned.servings;
  const std::vector<WeighedInstead> weighed = read_weighed(options.weighed, recipe);
  for (const WeighedInstead& each : weighed)
    entry.weighed.push_back({name_of(each, recipe), each.batch_g});
  // Foretold before anything was read: the reading stands beside it, not in it.
  const Inputs made = as_weighed(planned, weighed);
  entry.forecast = forecast_for_notebook(made, evaluate(made, {.batch = false, .flags = false}));
  entry.ph = options.ph;
  entry.ph_with = options.ph_with == "strips" ? PhMethod::strips : PhMethod::meter;
  entry.syringe_ml = options.syringe_ml;
  if (options.cup_turn)
    entry.cup_turn = *options.cup_turn == "holds" ? CupTurn::holds : CupTurn::falls;
  if (options.spoon) entry.spoon = *options.spoon == "smears" ? Spoon::smears : Spoon::cracks;
  entry.texture = texture_of(options.texture);
  entry.went_down = options.went_down;
  entry.note = options.note.value_or("");
  require_note(entry.note);
  return entry;
}

Outcome run_add(const LogOptions& options, const OutputOptions& output) {
  const NotebookEntry entry = entry_of(options);
  const std::string report = rendered(added_report(entry, options.notebook), output);
  append_line(options.notebook, notebook_line(entry));
  return {report, fine};
}

Outcome run_list(const LogOptions& options, const OutputOptions& output) {
  NotebookFilter filter;
  filter.texture = texture_of(options.texture);
  if (!options.since.empty()) filter.since = day_of("--since", options.since);
  if (!options.until.empty()) filter.until = day_of("--until", options.until);
  std::optional<std::string> now;
  if (!options.words.empty()) {
    RecipeOptions which = options.recipe;
    which.file = options.words.front();
    const RecipeTexts texts = read_texts(which);
    filter.recipe = read_recipe(texts).name;
    now = content_hash(texts.text, texts.document, texts.kitchen);
  }
  const Notebook notebook = read_notebook_file(options.notebook);
  const std::vector<std::size_t> places = chosen(notebook, filter);
  Report report = options.score ? score_report(notebook, places)
                                : log_report(notebook, places, options.last, now);
  if (options.score && shows_pictures(format_of(output)))
    add_score_picture(report, score(notebook, places));
  return {rendered(report, output), fine};
}

/// Options that say something of an entry, and those that say which entries are wanted.
void require_sense(const CLI::App& command, const LogOptions& options) {
  const auto refuse_any = [&command](std::initializer_list<const char*> names, const char* why) {
    for (const char* name : names)
      if (command.count(name) > 0)
        throw CLI::ValidationError("log", fmt::format("{} {}", name, why));
  };
  if (options.adds()) {
    if (options.words.size() != 2)
      throw CLI::ValidationError("log", "add needs one recipe: `gelwright log add RECIPE`");
    refuse_any({"--score", "--since", "--until", "--last"}, "is for lists, not for `log add`");
    return;
  }
  if (options.words.size() > 1)
    throw CLI::ValidationError("log", "name one recipe, or none; `log add RECIPE` adds an entry");
  refuse_any({"--made", "--servings", "--weighed", "--ph", "--ph-with", "--syringe-ml",
              "--cup-turn", "--spoon", "--went-down", "--note"},
             "belongs to an entry: `gelwright log add RECIPE`");
}

}  // namespace

void add_log(Registry registry) {
  auto options = std::make_shared<LogOptions>();
  CLI::App* command = registry.app.add_subcommand(
      "log", "The notebook: what was made, read and eaten, beside what had been foretold");
  command
      ->add_option("what", options->words,
                   "add RECIPE: an entry more; RECIPE: its entries; nothing: all entries")
      ->type_name("WHAT");
  command->add_option("--notebook", options->notebook, "The file")
      ->type_name("FILE")
      ->capture_default_str();
  command
      ->add_option("--kitchen", options->recipe.kitchen,
                   "Kitchen file, in place of the one the recipe names")
      ->type_name("FILE");
  command->add_option("--made", options->made, "The day it was made, as in 2026-07-04")
      ->type_name("DAY");
  command->add_option("--servings", options->servings, "Servings made, in place of the recipe's")
      ->type_name("N")
      ->check(number_between(1.0, 1e5));
  command
      ->add_option("--weighed", options->weighed,
                   "What was really weighed into the batch, as in acid=4.1; may be given again")
      ->type_name("WHAT=MASS")
      ->allow_extra_args(false);
  command->add_option("--ph", options->ph, "pH read")
      ->type_name("PH")
      ->check(number_between(1, 12));
  command->add_option("--ph-with", options->ph_with, "How")
      ->type_name("HOW")
      ->check(CLI::IsMember({"meter", "strips"}))
      ->capture_default_str();
  command
      ->add_option("--syringe-ml", options->syringe_ml, "mL of 10 left in the syringe after 10 s")
      ->type_name("ML")
      ->check(number_between(0, 10));
  command->add_option("--cup-turn", options->cup_turn, "The cup turned over for 10 s")
      ->type_name("HOW")
      ->check(CLI::IsMember({"holds", "falls"}));
  command->add_option("--spoon", options->spoon, "A spoon drawn through it")
      ->type_name("HOW")
      ->check(CLI::IsMember({"smears", "cracks"}));
  command
      ->add_option("--texture", options->texture,
                   fmt::format("What it was like; of a list, only those: {}", textures_in_words()))
      ->type_name("TEXTURE");
  command->add_option("--went-down", options->went_down, "How it went down, 1 badly to 5 well")
      ->type_name("1-5")
      ->check(CLI::Range(1, 5));
  command->add_option("--note", options->note, "Anything worth remembering")->type_name("WORDS");
  command->add_flag("--score", options->score, "What was foretold against what was seen");
  command->add_option("--since", options->since, "Only from this day on")->type_name("DAY");
  command->add_option("--until", options->until, "Only up to this day")->type_name("DAY");
  command->add_option("--last", options->last, "How many entries text shows, 0 for all")
      ->type_name("N")
      ->capture_default_str();
  bind_output(*command, registry.output);
  command->callback([options, command, registry] {
    require_sense(*command, *options);
    registry.run = [options, &output = registry.output] {
      return options->adds() ? run_add(*options, output) : run_list(*options, output);
    };
  });
}

}  // namespace gelwright::cli
