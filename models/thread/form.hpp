#pragma once
/// Thread forms and what follows from a form, a diameter and a pitch.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace models {

enum class Form { acme, stub_acme, trapezoidal, square, buttress_7_45, buttress_3_30, iso_metric, unified };

/// How the screw is made; a rolled trapezoidal screw may be up to 0.15 P smaller at the root.
enum class Made { cut, rolled };

/// Geometry of one thread, basic sizes [m]; valid by construction (see make_thread).
struct Thread {
  Form form = Form::trapezoidal;
  Made made = Made::cut;
  double diameter = 0;         ///< d, nominal (major) diameter
  double pitch = 0;            ///< P
  int starts = 1;              ///< n_s
  double pitch_diameter = 0;   ///< d2
  double nut_minor = 0;        ///< D1
  double root_diameter = 0;    ///< d3, screw minor
  double nut_major = 0;        ///< D4
  double tan_load_flank = 0;   ///< tan α_l of the load flank, axial plane [-]
  double tan_other_flank = 0;  ///< tan α_o of the other flank, axial plane [-]

  double lead() const { return pitch * starts; }
  double working_depth() const { return (diameter - nut_minor) / 2; }  ///< h
};

/// The name a study uses: "acme", "stub-acme", "trapezoidal", "square", "buttress-7-45", "buttress-3-30",
/// "iso-metric", "unified".
std::string name(Form form);
std::optional<Form> form_named(std::string_view name);
const std::vector<Form>& all_forms();
/// The standard a form's geometry comes from, as a reader finds it: "ASME B1.5", "ISO 2901-2904", …
std::string source(Form form);

/// Builds the geometry of one thread. The constants of every form are those of the published tables, one row a form.
/// @param diameter  nominal diameter [m], > 0
/// @param pitch     [m], > 0 and < diameter; 1.5–44 mm for the trapezoidal form
/// @param starts    ≥ 1
/// @throws Refusal (study) without a place: P ≥ d, d3 ≤ 0, starts < 1, trapezoidal pitch outside 1.5–44 mm
/// @source ASME B1.5, B1.8, B1.9, B1.1; ISO 2901–2904, 68-1, 724; DIN 513
Thread make_thread(Form form, double diameter, double pitch, int starts = 1, Made made = Made::cut);

/// The pitches [m] at which the root diameter of a form jumps (free pitches are searched band by band): the bands'
/// borders inside (from, to), ascending. Empty for forms without jumps.
std::vector<double> pitch_borders(Form form, double from, double to);

}  // namespace models
