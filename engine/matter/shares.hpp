#pragma once
/// Whose scatter an output's scatter comes from: variance shares by groups of the law's parts.
#include <cstdint>
#include <vector>

#include "engine/matter/group.hpp"
#include "engine/pass/block.hpp"
#include "engine/pass/loop.hpp"

namespace engine {

/// An estimate with its 95 % bounds.
struct Estimate {
  double low = 0, estimate = 0, high = 0;
};

/// What a group contributes to the variance of an output, each in [0, 1].
struct VarianceShare {
  Estimate first;  ///< what knowing the group exactly would take away on average: Var E(y|group)/Var y
  Estimate total;  ///< what would be left if all else were known: E Var(y|all else)/Var y, its interplay included
};

struct Shares {
  enum class Why { known, constant, unbounded };
  Why why = Why::known;  ///< constant: the output does not vary; unbounded: it has no finite value on some passes
  std::vector<VarianceShare> groups;  ///< [group]; NaN unless known
  double mean = 0, variance = 0;
};

/// Passes of each of the two matrices when nobody asks otherwise: shares to about two figures. The model is called
/// (2 + groups) times as often.
inline constexpr std::uint64_t share_passes = 32768;

/// Variance shares of groups that may overlap: first-order and total Sobol' indices of each group as one variable.
///
/// Two matrices of uniforms, A and B, are the two halves of one Sobol' plan of twice the law's dimensions; A_g is A
/// with the group's columns from B. First order: mean of f(B)(f(A_g) − f(A)); total: mean of (f(A) − f(A_g))²/2; both
/// over the variance of all f(A) and f(B). Bounds: Student's t over the 16 independent nets, linearised for the ratio.
/// A group of all parts has shares of exactly 1, an empty one of exactly 0.
///
/// Tied parts: a share is that of the *values* of a group, and has a plain meaning only where the group is independent
/// of the rest; a group must hold all parts or none of those tied together (see tied_together). There is no splitting
/// of a tied pair into shares of its own, neither by order nor behind the factor of the correlation.
/// @param count  passes of each matrix, rounded up to whole nets
/// @throws std::invalid_argument for a group that splits tied parts
/// @source Saltelli et al., Comput. Phys. Commun. 181 (2010), Table 2 b, with f centred on its mean; Jansen, Comput.
///         Phys. Commun. 117 (1999); nets: Owen, ACM Trans. Model. Comput. Simul. 13 (2003)
Shares shares(const Law& law, const BlockModel& model, std::size_t output, const std::vector<Group>& groups,
              std::uint64_t count, std::uint64_t key, const Running& running);

}  // namespace engine
