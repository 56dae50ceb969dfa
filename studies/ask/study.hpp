#pragma once
/// A study as read and checked: immutable, SI inside, with every value's place and source.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/document.hpp"
#include "engine/base/error.hpp"
#include "engine/base/units.hpp"
#include "engine/draw/marginal.hpp"
#include "models/screw/design.hpp"
#include "models/screw/duty.hpp"
#include "models/screw/limit.hpp"
#include "models/tables/table.hpp"
#include "models/thread/series.hpp"

namespace studies {

/// One value or a closed range, of which only whole multiples of a step count where one is given.
struct Range {
  double from = 0, to = 0;
  double step = 0;  ///< 0: every value between
  bool fixed() const { return from == to; }
  /// The multiples of the step from end to end; both ends (or the one) where there is none.
  std::vector<double> multiples() const;
};

/// A length typed as a quantity or as a multiple of the screw's diameter ("1.5 d").
struct Length {
  double value = 0;  ///< [m], or the multiple
  bool times_diameter = false;
  double of(double diameter) const { return times_diameter ? value * diameter : value; }
};

/// The threads that may be chosen: standard sizes one by one, or a free form with ranges.
struct ThreadChoice {
  std::vector<models::Designation> sizes;  ///< in order of diameter, then pitch as the series has them, or as typed
  struct Free {
    models::Form form;
    Range diameter, pitch;  ///< [m]
  };
  std::vector<Free> free;  ///< at most one
};

struct NutLengthChoice {
  std::vector<Length> values;  ///< to be tried one by one; empty when a range is given
  std::optional<std::pair<Length, Length>> range;
  std::optional<Length> step;  ///< of the range: a nut is a whole multiple of it
};

struct Choices {
  ThreadChoice thread;
  std::vector<int> starts;  ///< ≥ 1 each
  NutLengthChoice nut_length;
  Length nut_outside;                    ///< default 1.6 d
  std::vector<std::string> lubrication;  ///< one empty word where none was typed and none is needed
  std::vector<models::Material> screw, nut;
  std::vector<models::Face> face;
  models::Made made = models::Made::cut;
};

/// How a part of an input's scatter is shared between passes.
enum class Varies { every_pull, every_screw, fixed };

/// One independent part of a scattered input.
struct ScatterPart {
  engine::Marginal marginal;  ///< of the value; of the deviation or factor where `role` says so
  enum class Role { value, added, factor } role = Role::value;
  Varies varies = Varies::every_pull;
  std::string said;    ///< how it was typed, in words for the answer: "± 4 %, rectangular"
  std::string source;  ///< "typed", "readings (8)", …
};

/// An input as the study describes it. Handbook friction has no parts here: they follow from the table row of each
/// candidate's pair.
struct Scatter {
  models::Input input = models::Input::drive;
  bool handbook = false;           ///< friction from the table
  std::optional<double> base;      ///< the mean typed [SI]; none: the duty's, the material's or the table's value
  std::vector<ScatterPart> parts;  ///< empty: held fixed at base
  engine::Place place;             ///< 0 where not typed
};

/// Correlation of the values of two inputs.
struct Correlated {
  models::Input one = models::Input::drive, other = models::Input::drive;
  std::string name, other_name;  ///< as typed
  double correlation = 0;        ///< between −1 and 1, both left out
  engine::Place place;           ///< of the pair
};

struct Passes {
  std::uint64_t count = 262144;
  /// Instead of a count: go on until so many digits stand, or the passes reach their most.
  struct Settle {
    int digits = 2;
    std::uint64_t at_most = 100'000'000;
  };
  std::optional<Settle> settle;
  enum class Plan { plain, sobol, latin } plan = Plan::sobol;
  std::uint64_t key = 1;
  bool keep = false;
};

/// A plan as studies spell it.
inline const char* name(Passes::Plan plan) {
  return plan == Passes::Plan::plain ? "plain" : plan == Passes::Plan::latin ? "latin" : "sobol";
}

/// A quantity of a screw by which it is sought or capped.
struct Quantity {
  enum class What { output, nut_length, margin, odds };
  What what = What::output;
  models::Output output = models::Output::mass;
  models::Must must = models::Must::force;  ///< whose margin at nominal, or odds

  bool operator==(const Quantity&) const = default;
};

/// What is best among the screws that hold.
struct Aim {
  Quantity of;
  bool most = false;  ///< else least
};

/// What a screw may come to at nominal, and no more.
struct Cap {
  Quantity of;
  double at_most = 0;  ///< SI
};

/// One line of what `vet` echoes: a quantity and where it came from.
struct Echo {
  std::string path;   ///< "duty.force"
  int line = 0;       ///< 0: not typed
  std::string given;  ///< as typed, or the default in words
  std::optional<double> si;
  engine::Dimension dimension = engine::Dimension::none;
  std::string source;  ///< "typed", "default: …", "table: …"
};

enum class Level { notice, caution, warning, danger };
/// "NOTICE", "CAUTION", "WARNING", "DANGER".
std::string name(Level level);

struct Caution {
  Level level = Level::caution;
  std::string text;  ///< what to mind
  std::string why;   ///< what in this study triggered it
};

struct Study {
  std::string path;    ///< as typed
  std::string text;    ///< the file verbatim
  std::string digest;  ///< of the text (hex)
  std::string tables_digest;
  std::string title, notes;
  models::Duty duty;
  Choices choices;
  std::vector<Scatter> scatter;  ///< one for every models::Input, in that order
  double shared_friction = 0.7;
  std::vector<Correlated> correlations;  ///< each pair once; one of the two frictions stands instead of shared_friction
  std::vector<models::Limit> limits;     ///< in the order of models::Must
  Passes passes;
  std::vector<Aim> aims = {{}};  ///< one, or the two of a trade-off; the first decides the pick
  std::vector<Cap> caps;         ///< in the order typed
  bool aim_typed = false;
  models::Tables tables;
  std::vector<models::File> draws_files;  ///< files of draws as read; their texts stand in tables.text too
  std::vector<Echo> echoes;
  std::vector<Caution> cautions;                                 ///< implausible values found while reading
  std::vector<std::string> held_fixed;                           ///< inputs not named in [scatter]
  std::vector<std::pair<engine::Dimension, std::string>> units;  ///< every unit typed, in the order typed
  bool inch = false;  ///< most of his units are inch units: the fallback for other dimensions
};

}  // namespace studies
