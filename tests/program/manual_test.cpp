/// Parser, help, manual pages and completions say the same verbs and options.
#include <catch2/catch.hpp>

#include <algorithm>

#include "studies/manual/files.hpp"
#include "studies/manual/help.hpp"
#include "studies/manual/page.hpp"
#include "tests/program/manual.hpp"

namespace tests {

const std::map<std::string, std::string>& manual_texts() {
  static const std::map<std::string, std::string> all = studies::manual::manual_files("2026-11-28");
  return all;
}

const std::string& manual_file(const std::string& name) {
  INFO(name);
  REQUIRE(manual_texts().count(name) == 1);
  return manual_texts().at(name);
}

std::string between(const std::string& text, const std::string& from, const std::string& to) {
  const std::size_t begin = text.find(from);
  INFO(from);
  REQUIRE(begin != std::string::npos);
  return text.substr(begin + from.size(), text.find(to, begin + from.size()) - begin - from.size());
}

}  // namespace tests

namespace {

using namespace tests;
namespace manual = studies::manual;

std::string page_of(const std::string& verb) { return manual_file("man/man1/screwtiny-" + verb + ".1"); }

/// The line of an option in the script for fish, from its name on.
std::string fish_line(const std::string& verb, const std::string& option) {
  return "__fish_seen_subcommand_from " + verb + "'" + (option == "--help" ? " -s h" : "") + " -l " + option.substr(2) +
         " ";
}

/// What the script for zsh has between a verb and the next.
std::string zsh_case(const std::string& verb) {
  return between(manual_file("zsh/site-functions/_screwtiny"), "        " + verb + ")\n", ";;");
}

bool is_ascii(const std::string& text) {
  return std::all_of(text.begin(), text.end(), [](unsigned char c) { return c == '\n' || (c >= ' ' && c < 0x7F); });
}

}  // namespace

TEST_CASE("The verbs of the parser are those of the table, and stand in help, manual and completions", "[program]") {
  const Parser parser;
  std::vector<std::string> table, parsed;
  for (const manual::Verb& verb : manual::program().verbs) table.push_back(verb.name);
  for (const CLI::App* verb : parser.app.get_subcommands([](const CLI::App*) { return true; }))
    parsed.push_back(verb->get_name());
  CHECK(parsed == table);
  REQUIRE(parsed.size() >= 7);
  const std::string help = manual::help_text(manual::program());
  for (const std::string& verb : parsed) {
    INFO(verb);
    CHECK(contains(help, "\n  " + verb + " "));
    CHECK(contains(manual_file("man/man1/screwtiny.1"), "\\fB" + verb + "\\fR\n"));
    CHECK(contains(manual_file("zsh/site-functions/_screwtiny"), "    '" + verb + ":"));
    CHECK(contains(manual_file("fish/vendor_completions.d/screwtiny.fish"), "__fish_use_subcommand -a " + verb + " "));
  }
}

TEST_CASE("Every option that the parser takes stands in the help, the page and the completions of its verb",
          "[program]") {
  const Parser parser;
  const std::string fish = manual_file("fish/vendor_completions.d/screwtiny.fish");
  for (const manual::Verb& verb : manual::program().verbs) {
    const std::string help = manual::help_text(verb);
    std::set<std::string> table = {"--help"};
    for (const manual::Option& option : verb.options) table.insert(option.name);
    CHECK(parser.options_of(verb.name) == table);
    for (const std::string& option : parser.options_of(verb.name)) {
      INFO(verb.name << " " << option);
      const std::string at = option == "--help" ? "  -h, " : "\n  ";
      CHECK((contains(help, at + option + " ") || contains(help, at + option + "\n")));
      CHECK(contains(page_of(verb.name), "\\fB" + manual::roff_typed(option) + "\\fR"));
      CHECK((contains(zsh_case(verb.name), option + "[") || contains(zsh_case(verb.name), option + "=[")));
      CHECK(contains(fish, fish_line(verb.name, option)));
    }
  }
}

TEST_CASE("What takes a value in the table takes one in the parser, and what is typed without a name too",
          "[program]") {
  const Parser parser;
  for (const manual::Verb& verb : manual::program().verbs) {
    const CLI::App* app = parser.app.get_subcommand(verb.name);
    for (const manual::Option& option : verb.options) {
      INFO(verb.name << " " << option.name);
      CHECK((app->get_option(option.name)->get_items_expected_max() > 0) == !option.value.empty());
      CHECK(app->get_option(option.name)->get_required() == option.required);
    }
    const auto operands = app->get_options([](const CLI::Option* o) { return o->get_positional(); });
    REQUIRE(operands.size() == (verb.operand ? 1 : 0));
    if (!verb.operand) continue;
    CHECK(operands.front()->get_name(true) == verb.operand->name);
    CHECK(operands.front()->get_required());
    CHECK(contains(page_of(verb.name), "\\fI" + verb.operand->name + "\\fR"));
  }
}

TEST_CASE("The help of a verb has its own examples, and the program's the general ones", "[program]") {
  const Folder folder;
  const std::string general = run({"--help"}, folder).out;
  CHECK(general == manual::help_text(manual::program()));
  for (const manual::Example& it : manual::program().examples) CHECK(contains(general, "  " + it.command + "\n"));
  for (const manual::Verb& verb : manual::program().verbs) {
    INFO(verb.name);
    const std::string help = run({verb.name, "--help"}, folder).out;
    CHECK(help == manual::help_text(verb));
    CHECK(!verb.examples.empty());
    for (const manual::Example& it : verb.examples) CHECK(contains(help, "  " + it.command + "\n"));
    for (const manual::Exit& it : verb.exits) CHECK(contains(help, "\n  " + std::to_string(it.code) + " "));
    for (const std::string& line : lines_of(help))
      if (!line.starts_with("  screwtiny ")) CHECK(columns(line) <= 80);
  }
}

TEST_CASE("A page says all its sections, in ASCII, and no line of text begins as a command of roff would",
          "[program]") {
  const std::vector<std::string> sections = {"NAME",     "SYNOPSIS",    "DESCRIPTION", "OPTIONS",
                                             "EXAMPLES", "EXIT STATUS", "SEE ALSO"};
  for (const manual::Verb& verb : manual::program().verbs) {
    INFO(verb.name);
    const std::string page = page_of(verb.name);
    CHECK(is_ascii(page));
    std::size_t at = 0;
    for (const std::string& title : sections) {
      INFO(title);
      const std::size_t next = page.find("\n.SH " + title + "\n", at);
      REQUIRE(next != std::string::npos);
      at = next + 1;
    }
    for (const std::string& line : lines_of(page))
      if (line.starts_with("."))
        CHECK((line == ".PP" || line == ".TP" || line.starts_with(".SH ") || line.starts_with(".TH ")));
  }
}

TEST_CASE("Text that roff would take for a command is shown as it is", "[program]") {
  CHECK(manual::roff_prose(".SH no title") == "\\&.SH no title");
  CHECK(manual::roff_prose("'quoted'") == "\\&\\(aqquoted\\(aq");
  CHECK(manual::roff_prose("a\\fBb, a-b") == "a\\efBb, a-b");
  CHECK(manual::roff_typed("--hand-force") == "\\-\\-hand\\-force");
}
