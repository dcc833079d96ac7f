// All subjects together: raising flags, and putting thresholds into words.
#include <fmt/format.h>

#include <algorithm>

#include "base/rounding.hpp"
#include "flags/record.hpp"
#include "gelwright/equilibrium.hpp"

namespace gelwright {

namespace {

using namespace detail;

const std::array<FlagSubject, 10>& subjects() {
  // Of one level the danger to the eater comes before what spoils the batch.
  static const std::array<FlagSubject, 10> all = {
      allergen_flags(), eating_flags(),  keeping_flags(), slip_flags(),  water_flags(),
      form_flags(),     calcium_flags(), defect_flags(),  model_flags(), weighing_flags()};
  return all;
}

std::size_t threshold_count(const FlagSubject& subject) {
  return subject.own.size() + subject.borrowed.size();
}

/// A flag's record, and where its subject's thresholds begin.
struct Entry {
  const FlagRecord* record;
  std::size_t thresholds_from;
  std::size_t thresholds_count;
};

const std::vector<Entry>& entries() {
  static const std::vector<Entry> all = [] {
    std::vector<Entry> list;
    std::size_t from = 0;
    for (const FlagSubject& subject : subjects()) {
      for (const FlagRecord& record : subject.records)
        list.push_back({&record, from, threshold_count(subject)});
      from += threshold_count(subject);
    }
    return list;
  }();
  return all;
}

const Entry& entry_of(FlagId id) {
  return entries()[static_cast<std::size_t>(id)];
}

FlagThresholds of(const Entry& entry, FlagThresholds all) {
  return all.subspan(entry.thresholds_from, entry.thresholds_count);
}

/// A row of another table, by key. A key that is gone leaves a row without a name, which the tests
/// refuse.
Datum lent(std::string_view key) {
  for (const Datum& row : equilibrium_data())
    if (row.key == key) return row;
  return {};
}

std::string quoted_value(const Datum& row) {
  std::string text = plain(row.value);
  const bool whole = text.find_first_not_of("-0123456789") == std::string::npos;
  if (row.unit == "pH" && whole) text += ".0";
  return text;
}

/// Calls `key` for what stands between braces and `rest` for everything else.
template <class Rest, class Key>
void split(std::string_view text, Rest rest, Key key) {
  while (!text.empty()) {
    const std::size_t open = text.find('{');
    const std::size_t close = text.find('}', open == std::string_view::npos ? text.size() : open);
    if (close == std::string_view::npos) return rest(text);
    rest(text.substr(0, open));
    key(text.substr(open + 1, close - open - 1));
    text.remove_prefix(close + 1);
  }
}

/// A key that is no threshold of the subject stays as it stands.
std::string filled(std::string_view text, FlagThresholds thresholds) {
  std::string result;
  split(
      text, [&](std::string_view rest) { result += rest; },
      [&](std::string_view key) {
        const auto row = std::find_if(thresholds.begin(), thresholds.end(),
                                      [key](const Datum& each) { return each.key == key; });
        result += row != thresholds.end() ? quoted_value(*row) : fmt::format("{{{}}}", key);
      });
  return result;
}

std::vector<Datum> named(const FlagRecord& record, FlagThresholds thresholds) {
  std::vector<Datum> rows;
  for (const Datum& row : thresholds) {
    bool found = false;
    for (const std::string_view text : {record.when, record.why, record.remedy.fixed})
      split(
          text, [](std::string_view) {},
          [&](std::string_view key) { found = found || key == row.key; });
    if (found) rows.push_back(row);
  }
  return rows;
}

std::string spoken(const Words& words, const Flag& flag, const Judged& judged) {
  return words.made != nullptr ? words.made(flag, judged) : filled(words.fixed, judged.thresholds);
}

}  // namespace

std::string detail::Judged::quoted(Threshold which) const {
  return quoted_value(thresholds[which.place]);
}

bool detail::Raise::already(std::string_view name) const {
  return std::any_of(flags_.begin(), flags_.end(),
                     [name](const Flag& flag) { return name_of(flag.id) == name; });
}

FlagThresholds flag_thresholds() {
  static const std::vector<Datum> all = [] {
    std::vector<Datum> rows;
    for (const FlagSubject& subject : subjects()) {
      rows.insert(rows.end(), subject.own.begin(), subject.own.end());
      for (const std::string_view key : subject.borrowed) rows.push_back(lent(key));
    }
    return rows;
  }();
  return all;
}

std::span<const Datum> flag_data() {
  static const std::vector<Datum> all = [] {
    std::vector<Datum> rows;
    for (const FlagSubject& subject : subjects())
      rows.insert(rows.end(), subject.own.begin(), subject.own.end());
    return rows;
  }();
  return all;
}

FlagInfo info_of(FlagId id, FlagThresholds thresholds) {
  const Entry& entry = entry_of(id);
  const FlagRecord& record = *entry.record;
  const FlagThresholds own = of(entry, thresholds);
  return {id,
          record.name,
          filled(record.when, own),
          filled(record.why, own),
          record.source,
          record.grade,
          named(record, own)};
}

std::vector<FlagInfo> flag_catalogue(FlagThresholds thresholds) {
  std::vector<FlagInfo> all;
  for (std::size_t i = 0; i < entries().size(); ++i)
    all.push_back(info_of(static_cast<FlagId>(i), thresholds));
  return all;
}

std::string_view name_of(FlagId id) {
  return entry_of(id).record->name;
}

std::string_view called(FlagId id) {
  return entry_of(id).record->called;
}

std::span<const Turn> turns_of(FlagId id) {
  return entry_of(id).record->turns;
}

bool decided_by_plan(FlagId id) {
  return entry_of(id).record->by_plan;
}

Keeping keeping_of(const Serving& serving, const Inputs& inputs, FlagThresholds thresholds) {
  const auto& all = entries();
  const auto entry = std::find_if(all.begin(), all.end(), [](const Entry& e) {
    return e.record->name == "acidity-not-proven";
  });
  return detail::keeping(Judged{serving, inputs, of(*entry, thresholds)});
}

std::vector<Flag> flags_of(const Serving& serving, const Inputs& inputs,
                           FlagThresholds thresholds) {
  constexpr std::size_t usual = 16;
  std::vector<Flag> flags;
  flags.reserve(usual);
  const std::vector<Entry>& all = entries();
  for (std::size_t i = 0; i < all.size(); ++i) {
    const FlagRecord& record = *all[i].record;
    Raise raise(flags, static_cast<FlagId>(i), {record.grade, record.source});
    record.check({serving, inputs, of(all[i], thresholds)}, raise);
  }
  return flags;
}

std::string message_of(const Flag& flag, const Serving& serving, const Inputs& inputs,
                       FlagThresholds thresholds) {
  const Entry& entry = entry_of(flag.id);
  return spoken(entry.record->message, flag, {serving, inputs, of(entry, thresholds)});
}

std::string remedy_of(const Flag& flag, const Serving& serving, const Inputs& inputs,
                      FlagThresholds thresholds) {
  const Entry& entry = entry_of(flag.id);
  return spoken(entry.record->remedy, flag, {serving, inputs, of(entry, thresholds)});
}

std::string_view to_text(Level level) {
  switch (level) {
    case Level::note:
      return "note";
    case Level::care:
      return "care";
    case Level::stop:
      return "stop";
  }
  return "";
}

}  // namespace gelwright
