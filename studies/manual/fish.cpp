/// Completion for fish.
#include <fmt/format.h>

#include "studies/manual/completion.hpp"

namespace studies::manual {
namespace {

/// A text between single quotes, as fish reads it back.
std::string quoted(const std::string& text) {
  std::string safe = "'";
  for (const char letter : text) safe += (letter == '\'' || letter == '\\' ? "\\" : "") + std::string(1, letter);
  return safe + "'";
}

/// What fills one place: an argument of `complete`; empty where nothing is offered.
std::string offer(Fills fills, const std::vector<std::string>& words, const std::vector<std::string>& materials) {
  if (fills == Fills::folder) return " -a '(__fish_complete_directories)'";
  std::string list;
  for (const std::string& word : words_of(fills, words, materials)) list += (list.empty() ? "" : " ") + quoted(word);
  for (const std::string& ending : endings_of(fills))
    list += (list.empty() ? "" : " ") + fmt::format("(__fish_complete_suffix .{})", ending);
  return list.empty() ? "" : " -a " + quoted(list);
}

std::string option_line(const std::string& of, const Option& it, const std::vector<std::string>& materials) {
  return fmt::format("{} -l {}{} -d {}{}\n", of, it.name.substr(2), it.value.empty() ? "" : " -x",
                     quoted(sentence_of(it)), offer(it.fills, it.words, materials));
}

std::string verb_lines(const Verb& verb, const std::vector<std::string>& materials) {
  const std::string of = fmt::format("complete -c screwtiny -n '__fish_seen_subcommand_from {}'", verb.name);
  std::string text =
      fmt::format("complete -c screwtiny -n __fish_use_subcommand -a {} -d {}\n", verb.name, quoted(verb.help));
  text += fmt::format("{} -s h -l {} -d {}\n", of, std::string(help_option).substr(2), quoted(help_sentence));
  for (const Option& it : verb.options) text += option_line(of, it, materials);
  if (const auto& it = verb.operand)
    if (const std::string what = offer(it->fills, it->words, materials); !what.empty()) text += of + what + "\n";
  return text;
}

}  // namespace

std::string fish_completion(const Program& program, const std::vector<std::string>& materials) {
  std::string text = "# Completion of screwtiny's verbs, options, words and files.\ncomplete -c screwtiny -f\n";
  text += fmt::format("complete -c screwtiny -n __fish_use_subcommand -s h -l {} -d {}\n",
                      std::string(help_option).substr(2), quoted(help_sentence));
  text += fmt::format("complete -c screwtiny -n __fish_use_subcommand -l {} -d {}\n",
                      std::string(version_option).substr(2), quoted(version_sentence));
  for (const Verb& verb : program.verbs) text += verb_lines(verb, materials);
  return text;
}

}  // namespace studies::manual
