#include "studies/ask/study.hpp"

namespace studies {

std::string name(Level level) {
  switch (level) {
    case Level::notice:
      return "NOTICE";
    case Level::caution:
      return "CAUTION";
    case Level::warning:
      return "WARNING";
    case Level::danger:
      return "DANGER";
  }
  return "";
}

}  // namespace studies
