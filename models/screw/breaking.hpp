#pragma once
/// Pulled too hard: the torque at which each part breaks, and which of them goes first. One pass, plain doubles,
/// inlined into the block loops.
#include "models/screw/kernel.hpp"

namespace models {

/// A torque [N·m] beside which any drag is nothing.
inline constexpr double far_out = 1e9;

/// A guess at a torque [N·m], the one before it, and demand over capacity there.
struct Approach {
  double torque, last, at_last;
};

/// Torque [N·m] at which a margin that falls with the torque comes down to 1; +infinity where none does. Demand over
/// capacity, its inverse, is convex: in proportion to the torque up to the drag, bent by the force beyond it. The line
/// from the drag to a torque far out is the first guess, exact for whatever goes with the force or the torque alone
/// (and for all without drag); four secant steps bring the rest within rounding, and within 1e-5 of itself where the
/// drag is most of it.
/// @param drag    T_0 [N·m], ≥ 0
/// @param margin  capacity over demand at a torque [N·m]
template <class Margin>
[[gnu::always_inline]] inline double breaking_torque(double drag, Margin margin) {
  const double at_drag = 1 / margin(drag), beyond = drag + far_out, at_beyond = 1 / margin(beyond);
  const auto nearer = [&](const Approach& a) __attribute__((always_inline)) {
    const double here = 1 / margin(a.torque), slope = (here - a.at_last) / (a.torque - a.last);
    const double next = larger(drag, a.torque + (1 - here) / slope);
    return Approach{slope > 0 ? next : a.torque, a.torque, here};
  };
  const double first = drag + (beyond - drag) * (1 - at_drag) / (at_beyond - at_drag);
  // Not a loop: that would keep the loop over passes from vectorising.
  const double torque = nearer(nearer(nearer(nearer(Approach{first, beyond, at_beyond})))).torque;
  const double by_force = at_beyond > at_drag ? torque : __builtin_inf();
  return at_drag >= 1 ? drag / at_drag : by_force;
}

/// The torque [N·m] at which each part breaks as the screw is wound up on this pass, as by Kernel::turn_at: with the
/// handle bending of the overload pull, or of the working pull where none is given. What goes with the force alone is
/// known from one torque far out. A part that no torque breaks has +infinity.
[[gnu::always_inline]] inline Parts breaking_torques(const Kernel& kernel, const Draw& x) {
  const auto at = [&](double torque) __attribute__((always_inline)) {
    const Turning turning = kernel.turn_at(torque, x);
    return kernel.parts(kernel.load(turning), turning, x);
  };
  const double beyond = x.drag + far_out;
  const Parts there = at(beyond);
  Parts torque;
  torque.yield = breaking_torque(
      x.drag, [&](double T) __attribute__((always_inline)) { return at(T).yield; });
  torque.screw_root = breaking_torque(
      x.drag, [&](double T) __attribute__((always_inline)) { return at(T).screw_root; });
  torque.nut_root = x.drag + (beyond - x.drag) * there.nut_root;
  torque.thread_root = smaller(torque.screw_root, torque.nut_root);
  torque.nut_body = x.drag + (beyond - x.drag) * there.nut_body;
  torque.buckling = x.drag + (beyond - x.drag) * there.buckling;
  torque.stripping = x.drag + (beyond - x.drag) * there.stripping;
  return torque;
}

/// Whether the part marked is the first to break. Against stripping and the nut's body the bending of the nut's own
/// first turn does not count: it hands the load on to the next turns and is how a nut begins to go, long before it
/// strips.
class First {
public:
  /// @param part  one of those that break: see `breaks`
  explicit First(Must part);

  /// Least breaking torque of the other parts over that of the part marked: 1 or more where it goes first (a tie is
  /// enough), +infinity where nothing else ever breaks, 0 where no torque breaks it.
  /// @param torque  at which each part breaks [N·m]
  [[gnu::always_inline]] double margin(const Parts& torque) const {
    const double own = least(torque, marked_), other = least(torque, others_);
    return own < __builtin_inf() ? over(other, own) : 0.0;
  }

private:
  /// The least of those that count: 0 is added to them, +infinity to the rest.
  [[gnu::always_inline]] static double least(const Parts& torque, const Parts& counts) {
    const double root = smaller(torque.screw_root + counts.screw_root, torque.nut_root + counts.nut_root);
    const double screw = smaller(torque.yield + counts.yield, torque.buckling + counts.buckling);
    const double nut = smaller(torque.nut_body + counts.nut_body, torque.stripping + counts.stripping);
    return smaller(root, smaller(screw, nut));
  }

  Parts marked_, others_;
};

/// Whether a limit is of a part that breaks as the torque rises: yield, thread_root, nut_body, buckling, stripping.
bool breaks(Must must);
/// Whether that part is the nut's own: its body, or the threads that strip.
bool of_nut(Must part);

}  // namespace models
