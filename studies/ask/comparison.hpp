#pragma once
/// What changed between two judged screws, and what the changes did: everything that is said of it.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "studies/ask/answer.hpp"

namespace studies {

/// What stands on one side of a difference: words, a value, or both ("margin", 3).
struct TypedValue {
  std::string words;
  std::optional<double> si;
  engine::Dimension dimension = engine::Dimension::none;  ///< of the value
};

/// One thing that is not the same in two studies or their screws.
struct Difference {
  std::string key;   ///< where it is typed: "duty.torque"
  std::string name;  ///< "torque", "margin of buckling asked"
  TypedValue from, to;
};

/// A change that what moved is attributed to: one difference, or several that cannot be made one without the other.
struct Alteration {
  std::vector<Difference> differences;
  std::string name() const;  ///< "thread", "lubrication and thread friction"
};

/// A number by which two screws are compared.
struct Measure {
  enum class Kind {
    nominal,   ///< an output at nominal
    median,    ///< the same output in half of the passes
    margin,    ///< of a limit that both have, at nominal
    shortfall  ///< of such a limit: of 100 passes, those that miss it
  };
  Kind kind = Kind::nominal;
  models::Output output = models::Output::force;
  models::Must must = models::Must::force;

  std::string name() const;  ///< "force", "force.median", "margin.yield", "shortfall.yield"
  engine::Dimension dimension() const;
};

/// A measure of both screws on the same passes. What has no value is NaN.
struct Moved {
  Measure of;
  double from = 0, to = 0;
  Bounded change;          ///< to − from; its bounds have no width where no pass is needed to know it
  std::vector<double> by;  ///< of each alteration, in their order; their sum is to − from

  /// Whether the passes tell that it moved at all.
  bool told() const { return change.low > 0 || change.high < 0; }
};

struct Comparison {
  std::vector<Alteration> alterations;
  std::vector<Difference> besides;  ///< differences that move no measure: passes, odds asked, limits of one side
  std::vector<Moved> moved;
  bool every_order = true;     ///< attributed over all orders of the alterations; else forwards and backwards alone
  std::uint64_t passes = 0;    ///< common to both
  std::uint64_t mixtures = 0;  ///< screws put through them, both ends included
};

}  // namespace studies
