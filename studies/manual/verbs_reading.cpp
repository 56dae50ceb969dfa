/// The verbs that look at results files, and the one that gives a study to start from.
#include "studies/manual/verbs.hpp"

namespace studies::manual {
namespace {

Option of_sheet(const std::string& name, const std::string& value, const std::string& help,
                std::string SheetOptions::*place, Fills fills = Fills::anything) {
  return {.name = name, .value = value, .help = help, .place = place, .fills = fills};
}

}  // namespace

Verb compare_verb() {
  return {.name = "compare",
          .help = "what changed between results: inputs, outputs, odds, and by what",
          .about = {"Holds each results file against the first."},
          .operand = Operand{.name = "RESULT",
                             .help = "results files; each is compared with the first",
                             .fills = Fills::result,
                             .least = 2,
                             .most = 1000},
          .options = {json_option("one JSON object a pair on standard output, nothing else there"),
                      quiet_option("the changes of what is judged only"), threads_option()},
          .examples = {{"screwtiny compare results/press.h5 again/press.h5", "what another random key changes"},
                       {"screwtiny compare results/press.h5 again/press.h5 --json > changes.json",
                        "the same for a script"}},
          .exits = {{0, "compared"}, usage_exit(), files_exit(), bug_exit()},
          .files = {}};
}

Verb sheet_verb() {
  const auto title = [](const std::string& name, const std::string& what, std::string SheetOptions::*place) {
    return of_sheet(name, "TEXT", what + ", for the title block", place);
  };
  return {.name = "sheet",
          .help = "a calculation sheet to hand on: one HTML file with drawing and figures",
          .about = {"Writes the sheet of each results file beside it, or into the folder of --out."},
          .operand = Operand{"RESULT", "results files", Fills::result},
          .options = {of_sheet("--out", "DIR", "folder of the sheets, instead of that of each results file",
                               &SheetOptions::out, Fills::folder),
                      of_sheet("--figures", "DIR", "folder for every figure as SVG and its numbers as CSV too",
                               &SheetOptions::figures, Fills::folder),
                      of_sheet("--summary", "FILE", "one HTML file more, with a line for each result",
                               &SheetOptions::summary, Fills::page),
                      title("--owner", "legal owner", &SheetOptions::owner),
                      title("--number", "identification number", &SheetOptions::number),
                      title("--revision", "revision", &SheetOptions::revision),
                      title("--made-by", "who made it", &SheetOptions::made_by),
                      json_option("one JSON object a sheet on standard output, nothing else there"),
                      quiet_option("no word where all went well")},
          .examples = {{"screwtiny sheet results/press.h5", "the sheet beside the results"},
                       {"screwtiny sheet results/press.h5 --out sheets --figures figures --number A-17",
                        "into a folder, with its figures by themselves and a number in the title block"}},
          .exits = {{0, "written"}, usage_exit(), files_exit(), bug_exit()},
          .files = {}};
}

Verb blank_verb() {
  return {.name = "blank",
          .help = "print a complete commented study: vise, press, jack, puller, clamp or gate",
          .about = {"Prints a study in which every line is explained, to be saved as a file and changed."},
          .operand = Operand{.name = "NAME",
                             .help = "vise, press, jack, puller, clamp or gate",
                             .fills = Fills::words,
                             .words = {"vise", "press", "jack", "puller", "clamp", "gate"},
                             .most = 1},
          .options = {},
          .examples = {{"screwtiny blank jack > jack.toml", "a jack to start from"}},
          .exits = {{0, "printed"}, usage_exit(), files_exit(), bug_exit()},
          .files = {{"share/screwtiny/blanks", "The blanks, beside the folder in which the program is installed."}}};
}

}  // namespace studies::manual
