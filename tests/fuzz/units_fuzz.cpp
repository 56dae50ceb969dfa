// Any text is a quantity or a QuantityError; a quantity read back in its own unit is the number typed.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "engine/base/units.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const auto dimension = static_cast<engine::Dimension>(data[0] % 15);
  const std::string text(reinterpret_cast<const char*>(data + 1), size - 1);
  engine::is_inch_unit(text);
  try {
    const engine::Quantity quantity = engine::parse_quantity(text, dimension);
    if (!std::isfinite(quantity.si) || !std::isfinite(quantity.given)) std::abort();
    const double again = engine::in_unit(quantity.si, quantity.unit, dimension);
    const bool tiny = std::fabs(quantity.si) < 1e-290 || std::fabs(quantity.si) > 1e290;
    if (!tiny && std::fabs(again - quantity.given) > 1e-12 * std::fabs(quantity.given)) std::abort();
  } catch (const engine::QuantityError& error) {
    if (error.problem.empty() || error.fix.empty()) std::abort();
  }
  return 0;
}
