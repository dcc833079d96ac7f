#include "gelwright/notebook.hpp"

#include <algorithm>
#include <cmath>

#include "serving/ph_error.hpp"

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"notebook.least-chance", 0.01, "1", 0,
     "a chance under it counts as it in a mean of logarithms", "judgement", Standing::judgement},
};

constexpr std::size_t bin_count = 10;

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

bool lets_through(const NotebookFilter& filter, const NotebookEntry& entry) {
  if (filter.recipe && !has(entry.recipe, *filter.recipe) && !has(entry.file, *filter.recipe))
    return false;
  if (filter.since && entry.made < *filter.since) return false;
  if (filter.until && entry.made > *filter.until) return false;
  return !filter.texture || entry.texture == filter.texture;
}

void add_texture(const gel::Chances& chances, gel::Texture seen, NotebookScore& score) {
  const double least = value_of(data, "notebook.least-chance");
  const bool hit = gel::likeliest(chances) == seen;
  const double ln_chance = std::log(std::max(chances[seen], least));
  NotebookScore::ByTexture& one = score.by_texture[static_cast<std::size_t>(seen)];
  ++score.textures;
  ++one.seen;
  if (hit) {
    ++score.hits;
    ++one.hits;
  }
  score.mean_ln_chance += ln_chance;
  one.mean_ln_chance += ln_chance;
  for (std::size_t i = 0; i < gel::texture_count; ++i) {
    const double chance = chances.chance[i];
    NotebookScore::Bin& bin = score.bins[std::min(
        bin_count - 1, static_cast<std::size_t>(chance * static_cast<double>(bin_count)))];
    ++bin.chances;
    bin.mean_chance += chance;
    if (i == static_cast<std::size_t>(seen)) ++bin.came_true;
  }
}

}  // namespace

NotebookForecast forecast_for_notebook(const Inputs& inputs, const Evaluation& evaluation) {
  NotebookForecast forecast;
  const JudgedPh ph = judged_ph(evaluation.water_phase, usable_reading(*inputs.recipe));
  forecast.ph = ph.ph;
  forecast.ph_low = ph.measured ? ph.ph - ph.half_width : evaluation.ph_band.low;
  forecast.ph_high = ph.measured ? ph.ph + ph.half_width : evaluation.ph_band.high;
  if (evaluation.gel.made && evaluation.gel.any_gum())
    forecast.chances = evaluation.gel.all.chances;
  return forecast;
}

std::vector<std::size_t> chosen(const Notebook& notebook, const NotebookFilter& filter) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < notebook.entries.size(); ++i)
    if (lets_through(filter, notebook.entries[i])) places.push_back(i);
  std::stable_sort(places.begin(), places.end(), [&](std::size_t a, std::size_t b) {
    return notebook.entries[a].made < notebook.entries[b].made;
  });
  return places;
}

NotebookBench bench_of(const Notebook& notebook, const std::string& recipe, const std::string& now,
                       const Inputs& planned) {
  NotebookBench made;
  made.bench.document = notebook.document;
  for (const NotebookEntry& entry : notebook.entries) {
    if (entry.recipe != recipe) continue;
    if (entry.content != now) {
      ++made.changed;
      continue;
    }
    if (!entry.ph && !entry.syringe_ml && !entry.cup_turn && !entry.spoon) {
      ++made.unreadable;
      continue;
    }
    BenchCup cup;
    cup.line = entry.line;
    cup.name = day_text(entry.made);
    cup.predicted_ph = entry.forecast.ph;
    cup.ph = entry.ph;
    cup.syringe_ml = entry.syringe_ml;
    cup.cup_turn = entry.cup_turn;
    cup.spoon = entry.spoon;
    Inputs of_entry = planned;
    of_entry.servings = entry.servings;
    const double factor = batch_factor(of_entry);
    std::optional<double> acid_g;
    if (planned.acid) acid_g = planned.acid->line.mass_g;
    for (const NotebookWeighed& each : entry.weighed) {
      const double serving_g = each.batch_g / factor;
      if (each.what == "acid")
        acid_g = serving_g;
      else if (each.what == "calcium salt")
        cup.inputs.push_back({"calcium_salt_g", serving_g});
      else if (each.what == "water")
        cup.inputs.push_back({"water_g", serving_g});
      else
        cup.inputs.push_back({"mass_g:" + each.what, serving_g});
    }
    if (acid_g) cup.inputs.push_back({"acid_g", *acid_g});
    made.bench.cups.push_back(std::move(cup));
  }
  return made;
}

NotebookScore score(const Notebook& notebook, std::span<const std::size_t> entries) {
  NotebookScore score;
  for (std::size_t i = 0; i < bin_count; ++i)
    score.bins.push_back(
        {static_cast<double>(i) / bin_count, static_cast<double>(i + 1) / bin_count, 0, 0, 0});
  for (const std::size_t place : entries) {
    const NotebookEntry& entry = notebook.entries[place];
    if (entry.ph) {
      ++score.ph_readings;
      if (*entry.ph >= entry.forecast.ph_low && *entry.ph <= entry.forecast.ph_high)
        ++score.ph_within;
      score.ph_mean_miss += *entry.ph - entry.forecast.ph;
    }
    if (!entry.texture || !entry.forecast.chances) continue;
    const gel::Chances& chances = *entry.forecast.chances;
    add_texture(chances, *entry.texture, score);
    score.each.push_back({place, *entry.texture, gel::likeliest(chances), chances[*entry.texture]});
  }
  const auto mean = [](double& sum, std::size_t count) {
    if (count > 0) sum /= static_cast<double>(count);
  };
  mean(score.mean_ln_chance, score.textures);
  mean(score.ph_mean_miss, score.ph_readings);
  for (NotebookScore::ByTexture& one : score.by_texture) mean(one.mean_ln_chance, one.seen);
  for (NotebookScore::Bin& bin : score.bins) mean(bin.mean_chance, bin.chances);
  return score;
}

std::span<const Datum> notebook_data() {
  return data;
}

}  // namespace gelwright
