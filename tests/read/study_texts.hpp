#pragma once
/// Small complete studies that the reader's tests change one thing of.
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "studies/read/reader.hpp"

/// A clamp in which nothing is doubtful.
inline const std::string clamp_text = R"(title = "A clamp"
[duty]
action = "clamp"
force = "10 kN"
torque = "60 N.m"
travel = "200 mm"
[choose]
thread = "Tr 24x5"
nut_length = "40 mm"
lubrication = "oil"
screw = "steel 1045 hot rolled"
nut = "bearing bronze C93200"
face = { kind = "pad", mean_radius = "4 mm", on = "bronze" }
[scatter]
[must]
yield = { margin = 1.5 }
[aim]
[passes]
)";

/// A lift turned by hand.
inline const std::string lift_text = R"(title = "A jack"
[duty]
action = "lift"
force = "2500 lbf"
hand_force = "30 lbf"
handle = "18 in"
travel = "10 in"
[choose]
thread = "1-1/4-5 Acme"
nut_length = "2 in"
lubrication = "oil"
screw = "steel 1018 cold drawn"
nut = "bearing bronze C93200"
face = { kind = "rolling", mean_radius = "0.8 in" }
[scatter]
[must]
buckling = { margin = 3 }
)";

/// A text with the first occurrence of each first replaced by its second, which must be there.
inline std::string with(std::string text, const std::vector<std::pair<std::string, std::string>>& changes) {
  for (const auto& [from, to] : changes) {
    const std::size_t at = text.find(from);
    if (at == std::string::npos) throw std::logic_error("nothing to change: " + from);
    text.replace(at, from.size(), to);
  }
  return text;
}

/// Reads a text as "study.toml" with the program's own tables.
studies::Study study_of(const std::string& text, studies::Verb verb = studies::Verb::vet);
/// What is wrong with a text; empty where nothing is.
std::vector<engine::Problem> problems(const std::string& text, studies::Verb verb = studies::Verb::vet);
/// The same as the user sees it, a line each.
std::string refusal(const std::string& text, studies::Verb verb = studies::Verb::vet);
