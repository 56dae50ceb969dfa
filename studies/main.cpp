/// The program: parses, runs, and is the only place that decides how to leave.
#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <csignal>
#include <cstdio>
#include <system_error>

#include "engine/base/error.hpp"
#include "engine/pass/loop.hpp"
#include "studies/run/options.hpp"
#include "studies/run/run.hpp"
#include "studies/say/json.hpp"

namespace {

std::atomic<bool> interrupted = false;

void interrupt(int signal) {
  interrupted = true;
  std::signal(signal, SIG_DFL);  // a second time ends at once
}

int bug(const char* what) {
  fmt::print(stderr, "screwtiny {}: {}. This is our bug: send the study and this line.\n", studies::version(), what);
  return static_cast<int>(engine::ExitCode::bug);
}

int usage(const engine::Problem& problem, bool json) {
  const engine::Refusal refusal(engine::ExitCode::usage, problem);
  if (json) fmt::print("{}\n", studies::errors_json("", refusal));
  fmt::print(stderr, "{}\n", refusal.what());
  return static_cast<int>(refusal.code());
}

int answer(const std::vector<std::string>& arguments) {
  const studies::Parsed parsed = studies::parse(arguments);
  if (parsed.options) return studies::run(*parsed.options, interrupted);
  if (parsed.code != 0)
    return usage(parsed.problem, std::find(arguments.begin(), arguments.end(), "--json") != arguments.end());
  fmt::print("{}", parsed.words);
  return 0;
}

/// Whether all that was said on standard output has arrived there.
int said(int code) {
  if (std::fflush(stdout) == 0 && !std::ferror(stdout)) return code;
  fmt::print(stderr, "Standard output cannot be written. Fix: make room, or send it elsewhere.\n");
  return static_cast<int>(engine::ExitCode::files);
}

}  // namespace

int main(int argc, char** argv) {
  std::signal(SIGINT, interrupt);
  std::signal(SIGTERM, interrupt);
  try {
    return said(answer({argv + 1, argv + argc}));
  } catch (const engine::Interrupted&) {
    fmt::print(stderr,
               "Interrupted: nothing half-written is left; the same command goes on with what is not finished.\n");
    return static_cast<int>(engine::ExitCode::interrupted);
  } catch (const std::system_error&) {  // of fmt::print: the stream has failed
    return said(static_cast<int>(engine::ExitCode::files));
  } catch (const std::exception& error) {
    return bug(error.what());
  }
}
