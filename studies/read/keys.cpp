#include "studies/read/keys.hpp"

namespace studies::read {
namespace {

/// "choose.face[2].outer" as "choose.face.outer".
std::string without_indices(std::string_view path) {
  std::string plain;
  bool inside = false;
  for (const char letter : path) {
    inside = inside || letter == '[';
    if (!inside) plain += letter;
    if (letter == ']') inside = false;
  }
  return plain;
}

/// The part of a path before its last dot; empty for a name without dots.
std::string_view parent(std::string_view path) {
  const std::size_t dot = path.rfind('.');
  return dot == std::string_view::npos ? std::string_view() : path.substr(0, dot);
}

/// "scatter.torque" as "scatter.*", "must.force.odds" as "must.*.odds", "aim.cap.turns" as "aim.cap.*"; other paths as
/// they are.
std::string with_star(const std::string& path) {
  constexpr std::string_view caps = "aim.cap.";
  if (path.starts_with(caps)) return std::string(caps) + "*";
  const std::size_t first = path.find('.');
  const std::string section = path.substr(0, first);
  if (first == std::string::npos || (section != "scatter" && section != "must")) return path;
  const std::size_t second = path.find('.', first + 1);
  return section + ".*" + (second == std::string::npos ? "" : path.substr(second));
}

}  // namespace

const KeyRow* find_key(std::string_view path) {
  const std::string plain = without_indices(path), star = with_star(plain);
  for (const KeyRow& row : all_keys())
    if (row.path == plain || (row.path == star && plain.find('*') == std::string::npos)) return &row;
  return nullptr;
}

std::vector<std::string> names_below(std::string_view path) {
  const std::string plain = without_indices(path), star = with_star(plain);
  std::vector<std::string> names;
  for (const KeyRow& row : all_keys()) {
    const std::string_view above = parent(row.path);
    if (above == plain || (above == star && !plain.empty())) names.push_back(last_name(row.path));
  }
  return names;
}

std::string last_name(std::string_view path) {
  const std::size_t dot = path.rfind('.');
  return std::string(dot == std::string_view::npos ? path : path.substr(dot + 1));
}

}  // namespace studies::read
