#include "studies/manual/completion.hpp"

namespace studies::manual {

const std::vector<std::string>& words_of(Fills fills, const std::vector<std::string>& words,
                                         const std::vector<std::string>& materials) {
  static const std::vector<std::string> none;
  return fills == Fills::words ? words : fills == Fills::material ? materials : none;
}

std::vector<std::string> endings_of(Fills fills) {
  switch (fills) {
    case Fills::study:
      return {"toml"};
    case Fills::study_or_result:
      return {"toml", "h5"};
    case Fills::result:
      return {"h5"};
    case Fills::page:
      return {"html"};
    default:
      return {};
  }
}

}  // namespace studies::manual
