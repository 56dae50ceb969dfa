#pragma once
/// The units library behind one door: its parser is not safe for threads, so every call takes turns.
#include <optional>
#include <string>

namespace engine {

/// Whether the library can read this expression. Beside its own units it knows `rev`, a full turn, as a base unit:
/// angles are never bare numbers here.
/// @param expression  in the library's own grammar, checked by the caller: what people type goes through UnitSpelling
/// @throws Refusal (files) when the library's table of units cannot be loaded
bool is_known(const std::string& expression);

/// What one of `unit` is in `target`, an offset (degrees Celsius) left out; empty where one is not known or the two
/// measure different things.
/// @throws Refusal (files) as is_known
std::optional<double> conversion_factor(const std::string& unit, const std::string& target);

}  // namespace engine
