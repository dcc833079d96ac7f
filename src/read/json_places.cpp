#include "read/json_places.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <optional>
#include <sstream>
#include <string>
#include <utility>

#include "base/text.hpp"

namespace gelwright::detail {

namespace {

using nlohmann::json;

/// Listens to the parser. Its events carry no offsets, but it takes its bytes one by one from a
/// stream, and the stream knows how many are gone: when a token is announced, the last byte taken
/// is the token's last. Only a number is known to have ended by the byte behind it, which cannot be
/// a byte of a number. Before a token stand only the separators. So the grammar stays with the
/// parser.
class Finder : public nlohmann::json_sax<json> {
 public:
  Finder(std::string_view text, std::istringstream& stream) : text_(text), stream_(stream) {
    if (text.starts_with("\xEF\xBB\xBF")) token_end_ = 3;  // a byte order mark
  }

  bool null() override { return scalar(taken()); }
  bool boolean(bool) override { return scalar(taken()); }
  bool number_integer(number_integer_t) override { return number(); }
  bool number_unsigned(number_unsigned_t) override { return number(); }
  bool number_float(number_float_t, const string_t&) override { return number(); }
  bool string(string_t&) override { return scalar(taken()); }
  bool binary(binary_t&) override { return false; }  // not in a text
  bool start_object(std::size_t) override { return open(); }
  bool start_array(std::size_t) override { return open(); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }
  bool key(string_t&) override {
    key_ = next_token();
    key_end_ = token_end_ = taken();
    return true;
  }
  bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception&) override {
    return false;
  }

  Place document;

 private:
  std::size_t taken() {
    return static_cast<std::size_t>(
        stream_.rdbuf()->pubseekoff(0, std::ios_base::cur, std::ios_base::in));
  }
  std::size_t next_token() const { return text_.find_first_not_of(" \t\r\n:,", token_end_); }

  Place begun() {
    Place place;
    place.begin = next_token();
    place.key = key_.value_or(place.begin);
    place.key_end = key_ ? key_end_ : place.begin;
    key_.reset();
    return place;
  }
  bool ended(Place place, std::size_t end) {
    place.end = token_end_ = end;
    if (open_.empty())
      document = std::move(place);
    else
      open_.back().kids.push_back(std::move(place));
    return true;
  }

  bool scalar(std::size_t end) { return ended(begun(), end); }
  bool number() {
    const std::size_t end = text_.find_first_of(" \t\r\n,]}", next_token());
    return scalar(end == std::string_view::npos ? text_.size() : end);
  }
  bool open() {
    open_.push_back(begun());
    token_end_ = taken();
    return true;
  }
  bool close() {
    Place place = std::move(open_.back());
    open_.pop_back();
    return ended(std::move(place), taken());
  }

  std::string_view text_;
  std::istringstream& stream_;
  std::size_t token_end_ = 0;       ///< of the last token announced
  std::optional<std::size_t> key_;  ///< of the member whose value comes next
  std::size_t key_end_ = 0;
  std::vector<Place> open_;
};

}  // namespace

namespace {

/// The kid that one token of a pointer names, or null.
const Place* kid_of(const Place& place, std::string_view text, std::string_view token) {
  for (std::size_t i = 0; i < place.kids.size(); ++i) {
    const Place& kid = place.kids[i];
    // Only a member has a key of its own.
    const bool member = kid.key != kid.begin;
    const std::string name =
        member ? escape_pointer(json::parse(text.substr(kid.key, kid.key_end - kid.key))
                                    .get_ref<const std::string&>())
               : std::to_string(i);
    if (name == token) return &kid;
  }
  return nullptr;
}

}  // namespace

std::optional<Place> found_places(std::string_view text) {
  std::istringstream stream{std::string(text)};
  Finder finder(text, stream);
  if (!json::sax_parse(stream, &finder)) return std::nullopt;
  return std::move(finder.document);
}

Place places_of(std::string_view text) {
  return found_places(text).value_or(Place{});
}

LineColumn line_and_column(std::string_view text, std::size_t byte) {
  LineColumn at;
  for (std::size_t i = 0; i < byte && i < text.size(); ++i) {
    if (text[i] == '\n')
      at = {at.line + 1, 1};
    else if (!continues_character(text[i]))
      ++at.column;
  }
  return at;
}

std::optional<LineColumn> place_of(std::string_view pointer, const Place& document,
                                   std::string_view text) {
  if (!pointer.starts_with('/')) return std::nullopt;
  const Place* at = &document;
  while (pointer.starts_with('/')) {
    pointer.remove_prefix(1);
    const std::size_t end = std::min(pointer.find('/'), pointer.size());
    const Place* kid = kid_of(*at, text, pointer.substr(0, end));
    if (kid == nullptr) break;
    at = kid;
    pointer.remove_prefix(end);
  }
  if (at == &document) return std::nullopt;
  return line_and_column(text, at->key);
}

}  // namespace gelwright::detail
