#include "models/screw/names.hpp"

#include <array>

namespace models {
namespace {

using engine::Dimension;

constexpr std::array<NameRow, input_count> inputs = {{
    {"drive", Dimension::none, "drive", "what drives the screw: torque, hand force or motor torque"},
    {"load", Dimension::force, "load", "axial load lifted"},
    {"thread_friction", Dimension::none, "thread friction", "running friction coefficient of the thread"},
    {"face_friction", Dimension::none, "face friction", "running friction coefficient of the thrust face"},
    {"drag", Dimension::torque, "drag", "no-load torque"},
    {"screw_yield", Dimension::stress, "yield strength of the screw", "yield strength of the screw"},
    {"screw_strength", Dimension::stress, "ultimate strength of the screw", "ultimate strength of the screw"},
    {"nut_strength", Dimension::stress, "strength of the nut", "yield strength of the nut, ultimate where brittle"},
    {"modulus", Dimension::stress, "modulus of the screw", "elastic modulus of the screw"},
    {"model_error", Dimension::none, "model error", "factor on the force the formulas give"},
    {"diameters", Dimension::length, "screw diameters", "deviation of the screw's pitch and root diameters"},
}};

constexpr std::array<NameRow, output_count> outputs = {{
    {"force", Dimension::force, "force", "axial force"},
    {"torque", Dimension::torque, "torque", "torque at the screw, raising, running friction, face and drag included"},
    {"starting_torque", Dimension::torque, "starting torque", "torque at the screw that starts it from rest"},
    {"hand_force", Dimension::force, "hand force", "force on the handle, each hand"},
    {"useful_torque", Dimension::torque, "useful torque", "torque that does work on the load"},
    {"thread_torque", Dimension::torque, "thread torque", "torque lost in the thread"},
    {"face_torque", Dimension::torque, "face torque", "torque lost at the thrust face"},
    {"drag_torque", Dimension::torque, "drag torque", "no-load torque"},
    {"efficiency", Dimension::none, "efficiency", "work on the load over work put in, raising"},
    {"lowering_torque", Dimension::torque, "lowering torque",
     "torque that lowers, face and drag included; negative winds back"},
    {"lowering_torque_thread", Dimension::torque, "lowering torque of the thread",
     "torque that lowers through the thread alone; negative winds back"},
    {"lock_margin", Dimension::none, "lock margin", "friction over what just holds the load, thread and face"},
    {"lock_margin_thread", Dimension::none, "lock margin of the thread",
     "friction over what just holds the load, thread alone"},
    {"axial_stress", Dimension::stress, "axial stress", "axial stress of the root section"},
    {"torsion_stress", Dimension::stress, "torsion stress",
     "shear stress of the root section by the torque it carries"},
    {"bending_stress", Dimension::stress, "bending stress", "bending stress of the root section"},
    {"body_stress", Dimension::stress, "body stress",
     "equivalent stress of the root section, or of the handle end where that is more"},
    {"thread_root_stress", Dimension::stress, "thread root stress",
     "equivalent stress at the root of the screw's first turn"},
    {"nut_root_stress", Dimension::stress, "nut root stress", "bending stress at the root of the nut's first turn"},
    {"nut_hoop_stress", Dimension::stress, "nut hoop stress", "hoop stress of the nut body"},
    {"bearing_pressure", Dimension::stress, "bearing pressure", "mean pressure on the thread flanks"},
    {"face_pressure", Dimension::stress, "face pressure", "mean pressure on the thrust face"},
    {"screw_thread_shear", Dimension::stress, "screw thread shear", "shear stress across the screw's threads"},
    {"nut_thread_shear", Dimension::stress, "nut thread shear", "shear stress across the nut's threads"},
    {"buckling_load", Dimension::force, "buckling load", "axial load at which the free length buckles"},
    {"slenderness", Dimension::none, "slenderness", "free length over the radius of gyration of the root section"},
    {"engaged_turns", Dimension::none, "engaged turns", "turns of thread in the nut"},
    {"sliding_speed", Dimension::speed, "sliding speed", "speed of the thread flanks against each other"},
    {"screw_mass", Dimension::mass, "screw mass", "mass of the screw"},
    {"nut_mass", Dimension::mass, "nut mass", "mass of the nut"},
    {"mass", Dimension::mass, "mass", "mass of screw and nut"},
    {"turns", Dimension::none, "turns", "turns of the screw over the travel"},
    {"stroke_time", Dimension::time, "stroke time", "time of one travel"},
    {"overload_force", Dimension::force, "overload force", "axial force at the overload pull"},
    {"overload_torque", Dimension::torque, "overload torque", "torque at the screw at the overload pull"},
    {"overload_body_stress", Dimension::stress, "overload body stress", "body stress at the overload pull"},
    {"overload_thread_root_stress", Dimension::stress, "overload thread root stress",
     "thread root stress at the overload pull"},
    {"overload_bearing_pressure", Dimension::stress, "overload bearing pressure",
     "bearing pressure at the overload pull"},
    {"overload_screw_thread_shear", Dimension::stress, "overload screw thread shear",
     "screw thread shear at the overload pull"},
    {"overload_nut_thread_shear", Dimension::stress, "overload nut thread shear",
     "nut thread shear at the overload pull"},
}};

struct MustRow {
  NameRow row;
  std::optional<Output> judges;
};

constexpr std::array<MustRow, must_count> musts = {{
    {{"force", Dimension::force, "force", "axial force over the force asked"}, Output::force},
    {{"torque", Dimension::torque, "torque", "torque there is over the torque that starts the load"},
     Output::starting_torque},
    {{"hand_force", Dimension::force, "hand force", "hand force there is over the hand force that starts the load"},
     Output::hand_force},
    {{"yield", Dimension::stress, "yield of the body", "yield strength over body stress"}, Output::body_stress},
    {{"thread_root", Dimension::stress, "thread root",
      "yield strength over thread root stress, the worse of screw and nut"},
     Output::thread_root_stress},
    {{"nut_body", Dimension::stress, "nut body", "strength of the nut over the stress of its body"}, std::nullopt},
    {{"buckling", Dimension::force, "buckling", "buckling load over force"}, Output::buckling_load},
    {{"slenderness", Dimension::none, "slenderness", "slenderness allowed over slenderness"}, Output::slenderness},
    {{"bearing", Dimension::stress, "bearing pressure", "safe pressure over bearing pressure"},
     Output::bearing_pressure},
    {{"face_bearing", Dimension::stress, "face pressure", "safe pressure over face pressure"}, Output::face_pressure},
    {{"stripping", Dimension::stress, "stripping", "shear strength over thread shear, the worse of screw and nut"},
     std::nullopt},
    {{"self_locking", Dimension::none, "self-locking", "friction over what just holds the load, thread alone"},
     Output::lock_margin_thread},
    {{"overload", Dimension::none, "overload pull",
      "least of yield, thread root, buckling and stripping at the overload pull"},
     std::nullopt},
    {{"goes_first", Dimension::none, "what goes first",
      "least torque that breaks another part over the torque that breaks the part that is to go first"},
     std::nullopt},
    {{"mass", Dimension::mass, "mass", "mass allowed over mass"}, Output::mass},
}};

template <class Name, class Rows, class Get>
std::optional<Name> named(const Rows& rows, std::string_view name, Get get) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (get(rows[i]).name == name) return static_cast<Name>(i);
  return std::nullopt;
}

}  // namespace

const NameRow& row(Input input) { return inputs[static_cast<std::size_t>(input)]; }
const NameRow& row(Output output) { return outputs[static_cast<std::size_t>(output)]; }
const NameRow& row(Must must) { return musts[static_cast<std::size_t>(must)].row; }
std::optional<Output> judged(Must must) { return musts[static_cast<std::size_t>(must)].judges; }

const std::vector<NameRow>& not_computed() {
  static const std::vector<NameRow> rows = {
      {"pv", Dimension::pv, "pressure times speed", "pressure times sliding speed on the thread flanks"},
      {"face_pv", Dimension::pv, "pressure times speed of the face", "pressure times sliding speed on the thrust face"},
      {"friction_power", Dimension::power, "friction power", "power lost to all friction"},
      {"critical_speed", Dimension::rotation, "critical speed", "speed at which the free length whirls"},
      {"wear_life", Dimension::none, "wear life", "strokes until a quarter of the pitch is worn away"},
  };
  return rows;
}

std::optional<Output> output_named(std::string_view name) {
  return named<Output>(outputs, name, [](const NameRow& row) -> const NameRow& { return row; });
}

std::optional<Must> must_named(std::string_view name) {
  return named<Must>(musts, name, [](const MustRow& row) -> const NameRow& { return row.row; });
}

}  // namespace models
