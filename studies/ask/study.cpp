#include "studies/ask/study.hpp"

#include <cmath>

namespace studies {

std::vector<double> Range::multiples() const {
  if (fixed()) return {from};
  if (!(step > 0)) return {from, to};
  std::vector<double> all;
  constexpr double hair = 1e-9;  // an end that is a multiple but for rounding counts
  for (double k = std::ceil(from / step - hair); k * step <= to * (1 + hair); ++k) all.push_back(k * step);
  return all;
}

std::string name(Level level) {
  switch (level) {
    case Level::notice:
      return "NOTICE";
    case Level::caution:
      return "CAUTION";
    case Level::warning:
      return "WARNING";
    case Level::danger:
      return "DANGER";
  }
  return "";
}

}  // namespace studies
