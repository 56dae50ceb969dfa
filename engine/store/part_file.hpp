#pragma once
/// A file that appears under its name only when it is complete.
#include <string>
#include <string_view>

namespace engine {

/// `<path>.part`, held by this process alone until it is committed or given up. The file that already stands under
/// `path` is not touched before `commit`.
class PartFile {
public:
  /// Makes the folder where it is missing and takes `<path>.part`.
  /// @throws Refusal (files): no folder can be made, no leave to write, `path` is a folder or write-protected, another
  ///         program is writing the same file
  explicit PartFile(std::string path);
  PartFile(const PartFile&) = delete;
  PartFile& operator=(const PartFile&) = delete;
  /// Without a commit the part is emptied (its space is free at once) and removed.
  ~PartFile();

  const std::string& path() const { return path_; }
  const std::string& part() const { return part_; }
  /// Adds to the part.
  /// @throws Refusal (files)
  void append(std::string_view text);
  /// Puts the part on the disk and under its name, in that order.
  /// @throws Refusal (files)
  void commit();

private:
  std::string path_, part_;
  int descriptor_ = -1;
};

/// Throws what PartFile would throw, without leaving anything but the folder: to be asked before hours of computing.
/// @throws Refusal (files)
void check_writable(const std::string& path);

/// Writes a text as a whole file; it appears under its name only when complete, and until then what stood there stays.
/// @throws Refusal (files) as PartFile, and where there is no room
void write_whole(const std::string& path, std::string_view text);

}  // namespace engine
