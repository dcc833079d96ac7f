#include "read/json_edit.hpp"

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "read/json_places.hpp"

namespace gelwright::detail {

namespace {

using nlohmann::ordered_json;

constexpr std::size_t widest_line = 80;  ///< of an object or array written new on one line

/// The white space a line starts with; nothing where no line may be broken.
using Indent = std::optional<std::string>;

bool has_line_break(std::string_view text) {
  return text.find('\n') != std::string_view::npos;
}

/// How the author of a document lays it out; each habit is taken from the first place that shows
/// it.
struct Style {
  std::string newline = "\n";
  std::optional<std::string> step;        ///< one level of indentation
  std::optional<std::string> colon;       ///< between key and value
  std::optional<std::string> space;       ///< after a comma on one line
  std::optional<std::string> object_pad;  ///< inside the brackets on one line
  std::optional<std::string> array_pad;   ///< inside the brackets on one line

  std::string line_break(const std::string& indent) const { return newline + indent; }
  std::string deeper(const std::string& indent) const { return indent + step.value_or("  "); }
  std::string after_key() const { return colon.value_or(": "); }
  std::string after_comma() const { return ',' + space.value_or(" "); }
  std::string pad(bool is_object) const {
    return (is_object ? object_pad : array_pad).value_or("");
  }
  /// A document with every member on a line of its own gets no objects on one line.
  bool groups_on_one_line() const { return object_pad || array_pad || !step; }
};

/// 40 rather than 40.0: what a person would write.
std::string number_text(const ordered_json& value) {
  std::string text = value.dump();
  if (value.is_number_float() && text.ends_with(".0")) text.resize(text.size() - 2);
  return text;
}

/// A member or element of a group as it will stand: one the document has, or a new one.
struct Part {
  std::optional<std::size_t> kid;  ///< its index in the document
  const ordered_json* wanted;
  std::string key;  ///< of a new member
};

class Editor {
 public:
  Editor(std::string_view text, const Place& document) : text_(text) {
    if (text.find("\r\n") != std::string_view::npos) style_.newline = "\r\n";
    learn(document, "");
  }

  std::string value(const Place& place, const ordered_json& old, const ordered_json& wanted,
                    const Indent& indent) const {
    if (old == wanted) return std::string(slice(place.begin, place.end));
    const bool same_kind =
        (old.is_object() && wanted.is_object()) || (old.is_array() && wanted.is_array());
    if (!same_kind || old.empty() || wanted.empty())
      return fresh(wanted, indent, place.begin - place.key);
    return group(place, old, old.is_object() ? members(old, wanted) : elements(old, wanted));
  }

 private:
  std::string_view slice(std::size_t begin, std::size_t end) const {
    return text_.substr(begin, end - begin);
  }

  /// The bytes before a part: behind the opening bracket, or behind the comma.
  std::string_view lead(const Place& group, std::size_t kid) const {
    const std::size_t from =
        kid == 0 ? group.begin + 1 : text_.find(',', group.kids[kid - 1].end) + 1;
    return slice(from, group.kids[kid].key);
  }
  std::string_view before_comma(const Place& group, std::size_t kid) const {
    return slice(group.kids[kid].end, text_.find(',', group.kids[kid].end));
  }
  static std::string_view last_line(std::string_view white) {
    return white.substr(white.rfind('\n') + 1);
  }
  /// The indentation of the line a part starts, if it starts one.
  static Indent indent_of(std::string_view white) {
    return has_line_break(white) ? Indent(last_line(white)) : std::nullopt;
  }

  static void learn(std::optional<std::string>& habit, std::string_view shown) {
    if (!habit && !has_line_break(shown)) habit = shown;
  }
  void learn(const Place& group, const std::string& indent) {
    if (group.kids.empty()) return;
    const Place& first = group.kids.front();
    const bool is_object = text_[group.begin] == '{';
    const std::string inner = indent_of(lead(group, 0)).value_or(indent);
    if (inner.size() > indent.size() && inner.starts_with(indent))
      learn(style_.step, std::string_view(inner).substr(indent.size()));
    if (!has_line_break(slice(group.begin, group.end))) {
      learn(is_object ? style_.object_pad : style_.array_pad, lead(group, 0));
      if (group.kids.size() > 1) learn(style_.space, lead(group, 1));
    }
    if (is_object) learn(style_.colon, slice(first.key_end, first.begin));
    for (const Place& kid : group.kids) learn(kid, inner);
  }

  /// Members the document has stay where they are; a new one follows the one it follows in
  /// `wanted`.
  static std::vector<Part> members(const ordered_json& old, const ordered_json& wanted) {
    std::set<std::string> known;
    for (const auto& member : old.items()) known.insert(member.key());
    std::vector<Part> parts;
    std::map<std::string, const ordered_json*> kept;
    std::map<std::string, std::vector<Part>> behind;  // new members by the kept one they follow
    std::string previous;
    for (const auto& member : wanted.items()) {
      if (known.count(member.key()) > 0) {
        kept[member.key()] = &member.value();
        previous = member.key();
      } else {
        (kept.empty() ? parts : behind[previous])
            .push_back({std::nullopt, &member.value(), member.key()});
      }
    }
    std::size_t kid = 0;
    for (const auto& member : old.items()) {
      const auto found = kept.find(member.key());
      if (found != kept.end()) {
        parts.push_back({kid, found->second, {}});
        for (Part& part : behind[member.key()]) parts.push_back(std::move(part));
      }
      ++kid;
    }
    return parts;
  }

  static std::vector<Part> elements(const ordered_json& old, const ordered_json& wanted) {
    const std::size_t shorter = std::min(old.size(), wanted.size());
    std::size_t same_at_end = 0;
    std::size_t same_at_start = 0;
    while (same_at_start < shorter && old[same_at_start] == wanted[same_at_start]) ++same_at_start;
    while (same_at_start + same_at_end < shorter &&
           old[old.size() - 1 - same_at_end] == wanted[wanted.size() - 1 - same_at_end])
      ++same_at_end;
    std::vector<Part> parts;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      if (i + same_at_end >= wanted.size())
        parts.push_back({i + old.size() - wanted.size(), &wanted[i], {}});
      else if (i + same_at_end < old.size())
        parts.push_back({i, &wanted[i], {}});
      else
        parts.push_back({std::nullopt, &wanted[i], {}});
    }
    return parts;
  }

  /// What stands between a comma and a part that had another place, or none.
  std::string lead_like(const Place& group, std::size_t neighbour) const {
    if (neighbour == 0 && group.kids.size() > 1) neighbour = 1;
    const std::string_view white = lead(group, neighbour);
    if (has_line_break(white)) return style_.line_break(std::string(last_line(white)));
    return neighbour > 0 ? std::string(white) : style_.space.value_or(" ");
  }

  std::string group(const Place& place, const ordered_json& old,
                    const std::vector<Part>& parts) const {
    std::vector<const ordered_json*> old_values;
    for (const ordered_json& each : old) old_values.push_back(&each);
    std::string out(1, text_[place.begin]);
    std::size_t neighbour = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const Part& part = parts[i];
      if (part.kid) neighbour = *part.kid;
      const std::string white = lead_of(place, part, i == 0, neighbour);
      out += white;
      if (part.kid) {
        const Place& kid = place.kids[*part.kid];
        out += slice(kid.key, kid.begin);
        out += value(kid, *old_values[*part.kid], *part.wanted, indent_of(white));
      } else {
        out += old.is_object() ? member(part.key, *part.wanted, indent_of(white))
                               : fresh(*part.wanted, indent_of(white), 0);
      }
      if (i + 1 == parts.size()) break;
      const bool had_comma = part.kid && *part.kid + 1 < place.kids.size();
      if (place.kids.size() > 1) out += before_comma(place, had_comma ? *part.kid : 0);
      out += ',';
    }
    return out += slice(place.kids.back().end, place.end);
  }

  /// The space inside the opening bracket goes to whoever comes first; a part that starts a line
  /// stays on it.
  std::string lead_of(const Place& place, const Part& part, bool first,
                      std::size_t neighbour) const {
    if (part.kid && ((*part.kid == 0) == first || has_line_break(lead(place, *part.kid))))
      return std::string(lead(place, *part.kid));
    return first ? std::string(lead(place, 0)) : lead_like(place, neighbour);
  }

  std::string member(const std::string& key, const ordered_json& value,
                     const Indent& indent) const {
    const std::string before = ordered_json(key).dump() + style_.after_key();
    return before + fresh(value, indent, before.size());
  }

  /// A value written new, behind a key of `key_size` bytes.
  std::string fresh(const ordered_json& value, const Indent& indent, std::size_t key_size) const {
    if (value.is_number()) return number_text(value);
    if (!value.is_structured() || value.empty()) return value.dump();
    const std::string one_line = on_one_line(value);
    const bool fits = indent && indent->size() + key_size + one_line.size() <= widest_line;
    if (!indent || (fits && style_.groups_on_one_line())) return one_line;
    const std::string inner = style_.deeper(*indent);
    return brackets(value, style_.line_break(inner), ',' + style_.line_break(inner),
                    style_.line_break(*indent), inner);
  }
  std::string on_one_line(const ordered_json& value) const {
    const std::string pad = style_.pad(value.is_object());
    return brackets(value, pad, style_.after_comma(), pad, std::nullopt);
  }
  std::string brackets(const ordered_json& value, const std::string& before,
                       const std::string& between, const std::string& after,
                       const Indent& indent) const {
    std::string inside;
    for (const auto& item : value.items()) {
      inside += inside.empty() ? before : between;
      inside += value.is_object() ? member(item.key(), item.value(), indent)
                                  : fresh(item.value(), indent, 0);
    }
    return (value.is_object() ? '{' : '[') + inside + after + (value.is_object() ? '}' : ']');
  }

  std::string_view text_;
  Style style_;
};

}  // namespace

std::string edited_json(std::string_view text, const ordered_json& wanted) {
  const Place document = places_of(text);
  const ordered_json old = ordered_json::parse(text);
  const Indent indent = has_line_break(text.substr(document.begin)) ? Indent("") : std::nullopt;
  return std::string(text.substr(0, document.begin)) +
         Editor(text, document).value(document, old, wanted, indent) +
         std::string(text.substr(document.end));
}

}  // namespace gelwright::detail
