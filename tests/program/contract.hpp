#pragma once
/// What a script may rely on in an answer printed with --json.
#include <nlohmann/json.hpp>

#include <string>

namespace tests {

/// Checks every key of an answer, its type, and what must agree with what.
/// @param sized  an answer of `size`; else of `rate`
void check_contract(const nlohmann::json& answer, bool sized);

/// Checks that no number is written as text for what is no number, and that no line is wider than a terminal.
void check_terminal(const std::string& text);

}  // namespace tests
