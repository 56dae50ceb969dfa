#include "engine/store/schema.hpp"

namespace engine {

std::string name(Stored type) {
  switch (type) {
    case Stored::f64:
      return "f64";
    case Stored::f32:
      return "f32";
    case Stored::i64:
      return "i64";
    case Stored::u8:
      return "u8";
    case Stored::text:
      break;
  }
  return "text";
}

}  // namespace engine
