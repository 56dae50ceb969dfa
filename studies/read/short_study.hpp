#pragma once
/// A study in one line of typing: a few options and, for all else, stated assumptions become the text of a complete
/// study, which is then read like any other.
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "studies/read/reader.hpp"

namespace studies {

/// One option that says a key of a study.
struct ShortOption {
  std::string_view name;   ///< "--hand-force"
  std::string_view path;   ///< of the key: "duty.hand_force"
  std::string_view flag;   ///< what the key is where the option takes no text of its own: "tension"; else empty
  std::string_view usual;  ///< what is assumed where it is not typed; empty where nothing is
  std::string_view why;    ///< why that is assumed
  std::string_view help;   ///< one line
  std::string_view value;  ///< the word that stands for its text: "FORCE"; empty where it takes none
  std::vector<std::string> words = {};  ///< all that may stand there, where the program's own tables tell
};

/// All of them in the order in which the study says them.
const std::vector<ShortOption>& short_options();

/// What was typed, by option; of an option without a text of its own its flag.
using Typed = std::map<std::string, std::string>;

/// A study's text that knows which option stands behind each of its lines.
struct ShortStudy {
  struct Line {
    std::string option;  ///< empty where none stands behind it
    bool assumed = false;
    std::string text;
  };
  std::vector<Line> lines;

  /// The whole text; every line of it that was not typed says so in a comment.
  std::string text() const;
};

/// The study that was typed. Nothing typed is left out, however wrong: the reader says what is.
/// @throws Refusal (study) for bytes that are not UTF-8, which no study can hold
ShortStudy short_study(const Typed& typed);

/// Reads it for `rate`; its path is "reckon".
/// @throws Refusal (study) with every error, each with the option that it is about in the place of file and line
Study read_short_study(const ShortStudy& study, const TableSource& tables);

/// The same errors, as they would be said of a study file, said of its options.
engine::Refusal said_of_options(const engine::Refusal& refusal, const ShortStudy& study);

}  // namespace studies
