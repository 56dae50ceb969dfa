#include <catch2/catch.hpp>

#include <fcntl.h>
#include <sched.h>
#include <signal.h>
#include <sys/file.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>
#ifdef __SANITIZE_ADDRESS__
#include <sanitizer/lsan_interface.h>
#endif

#include <cerrno>
#include <functional>
#include <iostream>

#include "engine/base/error.hpp"
#include "engine/store/part_file.hpp"
#include "engine/store/reader.hpp"
#include "engine/store/writer.hpp"
#include "sample_answer.hpp"

using engine::StoreReader;
using engine::StoreWriter;

namespace {

constexpr int not_possible_here = 77;

void write(const std::string& path, std::size_t passes = 1000) {
  const auto made = sample::full(passes);
  studies::write_results(path, made.answer, made.run,
                         {made.json, made.sentence, "in words", "holds", "5.89 kg", "yield 3 %"});
}

std::string refusal_of(const std::function<void()>& deed) {
  try {
    deed();
  } catch (const engine::Refusal& refused) {
    return refused.code() == engine::ExitCode::files ? refused.what() : "refused with another exit code";
  }
  return "nothing was refused";
}

/// Runs a deed in a process of its own that ends as a program does (handlers at exit included), and what it and the
/// libraries wrote to stderr goes to a file.
int in_a_child(const std::string& stderr_path, const std::function<int()>& deed) {
  const pid_t child = ::fork();
  if (child == 0) {
    const int log = ::open(stderr_path.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0666);
    ::dup2(log, 2);
#ifdef __SANITIZE_ADDRESS__
    __lsan_disable();  // HDF5 1.10 never gives back a file whose last flush failed
#endif
    int result = 99;
    try {
      result = deed();
    } catch (const std::exception& thrown) {
      std::cerr << thrown.what() << std::endl;
    }
    std::exit(result);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 1000 + WTERMSIG(status);
}

int mount_small(const std::string& folder) {
  if (::unshare(CLONE_NEWNS) != 0) return not_possible_here;
  ::mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr);
  return ::mount("none", folder.c_str(), "tmpfs", 0, "size=4m") == 0 ? 0 : not_possible_here;
}

}  // namespace

TEST_CASE("A full disk is said so, the old file stays, the part goes, and the next study goes on") {
  const sample::Folder folder;
  const std::string disk = folder / "disk", log = folder / "stderr.txt";
  ::mkdir(disk.c_str(), 0777);
  const int result = in_a_child(log, [&] {
    if (mount_small(disk) != 0) return not_possible_here;
    write(disk + "/press.h5");
    const std::string before = sample::bytes_of(disk + "/press.h5");
    const std::string said = refusal_of([&] { write(disk + "/press.h5", 20000); });
    if (said.find("No space left on device") == std::string::npos) return 1;
    if (said.find("press.h5: cannot write /passes/rated/") == std::string::npos) return 2;
    if (said.find("Fix: free some space") == std::string::npos) return 3;
    if (sample::bytes_of(disk + "/press.h5") != before) return 4;
    if (::access((disk + "/press.h5.part").c_str(), F_OK) == 0) return 5;
    write(disk + "/jack.h5");  // fits again: the failed part's space is free
    return StoreReader(disk + "/jack.h5").check() > 0 ? 0 : 6;
  });
  if (result == not_possible_here) {
    WARN("no small disk can be mounted here: not tested");
    return;
  }
  INFO(sample::bytes_of(log));
  CHECK(result == 0);
  CHECK(sample::bytes_of(log).empty());  // no pages from the library at exit
}

TEST_CASE("A file that may not grow leaves the old file and no part") {
  const sample::Folder folder;
  const std::string path = folder / "press.h5", log = folder / "stderr.txt";
  write(path);
  const std::string before = sample::bytes_of(path);
  const int result = in_a_child(log, [&] {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit small{1 << 20, 1 << 20};
    ::setrlimit(RLIMIT_FSIZE, &small);
    return refusal_of([&] { write(path, 20000); }).find("File too large") != std::string::npos ? 0 : 1;
  });
  CHECK(result == 0);
  CHECK((sample::bytes_of(path) == before));  // in brackets: bytes are not to be printed
  CHECK(sample::bytes_of(log).empty());
  CHECK(folder.names() == std::vector<std::string>{"press.h5", "stderr.txt"});
}

TEST_CASE("A writer killed in the middle leaves the old file, and the next one goes over its part") {
  const sample::Folder folder;
  const std::string path = folder / "press.h5";
  write(path);
  const std::string before = sample::bytes_of(path);
  const int result = in_a_child(folder / "stderr.txt", [&]() -> int {
    StoreWriter file(path);
    file.put({"/a", "x", engine::Stored::f64, {"x"}, "1", "x", ""}, std::vector<double>(500000, 1.0));
    ::raise(SIGKILL);
    return 0;
  });
  CHECK(result == 1000 + SIGKILL);
  CHECK((sample::bytes_of(path) == before));
  CHECK(::access((path + ".part").c_str(), F_OK) == 0);
  write(path);
  CHECK((sample::bytes_of(path) == before));
  CHECK(::access((path + ".part").c_str(), F_OK) != 0);
}

TEST_CASE("Two writers of one file: the second is refused and the first is not harmed") {
  const sample::Folder folder;
  const std::string path = folder / "press.h5";
  StoreWriter first(path);
  const int result = in_a_child(folder / "stderr.txt", [&] {
    return refusal_of([&] { write(path); }).find("another program has it open") != std::string::npos ? 0 : 1;
  });
  CHECK(result == 0);
  first.put({"/a", "x", engine::Stored::f64, {"x"}, "1", "x", ""}, std::vector<double>{1.0});
  first.commit();
  CHECK(StoreReader(path).check() == 1);
}

TEST_CASE("A file that another program has open for writing is not read, with a reason") {
  const sample::Folder folder;
  const std::string path = folder / "press.h5";
  write(path);
  const int other = ::open(path.c_str(), O_RDWR);
  REQUIRE(::flock(other, LOCK_EX | LOCK_NB) == 0);  // as HDF5 programs do
  CHECK_THAT(refusal_of([&] { StoreReader file(path); }), Catch::Contains("another program has it open for writing"));
  CHECK_FALSE(studies::finished(path, sample::full().run));
  CHECK_NOTHROW(write(path));  // replaced all the same: the other keeps what it has open
  ::close(other);
  CHECK(StoreReader(path).check() > 0);
}

TEST_CASE("A target that cannot be written is refused before anything is computed") {
  const sample::Folder folder;
  ::mkdir((folder / "press.h5").c_str(), 0777);
  CHECK_THAT(refusal_of([&] { engine::check_writable(folder / "press.h5"); }), Catch::Contains("Is a directory"));
  sample::put_bytes(folder / "results", "a file");
  CHECK_THAT(
      refusal_of([&] { engine::check_writable(folder / "results/press.h5"); }),
      Catch::Contains("cannot create the folder") && Catch::Contains("Not a directory") && Catch::Contains("Fix: "));
  CHECK_THAT(refusal_of([&] { engine::check_writable("/proc/nowhere/press.h5"); }),
             Catch::Contains("cannot create the folder"));
  CHECK_THAT(refusal_of([&] { engine::check_writable(folder / (std::string(300, 'x') + ".h5")); }),
             Catch::Contains("File name too long"));
}

TEST_CASE("Without leave to write nothing is written, with a reason") {
  const sample::Folder folder;
  const std::string inside = folder / "inside", guarded = folder / "guarded.h5";
  ::mkdir(inside.c_str(), 0555);
  sample::put_bytes(guarded, "what stood here");
  ::chmod(guarded.c_str(), 0444);
  ::chmod(folder.path().c_str(), 0777);
  const int result = in_a_child(folder / "stderr.txt", [&] {
    if (::geteuid() == 0 && ::setuid(65534) != 0) return not_possible_here;
    const std::string said = refusal_of([&] { engine::check_writable(inside + "/press.h5"); });
    if (said.find("Permission denied") == std::string::npos) return 1;
    if (said.find("Fix: write to a folder") == std::string::npos) return 2;
    return refusal_of([&] { engine::check_writable(guarded); }).find("Permission denied") == std::string::npos ? 3 : 0;
  });
  CHECK(result == 0);
  CHECK(sample::bytes_of(guarded) == "what stood here");
}

TEST_CASE("Whatever byte is damaged, a file is refused or reads as it was") {
  const sample::Folder folder;
  const std::string path = folder / "whole.h5", damaged = folder / "damaged.h5";
  const auto made = sample::full(50);
  studies::write_results(path, made.answer, made.run,
                         {made.json, made.sentence, "in words", "holds", "5.89 kg", "yield 3 %"});
  const std::string bytes = sample::bytes_of(path);
  const auto everything = [](const std::string& file_path) {
    const StoreReader file(file_path);
    std::string all;
    for (const auto& name : file.attribute_names("/")) all += file.text_attribute("/", name).value_or("") + "\n";
    for (const auto& each : file.variables()) {
      if (each.type == engine::Stored::text) {
        for (const auto& text : file.texts(each.path())) all += text + "\n";
      } else {
        for (const double value : file.numbers(each.path())) all += std::to_string(value) + "\n";
      }
    }
    return all;
  };
  const std::string whole = everything(path);
  const std::size_t step = bytes.size() / 150;
  const int result = in_a_child(folder / "stderr.txt", [&] {
    int wrong = 0;
    for (std::size_t at = 11; at < bytes.size(); at += step) {
      std::string other = bytes;
      other[at] = static_cast<char>(other[at] ^ 0x10);
      sample::put_bytes(damaged, other);
      try {
        wrong += everything(damaged) != whole;
      } catch (const engine::Refusal&) {
      }
    }
    return wrong;
  });
  CHECK(result == 0);
}
