#include "engine/store/writer.hpp"

#include <hdf5_hl.h>

#include <algorithm>
#include <limits>
#include <map>
#include <stdexcept>

#include "engine/store/handle.hpp"
#include "engine/store/part_file.hpp"
#include "engine/store/seal.hpp"

namespace engine {
namespace {

constexpr hsize_t chunk_rows = 65536;
/// Up to here values lie in the object's header and are guarded with it: a chunk's index alone would take 3 kB.
constexpr hsize_t small_bytes = 4096;

/// A text of fixed length: it lies in the object's header and is guarded with it.
Handle fixed_text(const Expect& expect, std::size_t length) {
  Handle type = expect.owned(H5Tcopy(H5T_C_S1), H5Tclose);
  expect.done(H5Tset_size(type.id(), std::max<std::size_t>(length, 1)));
  expect.done(H5Tset_strpad(type.id(), H5T_STR_NULLPAD));
  expect.done(H5Tset_cset(type.id(), H5T_CSET_UTF8));
  return type;
}

Handle free_text(const Expect& expect) {
  Handle type = expect.owned(H5Tcopy(H5T_C_S1), H5Tclose);
  expect.done(H5Tset_size(type.id(), H5T_VARIABLE));
  expect.done(H5Tset_cset(type.id(), H5T_CSET_UTF8));
  return type;
}

void write_attribute(hid_t object, const Expect& expect, const std::string& name, hid_t type, const void* value) {
  Handle space = expect.owned(H5Screate(H5S_SCALAR), H5Sclose);
  Handle attribute =
      expect.owned(H5Acreate2(object, name.c_str(), type, space.id(), H5P_DEFAULT, H5P_DEFAULT), H5Aclose);
  expect.done(H5Awrite(attribute.id(), type, value));
  expect.done(attribute.close());
}

void write_text_attribute(hid_t object, const Expect& expect, const std::string& name, const std::string& value) {
  const Handle type = fixed_text(expect, value.size());
  write_attribute(object, expect, name, type.id(), value.c_str());
}

/// A creation list without times (they would make the bytes depend on the clock), in the order of creation.
Handle timeless(const Expect& expect, hid_t list_class) {
  Handle list = expect.owned(H5Pcreate(list_class), H5Pclose);
  expect.done(H5Pset_obj_track_times(list.id(), false));
  expect.done(H5Pset_attr_creation_order(list.id(), H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED));
  return list;
}

Handle timeless_group(const Expect& expect, hid_t list_class) {
  Handle list = timeless(expect, list_class);
  expect.done(H5Pset_link_creation_order(list.id(), H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED));
  return list;
}

struct Kind {
  Stored type;
  hid_t file, memory;
};

Kind kind_of(double) { return {Stored::f64, H5T_IEEE_F64LE, H5T_NATIVE_DOUBLE}; }
Kind kind_of(float) { return {Stored::f32, H5T_IEEE_F32LE, H5T_NATIVE_FLOAT}; }
Kind kind_of(std::int64_t) { return {Stored::i64, H5T_STD_I64LE, H5T_NATIVE_INT64}; }
Kind kind_of(std::uint8_t) { return {Stored::u8, H5T_STD_U8LE, H5T_NATIVE_UINT8}; }

void promise(bool kept, const StoredVariable& variable, const char* broken) {
  if (!kept) throw std::logic_error(variable.path() + ": " + broken);
}

}  // namespace

struct StoreWriter::Inside {
  explicit Inside(const std::string& path) : part(path) {}

  PartFile part;  // outlives every handle below
  Handle file;
  std::map<std::string, Handle> groups;
  std::map<std::string, Handle> scales;  // by path: the dimensions
  std::map<std::string, hsize_t> lengths;

  Expect writing(const std::string& object) const { return {part.path(), "write", object}; }
  hid_t group(const std::string& path);
  void attribute(const std::string& object, const std::string& name, hid_t type, const void* value) const;
  Handle creation(const StoredVariable& variable, const std::vector<hsize_t>& shape) const;
  std::vector<hsize_t> shape_of(const StoredVariable& variable, std::size_t count) const;
  /// Creates a variable, writes it, describes it and ties it to its dimensions.
  void put(const StoredVariable& variable, std::size_t count, hid_t file_type, hid_t memory_type, const void* values);
  template <class Number>
  void put_numbers(const StoredVariable& variable, std::span<const Number> values);
  void describe(hid_t set, const StoredVariable& variable, hid_t type) const;
  void attach(Handle set, const StoredVariable& variable, hsize_t length);
};

hid_t StoreWriter::Inside::group(const std::string& path) {
  if (path.empty() || path == "/") return file.id();
  if (const auto known = groups.find(path); known != groups.end()) return known->second.id();
  const auto slash = path.rfind('/');
  const hid_t parent = group(path.substr(0, slash));
  const Expect expect = writing(path);
  const Handle list = timeless_group(expect, H5P_GROUP_CREATE);
  Handle made =
      expect.owned(H5Gcreate2(parent, path.substr(slash + 1).c_str(), H5P_DEFAULT, list.id(), H5P_DEFAULT), H5Gclose);
  return groups.emplace(path, std::move(made)).first->second.id();
}

void StoreWriter::Inside::attribute(const std::string& object, const std::string& name, hid_t type,
                                    const void* value) const {
  const Expect expect = writing(object + "@" + name);
  const Handle owner = expect.owned(H5Oopen(file.id(), object.c_str(), H5P_DEFAULT), H5Oclose);
  write_attribute(owner.id(), expect, name, type, value);
}

Handle StoreWriter::Inside::creation(const StoredVariable& variable, const std::vector<hsize_t>& shape) const {
  const Expect expect = writing(variable.path());
  Handle list = timeless(expect, H5P_DATASET_CREATE);
  const double nothing = std::numeric_limits<double>::quiet_NaN();
  if (variable.type == Stored::f64 || variable.type == Stored::f32)
    expect.done(H5Pset_fill_value(list.id(), H5T_NATIVE_DOUBLE, &nothing));
  hsize_t bytes = 16;  // at most, of one value: a text's place in the heap
  for (const hsize_t length : shape) bytes *= length;
  if (bytes <= small_bytes) {
    expect.done(H5Pset_layout(list.id(), H5D_COMPACT));
    return list;
  }
  std::vector<hsize_t> chunk = shape;
  chunk[0] = std::min(chunk[0], chunk_rows);
  expect.done(H5Pset_chunk(list.id(), static_cast<int>(chunk.size()), chunk.data()));
  expect.done(H5Pset_fill_time(list.id(), H5D_FILL_TIME_IFSET));
  if (variable.type != Stored::text) expect.done(H5Pset_fletcher32(list.id()));
  return list;
}

std::vector<hsize_t> StoreWriter::Inside::shape_of(const StoredVariable& variable, std::size_t count) const {
  if (variable.is_coordinate()) {
    promise(count > 0, variable, "a dimension needs at least one value");
    return {count};
  }
  std::vector<hsize_t> shape;
  hsize_t product = 1;
  for (const std::string& dim : variable.dims) {
    const auto length = lengths.find(variable.group + "/" + dim);
    promise(length != lengths.end(), variable, "one of its dimensions is not there");
    shape.push_back(length->second);
    product *= length->second;
  }
  promise(product == count, variable, "the number of values does not fit its dimensions");
  return shape;
}

void StoreWriter::Inside::describe(hid_t set, const StoredVariable& variable, hid_t type) const {
  const Expect expect = writing(variable.path());
  write_text_attribute(set, expect, "units", variable.units);
  write_text_attribute(set, expect, "long_name", variable.long_name);
  const double nothing = std::numeric_limits<double>::quiet_NaN();
  const float nothing_short = std::numeric_limits<float>::quiet_NaN();
  if (variable.type == Stored::f64) write_attribute(set, expect, "_FillValue", type, &nothing);
  if (variable.type == Stored::f32) write_attribute(set, expect, "_FillValue", type, &nothing_short);
}

void StoreWriter::Inside::attach(Handle set, const StoredVariable& variable, hsize_t length) {
  const Expect expect = writing(variable.path());
  if (variable.is_coordinate()) {
    expect.done(H5DSset_scale(set.id(), variable.name.c_str()));
    lengths[variable.path()] = length;
    scales[variable.path()] = std::move(set);
    return;
  }
  for (std::size_t i = 0; i < variable.dims.size(); ++i)
    expect.done(
        H5DSattach_scale(set.id(), scales.at(variable.group + "/" + variable.dims[i]).id(), static_cast<unsigned>(i)));
  expect.done(set.close());
}

void StoreWriter::Inside::put(const StoredVariable& variable, std::size_t count, hid_t file_type, hid_t memory_type,
                              const void* values) {
  const Expect expect = writing(variable.path());
  const std::vector<hsize_t> shape = shape_of(variable, count);
  const hid_t parent = group(variable.group);
  Handle space = shape.empty()
                     ? expect.owned(H5Screate(H5S_SCALAR), H5Sclose)
                     : expect.owned(H5Screate_simple(static_cast<int>(shape.size()), shape.data(), nullptr), H5Sclose);
  const Handle list = creation(variable, shape);
  Handle set = expect.owned(
      H5Dcreate2(parent, variable.name.c_str(), file_type, space.id(), H5P_DEFAULT, list.id(), H5P_DEFAULT), H5Dclose);
  expect.done(H5Dwrite(set.id(), memory_type, H5S_ALL, H5S_ALL, H5P_DEFAULT, values));
  describe(set.id(), variable, memory_type);
  attach(std::move(set), variable, shape.empty() ? 1 : shape[0]);
}

template <class Number>
void StoreWriter::Inside::put_numbers(const StoredVariable& variable, std::span<const Number> values) {
  const Kind kind = kind_of(Number{});
  promise(kind.type == variable.type, variable, "values of another type than its row says");
  put(variable, values.size(), kind.file, kind.memory, values.data());
}

StoreWriter::StoreWriter(const std::string& path) {
  prepare_library();
  inside_ = std::make_unique<Inside>(path);
  const Expect expect{path, "create", ""};
  Handle access = expect.owned(H5Pcreate(H5P_FILE_ACCESS), H5Pclose);
  expect.done(H5Pset_libver_bounds(access.id(), H5F_LIBVER_V18, H5F_LIBVER_V18));
  const Handle creation = timeless_group(expect, H5P_FILE_CREATE);
  inside_->file =
      expect.owned(H5Fcreate(inside_->part.part().c_str(), H5F_ACC_TRUNC, creation.id(), access.id()), H5Fclose);
}

StoreWriter::~StoreWriter() = default;

void StoreWriter::attribute(const std::string& object, const std::string& name, const std::string& value) {
  const Handle type = fixed_text(inside_->writing(object + "@" + name), value.size());
  inside_->attribute(object, name, type.id(), value.c_str());
}

void StoreWriter::attribute(const std::string& object, const std::string& name, std::int64_t value) {
  inside_->attribute(object, name, H5T_NATIVE_INT64, &value);
}

void StoreWriter::attribute(const std::string& object, const std::string& name, std::uint64_t value) {
  inside_->attribute(object, name, H5T_NATIVE_UINT64, &value);
}

void StoreWriter::attribute(const std::string& object, const std::string& name, double value) {
  inside_->attribute(object, name, H5T_NATIVE_DOUBLE, &value);
}

void StoreWriter::dimension(const std::string& group, const std::string& name, std::size_t length) {
  const StoredVariable variable{group, name, Stored::f32, {name}, "1", "", ""};
  const Expect expect = inside_->writing(variable.path());
  promise(length > 0, variable, "a dimension needs at least one value");
  const hsize_t extent = length;
  Handle space = expect.owned(H5Screate_simple(1, &extent, nullptr), H5Sclose);
  Handle list = timeless(expect, H5P_DATASET_CREATE);
  Handle set = expect.owned(
      H5Dcreate2(inside_->group(group), name.c_str(), H5T_IEEE_F32BE, space.id(), H5P_DEFAULT, list.id(), H5P_DEFAULT),
      H5Dclose);
  // The netCDF-4 format's own words for a dimension without values: never written, so it takes no space.
  std::string digits = std::to_string(length);
  digits.insert(0, digits.size() < 10 ? 10 - digits.size() : 0, ' ');
  expect.done(H5DSset_scale(set.id(), ("This is a netCDF dimension but not a netCDF variable." + digits).c_str()));
  inside_->lengths[variable.path()] = extent;
  inside_->scales[variable.path()] = std::move(set);
}

void StoreWriter::put(const StoredVariable& variable, std::span<const double> values) {
  inside_->put_numbers(variable, values);
}

void StoreWriter::put(const StoredVariable& variable, std::span<const float> values) {
  inside_->put_numbers(variable, values);
}

void StoreWriter::put(const StoredVariable& variable, std::span<const std::int64_t> values) {
  inside_->put_numbers(variable, values);
}

void StoreWriter::put(const StoredVariable& variable, std::span<const std::uint8_t> values) {
  inside_->put_numbers(variable, values);
}

void StoreWriter::put(const StoredVariable& variable, std::span<const std::string> values) {
  promise(variable.type == Stored::text, variable, "values of another type than its row says");
  std::vector<const char*> texts;
  for (const std::string& text : values) {
    promise(text.find('\0') == std::string::npos, variable, "a text with a zero byte in it");
    texts.push_back(text.c_str());
  }
  const Handle type = free_text(inside_->writing(variable.path()));
  inside_->put(variable, values.size(), type.id(), type.id(), texts.data());
}

void StoreWriter::commit() {
  const Expect expect = inside_->writing("");
  for (auto& [path, scale] : inside_->scales) inside_->writing(path).done(scale.close());
  for (auto& [path, group] : inside_->groups) inside_->writing(path).done(group.close());
  expect.done(H5Fflush(inside_->file.id(), H5F_SCOPE_GLOBAL));
  expect.done(inside_->file.close());
  append_seal(inside_->part.part(), inside_->part.path());
  inside_->part.commit();
}

}  // namespace engine
