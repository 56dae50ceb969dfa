#include "studies/ask/side.hpp"

#include "studies/ask/candidates.hpp"

namespace studies {
namespace {

/// The thread and what goes by its diameter.
void resize(Side& side) {
  models::Design& design = side.design;
  const models::Thread& t = design.thread;
  design.thread = models::make_thread(t.form, t.diameter, t.pitch, t.starts, t.made);
  const double d = design.thread.diameter;
  design.nut_length = side.nut_length.of(d);
  design.nut_outside = side.study.choices.nut_outside.of(d);
  if (const models::Material* row = find_material_for(side.study.tables, design.screw.name, d)) design.screw = *row;
}

}  // namespace

std::optional<Ready> settled(Side side) {
  try {
    resize(side);
    const models::Design& design = side.design;
    if (!unbuildable(side.study, design).empty()) return std::nullopt;
    InputLaw inputs = input_law(side.study, {design.lubrication, design.screw, design.nut, design.face});
    const models::Allowances allowed =
        models::allowances(side.study.tables, side.study.duty, design, inputs.face_from_table);
    models::ScrewModel model(side.study.duty, design, allowed, side.study.limits);
    std::vector<double> nominal = model.evaluate_one(inputs.nominal);
    return Ready{std::move(inputs), std::move(model), std::move(nominal)};
  } catch (const engine::Refusal&) {
    return std::nullopt;
  }
}

}  // namespace studies
