/// Two aims: the screws of which none is better by one and as good by the other.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/ask/aim.hpp"
#include "studies/say/aims.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {

using engine::Dimension;

std::optional<Figure> trade(const Scene& scene) {
  const std::vector<TradePoint>& points = scene.answer.trade_off;
  if (points.size() < 2) return std::nullopt;
  const Quantity quantities[] = {scene.study.aims[0].of, scene.study.aims[1].of};
  Unit units[2];
  Json axes[2];
  for (const int i : {0, 1}) {
    const Dimension dimension = dimension_of(quantities[i]);
    double least = INFINITY, most = -INFINITY;
    for (const TradePoint& point : points)
      least = std::min(least, point.values[i]), most = std::max(most, point.values[i]);
    const bool bare = dimension == Dimension::none;
    units[i] = bare ? Unit{} : unit_for(scene.his, most == 0 ? 1 : most, dimension);
    const double room = most > least ? 0.08 * (most - least) : 0.1 * std::abs(most) + 1e-9;
    axes[i] = axis(say::quantity_words(quantities[i]), bare ? nullptr : &units[i], (least - room) * units[i].scale,
                   (most + room) * units[i].scale);
  }
  Json drawn = Json::array();
  Table numbers{
      {"Screw", say::capital(say::quantity_words(quantities[0])), say::capital(say::quantity_words(quantities[1]))},
      {}};
  const auto said = [&](double value, int i) {
    const Dimension dimension = dimension_of(quantities[i]);
    return dimension == Dimension::none ? figures(value) : both(scene.his, value, dimension);
  };
  for (const TradePoint& point : points) {
    const bool pick = point.screw.designation == scene.answer.pick->designation &&
                      point.screw.design.nut_length == scene.design.nut_length;
    drawn.push_back({{"x", point.values[0] * units[0].scale},
                     {"y", point.values[1] * units[1].scale},
                     {"label", point.screw.designation},
                     {"pick", pick}});
    numbers.rows.push_back({point.screw.designation, said(point.values[0], 0), said(point.values[1], 1)});
  }
  Figure figure{"trade", true, "", "", "", std::move(numbers), {}};
  figure.says = fmt::format("{} screws of which none is better by {} and as good by {}.", points.size(),
                            say::quantity_words(quantities[0]), say::quantity_words(quantities[1]));
  figure.alt = fmt::format("{} against {} of {} screws that hold.", say::capital(say::quantity_words(quantities[1])),
                           say::quantity_words(quantities[0]), points.size());
  figure.data = {{"kind", "trade"}, {"x", axes[0]}, {"y", axes[1]}, {"points", std::move(drawn)}};
  return figure;
}

}  // namespace studies::sheet
