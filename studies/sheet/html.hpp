#pragma once
/// Words as HTML: nothing a study says can become markup, numbers are set as a drawing sets them.
#include <string>
#include <string_view>
#include <vector>

#include "studies/ask/study.hpp"

namespace studies::sheet {

/// Text safe inside an element or a quoted attribute; control characters as blanks, bytes that are not UTF-8 as "?".
std::string escaped(std::string_view text);
/// Text with numbers set for print: thin blanks in groups of three, true minus signs, a dot in N·m, and no line
/// break between a number and its unit.
std::string set_in_type(std::string_view text);
/// A unit with its dots: "N·m".
std::string unit_in_type(std::string unit);
/// Both.
std::string printed(std::string_view text);
/// Text with "[4 950 lbf]" behind every quantity of it, in the other system of units.
std::string with_other(std::string_view text, const Study& study);
/// Printed text of which the brackets "[…]" of the other system are set back.
std::string softened(std::string_view text);
/// Text as a string of CSS, in its quotes.
std::string css_string(std::string_view text);
/// Text as JSON inside a script element.
std::string in_script(std::string json);
/// A script as the content of a script element.
std::string as_script(std::string script);

/// <table> with a header, and the first cell of each row as its header.
std::string table_html(const std::vector<std::string>& head, const std::vector<std::vector<std::string>>& rows);

}  // namespace studies::sheet
