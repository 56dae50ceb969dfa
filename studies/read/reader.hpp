#pragma once
/// From a study file to a checked study.
#include <functional>
#include <string>
#include <vector>

#include "engine/base/document.hpp"
#include "studies/ask/study.hpp"

namespace studies {

/// What the study is read for: some things are asked of one verb only.
enum class Verb { vet, size, rate };

/// Reads a study and everything it names. Digests are left to whoever keeps results.
/// @param path           of the file, as typed: it stands in every message
/// @param tables_folder  where the program's own tables lie
/// @throws Refusal (study) with every error of the file, in the order of its lines; Refusal (files) when it or a table
///         cannot be read
Study read_study(const std::string& path, const std::string& tables_folder, Verb verb);

/// Gives the program's tables with the rows of more files before them.
using TableSource = std::function<models::Tables(const std::vector<std::string>& files)>;

/// The same of a text, with tables from anywhere.
/// @param files  gives the bytes of files of draws; throws Refusal (files)
Study read_study_text(const std::string& text, const std::string& path, const TableSource& tables, Verb verb,
                      const std::function<std::string(const std::string& path)>& files = engine::read_text);

}  // namespace studies
