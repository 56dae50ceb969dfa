#include "engine/store/seal.hpp"

#include <fmt/format.h>
#include <zlib.h>

#include <algorithm>
#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <vector>

#include "engine/store/handle.hpp"

namespace engine {
namespace {

constexpr std::size_t seal_length = 15;

struct Close {
  void operator()(std::FILE* stream) const { std::fclose(stream); }
};
using Stream = std::unique_ptr<std::FILE, Close>;

Stream opened(const std::string& path, const char* mode, const Expect& expect) {
  Stream stream(std::fopen(path.c_str(), mode));
  if (!stream) expect.refuse(errno);
  return stream;
}

/// The line that fits the first `length` bytes of a stream.
std::string seal_for(std::FILE* stream, std::uintmax_t length, const Expect& expect) {
  std::vector<unsigned char> block(1 << 20);
  uLong sum = crc32_z(0, nullptr, 0);
  while (length > 0) {
    const auto due = static_cast<std::size_t>(std::min<std::uintmax_t>(length, block.size()));
    if (std::fread(block.data(), 1, due, stream) != due) expect.refuse(errno != 0 ? errno : EIO);
    sum = crc32_z(sum, block.data(), due);
    length -= due;
  }
  return fmt::format("crc32 {:08x}\n", sum);
}

std::uintmax_t length_of(const std::string& path, const Expect& expect) {
  std::error_code error;
  const auto length = std::filesystem::file_size(path, error);
  if (error) expect.refuse(error.value());
  return length;
}

}  // namespace

void append_seal(const std::string& path, const std::string& file) {
  const Expect expect{file, "write", ""};
  const std::string seal = seal_for(opened(path, "rb", expect).get(), length_of(path, expect), expect);
  const Stream stream = opened(path, "ab", expect);
  if (std::fwrite(seal.data(), 1, seal.size(), stream.get()) != seal.size() || std::fflush(stream.get()) != 0)
    expect.refuse(errno);
}

Seal seal_of(const std::string& path) {
  const Expect expect{path, "read", ""};
  const auto length = length_of(path, expect);
  if (length < seal_length) return Seal::absent;
  const Stream stream = opened(path, "rb", expect);
  const std::string due = seal_for(stream.get(), length - seal_length, expect);
  std::string found(seal_length, '\0');
  if (std::fread(found.data(), 1, seal_length, stream.get()) != seal_length) expect.refuse(EIO);
  if (found == due) return Seal::whole;
  return found.rfind("crc32 ", 0) == 0 && found.back() == '\n' ? Seal::broken : Seal::absent;
}

}  // namespace engine
