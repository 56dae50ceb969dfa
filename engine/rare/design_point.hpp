#pragma once
/// Design points: the failures nearest the origin of standard normal space, and the first-order odds they give.
#include <cstdint>
#include <vector>

#include "engine/pass/loop.hpp"
#include "engine/rare/limit_state.hpp"
#include "engine/rare/subset.hpp"

namespace engine::rare {

struct DesignPoint {
  double beta = 0;  ///< distance from the origin [-]; negative where the origin itself fails
  Point u;          ///< the point
  Point alpha;      ///< unit vector towards failure, −∇g/|∇g|; the squares are importance factors and sum to 1
};

struct DesignOptions {
  std::size_t starts = 24;       ///< searches begun; raise when failures lie in many directions
  std::size_t points = 16;       ///< most points handed back
  std::uint64_t calls = 400000;  ///< searches stop being begun beyond this; a gradient costs two calls a dimension
  double apart = 0.3;            ///< points nearer than this share of their distance are one
};

struct FirstOrder {
  double beta = 0;  ///< of the nearest point; +infinity when none was found
  double p = 0;     ///< Φ(−β) of the nearest point alone: exact for a plane, else a guess without bounds
  std::vector<DesignPoint> points;  ///< all distinct ones, nearest first
  std::uint64_t calls = 0;
};

/// All distinct design points that searches from many starts lead to: the origin, known failures in unlike directions,
/// the failures of a pilot of wider normals, and random directions. Each search is iHL-RF with a merit line search;
/// where it does not settle, COBYLA takes over (up to 40 dimensions).
/// A point is local: nearest in its neighbourhood, by first-order conditions only.
/// @param hints  failures known already, of any number; may be empty
/// @source Hasofer & Lind, J. Eng. Mech. Div. ASCE 100 (1974); Rackwitz & Fiessler, Computers & Structures 9 (1978);
///         Zhang & Der Kiureghian, Reliability and Optimization of Structural Systems (1995): merit function ½|u|² +
///         c|g|
FirstOrder design_points(const LimitState& state, const DesignOptions& options, const std::vector<Point>& hints,
                         std::uint64_t key, const Running& running = {});

/// Failures in unlike directions, nearest the origin first: none lies within 60° of one before it.
/// @param most  how many at most
std::vector<Point> unlike(const std::vector<Point>& failures, std::size_t most);

}  // namespace engine::rare
