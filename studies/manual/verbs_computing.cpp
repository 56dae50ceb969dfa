/// The verbs that read studies: vet, size and rate.
#include "studies/manual/verbs.hpp"

namespace studies::manual {
namespace {

Operand studies_operand() { return {"STUDY", "study files (TOML), or folders of them", Fills::study}; }

Option json_of_studies() { return json_option("one JSON object a study on standard output, nothing else there"); }
Option quiet_run() { return quiet_option("the verdict only; no progress"); }

std::vector<Option> computing_options() {
  return {json_of_studies(),
          quiet_run(),
          threads_option(),
          {.name = "--key", .value = "N", .help = "random key, instead of the study's", .place = &Options::key},
          {.name = "--passes",
           .value = "N",
           .help = "Monte Carlo passes, instead of the study's",
           .place = &Options::passes,
           .between = {{1, std::uint64_t{1} << 40}}},
          {.name = "--keep", .value = "", .help = "keep every pass in the results file", .place = &Options::keep},
          {.name = "--out",
           .value = "DIR",
           .help = "folder of the results files",
           .place = &Options::out,
           .fills = Fills::folder},
          {.name = "--again", .value = "", .help = "compute again what is finished", .place = &Options::again},
          {.name = "--csv",
           .value = "",
           .help = "a summary for a spreadsheet too: <study>.csv beside the results file",
           .place = &Options::csv}};
}

std::vector<Exit> computing_exits() {
  return {{0, "every limit holds"},
          {1, "some limit does not hold, or nothing passes"},
          usage_exit(),
          {3, "errors in a study"},
          {4, "the digits asked did not settle"},
          files_exit(),
          bug_exit(),
          {130, "interrupted; nothing half-written is left"}};
}

std::vector<Thing> computing_files() {
  return {{"results/<study>.h5", "The results, in HDF5; --out names another folder. Finished ones are not redone."},
          {"results/<study>.csv", "The summary for a spreadsheet, with --csv."}};
}

}  // namespace

Verb vet_verb() {
  return {.name = "vet",
          .help = "read and check studies, echo every quantity and where it came from; no computing",
          .about = {"Reads each study and says every quantity in metric and inch units, with the line it was typed on "
                    "or what it was assumed from. All that is wrong in a study is said at once, each with its line, "
                    "its reason and a fix.",
                    "Of a results file every checksum is checked, and its verdict is said again."},
          .operand = Operand{"STUDY", "study files (TOML), or folders of them; or results files (HDF5)",
                             Fills::study_or_result},
          .options = {json_of_studies(), quiet_run()},
          .examples = {{"screwtiny vet press.toml", "every quantity of the study in both unit systems"},
                       {"screwtiny vet studies/ --quiet", "a line for each study of a folder"},
                       {"screwtiny vet press.toml --json > press.json", "the same for a script"}},
          .exits = {{0, "no errors"}, usage_exit(), {3, "errors in a study"}, files_exit(), bug_exit()},
          .files = {}};
}

Verb size_verb() {
  Verb verb{.name = "size",
            .help = "the lightest screw among what may be chosen, and how sure that is",
            .about = {"Searches the sizes that the study leaves open for the lightest screw that meets the force and "
                      "every limit with the odds asked, and says what governs, why the next size down will not do and "
                      "what would change it.",
                      "Several studies or a folder are answered one after the other: a bad one does not stop the "
                      "rest, and a table ends the run. The exit code is the largest of all."},
            .operand = studies_operand(),
            .options = computing_options(),
            .examples = {{"screwtiny size press.toml", "the lightest screw that meets it"},
                         {"screwtiny size press.toml --key 2 --out again --csv",
                          "once more with other random numbers, and a summary for a spreadsheet"},
                         {"screwtiny size press.toml --passes 65536 --out quick --quiet", "a quick look"},
                         {"screwtiny size studies/ --json > answers.jsonl", "every study of a folder, one line each"}},
            .exits = computing_exits(),
            .files = computing_files()};
  verb.options.push_back(
      {.name = "--scan", .value = "", .help = "examine every candidate, to check the search", .place = &Options::scan});
  return verb;
}

Verb rate_verb() {
  return {.name = "rate",
          .help = "the verdict on one fixed screw",
          .about = {"Judges the one screw of a study whose every choice is a single value, with the same limits and "
                    "odds as the search, and without one."},
          .operand = studies_operand(),
          .options = computing_options(),
          .examples = {{"screwtiny rate screw.toml", "the verdict"},
                       {"screwtiny rate screw.toml --again --csv", "and a summary for a spreadsheet"},
                       {"screwtiny rate screw.toml --keep --out kept --quiet", "every pass into the results file"}},
          .exits = computing_exits(),
          .files = computing_files()};
}

}  // namespace studies::manual
