#pragma once
/// Answers made by hand, for tests of what is said of them.
#include "studies/ask/answer.hpp"

namespace tests {

/// A study with its answer; the answer points to the study, so the two stay together.
struct Told {
  studies::Study study;
  studies::Answer answer;

  Told() { answer.study = &study; }
  Told(const Told& other) : study(other.study), answer(other.answer) { answer.study = &study; }
  Told& operator=(const Told&) = delete;
};

/// A limit as judged; a value's dimension follows from its name.
studies::LimitVerdict judged(models::Must must, models::Limit::Kind kind, double asked, double has,
                             std::optional<double> odds, studies::Bounded reached, bool holds);
/// The rack press of the design: sized, every margin holds.
Told press();
/// The same press rated with a screw that misses its force and buckles.
Told failing_rate();
/// The press where nothing on the shelf passes.
Told nothing_passes();
/// A rated screw of which nothing was asked.
Told no_must();
/// A jack that lifts with a motor.
Told lift();
/// The press typed in inch units.
Told inch_press();

}  // namespace tests
