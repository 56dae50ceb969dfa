#include "studies/manual/command.hpp"

#include <fmt/format.h>

#include "studies/manual/verbs.hpp"

namespace studies::manual {
namespace {

std::vector<Exit> all_exits() {
  return {{0, "answered, and every limit holds"},
          {1, "answered: some limit does not hold, or nothing passes"},
          usage_exit(),
          {3, "errors in a study"},
          {4, "the digits asked did not settle"},
          files_exit(),
          bug_exit(),
          {130, "interrupted"}};
}

Program made() {
  return {.name = "screwtiny",
          .help = "Finds the lightest power screw that meets its force and every margin, and says how sure that is.",
          .about =
              {"A study is a TOML file that says what a screw must do, what may be chosen and what is uncertain. Every "
               "quantity carries its unit. The verb comes first, then what it works on and its options.",
               "Answers are a calculation aid: they check the screw, the nut and the thrust face, and end with the "
               "list of what was not checked."},
          .verbs = {vet_verb(), size_verb(), rate_verb(), reckon_verb(), compare_verb(), sheet_verb(), blank_verb()},
          .examples = {{"screwtiny blank press > press.toml", "a commented study to start from"},
                       {"screwtiny vet press.toml", "read it back, in both unit systems"},
                       {"screwtiny size press.toml", "the lightest screw that meets it"},
                       {"screwtiny size studies/ --json", "every study of a folder, one line each"},
                       {"screwtiny reckon --thread \"Tr 40x7\" --torque \"120 N.m\"", "an answer without a file"}},
          .exits = all_exits(),
          .files = {{"results/<study>.h5", "The results of a study, in HDF5."},
                    {"share/screwtiny/tables",
                     "Materials, friction and pressures, with a source a row, beside the folder "
                     "in which the program is installed."},
                    {"share/screwtiny/blanks", "The studies to start from."}},
          .variables = {{"NO_COLOR", "Where it is set, a terminal gets no colour."},
                        {"SCREWTINY_INSTRUCTIONS",
                         "baseline, v3 or v4: the instruction set to use, instead of the widest "
                         "that the machine has. Results do not depend on it."}}};
}

}  // namespace

const Program& program() {
  static const Program all = made();
  return all;
}

std::string call_of(const Verb& verb) {
  const std::string call = fmt::format("screwtiny {} [OPTION]...", verb.name);
  if (!verb.operand) return call;
  std::string operands;
  for (int i = 0; i < verb.operand->least; ++i) operands += " " + verb.operand->name;
  return call + operands + (verb.operand->most == verb.operand->least ? "" : "...");
}

std::string spelled(const Option& option) { return option.name + (option.value.empty() ? "" : " " + option.value); }

std::string sentence_of(const Option& option) {
  std::string text = option.help;
  if (option.between)
    text += fmt::format("; a whole number from {} to {}", option.between->first, option.between->second);
  if (option.required) text += "; must be typed";
  if (!option.excludes.empty()) text += fmt::format("; not beside {}", option.excludes);
  if (const auto* place = std::get_if<std::string Options::*>(&option.place))
    text += fmt::format("; else {}", Options{}.*(*place));
  return text;
}

}  // namespace studies::manual
