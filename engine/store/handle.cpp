#include "engine/store/handle.hpp"

#include <cerrno>
#include <cstdlib>
#include <cstring>

#include "engine/base/error.hpp"

namespace engine {
namespace {

/// The innermost entry of the error stack: the cause, where later entries only pass it on.
std::string innermost_error() {
  std::string words;
  const auto first_only = [](unsigned entry, const H5E_error2_t* error, void* into) -> herr_t {
    if (entry == 0 && error->desc) *static_cast<std::string*>(into) = error->desc;
    return 0;
  };
  H5Ewalk2(H5E_DEFAULT, H5E_WALK_UPWARD, first_only, &words);
  return words;
}

/// The errno inside a library message: "… errno = 28, error message = '…'"; 0 where there is none.
int error_number_in(const std::string& words) {
  const std::string mark = "errno = ";
  const auto at = words.find(mark);
  return at == std::string::npos ? 0 : std::atoi(words.c_str() + at + mark.size());
}

std::string fix_for(int error_number, bool writing) {
  switch (error_number) {
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
      return "free some space or write to another folder";
    case EAGAIN:
      return "close the other program that has the file open, or wait for it to end";
    case EACCES:
    case EPERM:
    case EROFS:
      return writing ? "write to a folder that is yours to change" : "ask its owner for leave to read it";
    case ENOENT:
      return writing ? "check the path of the folder" : "check the path";
    case ENOTDIR:
      return "a part of the path is a file: name a folder";
    case EISDIR:
      return "name a file: this is a folder";
    case ENAMETOOLONG:
      return "use a shorter name";
    default:
      break;
  }
  return writing ? "check the disk, then run again"
                 : "check the disk, or write the file anew by running its study again";
}

bool has(const std::string& words, const char* part) { return words.find(part) != std::string::npos; }

[[noreturn]] void say(const Expect& expect, const std::string& reason, const std::string& fix) {
  const std::string what = expect.object.empty() ? "the file" : expect.object;
  throw Refusal(ExitCode::files, Problem{expect.file, 0, 0, "cannot " + expect.deed + " " + what, reason, fix});
}

}  // namespace

Handle Expect::owned(hid_t id, Handle::Close close) const {
  if (id < 0) refuse();
  return Handle(id, close);
}

void Expect::refuse(int error_number) const {
  const bool writing = deed != "read" && deed != "open";
  if (error_number == EAGAIN) say(*this, "another program has it open for writing", fix_for(EAGAIN, writing));
  say(*this, std::strerror(error_number), fix_for(error_number, writing));
}

void Expect::refuse() const {
  const std::string words = innermost_error();
  if (const int error_number = error_number_in(words)) refuse(error_number);
  if (has(words, "file signature not found")) say(*this, "it is not an HDF5 file", "name a results file (.h5)");
  const std::string anew = "restore it from a copy, or write it anew by running its study again";
  if (has(words, "truncated")) say(*this, "it is damaged: cut short", anew);
  if (deed == "read" || deed == "open") say(*this, "it is damaged (" + words + ")", anew);
  say(*this, words, "check the disk, then run again");
}

void prepare_library() {
  static const bool once = [] {
    H5dont_atexit();
    H5open();
    return true;
  }();
  (void)once;
  H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);  // per thread in a thread-safe build
}

}  // namespace engine
