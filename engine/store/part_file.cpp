#include "engine/store/part_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <utility>

#include "engine/store/handle.hpp"

namespace engine {
namespace {

std::string folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

void make_folder(const std::string& path) {
  const std::string folder = folder_of(path);
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (!error && !std::filesystem::is_directory(folder, error)) error = std::make_error_code(std::errc::not_a_directory);
  if (error) Expect{folder, "create", "the folder"}.refuse(error.value());
}

void check_target(const std::string& path) {
  struct stat target {};
  if (::stat(path.c_str(), &target) != 0) return;
  const Expect replacing{path, "write", ""};
  if (S_ISDIR(target.st_mode)) replacing.refuse(EISDIR);
  if (::access(path.c_str(), W_OK) != 0) replacing.refuse(errno);
}

/// Locks the whole file for this descriptor alone. Where the file system knows no locks there is none.
bool lock(int descriptor) {
  struct flock all {};
  all.l_type = F_WRLCK;
  all.l_whence = SEEK_SET;
  return ::fcntl(descriptor, F_OFD_SETLK, &all) == 0 || (errno != EAGAIN && errno != EACCES);
}

bool still_named(int descriptor, const std::string& path) {
  struct stat held {
  }, named{};
  return ::fstat(descriptor, &held) == 0 && ::stat(path.c_str(), &named) == 0 && held.st_ino == named.st_ino &&
         held.st_dev == named.st_dev;
}

/// Opens, locks and empties the part; again when another program renamed it between the two.
int take(const std::string& part) {
  const Expect creating{part, "create", ""};
  while (true) {
    const int descriptor = ::open(part.c_str(), O_RDWR | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0666);
    if (descriptor < 0) creating.refuse(errno);
    const bool locked = lock(descriptor);
    if (locked && still_named(descriptor, part)) {
      if (::ftruncate(descriptor, 0) == 0) return descriptor;  // what a killed program left in it
      const int error = errno;
      ::close(descriptor);
      creating.refuse(error);
    }
    ::close(descriptor);
    if (!locked) creating.refuse(EAGAIN);
  }
}

void sync_folder(const std::string& path) {
  const int folder = ::open(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (folder < 0) return;  // a folder may be written and searched without leave to read it
  const int result = ::fsync(folder);
  const int error = errno;
  ::close(folder);
  if (result != 0 && error != EINVAL) Expect{path, "write", ""}.refuse(error);
}

}  // namespace

PartFile::PartFile(std::string path) : path_(std::move(path)), part_(path_ + ".part") {
  make_folder(path_);
  check_target(path_);
  descriptor_ = take(part_);
}

PartFile::~PartFile() {
  if (descriptor_ < 0) return;
  if (::ftruncate(descriptor_, 0) != 0) errno = 0;  // removing it is what matters
  ::unlink(part_.c_str());
  ::close(descriptor_);
}

void PartFile::append(std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(descriptor_, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) Expect{path_, "write", ""}.refuse(errno);
    text.remove_prefix(static_cast<std::size_t>(written));
  }
}

void PartFile::commit() {
  const Expect writing{path_, "write", ""};
  if (::fsync(descriptor_) != 0) writing.refuse(errno);
  if (::rename(part_.c_str(), path_.c_str()) != 0) writing.refuse(errno);
  ::close(std::exchange(descriptor_, -1));
  sync_folder(path_);
}

void check_writable(const std::string& path) { PartFile{path}; }

void write_whole(const std::string& path, std::string_view text) {
  PartFile part(path);
  part.append(text);
  part.commit();
}

}  // namespace engine
