// Everyday words for what a recipe can be made of: "sugar", "baking soda", "E 440".
//
// A word that means one thing in a kitchen is understood and the exact thing is said back. A word
// that means several (hydrate or anhydrous, which pectin) is asked about, never guessed, with the
// way to tell from the bag.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace gelwright {

enum class NameKind {
  exact,      ///< one built-in ingredient
  ambiguous,  ///< one of `candidates`; `how_to_tell` asks
  elsewhere,  ///< known, but not an ingredient here; `how_to_tell` says where it goes
  unknown,    ///< `similar` holds near misses
};

/// What a word was found to mean.
struct Resolved {
  NameKind kind = NameKind::unknown;
  std::string ingredient = {};  ///< exact: the built-in name
  /// Exact by an everyday word: what was understood, a whole sentence; empty where the built-in
  /// name itself was given.
  std::string understood = {};
  std::string remark = {};  ///< what else is worth knowing of it, a phrase; mostly empty
  std::vector<std::string> candidates = {};  ///< ambiguous: built-in names, likeliest first
  std::string how_to_tell = {};              ///< ambiguous and elsewhere: whole sentences
  std::vector<std::string> similar = {};     ///< unknown: at most three, best first
};

/// Looks a word up: case, surrounding and doubled spaces, "-" and "_" do not matter; E numbers are
/// read with or without a space. Never throws; an unknown word is a result. To look for near misses
/// takes long: a caller who does not show them says so.
Resolved resolve_name(std::string_view word, bool with_similar = true);

/// The built-in name a word stands for, the word itself where it stands for no single one.
std::string usual_name(const std::string& word);

/// Which of `names` is meant by a word: the one that is it, else the one it stands for. A word that
/// can mean several things is understood where only one of them is among the names.
std::optional<std::size_t> which_of(const std::vector<std::string>& names, const std::string& word);

/// Every everyday word resolve_name() knows, sorted, in the form it is compared in.
std::vector<std::string> everyday_words();

}  // namespace gelwright
