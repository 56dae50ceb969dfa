#pragma once
/// One limit of one screw as a block model, for all that asks about it alone.
#include <utility>

#include "models/screw/screw_model.hpp"

namespace studies {

/// The margin of one limit of a screw and nothing else.
class Margin : public engine::BlockModel {
public:
  /// @param limit  index into the limits of the screw
  Margin(models::ScrewModel screw, std::size_t limit) : screw_(std::move(screw)), limit_(limit) {}
  std::size_t inputs() const override { return screw_.inputs(); }
  std::size_t outputs() const override { return 1; }
  void evaluate(const engine::Block& x, engine::Block& y, std::size_t passes) const override {
    screw_.evaluate_margin(limit_, x, y, passes);
  }
  /// The least that holds.
  double least() const { return screw_.limits()[limit_].least_margin(); }

private:
  models::ScrewModel screw_;
  std::size_t limit_;
};

}  // namespace studies
