#pragma once
/// The names of what goes in, what comes out and what can be asked: one table each, from which reader, files and help
/// come.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/units.hpp"

namespace models {

/// What may scatter, in the order of the model's input rows.
enum class Input {
  drive,            ///< torque [N·m], hand force [N] or motor torque [N·m] as the duty's drive says
  load,             ///< [N], lift only
  thread_friction,  ///< μ, running
  face_friction,    ///< μ_c, running
  drag,             ///< T_0 [N·m]
  screw_yield,      ///< S_y of the screw [Pa]
  screw_strength,   ///< S_u of the screw [Pa]
  nut_strength,     ///< S_y of the nut, S_ut where brittle [Pa]; its S_u moves by the same factor
  modulus,          ///< E of the screw [Pa]
  model_error,      ///< factor on force [-]
  diameters         ///< deviation added to d2 and d3 of the screw [m]
};
inline constexpr std::size_t input_count = 11;

/// What comes out, in the order of the model's output rows.
enum class Output {
  force,
  torque,
  starting_torque,
  hand_force,
  useful_torque,
  thread_torque,
  face_torque,
  drag_torque,
  efficiency,
  lowering_torque,
  lowering_torque_thread,
  lock_margin,
  lock_margin_thread,
  axial_stress,
  torsion_stress,
  bending_stress,
  body_stress,
  thread_root_stress,
  nut_root_stress,
  nut_hoop_stress,
  bearing_pressure,
  face_pressure,
  screw_thread_shear,
  nut_thread_shear,
  buckling_load,
  slenderness,
  engaged_turns,
  sliding_speed,
  screw_mass,
  nut_mass,
  mass,
  turns,
  stroke_time,
  overload_force,
  overload_torque,
  overload_body_stress,
  overload_thread_root_stress,
  overload_bearing_pressure,
  overload_screw_thread_shear,
  overload_nut_thread_shear
};
inline constexpr std::size_t output_count = 40;

/// What may be asked, in the order in which missed limits are named.
enum class Must {
  force,
  torque,
  hand_force,
  yield,
  thread_root,
  nut_body,
  buckling,
  slenderness,
  bearing,
  face_bearing,
  stripping,
  self_locking,
  overload,
  goes_first,  ///< pulled too hard, Limit::part is the first to break
  mass
};
inline constexpr std::size_t must_count = 15;

struct NameRow {
  std::string_view name;  ///< as typed and written: "thread_friction"
  engine::Dimension dimension;
  std::string_view words;    ///< as said in a sentence: "thread friction"
  std::string_view meaning;  ///< long name for files
};

const NameRow& row(Input input);
const NameRow& row(Output output);
const NameRow& row(Must must);  ///< its dimension is that of what it judges
/// The output that a limit judges; null for those that judge a margin only (nut_body, stripping, overload, goes_first).
std::optional<Output> judged(Must must);

/// Outputs that are named and not computed in this version: what needs the speed of sliding or wear.
const std::vector<NameRow>& not_computed();

std::optional<Output> output_named(std::string_view name);
std::optional<Must> must_named(std::string_view name);

}  // namespace models
