#include "studies/manual/help.hpp"

#include <fmt/format.h>

#include "studies/say/wrap.hpp"

namespace studies::manual {
namespace {

/// A name and what it means in a column beside it, or on the next line where the name is long.
std::string beside(const std::string& name, const std::string& meaning) {
  constexpr std::size_t column = 26;
  const std::string first = "  " + name;
  const bool fits = first.size() + 2 <= column;
  std::string text = fits ? "" : first + "\n";
  const std::string start = fmt::format("{:<{}}", fits ? first : "", column);
  for (const std::string& line : say::wrapped(meaning, column, start)) text += line + "\n";
  return text;
}

std::string paragraph(const std::string& text) {
  std::string lines;
  for (const std::string& line : say::wrapped(text)) lines += line + "\n";
  return lines;
}

/// Commands stay on one line, however long: they are there to be copied.
std::string examples_text(const std::vector<Example>& examples) {
  std::string text = "\nExamples:\n";
  constexpr std::size_t indent = 6;
  for (const Example& it : examples) {
    text += "  " + it.command + "\n";
    for (const std::string& line : say::wrapped(it.says, indent, std::string(indent, ' '))) text += line + "\n";
  }
  return text;
}

std::string exits_text(const std::vector<Exit>& exits) {
  std::string text = "\nExit codes:\n";
  for (const Exit& it : exits) text += beside(std::to_string(it.code), it.meaning);
  return text;
}

}  // namespace

std::string help_text(const Program& program) {
  std::string text =
      fmt::format("{}\nUsage: {} VERB [OPTION]... [OPERAND]...\n\nVerbs:\n", paragraph(program.help), program.name);
  for (const Verb& verb : program.verbs) text += beside(verb.name, verb.help);
  text +=
      "\nOptions:\n" + beside(fmt::format("-h, {}", help_option), help_sentence + std::string("; after a verb, of it"));
  text += beside(version_option, version_sentence);
  return text + examples_text(program.examples) + exits_text(program.exits);
}

std::string help_text(const Verb& verb) {
  std::string text = fmt::format("{}\nUsage: {}\n", paragraph(verb.help), call_of(verb));
  for (const std::string& about : verb.about) text += "\n" + paragraph(about);
  text += "\n";
  if (verb.operand) text += beside(verb.operand->name, verb.operand->help) + "\n";
  text += "Options:\n" + beside(fmt::format("-h, {}", help_option), help_sentence);
  for (const Option& option : verb.options) text += beside(spelled(option), sentence_of(option));
  return text + examples_text(verb.examples) + exits_text(verb.exits);
}

}  // namespace studies::manual
