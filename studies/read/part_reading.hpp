#pragma once
/// One part of a scattered quantity while it is being read: its keys, checked.
#include "studies/read/scatter.hpp"

namespace studies::read {

/// A deviation as typed: absolute, or a share of the mean.
struct Deviation {
  double size = 0;
  bool relative = false;
};

/// What 'above' and 'below' leave of a distribution.
struct Kept {
  double least, most;  ///< infinite where not typed
  std::string said;    ///< in words, to stand behind those of the distribution; empty where nothing is cut
  engine::Marginal of(const engine::Marginal& whole) const {
    return said.empty() ? whole : between(whole, least, most);
  }
};

struct Reading {
  Page& page;
  const View view;
  const Scattered& of;
  bool first;  ///< the first of its list, or the only one

  /// What stands behind a key that is there, as typed.
  std::string typed(const char* key) const;
  /// A value in the dimension of the input; none when not typed or refused.
  std::optional<double> value(const char* key, Bound bound) const;
  /// "5 %" is a share, "3 N.m" is not; the key must be there.
  std::optional<Deviation> deviation(const char* key) const;
  Varies varies() const;
  /// The bound of an end of a distribution: a value may not reach 0 where an end may.
  Bound end_bound() const { return of.bound == Bound::above_zero ? Bound::zero_or_more : of.bound; }
  /// What 'above' and 'below' leave; none where one was refused.
  std::optional<Kept> kept(Bound bound) const;
  /// The shape typed, else the usual one; none where it was refused.
  std::optional<engine::Shape> shape(engine::Shape usual) const;
  /// Refuses keys that have no say beside the one that gives the form.
  bool alone(const char* key, const std::vector<std::string>& others) const;
  void refuse(const char* key, std::string problem, std::string reason, std::string fix) const;
};

/// A part by 'spread' or 'within'. Shapes need what they need: beta low and high, student dof above 2; low is the
/// threshold of a weibull, 0 where not typed. Where the mean is not typed, the first part's is the duty's or the
/// table's value; later parts are deviations, and so are their ends. Mean and spread are those before 'above' and
/// 'below' cut.
/// @throws std::invalid_argument as the makers of engine/draw
std::optional<PartRead> read_spread(const Reading& part);
/// A part by 'draws' and 'column': a column of a file of draws, resampled row by row.
std::optional<PartRead> read_draws(const Reading& part);

}  // namespace studies::read
