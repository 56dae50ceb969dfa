#include <cmath>

#include "engine/draw/marginal.hpp"
#include "engine/lanes/point_math.hpp"

namespace engine {

double normal_distribution(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

double normal_quantile(double u) { return normal_quantile_at(u); }

}  // namespace engine
