/// What the search costs beside a look at every candidate: shelf_bench [DUTIES]. The shelf is shelf/study.toml under
/// random duties; both run in the same program on one core and must pick the same screw.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <fstream>
#include <random>
#include <sstream>
#include <string>

#include "studies/ask/hunt.hpp"
#include "studies/ask/question.hpp"
#include "studies/read/reader.hpp"

namespace {

using namespace studies;

std::string text_of(const std::string& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

void put(std::string& text, const std::string& name, double value) {
  const std::string mark = "@" + name + "@", number = fmt::format("{:.4g}", value);
  for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark))
    text.replace(at, mark.size(), number);
}

/// Duty number `n`: 20 to 400 N·m, a force that 2 to 4 N·m a kilonewton would lift, 0.2 to 0.8 m long.
Study duty(unsigned n) {
  std::mt19937_64 dice(n);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(dice() >> 11) * 0x1p-53;
  };
  std::string text = text_of(SCREWTINY_SOURCE "/tests/bench/shelf/study.toml");
  const double torque = 20 * std::pow(20, between(0, 1));
  put(text, "torque", torque);
  put(text, "force", torque / between(2, 4) / std::pow(torque / 20, 0.3));
  put(text, "length", between(200, 800));
  put(text, "key", n);
  const std::string folder = SCREWTINY_SOURCE "/models/tables",
                    grease = SCREWTINY_SOURCE "/tests/bench/shelf/tables.toml";
  return read_study_text(
      text, "study.toml", [&](const std::vector<std::string>&) { return models::read_tables(folder, {grease}); },
      Verb::size);
}

double processor_now() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

struct Done {
  Hunt hunt;
  double calls = 0, seconds = 0;
};

Done done(const Study& study, bool scan) {
  const double from = processor_now();
  const SharedPasses shared(study, engine::Plan::Kind::sobol, shared_passes, engine::Stream::search);
  Asking asking;
  asking.scan = scan;
  Done d{hunt(study, shared, asking), 0, 0};
  d.calls = static_cast<double>(shared.calls());
  d.seconds = processor_now() - from;
  return d;
}

/// The pick with what its nut is, or nothing.
std::string picked(const Done& done) {
  if (!done.hunt.pick) return "nothing passes";
  const Hunted& h = done.hunt.hunted[*done.hunt.pick];
  return fmt::format("#{} {} {:.3f} mm", *done.hunt.pick, models::designation(h.design->thread),
                     h.design->nut_length * 1e3);
}

double median(std::vector<double> all) {
  std::sort(all.begin(), all.end());
  return all[all.size() / 2];
}

}  // namespace

int main(int count, char** words) {
  const unsigned duties = count > 1 ? static_cast<unsigned>(std::stoul(words[1])) : 20;
  fmt::print(
      "duty  pick                            examined      scan calls    search calls  fewer  scan s  search s  x\n");
  std::vector<double> fewer, quicker, taken;
  unsigned same = 0;
  for (unsigned n = 1; n <= duties; ++n) {
    const Study study = duty(n);
    const Done scan = done(study, true), search = done(study, false);
    const bool equal = picked(scan) == picked(search);
    same += equal;
    fewer.push_back(scan.calls / search.calls);
    quicker.push_back(scan.seconds / search.seconds);
    taken.push_back(search.seconds);
    fmt::print("{:4}  {:<30}{}{:5} of {:4} {:14.0f} {:14.0f} {:6.0f} {:7.2f} {:9.3f} {:6.0f}\n", n, picked(search),
               equal ? "  " : "# ", search.hunt.report.examined, search.hunt.report.candidates, scan.calls,
               search.calls, fewer.back(), scan.seconds, search.seconds, quicker.back());
  }
  fmt::print(
      "same pick in {} of {}; model calls 1/{:.0f} (median; 1/{:.0f} to 1/{:.0f}); search {:.3f} s (median; most "
      "{:.3f})\n",
      same, duties, median(fewer), *std::min_element(fewer.begin(), fewer.end()),
      *std::max_element(fewer.begin(), fewer.end()), median(taken), *std::max_element(taken.begin(), taken.end()));
  return same == duties ? 0 : 1;
}
