#pragma once
/// The script and the look of the page, made from studies/sheet/draw when the program is built and carried in it.
#include <string_view>

namespace studies::sheet {

/// UTF-8, with the licence notices of the packages that the scripts are made from.
struct Bundle {
  std::string_view script;   ///< draws the figures of a page; goes between <script> tags as it is
  std::string_view style;    ///< goes between <style> tags as it is
  std::string_view figures;  ///< for node, as a .cjs file: a Sheet (draw/data.ts) as JSON on stdin gives {id: svg text}
};

/// The parts of a page, valid as long as the program runs; null where it was built without them.
const Bundle* bundle();

}  // namespace studies::sheet
