#pragma once
/// Small studies that the tests change word by word.
#include <string>

namespace tests {

/// A clamp with one screw and nothing to choose: every limit holds.
inline const std::string one_screw = R"(title = "One screw"

[duty]
action = "clamp"
force  = "9 kN"
torque = "45 N.m"
travel = "200 mm"

[choose]
thread      = "Tr 24x5"
nut_length  = "36 mm"
lubrication = "oil"
screw       = "steel 1045 hot rolled"
nut         = "bearing bronze C93200"
face        = { kind = "rolling", mean_radius = "12 mm" }

[scatter]
torque      = { spread = "5 %" }
screw_yield = { spread = "6 %" }

[must]
force    = { odds = 0.95 }
yield    = { margin = 2.0, odds = 0.99 }
buckling = { margin = 2.5 }

[passes]
count = 65536
key   = 3
)";

/// A clamp whose diameter, pitch and nut length are free.
inline const std::string free_thread = R"(title = "Free square thread"

[duty]
action = "clamp"
force  = "9 kN"
torque = "45 N.m"
travel = "200 mm"

[choose]
thread      = { form = "square", diameter = { from = "14 mm", to = "50 mm" }, pitch = { from = "3 mm", to = "8 mm" } }
nut_length  = { from = "1 d", to = "2.5 d" }
lubrication = "oil"
screw       = "steel 1045 hot rolled"
nut         = "bearing bronze C93200"
face        = { kind = "rolling", mean_radius = "12 mm" }

[scatter]
torque      = { spread = "5 %" }
screw_yield = { spread = "6 %" }

[must]
force    = { odds = 0.95 }
yield    = { margin = 2.0, odds = 0.99 }
buckling = { margin = 3.0 }
bearing  = { margin = 1.0, odds = 0.95 }

[passes]
count = 131072
key   = 3
)";

/// Three errors: an unknown key, an unknown unit, an unknown material, on lines 5, 9 and 11.
inline const std::string three_errors = R"(title = "Three errors"
[duty]
action = "clamp"
force  = "9 kN"
travl  = "200 mm"
torque = "45 N.m"
[choose]
thread      = "Tr 24x5"
nut_length  = "36 parsecs"
lubrication = "oil"
screw       = "steel 1045 hot roled"
nut         = "bearing bronze C93200"
face        = { kind = "rolling", mean_radius = "12 mm" }
)";

}  // namespace tests
