#include "studies/sheet/figures.hpp"

namespace studies::sheet {

std::vector<Figure> all_figures(const Scene& scene, const engine::Running& running) {
  std::vector<Figure> all = {view(scene), profile(scene), ramp(scene)};
  const auto add = [&](std::optional<Figure> figure) {
    if (figure) all.push_back(std::move(*figure));
  };
  add(torque(scene));
  add(ladder(scene));
  add(chance(scene));
  add(first_to_go(scene));
  add(window(scene));
  add(reach(scene));
  add(friction_map(scene));
  add(matters(scene));
  add(handle(scene));
  add(nut_length(scene, running));
  add(worth(scene));
  add(trade(scene));
  add(settling(scene, running));
  return all;
}

}  // namespace studies::sheet
