/// Completion for zsh.
#include <fmt/format.h>

#include "studies/manual/completion.hpp"

namespace studies::manual {
namespace {

/// A text of a specification between single quotes: what _arguments would take for its own is escaped.
std::string spec(const std::string& text) {
  std::string safe;
  for (const char letter : text) {
    if (letter == '\'')
      safe += "'\\''";
    else if (letter == '[' || letter == ']' || letter == ':' || letter == '\\')
      safe += std::string("\\") + letter;
    else
      safe += letter;
  }
  return safe;
}

/// Words in brackets, blanks in them kept.
std::string list(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) {
    if (!text.empty()) text += ' ';
    for (const char letter : word) text += letter == ' ' ? std::string("\\ ") : spec(std::string(1, letter));
  }
  return "(" + text + ")";
}

/// What _arguments does for one place; a blank where there is nothing to offer.
std::string action(Fills fills, const std::vector<std::string>& words, const std::vector<std::string>& materials) {
  if (const auto& known = words_of(fills, words, materials); !known.empty()) return list(known);
  if (fills == Fills::folder) return "_files -/";
  std::string endings;
  for (const std::string& ending : endings_of(fills)) endings += (endings.empty() ? "" : "|") + ending;
  return endings.empty() ? " " : fmt::format("_files -g \"*.({})\"", endings);
}

std::string option_spec(const Option& it, const std::vector<std::string>& materials) {
  if (it.value.empty()) return fmt::format("'{}[{}]'", it.name, spec(sentence_of(it)));
  return fmt::format("'{}=[{}]:{}:{}'", it.name, spec(sentence_of(it)), it.value,
                     action(it.fills, it.words, materials));
}

std::string verb_case(const Verb& verb, const std::vector<std::string>& materials) {
  std::string text = fmt::format("        {})\n          _arguments \\\n            '(- *){}[{}]'", verb.name,
                                 help_option, spec(help_sentence));
  for (const Option& it : verb.options) text += " \\\n            " + option_spec(it, materials);
  if (const auto& it = verb.operand)
    text += fmt::format(" \\\n            '{}:{}:{}'", it->most == 1 ? "1" : "*", it->name,
                        action(it->fills, it->words, materials));
  return text + " ;;\n";
}

}  // namespace

std::string zsh_completion(const Program& program, const std::vector<std::string>& materials) {
  std::string verbs, cases;
  for (const Verb& verb : program.verbs) {
    verbs += fmt::format("    '{}:{}'\n", verb.name, spec(verb.help));
    cases += verb_case(verb, materials);
  }
  return fmt::format(R"sh(#compdef screwtiny
# Completion of screwtiny's verbs, options, words and files.

_screwtiny() {{
  local curcontext=$curcontext state
  local -a line verbs
  typeset -A opt_args
  verbs=(
{}  )
  _arguments -C '(- *){}[{}]' '(- *){}[{}]' '1:verb:->verb' '*::operand:->operand'
  case $state in
    verb) _describe verb verbs ;;
    operand)
      case $line[1] in
{}      esac ;;
  esac
}}

_screwtiny "$@"
)sh",
                     verbs, help_option, spec(help_sentence), version_option, spec(version_sentence), cases);
}

}  // namespace studies::manual
