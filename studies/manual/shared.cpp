/// What several verbs share.
#include "studies/manual/verbs.hpp"

namespace studies::manual {

Option threads_option() {
  return {.name = "--threads",
          .value = "N",
          .help = "threads to compute on; results do not depend on it",
          .place = &Options::threads,
          .between = {{1, 4096}}};
}

Option json_option(const std::string& object) {
  return {.name = "--json", .value = "", .help = object, .place = &Options::json};
}

Option quiet_option(const std::string& help) {
  return {.name = "--quiet", .value = "", .help = help, .place = &Options::quiet};
}

Exit usage_exit() { return {2, "the command was not understood"}; }
Exit files_exit() { return {5, "a file cannot be read or written, or is damaged"}; }
Exit bug_exit() { return {70, "a fault of the program"}; }

}  // namespace studies::manual
