#include "studies/run/options.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>

#include "engine/base/nearest.hpp"
#include "studies/read/short_study.hpp"

namespace studies {
namespace {

const std::vector<std::string> later = {"learn", "plan", "nightshift", "join"};
const std::vector<std::string> built = {"vet", "size", "rate", "reckon", "compare", "sheet", "blank"};

Parsed refused(const std::string& problem, const std::string& fix) {
  return {std::nullopt, engine::Problem{"", 0, 0, problem, "", fix}, "", 2};
}

/// A whole number from 0 to 2^64 − 1.
std::uint64_t whole(const std::string& text) {
  std::uint64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error == std::errc() && end == text.data() + text.size()) return value;
  throw CLI::ValidationError("--key", "'" + text + "' is no whole number from 0 to 18446744073709551615");
}

void add_threads(CLI::App* verb, Options& options) {
  verb->add_option("--threads", options.threads, "threads to compute on; results do not depend on it")
      ->check(CLI::Range(1, 4096));
}

/// The verb that takes a study in its options.
void define_reckon(CLI::App& app, Options& options) {
  CLI::App* verb =
      app.add_subcommand("reckon", "the answer to one line of typing, with bands; no file read or written");
  for (const ShortOption& it : short_options()) {
    const std::string name(it.name), flag(it.flag), usual(it.usual);
    const std::string help = std::string(it.help) + (usual.empty() || !flag.empty() ? "" : "; else " + usual);
    if (flag.empty())
      verb->add_option_function<std::string>(
          name, [&options, name](const std::string& text) { options.typed[name] = text; }, help);
    else
      verb->add_flag_callback(
          name, [&options, name, flag] { options.typed[name] = flag; }, help);
  }
  verb->get_option("--thread")->required();
  verb->get_option("--load")->excludes("--force");
  verb->get_option("--face-on")->excludes("--rolling");
  add_threads(verb, options);
  verb->add_flag("--json", options.json, "one JSON object on standard output: that of 'rate', and the study's text");
  verb->add_flag("--quiet", options.quiet, "the verdict only");
  verb->footer(
      "One drive (--torque, or --hand-force with --handle) asks for the force, --load for the torque.\n"
      "Examples:\n"
      "  screwtiny reckon --thread \"Tr 40x7\" --torque \"120 N.m\"\n"
      "  screwtiny reckon --thread \"1-1/2-4 Acme\" --hand-force \"30 lbf\" --handle \"14 in\" --hands 2 --lubrication "
      "dry\n"
      "  screwtiny reckon --thread \"Tr 24x5\" --load \"12 kN\"\n"
      "Exit codes: 0 answered, 1 the --force typed is not reached or the torque not enough, 2 usage, 3 a wrong value.");
}

/// The verbs that look at results files.
void define_readers(CLI::App& app, Options& options) {
  CLI::App* compare = app.add_subcommand("compare", "what changed between results: inputs, outputs, odds, and by what");
  compare->add_option("RESULT", options.studies, "results files; each is compared with the first")
      ->required()
      ->expected(2, 1000);
  compare->add_flag("--json", options.json, "one JSON object a pair on standard output, nothing else there");
  compare->add_flag("--quiet", options.quiet, "the changes of what is judged only");
  add_threads(compare, options);
  CLI::App* sheet =
      app.add_subcommand("sheet", "a calculation sheet to hand on: one HTML file with drawing and figures");
  sheet->add_option("RESULT", options.studies, "results files")->required();
  sheet->add_option("--out", options.sheet.out, "folder of the sheets, instead of that of each results file");
  sheet->add_option("--figures", options.sheet.figures, "folder for every figure as SVG and its numbers as CSV too");
  sheet->add_option("--summary", options.sheet.summary, "one HTML file more, with a line for each result");
  sheet->add_option("--owner", options.sheet.owner, "legal owner, for the title block");
  sheet->add_option("--number", options.sheet.number, "identification number, for the title block");
  sheet->add_option("--revision", options.sheet.revision, "revision, for the title block");
  sheet->add_option("--made-by", options.sheet.made_by, "who made it, for the title block");
  sheet->add_flag("--json", options.json, "one JSON object a sheet on standard output, nothing else there");
  sheet->add_flag("--quiet", options.quiet, "no word where all went well");
}

/// A line that asks nothing.
std::optional<Parsed> idle_reckon(const Options& options) {
  if (options.verb != "reckon") return std::nullopt;
  for (const char* one : {"--torque", "--hand-force", "--load"})
    if (options.typed.count(one) > 0) return std::nullopt;
  return refused("nothing turns this screw, and it lifts nothing",
                 "type --torque, or --hand-force with --handle; or --load for the torque that lifts it");
}

/// The verbs and their options; what is typed lands in `options`.
void define(CLI::App& app, Options& options) {
  app.name("screwtiny");
  app.set_version_flag("--version", "screwtiny " + version());
  app.require_subcommand(1);
  app.footer(
      "Examples:\n"
      "  screwtiny blank press > press.toml     a commented study to start from\n"
      "  screwtiny vet press.toml               read it back, in both unit systems\n"
      "  screwtiny size press.toml              the lightest screw that meets it\n"
      "  screwtiny size studies/ --json         every study of a folder, one line each\n"
      "  screwtiny reckon --thread \"Tr 40x7\" --torque \"120 N.m\"     an answer without a file");
  const auto common = [&](CLI::App* verb) {
    verb->add_option("STUDY", options.studies, "study files (TOML), or folders of them")->required();
    verb->add_flag("--json", options.json, "one JSON object a study on standard output, nothing else there");
    verb->add_flag("--quiet", options.quiet, "the verdict only; no progress");
  };
  common(app.add_subcommand("vet", "read and check studies, echo every quantity and where it came from; no computing"));
  for (CLI::App* verb :
       {app.add_subcommand("size", "the lightest screw among what may be chosen, and how sure that is"),
        app.add_subcommand("rate", "the verdict on one fixed screw")}) {
    common(verb);
    add_threads(verb, options);
    verb->add_option_function<std::string>(
        "--key", [&](const std::string& text) { options.key = whole(text); }, "random key, instead of the study's");
    verb->add_option("--passes", options.passes, "Monte Carlo passes, instead of the study's")
        ->check(CLI::Range(std::uint64_t{1}, std::uint64_t{1} << 40));
    verb->add_flag("--keep", options.keep, "keep every pass in the results file");
    verb->add_option("--out", options.out, "folder of the results files")->capture_default_str();
    verb->add_flag("--again", options.again, "compute again what is finished");
    verb->add_flag("--csv", options.csv, "a summary for a spreadsheet too: <study>.csv beside the results file");
    verb->footer(
        "Exit codes: 0 every limit holds, 1 some limit does not or nothing passes, 2 usage, 3 errors in the study,\n"
        "4 not settled, 5 files, 70 our bug; of several studies the largest.");
  }
  app.get_subcommand("size")->add_flag("--scan", options.scan, "examine every candidate, to check the search");
  define_reckon(app, options);
  define_readers(app, options);
  CLI::App* blank =
      app.add_subcommand("blank", "print a complete commented study: vise, press, jack, puller, clamp or gate");
  blank->add_option("NAME", options.studies, "vise, press, jack, puller, clamp or gate")->required()->expected(1);
}

/// A verb that is none, or is not built yet.
std::optional<Parsed> wrong_verb(const std::vector<std::string>& arguments) {
  if (arguments.empty() || arguments.front().starts_with("-")) return std::nullopt;
  const std::string& verb = arguments.front();
  if (std::find(built.begin(), built.end(), verb) != built.end()) return std::nullopt;
  if (std::find(later.begin(), later.end(), verb) != later.end())
    return refused(fmt::format("'{}' is not built yet", verb),
                   "this version knows vet, size, rate, reckon, compare, sheet and blank");
  const std::string near = engine::nearest(verb, built);
  return refused(
      fmt::format("Unknown verb '{}'.{}", verb, near.empty() ? "" : fmt::format(" Did you mean '{}'?", near)),
      "screwtiny --help lists the verbs");
}

}  // namespace

std::string version() { return SCREWTINY_VERSION; }

Parsed parse(const std::vector<std::string>& arguments) {
  if (auto wrong = wrong_verb(arguments)) return *wrong;
  for (const char* option : {"--part", "--trials"})
    if (std::any_of(arguments.begin(), arguments.end(), [&](const std::string& a) { return a.starts_with(option); }))
      return refused(fmt::format("'{}' is not built yet", option), "leave it out");
  Options options;
  CLI::App app("Finds the lightest power screw that meets its force and every margin, and says how sure that is.");
  define(app, options);
  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
  try {
    app.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    const auto chosen = app.get_subcommands();
    return {std::nullopt, {}, chosen.empty() ? app.help() : chosen.front()->help("screwtiny"), 0};
  } catch (const CLI::CallForVersion&) {
    return {std::nullopt, {}, "screwtiny " + version() + "\n", 0};
  } catch (const CLI::ParseError& error) {
    return refused(error.what(), "screwtiny --help shows how it is called");
  }
  options.verb = app.get_subcommands().front()->get_name();
  if (auto idle = idle_reckon(options)) return *idle;
  return {options, {}, "", 0};
}

}  // namespace studies
