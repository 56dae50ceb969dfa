#pragma once
/// Writes a results file: HDF5 that xarray, h5py and netCDF tools open as it is.
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "engine/store/schema.hpp"

namespace engine {

/// A results file in the making. It appears under its name only by `commit`; without one nothing is left and a file
/// that stood there stands untouched, whatever happens in between. The bytes depend on what is put in and its order
/// alone. Guarded twice: numbers by checksums of HDF5's own (Fletcher32, or the header's where they are few) for any
/// reader, and every byte by the seal at the end (see seal.hpp).
class StoreWriter {
public:
  /// @param path  of the finished file; its folder is made where missing
  /// @throws Refusal (files) as all members do: the file, the object inside, what the system says, and the fix
  explicit StoreWriter(const std::string& path);
  StoreWriter(const StoreWriter&) = delete;
  StoreWriter& operator=(const StoreWriter&) = delete;
  ~StoreWriter();

  /// Attributes of the root or of an object already there.
  /// @param object  "/" or the path of a group or variable
  void attribute(const std::string& object, const std::string& name, const std::string& value);
  void attribute(const std::string& object, const std::string& name, std::int64_t value);
  void attribute(const std::string& object, const std::string& name, std::uint64_t value);
  void attribute(const std::string& object, const std::string& name, double value);

  /// A dimension that has a length and no coordinate values. Groups come into being with what stands in them.
  void dimension(const std::string& group, const std::string& name, std::size_t length);

  /// One variable with its values, row by row. A coordinate makes its own dimension; every other dimension must be
  /// there.
  /// @param values  as many as the dimensions' product, of the variable's type: a programmer's promise
  /// (std::logic_error)
  void put(const StoredVariable& variable, std::span<const double> values);
  void put(const StoredVariable& variable, std::span<const float> values);
  void put(const StoredVariable& variable, std::span<const std::int64_t> values);
  void put(const StoredVariable& variable, std::span<const std::uint8_t> values);
  void put(const StoredVariable& variable, std::span<const std::string> values);

  /// Closes the file, puts it on the disk and under its name. Nothing may be put in afterwards.
  void commit();

private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace engine
