#pragma once
/// The command line as CLI11 has it.
#include "studies/run/options.hpp"

namespace CLI {
class App;
}

namespace studies {

/// Puts every verb and option of the program on an empty parser; what is then typed lands in `options`.
/// @param options  must outlive the parser
void define(CLI::App& app, Options& options);

}  // namespace studies
