#include "engine/base/udunits.hpp"

#include <udunits2.h>

#include <cmath>
#include <memory>
#include <mutex>

#include "engine/base/error.hpp"

namespace engine {
namespace {

struct FreeSystem {
  void operator()(ut_system* system) const { ut_free_system(system); }
};
struct FreeUnit {
  void operator()(ut_unit* unit) const { ut_free(unit); }
};
struct FreeConverter {
  void operator()(cv_converter* converter) const { cv_free(converter); }
};
using System = std::unique_ptr<ut_system, FreeSystem>;
using Unit = std::unique_ptr<ut_unit, FreeUnit>;
using Converter = std::unique_ptr<cv_converter, FreeConverter>;

System load() {
  ut_set_error_message_handler(ut_ignore);
  System system(ut_read_xml(nullptr));
  if (!system)
    throw Refusal(ExitCode::files, {"", 0, 0, "The table of units of UDUNITS cannot be loaded", "",
                                    "install the package libudunits2-data, and leave UDUNITS2_XML_PATH unset"});
  const Unit turn(ut_new_base_unit(system.get()));
  if (!turn || ut_map_symbol_to_unit("rev", UT_ASCII, turn.get()) != UT_SUCCESS)
    throw Refusal(ExitCode::files, {"", 0, 0, "The table of units of UDUNITS already has a unit 'rev'", "",
                                    "leave UDUNITS2_XML_PATH unset"});
  return system;
}

ut_system* library() {
  static const System system = load();
  return system.get();
}

std::mutex& turn_taking() {
  static std::mutex mutex;
  return mutex;
}

Unit parse(const std::string& expression) { return Unit(ut_parse(library(), expression.c_str(), UT_ASCII)); }

}  // namespace

bool is_known(const std::string& expression) {
  const std::lock_guard<std::mutex> lock(turn_taking());
  return parse(expression) != nullptr;
}

std::optional<double> conversion_factor(const std::string& unit, const std::string& target) {
  const std::lock_guard<std::mutex> lock(turn_taking());
  const Unit from = parse(unit);
  const Unit to = parse(target);
  if (!from || !to || ut_are_convertible(from.get(), to.get()) == 0) return std::nullopt;
  // A reciprocal passes as convertible; only the same dimension, whose ratio is a bare number, will do.
  const Unit ratio(ut_divide(from.get(), to.get()));
  if (!ratio || ut_is_dimensionless(ratio.get()) == 0) return std::nullopt;
  const Converter converter(ut_get_converter(from.get(), to.get()));
  if (!converter) return std::nullopt;
  const double factor = cv_convert_double(converter.get(), 1.0) - cv_convert_double(converter.get(), 0.0);
  if (!std::isfinite(factor) || factor == 0) return std::nullopt;
  return factor;
}

}  // namespace engine
