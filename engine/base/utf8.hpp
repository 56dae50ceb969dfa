#pragma once
/// Bytes a user typed, checked and cut so that they can stand in a message.
#include <cstddef>
#include <string>
#include <string_view>

namespace engine {

/// Length in bytes of the UTF-8 character that begins at `at`, 1 to 4; 0 where the bytes are not UTF-8.
std::size_t character_length(std::string_view text, std::size_t at);

/// The text on one line for a message: at most so many characters (then "…"), control characters as blanks, bytes that
/// are not UTF-8 as "?".
std::string excerpt(std::string_view text, std::size_t longest = 60);

}  // namespace engine
