#pragma once
/// Text in lines of at most 80 columns.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace studies::say {

inline constexpr std::size_t page_width = 80;

/// Words in lines. A number and its unit, and the groups of a count, stay together; a single word that is longer than
/// a line (a path) stands whole on a line of its own.
/// @param hang   blanks before every line but the first
/// @param first  what the first line begins with, blanks included
std::vector<std::string> wrapped(std::string_view text, std::size_t hang = 0, const std::string& first = "");

/// Rows as left-aligned columns, two blanks apart, without trailing blanks.
/// @param indent  blanks before every line
std::vector<std::string> aligned(const std::vector<std::vector<std::string>>& rows, std::size_t indent);

/// True where every line fits the page.
bool fits(const std::vector<std::string>& lines);

}  // namespace studies::say
