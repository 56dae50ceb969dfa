#pragma once
/// One owner for every object of the HDF5 C library, and its failures in words. Only engine/store/ includes this.
#include <hdf5.h>

#include <string>
#include <utility>

namespace engine {

/// Owns one HDF5 id and closes it with the function that fits its kind. Empty or open, never invalid.
class Handle {
public:
  using Close = herr_t (*)(hid_t);

  Handle() = default;
  Handle(hid_t opened, Close close_with) : id_(opened), close_(close_with) {}
  Handle(Handle&& other) noexcept : id_(std::exchange(other.id_, H5I_INVALID_HID)), close_(other.close_) {}
  Handle& operator=(Handle&& other) noexcept {
    std::swap(id_, other.id_);
    std::swap(close_, other.close_);
    return *this;
  }
  ~Handle() { (void)close(); }

  hid_t id() const { return id_; }
  /// Closes now, where the outcome matters (a file, a data set written); closing twice does nothing.
  /// @return what the library says, negative on failure
  herr_t close() {
    if (id_ < 0) return 0;
    return close_(std::exchange(id_, H5I_INVALID_HID));
  }

private:
  hid_t id_ = H5I_INVALID_HID;
  Close close_ = nullptr;
};

/// What is being done, so that a failure can name it: `Expect writing{path, "write", "/candidates/mass"}`.
struct Expect {
  std::string file;
  std::string deed;    ///< "open", "read", "write", "create"
  std::string object;  ///< path inside the file; empty for the file itself

  /// Takes an id into ownership.
  /// @throws Refusal (files) with the innermost entry of the library's error stack when it is negative
  Handle owned(hid_t id, Handle::Close close) const;
  /// Passes a result on.
  /// @throws Refusal (files) when it is negative
  template <class Result>
  Result done(Result result) const {
    if (result < 0) refuse();
    return result;
  }
  /// @throws Refusal (files), always: from the library's error stack
  [[noreturn]] void refuse() const;
  /// @throws Refusal (files), always: from a system call's errno
  [[noreturn]] void refuse(int error_number) const;
};

/// Silences the library's own messages and its closing round at exit, which after a full disk would print pages and
/// never succeed. What a failed file still holds in memory is given back by the system at the end of the process.
/// Cheap; called before every first use.
void prepare_library();

}  // namespace engine
