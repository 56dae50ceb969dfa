#include "studies/keep/digest.hpp"

#include <openssl/evp.h>

#include <array>
#include <stdexcept>

namespace studies {

std::string sha256_hex(std::string_view bytes) {
  std::array<unsigned char, 32> digest{};
  if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), nullptr, EVP_sha256(), nullptr) != 1)
    throw std::runtime_error("the SHA-256 of the cryptography library is switched off on this machine");
  std::string hex;
  for (const unsigned char byte : digest) {
    hex += "0123456789abcdef"[byte >> 4];
    hex += "0123456789abcdef"[byte & 15];
  }
  return hex;
}

}  // namespace studies
