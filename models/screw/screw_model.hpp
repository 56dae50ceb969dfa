#pragma once
/// One screw under one duty as a block model: outputs in the order of Output, then one margin a limit.
#include <array>
#include <span>
#include <string>
#include <vector>

#include "engine/pass/block.hpp"
#include "models/screw/kernel.hpp"
#include "models/screw/names.hpp"
#include "models/screw/screw_loops.hpp"

namespace models {

/// What tables and duty allow a design, apart from what scatters.
struct Allowances {
  double bearing_pressure = 0;  ///< safe pressure of the pair at its sliding speed [Pa]; NaN where the table has none
  double face_pressure = 0;     ///< the same of the face
  double thread_start = 1;      ///< starting over running friction of the thread
  double face_start = 1;        ///< and of the face
};

/// @param face_from_table  the face friction comes from the table, and with it its starting ratio
Allowances allowances(const Tables& tables, const Duty& duty, const Design& design, bool face_from_table);

/// Why an output has no value for a duty and a face; empty where it has one.
std::string missing(const Duty& duty, const Face& face, Output output);

/// Values of every input, in the order of Input.
using Inputs = std::array<double, input_count>;

class ScrewModel : public engine::BlockModel {
public:
  /// @param limits  become the outputs `margin.<name>`, after those of Output
  ScrewModel(const Duty& duty, const Design& design, const Allowances& allowances, std::vector<Limit> limits);

  std::size_t inputs() const override { return input_count; }
  std::size_t outputs() const override { return output_count + limits_.size(); }
  void evaluate(const engine::Block& x, engine::Block& y, std::size_t passes) const override;
  /// The margins alone, one row a limit: what the search needs.
  void evaluate_margins(const engine::Block& x, engine::Block& margins, std::size_t passes) const;
  /// The margin of one limit alone, into row 0; the pass is computed only as far as that limit needs it.
  /// @param limit  index into limits()
  /// @param first  column of x to begin at
  void evaluate_margin(std::size_t limit, const engine::Block& x, engine::Block& margin, std::size_t passes,
                       std::size_t first = 0) const;
  /// One pass: outputs, then margins.
  std::vector<double> evaluate_one(const Inputs& x) const;

  const Design& design() const { return design_; }
  const std::vector<Limit>& limits() const { return limits_; }
  /// Why an output has no value for this duty and design; empty where it has one.
  std::string missing(Output output) const { return models::missing(duty_, design_.face, output); }
  /// The margins of the parts at a torque on the screw, as at the overload pull.
  Parts parts_at(double torque, const Inputs& x) const;

private:
  /// @param margins  the row of the first of the limits
  void run(Rows rows, std::span<const Limit> limits, double* margins, std::size_t passes) const;

  Duty duty_;
  Design design_;
  std::vector<Limit> limits_;
  Kernel kernel_;
  Known known_;
  double face_area_ = 0;  ///< [m²]; 0 where not known
  double rotation_ = 0;   ///< [rev/s]; 0 where not known
};

}  // namespace models
