#pragma once
/// The last line of a results file: a checksum over every byte before it. HDF5 readers do not look behind the end that
/// the file's head names, so they open a sealed file as any other; a damaged one can crash them, so ours looks here
/// first.
#include <string>

namespace engine {

enum class Seal {
  whole,   ///< every byte is as it was written
  broken,  ///< some byte is not
  absent   ///< cut short, changed by another program, or never sealed
};

/// Appends `crc32 xxxxxxxx` (ISO 3309, eight hexadecimal digits) and a line end.
/// @throws Refusal (files) naming `file`
/// @param path  where the bytes lie
/// @param file  the name for messages
void append_seal(const std::string& path, const std::string& file);

/// Reads every byte once.
/// @throws Refusal (files) when it cannot be read
Seal seal_of(const std::string& path);

}  // namespace engine
