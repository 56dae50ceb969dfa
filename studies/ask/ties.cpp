#include "studies/ask/ties.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "engine/base/format.hpp"
#include "engine/draw/correlation.hpp"
#include "studies/ask/inputs.hpp"

namespace studies {
namespace {

using engine::Nataf;
using engine::Part;
using engine::Tie;
using models::Input;

/// Least eigenvalue of a matrix of correlations that is used, and of one that is offered: with room for rounding what
/// is offered to three decimals.
constexpr double least_eigenvalue = 1e-6, offered_eigenvalue = 0.01;

bool are(const Correlated& pair, Input one, Input other) {
  return (pair.one == one && pair.other == other) || (pair.one == other && pair.other == one);
}

engine::Refusal refusal(const Study& study, engine::Place place, std::string problem, std::string reason,
                        std::string fix) {
  return {engine::ExitCode::study,
          engine::Problem{study.path, place.line, place.column, std::move(problem), std::move(reason), std::move(fix)}};
}

/// Ties of a study while they are found.
struct Ties {
  const Study& study;
  const std::vector<Part>& parts;
  const std::vector<Varies>& varies;
  std::vector<Tie> all = {};

  bool is_of(std::size_t part, Input input) const {
    return parts[part].input == static_cast<std::size_t>(input) && parts[part].marginal.shape != engine::Shape::draws;
  }

  /// Pairs of parts of two inputs that vary alike, first with first.
  std::vector<std::pair<std::size_t, std::size_t>> alike(Input one, Input other) const {
    std::vector<std::pair<std::size_t, std::size_t>> pairs;
    std::set<std::size_t> taken;
    for (std::size_t i = 0; i < parts.size(); ++i)
      for (std::size_t j = 0; is_of(i, one) && j < parts.size(); ++j)
        if (is_of(j, other) && varies[i] == varies[j] && taken.insert(j).second) {
          pairs.emplace_back(i, j);
          break;
        }
    return pairs;
  }

  void share_friction() {
    for (const Correlated& pair : study.correlations)
      if (are(pair, Input::thread_friction, Input::face_friction)) return;
    if (study.shared_friction == 0) return;
    for (const auto& [i, j] : alike(Input::thread_friction, Input::face_friction))
      all.push_back({i, j, study.shared_friction});
  }

  void tie(const Correlated& pair) {
    const auto pairs = alike(pair.one, pair.other);
    if (pairs.empty())
      throw refusal(study, pair.place,
                    fmt::format("no part of {} varies as one of {} does", pair.name, pair.other_name),
                    "Parts are correlated that vary alike, first with first, and draws from files have the correlation "
                    "of their rows",
                    "type the same 'varies' for both, or take the pair out");
    for (const auto& [i, j] : pairs) {
      for (const auto& [part, name] : {std::pair(i, pair.name), std::pair(j, pair.other_name)})
        if (!std::isfinite(parts[part].marginal.spread()))
          throw refusal(study, pair.place,
                        fmt::format("{} has no finite spread, so that its values have no correlation", name),
                        "A student needs more than 2 degrees of freedom for one",
                        "take four readings or more, or take the pair out");
      all.push_back({i, j, underlying(pair, Nataf(parts[i].marginal, parts[j].marginal))});
    }
  }

  double underlying(const Correlated& pair, const Nataf& nataf) const {
    if (const auto found = nataf.underlying(pair.correlation)) return *found;
    throw refusal(study, pair.place,
                  fmt::format("{} and {} cannot have a correlation of {}", pair.name, pair.other_name,
                              engine::plain(pair.correlation)),
                  fmt::format("With their shapes it can be from {:.3f} to {:.3f}",
                              std::ceil(nataf.least() * 1000) / 1000, std::floor(nataf.most() * 1000) / 1000),
                  "keep to that range, or give them other shapes");
  }

  void check() const {
    if (study.correlations.empty()) return;
    const auto n = static_cast<Eigen::Index>(parts.size());
    Eigen::MatrixXd matrix = Eigen::MatrixXd::Identity(n, n);
    for (const Tie& tie : all) {
      const auto i = static_cast<Eigen::Index>(tie.part), j = static_cast<Eigen::Index>(tie.other);
      matrix(i, j) = matrix(j, i) = tie.correlation;
    }
    const double smallest = engine::smallest_eigenvalue(matrix);
    if (smallest >= least_eigenvalue) return;
    throw refusal(
        study, study.correlations.front().place,
        fmt::format("the correlations contradict each other: the smallest eigenvalue of their matrix is {}",
                    engine::three_figures(smallest)),
        "It must be above 0; shared_friction counts as one of them",
        "type the nearest that fit together: " + offer(engine::nearest_correlation(matrix, offered_eigenvalue)));
  }

  /// A matrix of correlations of the normals as a study would state it.
  std::string offer(const Eigen::MatrixXd& matrix) const {
    std::string pairs, shared;
    std::set<std::pair<std::size_t, std::size_t>> said;
    for (std::size_t i = 0; i < parts.size(); ++i)
      for (std::size_t j = i + 1; j < parts.size(); ++j) {
        const double underlying = matrix(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
        if (std::abs(underlying) < 0.0005 || !said.emplace(parts[i].input, parts[j].input).second) continue;
        const auto one = static_cast<Input>(parts[i].input), other = static_cast<Input>(parts[j].input);
        const bool typed = std::any_of(study.correlations.begin(), study.correlations.end(),
                                       [&](const Correlated& pair) { return are(pair, one, other); });
        if (!typed && one == Input::thread_friction && other == Input::face_friction) {
          shared = fmt::format("shared_friction = {:.3f}, ", underlying);
          continue;
        }
        pairs += fmt::format("{}[\"{}\", \"{}\", {:.3f}]", pairs.empty() ? "" : ", ", input_name(study.duty, one),
                             input_name(study.duty, other),
                             Nataf(parts[i].marginal, parts[j].marginal).of_values(underlying));
      }
    return shared + "correlation = [" + pairs + "]";
  }
};

}  // namespace

std::vector<Tie> ties(const Study& study, const std::vector<Part>& parts, const std::vector<Varies>& varies) {
  Ties found{study, parts, varies};
  found.share_friction();
  for (const Correlated& pair : study.correlations) found.tie(pair);
  found.check();
  return found.all;
}

}  // namespace studies
