#pragma once
/// Reads a results file back: to check it, to skip what is finished, to compare.
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/store/schema.hpp"

namespace engine {

/// An open results file, read only. Every byte is checked against the seal when it is opened: damage throws, it is
/// never passed on (nor to the HDF5 library, which a damaged file can crash).
class StoreReader {
public:
  /// @throws Refusal (files) as all members do: not there, a folder, no leave to read, open for writing elsewhere, not
  ///         HDF5, cut short, damaged. A sound HDF5 file without a seal opens, for its attributes only.
  explicit StoreReader(const std::string& path);
  StoreReader(const StoreReader&) = delete;
  StoreReader& operator=(const StoreReader&) = delete;
  ~StoreReader();

  /// Makes sure that this is a file of one format, no newer than known.
  /// @return  its version
  /// @throws Refusal (files): another format or none; a version above `newest` (with the program that wrote it)
  std::int64_t require_format(const std::string& format, std::int64_t newest) const;

  bool has(const std::string& path) const;
  /// Attributes of the root ("/") or an object; empty where there is none.
  std::optional<std::string> text_attribute(const std::string& object, const std::string& name) const;
  std::optional<std::int64_t> whole_attribute(const std::string& object, const std::string& name) const;
  std::optional<std::uint64_t> count_attribute(const std::string& object, const std::string& name) const;
  std::optional<double> number_attribute(const std::string& object, const std::string& name) const;
  std::vector<std::string> attribute_names(const std::string& object) const;

  /// Every variable in the file with its type, dimensions, units and long name, in the order of creation; dimensions
  /// without values are left out; `when` stays empty.
  std::vector<StoredVariable> variables() const;
  /// The lengths of a variable's dimensions; none for a single value.
  std::vector<std::size_t> shape(const std::string& path) const;

  /// The values of a variable, row by row.
  /// @throws Refusal (files): no such variable, another type, damaged
  std::vector<double> numbers(const std::string& path) const;  ///< of any numeric type
  std::vector<std::int64_t> whole_numbers(const std::string& path) const;
  std::vector<std::string> texts(const std::string& path) const;
  std::string text(const std::string& path) const;  ///< of a single text

  /// Reads every value once, the file's own checksums included.
  /// @return  how many variables were read
  /// @throws Refusal (files) at the first that is damaged
  std::size_t check() const;

private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace engine
