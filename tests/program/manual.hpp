#pragma once
/// The command line as the tests of help, manual and completion walk it.
#include <map>
#include <set>
#include <string>

#include <CLI/CLI.hpp>

#include "studies/manual/command.hpp"
#include "studies/run/parser.hpp"
#include "tests/program/call.hpp"

namespace tests {

/// The parser of the program itself.
struct Parser {
  studies::Options options;
  CLI::App app;
  Parser() { studies::define(app, options); }

  /// Long names of all that a verb takes, --help among them.
  std::set<std::string> options_of(const std::string& verb) const {
    std::set<std::string> names;
    for (const CLI::Option* option : app.get_subcommand(verb)->get_options())
      for (const std::string& name : option->get_lnames()) names.insert("--" + name);
    return names;
  }
};

/// Every installed file, as of a day.
const std::map<std::string, std::string>& manual_texts();
/// The text of one of them: "man/man1/screwtiny.1".
const std::string& manual_file(const std::string& name);
/// What stands in a text between two marks.
std::string between(const std::string& text, const std::string& from, const std::string& to);

}  // namespace tests
