#pragma once
/// Every figure of a sheet. Those that a study has no use for are not there.
#include <optional>

#include "studies/sheet/figure.hpp"

namespace studies::sheet {

// Drawings to scale: drawings.cpp
Figure view(const Scene& scene);
Figure profile(const Scene& scene);
Figure ramp(const Scene& scene);

// What it does: task.cpp
/// The force that the pulls reach at least; of a lift, the torque or hand force that is enough.
Figure chance(const Scene& scene);
/// How force or effort go with the length of the handle, the torque or the load.
std::optional<Figure> handle(const Scene& scene);
/// The load that keeps the buckling margin against the free length, of the pick and its neighbours.
std::optional<Figure> reach(const Scene& scene);

// What must hold: holding.cpp
std::optional<Figure> ladder(const Scene& scene);
/// What every size has of every limit.
std::optional<Figure> window(const Scene& scene);
/// What the limits have at other lengths of the nut.
std::optional<Figure> nut_length(const Scene& scene, const engine::Running& running);

// Where it comes from: sources.cpp
/// Lift, thread, face and drag, of the pick and of other choices.
std::optional<Figure> torque(const Scene& scene);
std::optional<Figure> matters(const Scene& scene);
std::optional<Figure> worth(const Scene& scene);
std::optional<Figure> trade(const Scene& scene);

// What may happen: outcomes.cpp
/// Which frictions hold, fall short, damage or wind back.
std::optional<Figure> friction_map(const Scene& scene);
/// In how many of a hundred each part has broken as the torque rises.
std::optional<Figure> first_to_go(const Scene& scene);
/// How the shortfall settled as passes were added.
std::optional<Figure> settling(const Scene& scene, const engine::Running& running);

/// All there are, in the order of the page.
std::vector<Figure> all_figures(const Scene& scene, const engine::Running& running);

}  // namespace studies::sheet
