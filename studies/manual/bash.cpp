/// Completion for bash; needs nothing beside the shell.
#include <fmt/format.h>

#include "studies/manual/completion.hpp"

namespace studies::manual {
namespace {

/// Functions that the script goes by: words that begin with what stands there, and files.
constexpr const char* helpers = R"sh(# Completion of screwtiny's verbs, options, words and files.

# _screwtiny_plain TYPED: without the backslashes and the opening quote of the shell.
_screwtiny_plain() {
  local plain=${1//\\/}
  printf '%s' "${plain#[\"\']}"
}

# _screwtiny_words TYPED LINES: the lines that begin so, as the shell wants them typed.
_screwtiny_words() {
  local word plain
  plain=$(_screwtiny_plain "$1")
  while IFS= read -r word; do
    [[ $word == "$plain"* ]] || continue
    if [[ $1 == [\"\']* ]]; then COMPREPLY+=("$word"); else COMPREPLY+=("$(printf '%q' "$word")"); fi
  done <<<"$2"
}

# _screwtiny_files TYPED ENDING...: folders, and files that end so.
_screwtiny_files() {
  local one ending
  compopt -o filenames 2>/dev/null
  while IFS= read -r one; do
    if [[ -d ${one/#\~\//$HOME/} ]]; then
      COMPREPLY+=("$one")
      continue
    fi
    for ending in "${@:2}"; do
      [[ $one == *."$ending" ]] && COMPREPLY+=("$one")
    done
  done < <(compgen -f -- "$(_screwtiny_plain "$1")")
}

)sh";

/// A text between single quotes, as bash reads it back.
std::string quoted(const std::string& text) {
  std::string safe = "'";
  for (const char letter : text) safe += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
  return safe + "'";
}

std::string lines(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : "\n") + word;
  return quoted(text);
}

/// What completes one place.
std::string filling(Fills fills, const std::vector<std::string>& words, const std::vector<std::string>& materials) {
  if (const auto& known = words_of(fills, words, materials); !known.empty())
    return fmt::format("_screwtiny_words \"$cur\" {}", lines(known));
  std::string call = "_screwtiny_files \"$cur\"";
  for (const std::string& ending : endings_of(fills)) call += " " + ending;
  return fills == Fills::anything ? ":" : call;
}

std::string value_cases(const Verb& verb, const std::vector<std::string>& materials) {
  std::string text;
  for (const Option& it : verb.options)
    if (!it.value.empty())
      text += fmt::format("    '{} {}') {}; return ;;\n", verb.name, it.name, filling(it.fills, it.words, materials));
  return text;
}

std::string option_case(const Verb& verb) {
  std::vector<std::string> names = {help_option};
  for (const Option& it : verb.options) names.push_back(it.name);
  return fmt::format("      {}) _screwtiny_words \"$cur\" {} ;;\n", verb.name, lines(names));
}

}  // namespace

std::string bash_completion(const Program& program, const std::vector<std::string>& materials) {
  std::vector<std::string> first;
  std::string values, options, operands;
  for (const Verb& verb : program.verbs) {
    first.push_back(verb.name);
    values += value_cases(verb, materials);
    options += option_case(verb);
    if (const auto& it = verb.operand)
      operands += fmt::format("    {}) {} ;;\n", verb.name, filling(it->fills, it->words, materials));
  }
  first.insert(first.end(), {help_option, version_option});
  return helpers + fmt::format(R"sh(_screwtiny() {{
  local cur=${{COMP_WORDS[COMP_CWORD]}} prev=${{COMP_WORDS[COMP_CWORD-1]}} verb=${{COMP_WORDS[1]}}
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    _screwtiny_words "$cur" {}
    return
  fi
  if [[ $cur == = ]]; then
    cur=
  elif [[ $prev == = ]]; then
    prev=${{COMP_WORDS[COMP_CWORD-2]}}
  fi
  case "$verb $prev" in
{}  esac
  if [[ $cur == -* ]]; then
    case $verb in
{}    esac
    return
  fi
  case $verb in
{}  esac
}}
complete -F _screwtiny screwtiny
)sh",
                               lines(first), values, options, operands);
}

}  // namespace studies::manual
