#pragma once
/// How much of a change each of the alterations is answerable for, whatever order they are made in.
#include <cstdint>
#include <functional>
#include <vector>

namespace studies {

/// Which alterations are made: bit i is that of alteration i.
using Made = std::uint64_t;

/// Up to so many alterations the shares are means over all orders.
inline constexpr std::size_t most_for_every_order = 8;
inline constexpr std::size_t most_alterations = 63;

/// The sets of alterations that shares are reckoned from, in rising order: all of them up to most_for_every_order
/// alterations; beyond that those of making them in the order given, and in the opposite one.
std::vector<Made> sets_needed(std::size_t alterations);

/// What each alteration adds to a value: the mean, over the orders in which they could be made, of what it adds to
/// those made before it. The shares sum to the value with all of them less that with none, but for rounding; one that
/// adds nothing anywhere gets exactly 0.
/// @param value  of each set of sets_needed, in its order
/// @source Shapley, A value for n-person games, Contributions to the Theory of Games II (1953); from memory
std::vector<double> shares(std::size_t alterations, const std::vector<double>& value);

/// Which alterations cannot be made one without the other: pairs are put together, those first that part most of the
/// sets that cannot be built, until every set needed can be. The empty and the full set must be.
/// @param builds  whether a set of the original alterations can be built
/// @return  groups of indices, rising in each and by their first
std::vector<std::vector<std::size_t>> inseparable(std::size_t alterations, const std::function<bool(Made)>& builds);

}  // namespace studies
