#pragma once
/// What to write instead of a word that is not known.
#include <string>
#include <vector>

namespace studies::read {

/// "a, b or c".
std::string one_of(const std::vector<std::string>& words);
/// "write 'pitch'" where one is near, else "use one of: a, b or c".
std::string write_instead(const std::string& word, const std::vector<std::string>& words);
/// The fix for an unknown key: the nearest name there, else the section where it belongs, else the names there.
/// @param path  of the table that holds the key
std::string fix_for_key(const std::string& key, const std::string& path);

}  // namespace studies::read
