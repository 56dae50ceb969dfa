#pragma once
/// The data that ships with the program, and the rows a study adds: materials, friction, bearing pressures.
#include <optional>
#include <string>
#include <vector>

namespace models {

struct Material {
  std::string name;     ///< as studies spell it: "steel 1045 hot rolled"
  double yield = 0;     ///< S_y [Pa]; 0 for a brittle material
  double ultimate = 0;  ///< S_u [Pa]; S_ut of a brittle material
  double modulus = 0;   ///< E [Pa]
  double density = 0;   ///< [kg/m³]
  bool brittle = false;
  std::string family;  ///< friction and pressure column: "steel", "bronze", "brass", "cast iron", "plastic"
  std::string kind;    ///< "minimum" or "typical"
  double up_to = 0;    ///< bar diameter [m] up to which the row holds; 0: not limited by the source
  std::string source;
};

/// Running friction of a thread pair as a range of practice.
struct ThreadFriction {
  std::string screw, nut;    ///< families
  std::string lubrication;   ///< "dry", "oil", …
  double low = 0, high = 0;  ///< ends of the published range [-]
  std::string source;
};

/// Friction of a thrust face.
struct FaceFriction {
  std::string kind;          ///< "pad" (pads and points) or "rolling"
  std::string on;            ///< family of the other side; empty for rolling
  bool hard = false;         ///< hardened steel against it
  double running = 0;        ///< single published value [-]; 0 where the row is a range
  double low = 0, high = 0;  ///< range of practice [-]; 0 where the row is a single value
  double starting = 0;       ///< [-]; 0 where the source gives none
  std::string source;
};

/// Safe bearing pressure of a thread pair up to a sliding speed.
struct BearingPressure {
  std::string screw, nut;  ///< families
  double up_to_speed = 0;  ///< sliding speed [m/s] up to which the row holds; infinity: any speed above the pair's
                           ///< other rows (typed speed = "above"); 0: hand speed or none given (typed speed = "hand")
  double pressure = 0;     ///< [Pa]
  std::string source;
};

/// A file as it was read.
struct File {
  std::string path, text;
};

/// All rows, read once, in the order to look them up. A later file replaces: its rows of a material's name, of a thread
/// pair and lubrication, of a face, or of a pressure's pair stand instead of all earlier ones of it.
struct Tables {
  std::vector<Material> materials;
  std::vector<ThreadFriction> thread_friction;
  std::vector<FaceFriction> face_friction;
  std::vector<BearingPressure> bearing_pressure;
  std::vector<File> files;  ///< as read
  std::string text;         ///< their texts, one after the other: kept in the results
};

/// Reads the tables of the program and then those of the user.
/// @param folder  where the program's own tables lie
/// @param extra   paths of the user's TOML files
/// @throws Refusal (files) when one cannot be read, Refusal (study) with file:line:column for each bad row of a file:
///         unknown table or key, missing key, wrong unit, implausible value (friction outside 0 to 1, low above high,
///         yield above ultimate, below zero), the same row twice
Tables read_tables(const std::string& folder, const std::vector<std::string>& extra);
/// The same of texts that were read before, in their order.
Tables tables_of(const std::vector<File>& files);

/// The row of a material; of one that has a row for each bar size, the row of the smallest. Null where there is none.
const Material* find_material(const Tables& tables, const std::string& name);
/// The first row of a material that holds for a bar of this diameter [m] (diameter ≤ up_to, or up_to 0); null where the
/// bar is beyond every row.
const Material* find_material_for(const Tables& tables, const std::string& name, double diameter);
/// Friction of a pair by the families of its materials; null where no source gives it.
const ThreadFriction* find_thread_friction(const Tables& tables, const Material& screw, const Material& nut,
                                           const std::string& lubrication);
/// Lubrications for which there is friction of a pair, in the order of the rows.
std::vector<std::string> lubrications(const Tables& tables, const Material& screw, const Material& nut);
/// Friction of a face. "point" reads the row of "pad"; "rolling" has one row, whatever `on` and `hard` say. Null where
/// no source gives it.
const FaceFriction* find_face_friction(const Tables& tables, const std::string& kind, const std::string& on, bool hard);
/// The pressure of a pair at a sliding speed [m/s] (0: hand speed or none given); null where the table has no value.
const BearingPressure* find_bearing_pressure(const Tables& tables, const Material& screw, const Material& nut,
                                             double sliding_speed);

}  // namespace models
