#include "studies/ask/caution.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "studies/ask/rare.hpp"
#include "studies/read/not_checked.hpp"

namespace studies {
namespace {

using engine::three_figures;
using models::Output;

/// The answer being warned about.
struct Seen {
  const Study& study;
  const models::Design& design;
  const InputLaw& inputs;
  Answer& answer;

  const OutputSummary& of(Output output) const { return answer.outputs[static_cast<std::size_t>(output)]; }
  double least_of_1000(Output output) const { return of(output).quantiles.front().estimate; }
  void say(Level level, std::string text, std::string why) {
    answer.cautions.push_back({level, std::move(text), std::move(why)});
  }
};

void winding_back(Seen& seen) {
  const double nominal = seen.of(Output::lock_margin_thread).nominal,
               low = seen.least_of_1000(Output::lock_margin_thread);
  const bool lift = seen.study.duty.action == models::Action::lift;
  if (nominal < 1 || low < 1) {
    const std::string odds = nominal < 1 ? "at its nominal friction already" : "on a slippery day";
    seen.say(nominal < 1 ? Level::warning : Level::caution,
             "The thread alone winds back under load: fit a brake, a lock or a check that does not rely on friction.",
             fmt::format("its lock margin falls to {} {}", three_figures(nominal < 1 ? nominal : low), odds));
    if (seen.study.duty.handle)
      seen.say(Level::warning, "A handle let go under load can whip round: stand clear of its sweep.",
               "the screw can wind back");
  } else {
    seen.say(Level::notice,
             "Friction holds this screw, but vibration or an impact can unlock any screw: it is not a brake.",
             fmt::format("lock margin of the thread {} at nominal", three_figures(nominal)));
  }
  if (lift)
    seen.say(Level::warning, "Nobody under a load held by a screw alone: prop it first.", "the duty lifts a load");
}

void pulling_too_hard(Seen& seen) {
  const models::Duty& duty = seen.study.duty;
  if (duty.drive == models::Drive::hand_force && !duty.overload)
    seen.say(Level::caution, "A pipe on the handle was not reckoned with: type duty.overload for the worst pull.",
             "the screw is turned by hand and no overload pull is given");
  if (duty.action == models::Action::clamp)
    seen.say(Level::caution, "The clamped frame stores energy: guard against parts that fly when something lets go.",
             "the duty clamps");
  for (const Reached& it : seen.answer.reached)
    if (it.torque <= seen.of(Output::torque).nominal)
      seen.say(Level::warning,
               fmt::format("Overstressed at the working pull: {}.", row(*models::must_named(it.limit)).words),
               fmt::format("its limit is reached at {} of the working torque",
                           three_figures(it.torque / seen.of(Output::torque).nominal)));
}

void surfaces(Seen& seen) {
  const models::Design& design = seen.design;
  if (design.lubrication == "dry" && design.screw.family == design.nut.family)
    seen.say(Level::caution, "Dry threads of like metals gall and seize: lubricate, or pair unlike metals.",
             design.screw.name + " runs dry in " + design.nut.name);
  if (seen.study.scatter[static_cast<std::size_t>(models::Input::thread_friction)].handbook)
    seen.say(Level::notice, "Thread friction is a handbook range, not a measurement: try your own screw and log it.",
             "thread_friction = \"handbook\"");
  if (design.engaged_turns() > 10)
    seen.say(Level::caution, "All engaged turns are counted, but the first few carry most of the load.",
             fmt::format("{} turns are engaged", three_figures(design.engaged_turns())));
  seen.say(Level::notice,
           "Nut wear does not show from outside: measure the backlash, and change the nut at a quarter of the pitch.",
           "every nut wears");
}

void column(Seen& seen) {
  const double slender = seen.of(Output::slenderness).nominal;
  if (!(slender > 0)) return;
  if (slender > 120)
    seen.say(Level::caution,
             "A long slender column: a small side load or a bow in the screw costs it much of its strength.",
             fmt::format("slenderness {}", three_figures(slender)));
  const models::Ends ends = seen.study.duty.ends;
  if (ends == models::Ends::fixed_rounded || ends == models::Ends::fixed_fixed)
    seen.say(Level::caution,
             "The end constant 1.2 is for liberal factors and a load known well; 1 is the conservative value.",
             "the ends are taken as fixed");
}

void passes(Seen& seen) {
  if (!seen.answer.settled()) {
    const SettlingReport& it = *seen.answer.settling;
    const auto open = std::count_if(it.estimates.begin(), it.estimates.end(), [](const auto& e) { return !e.settled; });
    seen.say(Level::warning,
             fmt::format("Not settled to {} digit{} when the passes reached their most.", it.digits,
                         it.digits == 1 ? "" : "s"),
             open > 0 ? fmt::format("{} of {} estimates still move after {} batches; at_most = {}", open,
                                    it.estimates.size(), it.batches, engine::count_in_full(it.at_most))
                      : fmt::format("{} batches agree, but ten are the least that prove it; at_most = {}", it.batches,
                                    engine::count_in_full(it.at_most)));
  }
  for (const LimitVerdict& v : seen.answer.limits)
    if (v.bounds_straddle && !v.by_rare)
      seen.say(Level::caution,
               fmt::format("Too close to call on these passes: {}. More passes would tell.", row(v.limit.must).words),
               fmt::format("between {} and {} of 100 fall short", three_figures(100 * (1 - v.odds.high)),
                           three_figures(100 * (1 - v.odds.low))));
  for (const auto& [name, count] : seen.answer.clipped)
    seen.say(Level::caution, fmt::format("{} draws of {} below 0 were taken as 0.", engine::count_in_full(count), name),
             "the spread typed reaches below 0");
  if (seen.answer.jammed > 0)
    seen.say(Level::warning,
             fmt::format("On {} passes the screw jams or the drag eats the whole torque; they count as misses.",
                         engine::count_in_full(seen.answer.jammed)),
             "friction times lead is too high there, or the torque too low");
}

/// Odds in a million, in two figures: nobody knows a tail more finely.
std::string in_million(double share) {
  if (share < 1e-6) return "fewer than 1";
  const double value = 1e6 * share, place = std::pow(10.0, std::floor(std::log10(value)) - 1);
  return three_figures(std::round(value / place) * place);
}

void rare_odds(Seen& seen) {
  for (const RareVerdict& it : seen.answer.rare) {
    const auto limit = std::find_if(seen.answer.limits.begin(), seen.answer.limits.end(),
                                    [&](const LimitVerdict& v) { return v.limit.must == it.must; });
    const double asked = *limit->limit.odds;
    const std::string words(row(it.must).words);
    if (!it.judges && beyond_passes(asked, seen.answer.passes))
      seen.say(Level::caution,
               fmt::format("The odds asked of {} are finer than {} passes can count, and no other way to them could be "
                           "trusted: the count alone judges.",
                           words, engine::count_in_full(seen.answer.passes)),
               it.reason);
    if (limit->by_rare && limit->bounds_straddle)
      seen.say(
          Level::caution, fmt::format("Too close to call: {}. A little more to spare would tell.", words),
          fmt::format("the odds that it falls short lie between {} and {}, where {} is allowed",
                      three_figures(it.shortfall.low), three_figures(it.shortfall.high), three_figures(1 - asked)));
    if (!it.other || it.other->shape.empty() || !it.other->trusted) continue;
    if ((1 - it.other->shortfall.estimate >= asked) == limit->holds) continue;
    seen.say(Level::warning,
             fmt::format("Whether {} holds rests on the assumed shape of the friction: measure it far out, or ask for "
                         "more margin.",
                         words),
             fmt::format("with {} friction instead of {} it {}: {} of a million fall short", it.other->shape,
                         it.other->from, limit->holds ? "does not" : "does", in_million(it.other->shortfall.estimate)));
  }
}

/// By how much basic thread diameters flatter the stripping areas of a form.
/// @source recomputed from the class limits of ASME B1.5 (2G) and ISO 965 (6H/6g); other forms: no figure
std::string flattered(models::Form form) {
  if (form == models::Form::iso_metric || form == models::Form::unified) return "up to 28 % optimistic";
  return form == models::Form::acme || form == models::Form::stub_acme ? "up to 10 % optimistic" : "optimistic";
}

void assumptions(Seen& seen) {
  const models::Design& design = seen.design;
  std::vector<std::string>& all = seen.answer.assumptions;
  if (seen.study.choices.made == models::Made::cut && design.thread.form == models::Form::trapezoidal)
    all.push_back("The thread is cut; a rolled one may be up to 0.15 P smaller at the root (made = \"rolled\").");
  all.push_back(fmt::format("Stripping takes basic diameters: {} against the worst in tolerance.",
                            flattered(design.thread.form)));
  for (const models::Limit& limit : seen.study.limits)
    if (limit.must == models::Must::stripping)
      all.push_back(limit.basis == models::StripBasis::ultimate
                        ? "Both threads strip at 0.6 of their ultimate strength."
                        : "Both threads strip at 0.577 of their yield strength.");
  const double travel = seen.study.duty.travel.value_or(seen.study.duty.free_length.value_or(0));
  all.push_back(travel > 0 ? "The screw's mass is that of its travel, the nut's length and the end length given."
                           : "No travel is given: the screw's mass is that of the length in the nut.");
  if (design.face.kind == models::Face::Kind::point && !design.face.mean_radius)
    seen.say(Level::caution, "A point without a mean_radius rubs at no radius: the torque is understated.",
             "face = point");
}

}  // namespace

void add_cautions(const Study& study, const models::ScrewModel& model, const InputLaw& inputs, Answer& answer) {
  answer.cautions = study.cautions;
  Seen seen{study, model.design(), inputs, answer};
  pulling_too_hard(seen);
  winding_back(seen);
  surfaces(seen);
  column(seen);
  passes(seen);
  rare_odds(seen);
  assumptions(seen);
  std::stable_sort(answer.cautions.begin(), answer.cautions.end(),
                   [](const Caution& a, const Caution& b) { return a.level > b.level; });
  answer.not_checked = not_checked(study);
}

}  // namespace studies
