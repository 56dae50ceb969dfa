#include "studies/read/passes.hpp"

#include <fmt/format.h>

#include "engine/base/utf8.hpp"
#include "studies/read/suggest.hpp"

namespace studies::read {
namespace {

using engine::Node;

/// Names that an aim may carry one day, beside "mass".
bool is_later_aim(const std::string& name) {
  const bool odds = name.rfind("odds.", 0) == 0 && models::must_named(name.substr(5));
  return models::output_named(name) || name == "nut_length" || odds;
}

}  // namespace

void read_aim(Page& page) {
  const View aim = page.table(page.top(), "aim");
  page.study.aim_typed = page.top().has("aim");
  const Node* least = aim.find("least");
  if (!least) {
    page.echo_default("aim.least", std::nullopt);
    return;
  }
  if (least->kind == Node::Kind::list) {
    page.refuse(least->place, "an aim of several outputs is not built yet", "This version seeks the lightest screw",
                "write least = \"mass\"");
  } else if (least->kind == Node::Kind::text && least->text != "mass" && is_later_aim(least->text)) {
    page.refuse(least->place, fmt::format("the aim '{}' is not built yet", engine::excerpt(least->text)),
                "This version seeks the lightest screw", "write least = \"mass\"");
  } else {
    page.word(aim, "least", {"mass"});
  }
}

void read_passes(Page& page) {
  const View in = page.table(page.top(), "passes");
  Passes& passes = page.study.passes;
  constexpr double most_passes = 0x1p40;
  const double count = page.number_or_default(in, "count");
  if (count > most_passes)
    page.refuse(in.find("count")->place, fmt::format("passes.count = {} is out of reach", as_typed(*in.find("count"))),
                "", "ask for fewer passes");
  else
    passes.count = static_cast<std::uint64_t>(count);
  const std::string plan = page.word_or_default(in, "plan", {"plain", "sobol", "latin"});
  for (const Passes::Plan one : {Passes::Plan::plain, Passes::Plan::latin})
    if (plan == name(one)) passes.plan = one;
  const double key = page.number_or_default(in, "key");
  constexpr double largest_key = 0x1p53;
  if (key > largest_key)
    page.refuse(in.find("key")->place, fmt::format("passes.key = {} is too large", as_typed(*in.find("key"))), "",
                "use a whole number up to 9007199254740992");
  else
    passes.key = static_cast<std::uint64_t>(key);
  passes.keep = page.truth_or_false(in, "keep");
}

}  // namespace studies::read
