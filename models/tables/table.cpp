#include "models/tables/table.hpp"

#include <algorithm>

#include "engine/base/document.hpp"
#include "engine/base/error.hpp"
#include "models/tables/rows.hpp"

namespace models {
namespace {

constexpr const char* own_files[] = {"materials.toml", "friction.toml", "pressures.toml"};

/// Puts the rows of a later file in front, in place of the earlier rows of the same thing.
template <class Row>
void replace_rows(std::vector<Row>& rows, std::vector<Row> later) {
  std::erase_if(rows, [&](const Row& row) {
    return std::any_of(later.begin(), later.end(), [&](const Row& new_row) { return same_thing(row, new_row); });
  });
  rows.insert(rows.begin(), std::make_move_iterator(later.begin()), std::make_move_iterator(later.end()));
}

void add_file(Tables& tables, File file) {
  const std::string& text = file.text;
  Tables later = rows_of(engine::parse_document(text, file.path), file.path);
  replace_rows(tables.materials, std::move(later.materials));
  replace_rows(tables.thread_friction, std::move(later.thread_friction));
  replace_rows(tables.face_friction, std::move(later.face_friction));
  replace_rows(tables.bearing_pressure, std::move(later.bearing_pressure));
  tables.text += text;
  if (!text.empty() && text.back() != '\n') tables.text += '\n';
  tables.files.push_back(std::move(file));
}

template <class Row, class Wanted>
const Row* first(const std::vector<Row>& rows, Wanted wanted) {
  const auto found = std::find_if(rows.begin(), rows.end(), wanted);
  return found == rows.end() ? nullptr : &*found;
}

}  // namespace

Tables read_tables(const std::string& folder, const std::vector<std::string>& extra) {
  std::vector<File> files;
  const auto read = [&](const std::string& path) { files.push_back({path, engine::read_text(path)}); };
  for (const char* file : own_files) read(folder + "/" + file);
  for (const std::string& path : extra) read(path);
  return tables_of(files);
}

Tables tables_of(const std::vector<File>& files) {
  Tables tables;
  for (const File& file : files) add_file(tables, file);
  return tables;
}

const Material* find_material(const Tables& tables, const std::string& name) {
  return first(tables.materials, [&](const Material& row) { return row.name == name; });
}

const Material* find_material_for(const Tables& tables, const std::string& name, double diameter) {
  return first(tables.materials,
               [&](const Material& row) { return row.name == name && (row.up_to == 0 || diameter <= row.up_to); });
}

const ThreadFriction* find_thread_friction(const Tables& tables, const Material& screw, const Material& nut,
                                           const std::string& lubrication) {
  return first(tables.thread_friction, [&](const ThreadFriction& row) {
    return row.screw == screw.family && row.nut == nut.family && row.lubrication == lubrication;
  });
}

std::vector<std::string> lubrications(const Tables& tables, const Material& screw, const Material& nut) {
  std::vector<std::string> words;
  for (const ThreadFriction& row : tables.thread_friction)
    if (find_thread_friction(tables, screw, nut, row.lubrication) &&
        std::find(words.begin(), words.end(), row.lubrication) == words.end())
      words.push_back(row.lubrication);
  return words;
}

const FaceFriction* find_face_friction(const Tables& tables, const std::string& kind, const std::string& on,
                                       bool hard) {
  return first(tables.face_friction, [&](const FaceFriction& row) {
    if (kind == "rolling") return row.kind == kind;
    return row.kind == "pad" && (kind == "pad" || kind == "point") && row.on == on && row.hard == hard;
  });
}

const BearingPressure* find_bearing_pressure(const Tables& tables, const Material& screw, const Material& nut,
                                             double sliding_speed) {
  const BearingPressure* slowest = nullptr;
  for (const BearingPressure& row : tables.bearing_pressure) {
    const bool covers = row.screw == screw.family && row.nut == nut.family && sliding_speed <= row.up_to_speed;
    if (covers && (!slowest || row.up_to_speed < slowest->up_to_speed)) slowest = &row;
  }
  return slowest;
}

}  // namespace models
