#pragma once
/// What the command line consists of: the parser, the help, the manual pages and the completion of the shells all come
/// from these rows.
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "studies/run/options.hpp"

namespace studies::manual {

/// What may stand where something is typed; a shell completes it.
enum class Fills { anything, words, material, study, study_or_result, result, folder, page };

/// An option that says a key of the study: its text goes to Options::typed.
struct OfStudy {
  std::string flag;  ///< what the key is where the option takes no text of its own; else empty
};

/// Where the value of an option goes.
using Place = std::variant<bool Options::*, std::string Options::*, std::optional<unsigned> Options::*,
                           std::optional<std::uint64_t> Options::*, std::string SheetOptions::*, OfStudy>;

struct Option {
  std::string name;   ///< "--threads"
  std::string value;  ///< the word that stands for its value: "N"; empty where it takes none
  std::string help;   ///< one sentence without a full stop
  Place place;
  Fills fills = Fills::anything;
  std::vector<std::string> words = {};                                  ///< that may stand there, where they are known
  std::optional<std::pair<std::uint64_t, std::uint64_t>> between = {};  ///< least and most of a whole number
  bool required = false;
  std::string excludes = {};  ///< an option that cannot stand beside it
};

/// What is typed without an option's name.
struct Operand {
  std::string name;  ///< "STUDY"
  std::string help;
  Fills fills = Fills::anything;
  std::vector<std::string> words = {};
  int least = 1, most = 0;  ///< most 0: any number
};

struct Example {
  std::string command;
  std::string says;  ///< what it does
};

/// An exit code and what it means.
struct Exit {
  int code = 0;
  std::string meaning;
};

/// A file or variable, and what it is to the program.
struct Thing {
  std::string name, about;
};

struct Verb {
  std::string name;                ///< "size"
  std::string help;                ///< one line
  std::vector<std::string> about;  ///< paragraphs
  std::optional<Operand> operand;
  std::vector<Option> options;  ///< without --help
  std::vector<Example> examples;
  std::vector<Exit> exits;
  std::vector<Thing> files;
};

/// The program as a whole.
struct Program {
  std::string name, help;
  std::vector<std::string> about;
  std::vector<Verb> verbs;
  std::vector<Example> examples;
  std::vector<Exit> exits;
  std::vector<Thing> files, variables;
};

/// The command line of this version.
const Program& program();

/// What every verb takes, beside what stands in its rows.
inline constexpr const char* help_option = "--help";
inline constexpr const char* help_sentence = "print this help and leave";
/// What the program takes without a verb.
inline constexpr const char* version_option = "--version";
inline constexpr const char* version_sentence = "print the version and leave";

/// How a verb is called: "screwtiny size [OPTION]... STUDY..."
std::string call_of(const Verb& verb);
/// An option with the word for its value: "--threads N".
std::string spelled(const Option& option);
/// Its sentence with what it must or cannot be: "random key; a whole number from 1 to 4096".
std::string sentence_of(const Option& option);

}  // namespace studies::manual
