#pragma once
/// The results file of one study: written when it is answered, looked at when it comes round again.
#include <cstdint>
#include <optional>
#include <string>

#include "studies/ask/answer.hpp"

namespace studies {

/// What makes a run the same run: equal in all of these, two runs give the same file.
struct RunId {
  std::string study_digest, tables_digest;
  std::string verb;  ///< "size" or "rate"
  std::string plan;  ///< "plain", "sobol" or "latin"
  std::uint64_t key = 0;
  std::uint64_t passes = 0;     ///< asked for; at most, where they are to settle
  int settle_digits = 0;        ///< digits that are to stand; 0: a number of passes was asked
  bool keep = false;            ///< raw passes go into the file
  bool scan = false;            ///< every candidate is examined
  std::string program_version;  ///< another version may answer otherwise: it is computed anew
};

/// @param study  with the command line's own key, passes and keep already in it
RunId run_id(const Study& study, const std::string& verb, bool scan, const std::string& program_version);

/// `<out_dir>/<stem of the study's file>.h5`.
std::string results_path(const std::string& out_dir, const std::string& study_path);

/// To be asked before computing: makes the folder and finds out whether the file can be written.
/// @throws Refusal (files): no leave, no folder, a folder of that name, or a sound HDF5 file there that is none of ours
void check_results_path(const std::string& path);

/// An answer in words, kept so that a finished study can be said again without computing.
struct Words {
  std::string json;                 ///< as `--json` prints it
  std::string sentence;             ///< the verdict's
  std::string text;                 ///< as the terminal shows it, without colour
  std::string few, mass, tightest;  ///< its line in the table that ends a run of several studies
};

/// Writes a results file; it appears under its name only when complete.
/// @param answer       `study` is set; kept inputs in the order of models::Input, kept outputs in that of
/// models::Output,
///                     then the margins of the study's limits; an empty row is left out
/// @throws Refusal (files) as engine::StoreWriter
void write_results(const std::string& path, const Answer& answer, const RunId& run, const Words& words);

/// What a finished results file says, enough for `--json` and a summary table.
struct FinishedRun {
  int exit_code = 0;
  std::string title, sentence, answer_json, answer_text;
  std::string pick;                                   ///< designation; empty where nothing passes
  std::optional<double> mass;                         ///< [kg]
  std::string line_answer, line_mass, line_tightest;  ///< its line in the table that ends a run of several studies
  std::string governs, tightest;                      ///< limits; empty where none
  std::uint64_t passes = 0;                           ///< made
};

/// The outcome of this very run when its file is there and sound (every checksum is read); empty when it is to be
/// computed: no file, another run's, another program version's, damaged, or not readable just now. Never throws
/// Refusal.
std::optional<FinishedRun> finished(const std::string& path, const RunId& run);

/// Reads a results file whatever run it is of, every checksum included.
/// @throws Refusal (files): not there, not ours, newer, damaged
FinishedRun read_results(const std::string& path);

}  // namespace studies
