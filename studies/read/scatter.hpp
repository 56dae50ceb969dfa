#pragma once
/// [scatter]: what is uncertain.
#include "studies/read/page.hpp"

namespace studies::read {

/// Fills `page.study.scatter`, one entry for every models::Input in order; duty and choices must have been read.
void read_scatter(Page& page);
/// `scatter.correlation`; the scatter of all inputs must have been read.
void read_correlation(Page& page, const View& scatter);

/// What is known of an input before its scatter is read.
struct Scattered {
  models::Input input;
  std::string name;  ///< as typed: "hand_force"
  engine::Dimension dimension;
  Bound bound;  ///< of its values
  std::optional<double>
      own;                ///< the duty's, the material's or the table's value, where there is one for all candidates
  std::string own_words;  ///< where that comes from
  Varies varies;          ///< when not typed
  engine::Shape shape;    ///< of a spread or a range of practice, when not typed
  bool friction() const { return input == models::Input::thread_friction || input == models::Input::face_friction; }
};

/// One part as typed.
struct PartRead {
  std::optional<ScatterPart> part;  ///< none: held fixed
  std::optional<double> mean;       ///< where typed
  bool sets_base = false;           ///< it says where the input lies, not only how far it strays
  bool handbook = false;
};

/// Reads one part: a value, "handbook" or a table; none where it was refused.
/// @param first  it may say where the input lies
std::optional<PartRead> read_part(Page& page, const engine::Node& node, const std::string& path, const Scattered& of,
                                  bool first);

}  // namespace studies::read
