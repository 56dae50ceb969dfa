#pragma once
/// What a study's question comes to: everything the terminal, JSON and results file say, and nothing they compute.
#include <array>
#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/units.hpp"
#include "models/screw/design.hpp"
#include "models/screw/limit.hpp"
#include "studies/ask/change.hpp"
#include "studies/ask/study.hpp"

namespace studies {

/// An estimate with its 95 % bounds.
struct Bounded {
  double low = 0, estimate = 0, high = 0;
};

/// The ends of an interval, or two bounds; NaN where there are none.
struct Ends {
  double low = std::numeric_limits<double>::quiet_NaN(), high = std::numeric_limits<double>::quiet_NaN();
};

/// What the coverage intervals of every output cover, and what its tolerance bounds promise how surely.
inline constexpr double coverage_share = 0.95, tolerance_content = 0.95, tolerance_confidence = 0.95;

/// The quantiles that every output has.
inline constexpr std::array<double, 9> quantile_points = {0.001, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99, 0.999};

/// One output over the passes. A value that does not exist is NaN, and `reason` says why.
struct OutputSummary {
  std::string name;  ///< "force", "margin.yield"
  engine::Dimension dimension = engine::Dimension::none;
  std::string meaning;
  double nominal = 0, mean = 0, spread = 0, least = 0, most = 0;
  std::array<Bounded, quantile_points.size()> quantiles{};
  Ends symmetric, shortest;  ///< intervals that cover 95 % of the passes
  /// 95 % of all there will ever be lie at or above low, 95 % sure; and, by itself as sure, at or below high. Infinite
  /// where the passes are too few for one.
  Ends tolerance;
  std::uint64_t missing = 0;  ///< passes on which it has no value
  std::string reason;         ///< empty where it has one
  std::vector<std::uint64_t>
      histogram;  ///< counts of equal bins from histogram_low to histogram_high; empty where constant
  double histogram_low = 0, histogram_high = 0;
};

/// One limit, judged. `has` and `asked_value` are in the unit of `dimension` (none for margins).
struct LimitVerdict {
  models::Limit limit;
  std::string name;
  engine::Dimension dimension = engine::Dimension::none;
  double asked_value = 0;
  double has = 0;    ///< the value judged: nominal, or the value that the asked share reaches
  double spare = 0;  ///< has/asked − 1, or 1 − has/limit for at_most
  double nominal_margin = 0;
  Bounded odds;  ///< share of the passes on which it holds
  std::uint64_t misses = 0;
  bool holds = false;
  bool bounds_straddle = false;  ///< the odds' bounds contain the odds asked
  bool by_rare = false;          ///< odds, has and holds are those of Answer::rare: a count of passes decides nothing
};

/// A failure nearest to the middle of all that scatters, in its neighbourhood.
struct FailurePoint {
  double distance = 0;         ///< from the medians, in standard deviations of the underlying normals
  std::vector<double> inputs;  ///< value of every input there [SI], in the order of models::Input
};

/// The same failure had the frictions another shape, of the same mean and spread.
struct OtherShape {
  std::string shape;   ///< "normal" or "lognormal"; empty where there is none to compare with
  std::string from;    ///< the shape it stands instead of; empty alike
  std::string reason;  ///< why there is none; else where its answer comes from
  Bounded shortfall;
  bool trusted = false;
};

/// Odds of one limit that too few passes miss for a count. Shares of 1; NaN where a method has no estimate.
struct RareVerdict {
  models::Must must = models::Must::force;
  std::string name;
  bool judges = false;               ///< the limit is judged by these odds, not by the count
  bool trusted = false;              ///< two methods agree, or it was counted
  std::string reason;                ///< where the answer comes from, and why it is or is not trusted
  Bounded shortfall;                 ///< estimate 0: no more than `high`
  double beta = 0, first_order = 0;  ///< distance of the nearest failure found, and the odds that this alone gives
  std::vector<FailurePoint> points;  ///< nearest first
  Bounded importance, subset;        ///< by the two methods, each with its own bounds
  std::uint64_t calls = 0;           ///< calls of the margin for all this, has and other shape included
  std::optional<OtherShape> other;   ///< none where the shortfall is 0 and judges nothing
};

/// The smallest change of one requirement that lets something pass.
struct Relaxation {
  models::Must must = models::Must::force;  ///< the limit, where it is one that changes
  double to = 0;                            ///< the value to ask instead, SI: in his units it has three figures
  double was = 0;                           ///< what is asked now, in the same terms
  engine::Dimension dimension = engine::Dimension::none;
  bool of_margin = false;  ///< `to` is a margin
  std::string admits;      ///< designation
  Change::Kind kind = Change::Kind::limit;
  std::size_t cap = 0;  ///< index into the study's caps, where it is one that changes
};

/// One candidate as the search leaves it.
struct CandidateVerdict {
  std::size_t index = 0;  ///< place in the order typed
  models::Design design;
  std::string designation;
  double mass = 0;                      ///< [kg], nominal
  double torque = 0;                    ///< [N·m] nominal, for the force asked: what decides between equals
  double value = 0;                     ///< of the first aim, less is better
  std::optional<std::size_t> over_cap;  ///< a cap that it exceeds: its place in the study
  bool examined = false;                ///< its limits were judged on the shared passes
  bool ruled_out = false;               ///< it cannot be built or used at all: `why`
  bool passes = false;                  ///< on the shared passes
  bool fresh_failed = false;            ///< passed there and missed on fresh passes
  std::optional<models::Must> misses;   ///< first missed limit, in the order of models::Must
  double has = 0, needs = 0;            ///< of that limit, or of the cap
  std::vector<double> margins;          ///< nominal margin.<name> of each limit of the study, in its order
  std::vector<double> at_odds;          ///< the margin judged of each limit: at its odds, or nominal
  std::string why;
  std::optional<Relaxation> admit;  ///< of a lighter size: the least single change that would admit it, if any does
};

/// One screw on the curve of two aims: no other is better by one of them and as good by the other.
struct TradePoint {
  CandidateVerdict screw;
  std::array<double, 2> values{};  ///< of the two aims' quantities, SI
};

struct SearchReport {
  std::uint64_t candidates = 0, examined = 0, ruled_out = 0, model_calls = 0;
  bool proven = false;
  double gap = 0;  ///< pick's mass over the least bound not ruled out, − 1
  std::uint64_t shared_passes = 0;
  bool continuous = false;  ///< a free diameter or pitch was searched
  int starts = 0;           ///< local searches of the continuous part
};

/// A neighbour on the shelf and why (not).
struct Neighbour {
  CandidateVerdict verdict;
  std::vector<models::Must> misses;  ///< all that it misses
};

/// What another choice would do to the pick, all else as in it, nut length included. Without a value (NaN) where
/// the changed screw cannot be built.
struct Worth {
  std::string change;                ///< "lubrication", "face", "nut", "screw", "starts" or "pitch"
  std::string from, to;              ///< the choice: "oil", "dry"; "1", "2"; "7 mm", "3 mm"
  std::string designation;           ///< of the changed screw; empty where there is none
  bool offered = false;              ///< among the choices that the study lists
  double nominal = 0;                ///< change of the force [N] of a clamp, of the torque [N·m] of a lift
  double mean = 0;                   ///< its mean over the passes
  double share = 0;                  ///< that mean over the pick's own mean [-]
  double mass = 0;                   ///< change of the nominal mass [kg]
  Bounded helps;                     ///< share of the passes on which it helps: more force, or less torque
  std::uint64_t passes = 0;          ///< 0: not built
  std::vector<models::Must> misses;  ///< in the study's order
  std::string why;                   ///< why it cannot be built, or what of it is not judged; empty where neither
};

/// The torque at the screw at which a limit is just reached, everything at nominal.
struct Reached {
  std::string limit;         ///< "yield", "thread_root", "nut_body", "buckling", "stripping"
  double torque = 0;         ///< [N·m]; infinite when never
  double of_screw = torque;  ///< of thread_root: that of the screw's own first turn
};

/// One scattered input as it was used.
struct ScatterUsed {
  std::string name, shape, varies, source;
  double nominal = 0;
  engine::Dimension dimension = engine::Dimension::none;
  std::string said;  ///< in words: "0.10 to 0.16 inside 80 of 100"
};

/// What some inputs contribute to the scatter of what is judged, and what a steadier source of them would do. Inputs
/// whose scatter is tied (thread and face friction that share a grease) stand together: their parts cannot be told
/// apart.
struct MatterInput {
  std::vector<std::string> inputs;
  Bounded share;                  ///< of the variance: what knowing them would take away on average
  Bounded total;                  ///< of the variance: what would be left if all else were known
  std::optional<Bounded> after;   ///< shortfall with their scatter halved; none where no shortfall is judged
  std::optional<Bounded> change;  ///< after − before, on the same passes
};

/// The same of all parts that vary alike.
struct MatterClass {
  std::vector<std::string> varies;  ///< "every pull", …; several where ties run across
  Bounded share, total;
};

/// One input from its 5 % to its 95 % quantile, all others at nominal.
struct InputSwing {
  models::Input input = models::Input::drive;
  std::string name;
  engine::Dimension dimension = engine::Dimension::none;
  double from = 0, to = 0;        ///< values of the input [SI]
  double at_from = 0, at_to = 0;  ///< what is judged there
};

/// What matters most for the limit that the task turns on.
struct Matter {
  std::optional<models::Must> must;  ///< the limit; none where none is asked: then the force or torque over its nominal
  std::string judged;                ///< "margin.force"; "force" without a limit
  std::string reason;                ///< why there are no shares; empty where there are
  std::optional<Bounded> before;     ///< shortfall as it is
  std::vector<MatterInput> inputs;   ///< by the shortfall that halving leaves, then by total share
  std::vector<MatterClass> classes;
  std::vector<InputSwing> swings;  ///< in the order of models::Input
};

/// One estimate and how it settled.
struct SettledEstimate {
  std::string of;        ///< "force", "margin.yield"
  std::string estimate;  ///< "mean", "spread", "low", "high" (ends of the symmetric 95 % interval), "odds"
  engine::Dimension dimension = engine::Dimension::none;
  double tolerance = 0;  ///< twice the standard deviation of the batches' mean; infinite where unknown
  double allowed = 0;    ///< the tolerance that the digits allow
  bool settled = false;
};

/// How the estimates settled, where that was asked.
struct SettlingReport {
  bool settled = false;
  int digits = 0;
  std::uint64_t batches = 0, batch_passes = 0, at_most = 0;
  std::vector<SettledEstimate> estimates;
};

struct Answer {
  const Study* study = nullptr;
  bool searched = false;  ///< `size` with something to choose
  bool sized = false;     ///< the verb was `size`
  std::optional<CandidateVerdict> pick;
  std::vector<OutputSummary> outputs;
  std::vector<LimitVerdict> limits;  ///< in the study's order
  SearchReport search;
  std::vector<CandidateVerdict> candidates;  ///< every screw tried, in the order examined
  std::vector<CandidateVerdict> lighter;     ///< one a size, by falling mass
  std::optional<Neighbour> next_size_down, next_size_up;
  /// Every diameter that could stand in for the pick's, by diameter, the pick among them (see window.hpp).
  std::vector<Neighbour> window;
  std::vector<Worth> worth;  ///< most helpful first; empty without a pick
  std::optional<models::Must> governs, tightest;
  std::vector<double> aimed_at;       ///< what the pick comes to by each aim, in the quantity's SI unit
  std::vector<double> under_caps;     ///< and under each cap
  std::vector<TradePoint> trade_off;  ///< from the best by the first aim to the best by the second; empty with one aim
  std::vector<Relaxation> relax;
  std::vector<models::Must> no_single_change;  ///< limits to relax together when nothing passes and no single one helps
  std::vector<Reached> reached;
  std::vector<ScatterUsed> scatter;
  std::vector<RareVerdict> rare;  ///< limits with odds and few misses, in the study's order
  std::optional<Matter> matter;   ///< none without a pick or where nothing scatters
  std::vector<Caution> cautions;
  std::vector<std::string> not_checked;
  std::vector<std::string>
      assumptions;  ///< what was assumed and is not in the study: "cut thread", "class not stated: …"
  double face_torque_by_pressure =
      0;                ///< [N·m] nominal raising torque by the pressure law; NaN where it does not apply
  std::string hundred;  ///< what the hundred are: "pulls", "screws built"
  std::uint64_t passes = 0;
  std::optional<SettlingReport> settling;  ///< none where a number of passes was asked, or nothing passes
  std::vector<std::pair<std::string, std::uint64_t>> clipped;  ///< impossible draws taken as 0, by input
  std::uint64_t jammed = 0;
  std::string results_path;  ///< empty when none was written
  // Raw passes, when kept: rows of inputs and outputs, each `passes` long.
  std::vector<std::vector<double>> kept_inputs, kept_outputs;

  bool settled() const { return !settling || settling->settled; }
  int exit_code() const;  ///< 4: not settled; else 0 where it holds, 1 where not
  bool holds() const;     ///< every limit holds (true without limits); false without a pick
};

}  // namespace studies
