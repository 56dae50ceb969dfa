#include "studies/read/passes.hpp"

#include <fmt/format.h>

namespace studies::read {
namespace {

using engine::Node;

/// Number of passes at a key, or its default.
std::uint64_t passes_of(Page& page, const View& in, const std::string& key) {
  constexpr double most_passes = 0x1p40;
  const double count = page.number_or_default(in, key);
  if (count <= most_passes) return static_cast<std::uint64_t>(count);
  const Node& node = *in.find(key);
  page.refuse(node.place, fmt::format("{} = {} is out of reach", in.under(key), as_typed(node)), "",
              "ask for fewer passes");
  return 1;
}

/// Digits beyond the fourth take more than a hundred million million passes.
constexpr double most_digits = 4;

void read_settle(Page& page, const View& in) {
  const View settle = page.table(in, "settle");
  if (in.has("count"))
    page.refuse(in.find("count")->place, "passes.count beside passes.settle",
                "Either their number is given or the digits that are to stand", "take one of the two out");
  Passes::Settle& passes = page.study.passes.settle.emplace();
  const double digits = page.number_or_default(settle, "digits");
  if (digits > most_digits)
    page.refuse(settle.find("digits")->place,
                fmt::format("passes.settle.digits = {} is out of reach", as_typed(*settle.find("digits"))),
                "Each digit takes a hundred times the passes", "ask for 1 or 2, or 4 at most");
  else
    passes.digits = static_cast<int>(digits);
  passes.at_most = passes_of(page, settle, "at_most");
}

}  // namespace

void read_passes(Page& page) {
  const View in = page.table(page.top(), "passes");
  Passes& passes = page.study.passes;
  if (in.has("settle"))
    read_settle(page, in);
  else
    passes.count = passes_of(page, in, "count");
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
