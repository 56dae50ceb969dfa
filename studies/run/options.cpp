#include "studies/run/options.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>

#include "engine/base/nearest.hpp"
#include "studies/manual/command.hpp"
#include "studies/manual/help.hpp"
#include "studies/run/parser.hpp"
#include "studies/say/words.hpp"

namespace studies {
namespace {

const std::vector<std::string> later = {"learn", "plan", "nightshift", "join"};

std::vector<std::string> built() {
  std::vector<std::string> names;
  for (const manual::Verb& verb : manual::program().verbs) names.push_back(verb.name);
  return names;
}

Parsed refused(const std::string& problem, const std::string& fix) {
  return {std::nullopt, engine::Problem{"", 0, 0, problem, "", fix}, "", 2};
}

/// A whole number from 0 to 2^64 − 1.
std::uint64_t whole(const std::string& name, const std::string& text) {
  std::uint64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error == std::errc() && end == text.data() + text.size()) return value;
  throw CLI::ValidationError(name, "'" + text + "' is no whole number from 0 to 18446744073709551615");
}

/// Puts one option on a verb, by where its value goes.
class Adding {
public:
  Adding(CLI::App& verb, const manual::Option& row, Options& options) : verb_(verb), row_(row), options_(options) {}

  CLI::Option* operator()(bool Options::*place) const { return verb_.add_flag(row_.name, options_.*place, row_.help); }
  CLI::Option* operator()(std::string Options::*place) const {
    return verb_.add_option(row_.name, options_.*place, row_.help);
  }
  CLI::Option* operator()(std::string SheetOptions::*place) const {
    return verb_.add_option(row_.name, options_.sheet.*place, row_.help);
  }
  CLI::Option* operator()(std::optional<unsigned> Options::*place) const {
    return verb_.add_option(row_.name, options_.*place, row_.help);
  }
  CLI::Option* operator()(std::optional<std::uint64_t> Options::*place) const {
    if (row_.between) return verb_.add_option(row_.name, options_.*place, row_.help);
    return verb_.add_option_function<std::string>(
        row_.name, [&it = options_.*place, name = row_.name](const std::string& text) { it = whole(name, text); },
        row_.help);
  }
  CLI::Option* operator()(const manual::OfStudy& of) const {
    std::map<std::string, std::string>& typed = options_.typed;
    if (of.flag.empty())
      return verb_.add_option_function<std::string>(
          row_.name, [&typed, name = row_.name](const std::string& text) { typed[name] = text; }, row_.help);
    return verb_.add_flag_callback(
        row_.name, [&typed, name = row_.name, flag = of.flag] { typed[name] = flag; }, row_.help);
  }

private:
  CLI::App& verb_;
  const manual::Option& row_;
  Options& options_;
};

void define(CLI::App& verb, const manual::Option& row, Options& options) {
  CLI::Option* option = std::visit(Adding(verb, row, options), row.place);
  option->required(row.required);
  if (row.between) option->check(CLI::Range(row.between->first, row.between->second));
}

void define(CLI::App& app, const manual::Verb& row, Options& options) {
  CLI::App* verb = app.add_subcommand(row.name, row.help);
  if (row.operand) {
    CLI::Option* operand = verb->add_option(row.operand->name, options.studies, row.operand->help)->required();
    if (row.operand->most > 0) operand->expected(row.operand->least, row.operand->most);
  }
  for (const manual::Option& option : row.options) define(*verb, option, options);
  for (const manual::Option& option : row.options)
    if (!option.excludes.empty()) verb->get_option(option.name)->excludes(option.excludes);
}

/// A line that asks nothing.
std::optional<Parsed> idle_reckon(const Options& options) {
  if (options.verb != "reckon") return std::nullopt;
  for (const char* one : {"--torque", "--hand-force", "--load"})
    if (options.typed.count(one) > 0) return std::nullopt;
  return refused("nothing turns this screw, and it lifts nothing",
                 "type --torque, or --hand-force with --handle; or --load for the torque that lifts it");
}

/// What the help says, of one verb or of all.
std::string help(const std::string& verb) {
  for (const manual::Verb& row : manual::program().verbs)
    if (row.name == verb) return manual::help_text(row);
  return manual::help_text(manual::program());
}

/// A verb that is none, or is not built yet.
std::optional<Parsed> wrong_verb(const std::vector<std::string>& arguments) {
  if (arguments.empty() || arguments.front().starts_with("-")) return std::nullopt;
  const std::string& verb = arguments.front();
  const std::vector<std::string> known = built();
  if (std::find(known.begin(), known.end(), verb) != known.end()) return std::nullopt;
  if (std::find(later.begin(), later.end(), verb) != later.end())
    return refused(fmt::format("'{}' is not built yet", verb), "this version knows " + say::list_of(known));
  const std::string near = engine::nearest(verb, known);
  return refused(
      fmt::format("Unknown verb '{}'.{}", verb, near.empty() ? "" : fmt::format(" Did you mean '{}'?", near)),
      "screwtiny --help lists the verbs");
}

}  // namespace

void define(CLI::App& app, Options& options) {
  app.name(manual::program().name);
  app.set_version_flag(manual::version_option, "screwtiny " + version());
  app.require_subcommand(1);
  for (const manual::Verb& verb : manual::program().verbs) define(app, verb, options);
}

std::string version() { return SCREWTINY_VERSION; }

Parsed parse(const std::vector<std::string>& arguments) {
  if (auto wrong = wrong_verb(arguments)) return *wrong;
  for (const char* option : {"--part", "--trials"})
    if (std::any_of(arguments.begin(), arguments.end(), [&](const std::string& a) { return a.starts_with(option); }))
      return refused(fmt::format("'{}' is not built yet", option), "leave it out");
  Options options;
  CLI::App app;
  define(app, options);
  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
  try {
    app.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    const auto chosen = app.get_subcommands();
    return {std::nullopt, {}, help(chosen.empty() ? "" : chosen.front()->get_name()), 0};
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
