#pragma once
/// Digests by which a study, its tables and its results are known to be the same.
#include <string>
#include <string_view>

namespace studies {

/// SHA-256 as 64 lower-case hexadecimal digits.
/// @source FIPS 180-4
std::string sha256_hex(std::string_view bytes);

}  // namespace studies
