/// The verb that takes a study in its options.
#include "studies/manual/verbs.hpp"
#include "studies/read/short_study.hpp"

namespace studies::manual {
namespace {

/// Its sentence, and what stands in its place where it is not typed.
std::string sentence(const ShortOption& it) {
  return std::string(it.help) + (it.usual.empty() || !it.flag.empty() ? "" : "; else " + std::string(it.usual));
}

Fills fills(const ShortOption& it) {
  if (it.path == "choose.screw" || it.path == "choose.nut") return Fills::material;
  return it.words.empty() ? Fills::anything : Fills::words;
}

/// What cannot stand beside it.
std::string excluded(std::string_view name) {
  constexpr std::pair<std::string_view, std::string_view> pairs[] = {{"--force", "--load"}, {"--rolling", "--face-on"}};
  for (const auto& [one, other] : pairs) {
    if (name == one) return std::string(other);
    if (name == other) return std::string(one);
  }
  return "";
}

Option option_of(const ShortOption& it) {
  return {.name = std::string(it.name),
          .value = std::string(it.value),
          .help = sentence(it),
          .place = OfStudy{std::string(it.flag)},
          .fills = fills(it),
          .words = it.words,
          .required = it.name == "--thread",
          .excludes = excluded(it.name)};
}

}  // namespace

Verb reckon_verb() {
  Verb verb{.name = "reckon",
            .help = "the answer to one line of typing, with bands; no file read or written",
            .about = {"One drive (--torque, or --hand-force with --handle) asks for the force, --load for the torque. "
                      "Quantities carry their unit, metric or inch. What is not typed is assumed, and the study that "
                      "the line amounts to is printed below the answer: saved as a file, 'rate' gives the same "
                      "figures."},
            .operand = std::nullopt,
            .options = {},
            .examples = {{"screwtiny reckon --thread \"Tr 40x7\" --torque \"120 N.m\"", "the force of a torque"},
                         {"screwtiny reckon --thread \"1-1/2-4 Acme\" --hand-force \"30 lbf\" --handle \"14 in\" "
                          "--hands 2 --lubrication dry",
                          "the force of two hands"},
                         {"screwtiny reckon --thread \"Tr 24x5\" --load \"12 kN\"", "the torque that lifts a load"}},
            .exits = {{0, "answered"},
                      {1, "the --force typed is not reached, or the torque is not enough"},
                      usage_exit(),
                      {3, "a wrong value"},
                      bug_exit()},
            .files = {}};
  for (const ShortOption& it : short_options()) verb.options.push_back(option_of(it));
  verb.options.push_back(threads_option());
  verb.options.push_back(json_option("one JSON object on standard output: that of 'rate', and the study's text"));
  verb.options.push_back(quiet_option("the verdict only"));
  return verb;
}

}  // namespace studies::manual
