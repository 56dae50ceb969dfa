#pragma once
/// What can go wrong, said so that a user can act: where, what, why, and the fix.
#include <stdexcept>
#include <string>
#include <vector>

namespace engine {

/// What the program tells the shell.
enum class ExitCode {
  answered = 0,
  limit_missed = 1,
  usage = 2,
  study = 3,
  unsettled = 4,
  files = 5,
  bug = 70,
  interrupted = 130
};

/// One thing wrong with what the user gave.
struct Problem {
  std::string file;  ///< as the user typed it; empty where no file is concerned
  int line = 0;      ///< from 1; 0 where no line is concerned
  int column = 0;    ///< from 1; 0 where no column is concerned
  std::string problem;
  std::string reason;
  std::string fix;
};

/// `file:line:column: problem. reason. Fix: …`, leaving out the parts that are not there.
std::string text(const Problem& problem);

/// Thrown when the program cannot go on; its kind decides the exit code, and only `main` exits.
class Refusal : public std::runtime_error {
public:
  Refusal(ExitCode code, std::vector<Problem> problems);
  Refusal(ExitCode code, Problem problem);

  ExitCode code() const { return code_; }
  const std::vector<Problem>& problems() const { return problems_; }

private:
  ExitCode code_;
  std::vector<Problem> problems_;
};

}  // namespace engine
