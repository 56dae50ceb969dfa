#pragma once
/// What a results file is made of, one row a variable: writer, checks and documentation come from the same rows.
#include <string>
#include <vector>

namespace engine {

/// How values are stored, and as which type they are handed over.
enum class Stored { f64, f32, i64, u8, text };

/// "f64", "f32", "i64", "u8", "text".
std::string name(Stored type);

/// One variable of a results file.
struct StoredVariable {
  std::string group;  ///< "/candidates"
  std::string name;   ///< "mass"; the coordinate of a dimension has the dimension's name
  Stored type = Stored::f64;
  std::vector<std::string> dims;  ///< names of dimensions of the same group; none for a single value
  std::string units;              ///< as UDUNITS reads them: "N", "N m"; "1" for bare numbers, flags and texts
  std::string long_name;
  std::string when;  ///< in which files it stands: "always", "something must hold"

  std::string path() const { return group + "/" + name; }
  bool is_coordinate() const { return dims.size() == 1 && dims[0] == name; }
};

/// One attribute of the file's root.
struct StoredAttribute {
  std::string name;
  Stored type = Stored::text;
  std::string meaning;
  std::string when;
};

}  // namespace engine
