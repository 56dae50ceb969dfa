/// Plans and keys: other draws of the same thing agree within their bounds.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

#include "tests/program/call.hpp"
#include "tests/program/texts.hpp"

namespace {

using namespace tests;
using nlohmann::json;

constexpr double errors_allowed = 4.5;  ///< in standard errors of the difference; about 30 values are compared

json answered(const std::string& study, std::vector<std::string> options = {}, const std::string& verb = "rate") {
  const Folder folder;
  folder.write("screw.toml", study);
  options.insert(options.begin(), {verb, "screw.toml", "--json"});
  const Ran ran = run(options, folder);
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  return json::parse(ran.out);
}

/// Difference of two estimates in standard errors; 95 % bounds are about two of them to each side.
double apart(const json& a, const json& b) {
  const auto error = [](const json& it) { return (it.at("high").get<double>() - it.at("low").get<double>()) / 4; };
  const double both = std::hypot(error(a), error(b));
  return std::abs(a.at("estimate").get<double>() - b.at("estimate").get<double>()) / both;
}

/// The furthest apart that any quantile of the outputs or any odds are.
double furthest(const json& a, const json& b) {
  double most = 0;
  for (const char* output : {"force", "torque", "body_stress", "lowering_torque", "margin.force", "margin.yield"})
    for (const char* share : {"0.01", "0.05", "0.5", "0.95", "0.99"}) {
      const auto at = [&](const json& it) { return it.at("outputs").at(output).at("quantiles").at(share); };
      most = std::max(most, apart(at(a), at(b)));
    }
  for (std::size_t k = 0; k < a.at("limits").size(); ++k)
    most = std::max(most, apart(a.at("limits")[k].at("odds"), b.at("limits")[k].at("odds")));
  return most;
}

const std::string plain = replaced(one_screw, "[passes]", "[passes]\nplan = \"plain\"");

}  // namespace

TEST_CASE("A plain plan and nets agree within their bounds, and a torque 2 % higher is told apart",
          "[program][statistical]") {
  const json by_nets = answered(one_screw), by_plain = answered(plain);
  CHECK(by_nets.at("provenance").at("plan") == "sobol");
  CHECK(by_plain.at("provenance").at("plan") == "plain");
  CHECK(furthest(by_nets, by_plain) < errors_allowed);
  const json more = answered(replaced(plain, "45 N.m", "45.9 N.m"));
  CHECK(furthest(by_nets, more) > 2 * errors_allowed);
}

TEST_CASE("Two keys give different estimates that agree within their bounds", "[program][statistical]") {
  for (const std::string& study : {one_screw, plain}) {
    const json one = answered(study, {"--key", "1"}), two = answered(study, {"--key", "2"});
    CHECK(one.at("provenance").at("key") == 1);
    CHECK(two.at("provenance").at("key") == 2);
    CHECK(one.at("outputs").at("force").at("mean") != two.at("outputs").at("force").at("mean"));
    CHECK(furthest(one, two) < errors_allowed);
  }
}

TEST_CASE("Nets are closer than a plain plan of as many passes", "[program][statistical]") {
  const auto width = [](const json& answer) {
    const json& median = answer.at("outputs").at("force").at("quantiles").at("0.5");
    return median.at("high").get<double>() - median.at("low").get<double>();
  };
  CHECK(width(answered(one_screw)) < width(answered(plain)) / 4);
}

TEST_CASE("Another key and another plan pick the same screw from a series", "[program]") {
  const fs::path source = fs::path(SCREWTINY_SOURCE) / "studies" / "gallery";
  for (const char* name : {"orchard_press.toml", "wagon_jack.toml", "panel_clamp.toml"}) {
    INFO(name);
    const std::string study = bytes_of(source / name);
    const json first = answered(study, {"--passes", "65536"}, "size");
    const json key = answered(study, {"--passes", "65536", "--key", "12345"}, "size");
    const json plan =
        answered(replaced(study, "[passes]", "[passes]\nplan = \"plain\""), {"--passes", "65536"}, "size");
    CHECK(first.at("outputs").at("force") != key.at("outputs").at("force"));
    CHECK(first.at("pick").at("designation") == key.at("pick").at("designation"));
    CHECK(first.at("pick").at("designation") == plan.at("pick").at("designation"));
  }
}

TEST_CASE("Passes are rounded up to whole nets, and a plain plan makes as many as asked", "[program]") {
  CHECK(answered(one_screw, {"--passes", "100000"}).at("provenance").at("passes") == 131072);
  CHECK(answered(plain, {"--passes", "100000"}).at("provenance").at("passes") == 100000);
}
