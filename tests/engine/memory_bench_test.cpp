#include <catch2/catch.hpp>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iostream>

#include "tests/engine/jcgm.hpp"

using namespace engine;

namespace {

/// Bytes that this process has held at most, since the last reset; 0 where the system does not say.
double peak_megabytes() {
  std::ifstream status("/proc/self/status");
  for (std::string name; status >> name;)
    if (double kilobytes = 0; name == "VmHWM:" && status >> kilobytes) return kilobytes / 1024;
  return 0;
}

void reset_peak() { std::ofstream("/proc/self/clear_refs") << "5"; }

/// Eight outputs of one uniform, a few of which are crowded into few bins.
class Light : public BlockModel {
public:
  std::size_t inputs() const override { return 1; }
  std::size_t outputs() const override { return 8; }
  void evaluate(const Block& x, Block& y, std::size_t passes) const override {
    for (std::size_t i = 0; i < passes; ++i)
      for (std::size_t k = 0; k < 8; ++k)
        y.row(k)[i] = k < 6 ? x.row(0)[i] * static_cast<double>(k + 1) : 1 / x.row(0)[i];
  }
};

double peak_of(std::uint64_t passes) {
  Ask ask;
  ask.quantiles = {0.001, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99, 0.999};
  ask.coverage = 0.95;
  ask.tolerance = {0.95, 0.95};
  const Law law = jcgm::inputs({uniform(0, 1)});
  reset_peak();
  const auto start = std::chrono::steady_clock::now();
  const Survey s = survey(Plan(Plan::Kind::sobol, 1, passes, 1, Stream::test), law, Light(), ask, 1, {2, {}, nullptr});
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  std::cout << s.passes << " passes: peak " << peak_megabytes() << " MB, " << took.count() << " s\n";
  for (std::size_t k = 0; k < 6; ++k)
    CHECK(s.quantiles[k][4].estimate == Approx(0.5 * static_cast<double>(k + 1)).epsilon(1e-4));
  return peak_megabytes();
}

}  // namespace

TEST_CASE("A survey's memory does not grow with its passes", "[.long]") {
  const double small = peak_of(1'000'000);
  const double large = peak_of(100'000'000);
  CHECK(large < 1.5 * small + 50);
  if (std::getenv("SCREWTINY_BILLION")) CHECK(peak_of(1'000'000'000) < 1.5 * small + 50);
}
