#pragma once
/// A study and its answer made by hand, with every section of a results file in it.
#include <memory>

#include "studies/ask/answer.hpp"
#include "studies/keep/result_file.hpp"

namespace sample {

struct Sample {
  std::unique_ptr<studies::Study> study;  // at a fixed place: the answer points to it
  studies::Answer answer;
  studies::RunId run;
  std::string json = R"({"program": "screwtiny", "title": "Rack press — µ unsure"})";
  std::string sentence = "Reaches 22 kN in 97 of 100 pulls. Every margin holds.";
};

/// @param passes  kept passes; the values of output i in pass p are i + p/1000
Sample full(std::size_t passes = 1000);
/// Nothing passes: no pick, no outputs, no limits judged, nothing kept.
Sample without_pick();

/// An empty folder of its own, removed at the end.
class Folder {
public:
  Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder();
  std::string operator/(const std::string& name) const { return path_ + "/" + name; }
  const std::string& path() const { return path_; }
  /// Names of what is in it, in order.
  std::vector<std::string> names() const;

private:
  std::string path_;
};

std::string bytes_of(const std::string& path);
void put_bytes(const std::string& path, const std::string& bytes);
/// The root of the source tree.
std::string source_root();

}  // namespace sample
