#pragma once
/// Small words that every sentence needs, and text made safe for a terminal.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "models/screw/design.hpp"
#include "models/screw/names.hpp"

namespace studies::say {

/// "one" to "ten" as words, larger counts in full: "two", "12", "1 048 576".
std::string number_in_words(std::uint64_t count);
/// "1 screw", "408 screws": the count in full and the noun, with an s unless there is one.
std::string counted(std::uint64_t count, std::string_view noun);
/// "a", "a and b", "a, b and c".
std::string list_of(const std::vector<std::string>& items);
/// Parts with a separator between them: "a; b; c".
std::string joined(const std::vector<std::string>& items, std::string_view separator);
/// Words without a full stop at their end.
std::string without_stop(std::string words);
/// The first letter as a capital (ASCII letters only).
std::string capital(std::string words);

/// "buckling", "force", "overload pull".
std::string limit_words(models::Must must);
/// What a part does when it breaks: "the threads strip", "the screw buckles".
std::string breaks_words(models::Must part);
std::vector<std::string> limit_words(const std::vector<models::Must>& musts);
/// An input as said in a sentence: "thread_friction" is "thread friction"; a name it does not know stays.
std::string input_words(const std::string& name);
/// "oiled", "dry", "greased"; empty for no word.
std::string lubricated(const std::string& lubrication);
/// "pad", "rolling face", "point".
std::string face_in_short(const models::Face& face);
/// The file name without folder and ending: "studies/press.toml" is "press".
std::string study_name(std::string_view path);

/// Text for one line of a terminal: control characters as blanks, bytes that are not UTF-8 as "?".
std::string cleaned(std::string_view text);
/// Characters of a text, one column each.
std::size_t columns(std::string_view text);
/// The text cut to so many columns, the last of them "…" where something was cut.
std::string shortened(const std::string& text, std::size_t most);

}  // namespace studies::say
