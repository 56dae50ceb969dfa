#include "studies/ask/comparison.hpp"

namespace studies {

std::string Alteration::name() const {
  std::string all;
  for (std::size_t i = 0; i < differences.size(); ++i)
    all += (i == 0 ? "" : i + 1 == differences.size() ? " and " : ", ") + differences[i].name;
  return all;
}

std::string Measure::name() const {
  const std::string limit(models::row(must).name), value(models::row(output).name);
  switch (kind) {
    case Kind::nominal:
      return value;
    case Kind::median:
      return value + ".median";
    case Kind::margin:
      return "margin." + limit;
    case Kind::shortfall:
      return "shortfall." + limit;
  }
  return value;
}

engine::Dimension Measure::dimension() const {
  const bool of_output = kind == Kind::nominal || kind == Kind::median;
  return of_output ? models::row(output).dimension : engine::Dimension::none;
}

}  // namespace studies
