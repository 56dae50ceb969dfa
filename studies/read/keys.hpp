#pragma once
/// Every key that a study may hold: one table, from which unknown keys, defaults and help come.
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/units.hpp"

namespace studies::read {

/// What stands behind a key. `mixed` is read by its own section, which knows its forms.
enum class Kind { table, quantity, number, whole, text, truth, mixed, not_built };

/// What a number must keep to.
enum class Bound { none, above_zero, zero_or_more, one_or_more, zero_to_one, share, odds };

struct KeyRow {
  std::string_view path;  ///< dotted; "*" stands for any one name of scatter or must
  Kind kind;
  engine::Dimension dimension = engine::Dimension::none;
  Bound bound = Bound::none;
  std::string_view usual = "";  ///< the default, as it would be typed; empty where there is none
  std::string_view why = "";    ///< why that is the default
  std::string_view help = "";   ///< one line
};

const std::vector<KeyRow>& all_keys();

/// The row of a dotted path, indices ("face[2]") left out; null when there is no such key.
const KeyRow* find_key(std::string_view path);
/// The names of the keys right below a path, in the order of the table; of the top with an empty path.
std::vector<std::string> names_below(std::string_view path);
/// The last name of a path: "force" of "duty.force".
std::string last_name(std::string_view path);

}  // namespace studies::read
