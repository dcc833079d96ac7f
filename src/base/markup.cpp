#include "base/markup.hpp"

#include <cstddef>

#include "base/utf8.hpp"

namespace gelwright::detail {

namespace {

void append_escaped(std::string& out, std::string_view text) {
  for (const char c : text) switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
}

/// Letters of Hebrew, Arabic and the other scripts of the blocks set aside for right to left
/// (Unicode 15.0, DerivedBidiClass.txt, ranges of default class R and AL).
bool runs_from_right(char32_t code) {
  return (code >= 0x590 && code <= 0x8FF) || (code >= 0xFB1D && code <= 0xFDFF) ||
         (code >= 0xFE70 && code <= 0xFEFF) || (code >= 0x10800 && code <= 0x10FFF) ||
         (code >= 0x1E800 && code <= 0x1EFFF);
}

/// How long the run of such letters is that the text begins with, the spaces between them counted.
std::size_t run_from_right(std::string_view text) {
  std::size_t end = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Character character = first_character(text.substr(at));
    at += character.bytes;
    if (runs_from_right(character.code))
      end = at;
    else if (character.code != ' ')
      break;
  }
  return end;
}

}  // namespace

std::string escaped_markup(std::string_view text) {
  std::string out;
  append_escaped(out, text);
  return out;
}

void Markup::begin(std::string_view name, Attributes attributes) {
  out_ += '<';
  out_ += name;
  for (const Attribute& each : attributes) {
    out_ += ' ';
    out_ += each.name;
    out_ += "=\"";
    append_escaped(out_, each.value);
    out_ += '"';
  }
}

Markup& Markup::open(std::string_view name, Attributes attributes) {
  begin(name, attributes);
  out_ += '>';
  open_.emplace_back(name);
  return *this;
}

Markup& Markup::close() {
  out_ += "</" + open_.back() + '>';
  open_.pop_back();
  return *this;
}

Markup& Markup::empty(std::string_view name, Attributes attributes) {
  begin(name, attributes);
  // HTML has elements that never hold anything and are written without a slash; in SVG all have it.
  const bool of_html = name == "meta" || name == "input" || name == "br";
  out_ += of_html ? ">" : "/>";
  return *this;
}

Markup& Markup::leaf(std::string_view name, std::string_view content, Attributes attributes) {
  return open(name, attributes).text(content).close();
}

Markup& Markup::text(std::string_view content) {
  std::size_t plain_from = 0;
  for (std::size_t at = 0; at < content.size();) {
    const Character character = first_character(content.substr(at));
    if (!runs_from_right(character.code)) {
      at += character.bytes;
      continue;
    }
    const std::size_t length = run_from_right(content.substr(at));
    plain(content.substr(plain_from, at - plain_from));
    out_ += "<bdi>";
    plain(content.substr(at, length));
    out_ += "</bdi>";
    at += length;
    plain_from = at;
  }
  return plain(content.substr(plain_from));
}

Markup& Markup::plain(std::string_view content) {
  append_escaped(out_, content);
  return *this;
}

Markup& Markup::raw(std::string_view markup) {
  out_ += markup;
  return *this;
}

Markup& Markup::line() {
  out_ += '\n';
  return *this;
}

}  // namespace gelwright::detail
