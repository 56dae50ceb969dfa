#include "studies/keep/digest.hpp"

#include <openssl/evp.h>

#include <array>
#include <stdexcept>

namespace studies {
namespace {

std::array<unsigned char, 32> sha256(std::string_view bytes) {
  std::array<unsigned char, 32> digest{};
  if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), nullptr, EVP_sha256(), nullptr) != 1)
    throw std::runtime_error("the SHA-256 of the cryptography library is switched off on this machine");
  return digest;
}

}  // namespace

std::string sha256_hex(std::string_view bytes) {
  std::string hex;
  for (const unsigned char byte : sha256(bytes)) {
    hex += "0123456789abcdef"[byte >> 4];
    hex += "0123456789abcdef"[byte & 15];
  }
  return hex;
}

std::string sha256_base64(std::string_view bytes) {
  const auto digest = sha256(bytes);
  std::array<unsigned char, 45> text{};  // 44 letters and a zero
  EVP_EncodeBlock(text.data(), digest.data(), static_cast<int>(digest.size()));
  return reinterpret_cast<const char*>(text.data());
}

}  // namespace studies
