#include "studies/manual/page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace studies::manual {
namespace {

std::string escaped(const std::string& text, bool typed) {
  std::string safe = text.starts_with(".") || text.starts_with("'") ? "\\&" : "";
  for (const char letter : text) switch (letter) {
      case '\\':
        safe += "\\e";
        break;
      case '-':
        safe += typed ? "\\-" : "-";
        break;
      case '\'':
        safe += "\\(aq";
        break;
      case '`':
        safe += "\\(ga";
        break;
      case '^':
        safe += "\\(ha";
        break;
      case '~':
        safe += "\\(ti";
        break;
      case '\n':
        safe += ' ';
        break;
      default:
        safe += letter;
    }
  return safe;
}

std::string bold(const std::string& typed) { return "\\fB" + roff_typed(typed) + "\\fR"; }
std::string slanted(const std::string& typed) { return "\\fI" + roff_typed(typed) + "\\fR"; }

std::string capitals(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return std::toupper(c); });
  return text;
}

std::string section(const std::string& title) { return ".SH " + title + "\n"; }
std::string item(const std::string& term, const std::string& meaning) {
  return ".TP\n" + term + "\n" + roff_prose(meaning) + "\n";
}

std::string opening(const std::string& name, const std::string& help, const Edition& edition) {
  return fmt::format(".TH {} 1 {} \"screwtiny {}\" \"User commands\"\n", capitals(roff_typed(name)), edition.date,
                     roff_typed(edition.version)) +
         section("NAME") + roff_typed(name) + " \\- " + roff_prose(help) + "\n";
}

std::string description(const std::vector<std::string>& paragraphs) {
  std::string text = section("DESCRIPTION");
  for (const std::string& it : paragraphs) text += (&it == &paragraphs.front() ? "" : ".PP\n") + roff_prose(it) + "\n";
  return text;
}

std::string examples(const std::vector<Example>& all) {
  std::string text = section("EXAMPLES");
  for (const Example& it : all) text += item(bold(it.command), it.says);
  return text;
}

std::string exits(const std::vector<Exit>& all) {
  std::string text = section("EXIT STATUS");
  for (const Exit& it : all) text += item(bold(std::to_string(it.code)), it.meaning);
  return text;
}

std::string things(const std::string& title, const std::vector<Thing>& all) {
  std::string text = section(title);
  for (const Thing& it : all) text += item(slanted(it.name), it.about);
  return text;
}

/// Names of other pages in their order, this one left out.
std::string see_also(const Program& program, const std::string& self) {
  std::vector<std::string> names = {program.name};
  for (const Verb& verb : program.verbs) names.push_back(program.name + "-" + verb.name);
  names.erase(std::find(names.begin(), names.end(), self));
  std::string text = section("SEE ALSO");
  for (const std::string& name : names) text += bold(name) + "(1)" + (name == names.back() ? "\n" : ",\n");
  return text;
}

std::string option_item(const Option& option) {
  return item(bold(option.name) + (option.value.empty() ? "" : " " + slanted(option.value)), sentence_of(option) + ".");
}

std::string synopsis(const Verb& verb) {
  std::string text = section("SYNOPSIS") + bold("screwtiny " + verb.name) + " [" + slanted("OPTION") + "]...";
  if (!verb.operand) return text + "\n";
  for (int i = 0; i < verb.operand->least; ++i) text += " " + slanted(verb.operand->name);
  return text + (verb.operand->most == verb.operand->least ? "\n" : "...\n");
}

}  // namespace

std::string roff_prose(const std::string& text) { return escaped(text, false); }
std::string roff_typed(const std::string& text) { return escaped(text, true); }

std::string page(const Program& program, const Edition& edition) {
  std::string text = opening(program.name, program.help, edition) + section("SYNOPSIS") + bold(program.name) + " " +
                     slanted("VERB") + " [" + slanted("OPTION") + "]... [" + slanted("OPERAND") + "]...\n" +
                     description(program.about) + ".PP\nThe verbs:\n";
  for (const Verb& verb : program.verbs) text += item(bold(verb.name), verb.help + ".");
  text += section("OPTIONS") + item(bold("-h") + ", " + bold(help_option), help_sentence + std::string("."));
  text += item(bold(version_option), version_sentence + std::string("."));
  return text + examples(program.examples) + exits(program.exits) + things("FILES", program.files) +
         things("ENVIRONMENT", program.variables) + see_also(program, program.name);
}

std::string page(const Program& program, const Verb& verb, const Edition& edition) {
  const std::string name = program.name + "-" + verb.name;
  std::string text = opening(name, verb.help, edition) + synopsis(verb) + description(verb.about) + section("OPTIONS");
  if (verb.operand) text += item(slanted(verb.operand->name), verb.operand->help + ".");
  text += item(bold("-h") + ", " + bold(help_option), help_sentence + std::string("."));
  for (const Option& option : verb.options) text += option_item(option);
  text += examples(verb.examples) + exits(verb.exits);
  if (!verb.files.empty()) text += things("FILES", verb.files);
  return text + see_also(program, name);
}

}  // namespace studies::manual
