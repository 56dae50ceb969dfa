#pragma once
/// One part of a scattered quantity while it is being read: its keys, checked.
#include "studies/read/scatter.hpp"

namespace studies::read {

/// A deviation as typed: absolute, or a share of the mean.
struct Deviation {
  double size = 0;
  bool relative = false;
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
  /// The shape typed, else the usual one; none where it was refused.
  std::optional<engine::Shape> shape(engine::Shape usual) const;
  /// Refuses keys that have no say beside the one that gives the form.
  bool alone(const char* key, const std::vector<std::string>& others) const;
  void refuse(const char* key, std::string problem, std::string reason, std::string fix) const;
};

}  // namespace studies::read
