#pragma once
/// Digests by which a study, its tables and its results are known to be the same.
#include <string>
#include <string_view>

namespace studies {

/// SHA-256 as 64 lower-case hexadecimal digits.
/// @source FIPS 180-4
std::string sha256_hex(std::string_view bytes);
/// The same in base 64, as content-security policies write it.
/// @source RFC 4648, section 4
std::string sha256_base64(std::string_view bytes);

}  // namespace studies
