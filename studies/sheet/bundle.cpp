#include "studies/sheet/bundle.hpp"

// The ends of the three parts, from bundle.s.in.
extern "C" {
extern const char screwtiny_sheet_script[], screwtiny_sheet_script_end[];
extern const char screwtiny_sheet_style[], screwtiny_sheet_style_end[];
extern const char screwtiny_sheet_figures[], screwtiny_sheet_figures_end[];
}

namespace studies::sheet {

const Bundle* bundle() {
  static const Bundle parts{{screwtiny_sheet_script, screwtiny_sheet_script_end},
                            {screwtiny_sheet_style, screwtiny_sheet_style_end},
                            {screwtiny_sheet_figures, screwtiny_sheet_figures_end}};
  return parts.script.empty() ? nullptr : &parts;
}

}  // namespace studies::sheet
