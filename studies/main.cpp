/// The program: parses, runs, and is the only place that decides how to leave.
#include <fmt/format.h>

#include <atomic>
#include <csignal>

#include "engine/base/error.hpp"
#include "engine/pass/loop.hpp"
#include "studies/run/options.hpp"
#include "studies/run/run.hpp"

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

}  // namespace

int main(int argc, char** argv) {
  std::signal(SIGINT, interrupt);
  std::signal(SIGTERM, interrupt);
  const studies::Parsed parsed = studies::parse({argv + 1, argv + argc});
  if (!parsed.options) {
    fmt::print(parsed.code == 0 ? stdout : stderr, "{}{}", parsed.words, parsed.code == 0 ? "" : "\n");
    return parsed.code;
  }
  try {
    return studies::run(*parsed.options, interrupted);
  } catch (const engine::Interrupted&) {
    fmt::print(stderr, "Interrupted: nothing half-written is left; the same command goes on with what is not finished.\n");
    return static_cast<int>(engine::ExitCode::interrupted);
  } catch (const std::exception& error) {
    return bug(error.what());
  }
}
