#include "studies/ask/common_draws.hpp"

#include <algorithm>
#include <map>
#include <string>

namespace studies {
namespace {

constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

/// The parts of one input on one side.
struct Parts {
  std::vector<std::string> varies;  ///< "every pull", …; empty for draws
  std::vector<std::size_t> places;  ///< nowhere at first
};

using Sides = std::array<Parts, models::input_count>;

bool is_draws(const engine::Part& part) { return part.marginal.shape == engine::Shape::draws; }

Sides parts_of(const InputLaw& inputs) {
  Sides all;
  const std::vector<engine::Part>& parts = inputs.law.parts();
  for (std::size_t p = 0; p < parts.size(); ++p) {
    all[parts[p].input].varies.push_back(is_draws(parts[p]) ? "" : inputs.used[p].varies);
    all[parts[p].input].places.push_back(nowhere);
  }
  return all;
}

/// The next part that has no place and, where it is asked, varies so; draws have no part in it.
std::size_t next(const Parts& parts, const std::string* varies) {
  for (std::size_t i = 0; i < parts.places.size(); ++i)
    if (parts.places[i] == nowhere && !parts.varies[i].empty() && (!varies || parts.varies[i] == *varies)) return i;
  return nowhere;
}

void pair_alike(Parts& a, Parts& b, std::size_t& count) {
  for (const std::string varies : {"every pull", "every screw", "fixed"})
    for (;;) {
      const std::size_t i = next(a, &varies), j = next(b, &varies);
      if (i == nowhere || j == nowhere) break;
      a.places[i] = b.places[j] = count++;
    }
}

void place_the_rest(Parts& a, Parts& b, std::size_t& count) {
  for (;;) {
    const std::size_t i = next(a, nullptr), j = next(b, nullptr);
    if (i == nowhere && j == nowhere) return;
    if (i != nowhere) a.places[i] = count;
    if (j != nowhere) b.places[j] = count;
    ++count;
  }
}

/// Gives the files of draws of one side their uniforms, from `first` on, in the order in which they come.
/// @return  how many there are
std::size_t place_draws(const InputLaw& inputs, Sides& sides, std::size_t first) {
  std::map<std::string, std::size_t> files;
  std::array<std::size_t, models::input_count> seen{};
  for (const engine::Part& part : inputs.law.parts()) {
    std::size_t& place = sides[part.input].places[seen[part.input]++];
    if (is_draws(part)) place = first + files.emplace(part.marginal.column->table, files.size()).first->second;
  }
  return files.size();
}

Places places_of(const Sides& sides) {
  Places places;
  for (std::size_t k = 0; k < sides.size(); ++k) places[k] = sides[k].places;
  return places;
}

}  // namespace

CommonPlaces common_places(const InputLaw& a, const InputLaw& b) {
  Sides one = parts_of(a), other = parts_of(b);
  std::size_t count = 0;
  for (std::size_t k = 0; k < models::input_count; ++k) {
    pair_alike(one[k], other[k], count);
    place_the_rest(one[k], other[k], count);
  }
  const std::size_t files = std::max(place_draws(a, one, count), place_draws(b, other, count));
  return {places_of(one), places_of(other), count + files};
}

CommonDraws::CommonDraws(const InputLaw& a, const InputLaw& b, std::uint64_t passes, std::uint64_t key)
    : places_(common_places(a, b)),
      plan_(engine::Plan::Kind::sobol, places_.count, passes, key, engine::Stream::compare) {
  for (std::uint64_t block = 0; block < plan_.blocks(); ++block) {
    uniforms_.emplace_back(std::max<std::size_t>(1, places_.count));
    plan_.fill(block, uniforms_.back());
  }
}

std::vector<std::size_t> CommonDraws::rows(const engine::Law& law,
                                           const std::array<bool, models::input_count>& taken) const {
  std::vector<std::size_t> rows(law.dimensions());
  std::array<std::size_t, models::input_count> seen{};
  for (std::size_t p = 0; p < law.parts().size(); ++p) {
    const std::size_t input = law.parts()[p].input;
    rows[law.dimension(p)] = (taken[input] ? places_.second : places_.first)[input][seen[input]++];
  }
  return rows;
}

void CommonDraws::draw(const engine::Law& law, const std::vector<std::size_t>& rows, std::uint64_t block,
                       engine::Block& x) const {
  const std::size_t n = plan_.size(block);
  engine::Block u(std::max<std::size_t>(1, rows.size()));
  for (std::size_t d = 0; d < rows.size(); ++d) std::copy_n(uniforms_[block].row(rows[d]), n, u.row(d));
  std::vector<std::uint64_t> clipped(models::input_count);
  law.transform(u, x, n, clipped);
}

}  // namespace studies
