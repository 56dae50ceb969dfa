#include "tests/program/contract.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <regex>
#include <set>

#include "tests/program/call.hpp"

namespace tests {
namespace {

using nlohmann::json;

const std::vector<std::string> shares = {"0.001", "0.01", "0.05", "0.25", "0.5", "0.75", "0.95", "0.99", "0.999"};

void check_keys(const json& object, const std::vector<std::string>& keys) {
  REQUIRE(object.is_object());
  for (const std::string& key : keys) {
    INFO(key);
    CHECK(object.contains(key));
  }
}

void check_texts(const json& object, const std::vector<std::string>& keys) {
  for (const std::string& key : keys) {
    INFO(key);
    CHECK(object.at(key).is_string());
  }
}

/// {"value": number or null, "unit": text or null}
void check_quantity(const json& it, const char* unit) {
  REQUIRE(it.is_object());
  CHECK(it.size() == 2);
  CHECK(it.at("value").is_number());
  CHECK(it.at("unit") == unit);
}

void check_verdict(const json& answer, bool sized) {
  const json& verdict = answer.at("verdict");
  check_keys(verdict, {"holds", "sentence", "governs", "tightest"});
  CHECK(verdict.at("holds").is_boolean());
  CHECK(!verdict.at("sentence").get<std::string>().empty());
  CHECK((verdict.at("governs").is_string() || verdict.at("governs").is_null()));
  CHECK((verdict.at("tightest").is_string() || answer.at("limits").empty()));
  if (!sized) CHECK(verdict.at("governs").is_null());
}

void check_pick(const json& pick) {
  check_texts(pick, {"designation", "form", "screw", "nut", "lubrication", "face"});
  for (const char* key : {"diameter", "pitch", "lead", "pitch_diameter", "root_diameter", "nut_length"})
    check_quantity(pick.at(key), "m");
  check_quantity(pick.at("mass"), "kg");
  CHECK(pick.at("starts").is_number_integer());
  const auto value = [&](const char* key) { return pick.at(key).at("value").get<double>(); };
  CHECK(value("lead") == Approx(value("pitch") * pick.at("starts").get<int>()));
  CHECK(value("root_diameter") < value("pitch_diameter"));
  CHECK(value("pitch_diameter") < value("diameter"));
}

bool noted(const json& answer, const std::string& output) {
  for (const json& note : answer.at("notes"))
    if (note.at("output") == output && !note.at("reason").get<std::string>().empty()) return true;
  return false;
}

void check_output(const json& answer, const std::string& name, const json& output) {
  INFO("output " << name);
  check_keys(output, {"unit", "nominal", "mean", "spread", "quantiles", "coverage", "tolerance"});
  REQUIRE(output.at("quantiles").size() == shares.size());
  if (output.at("mean").is_null()) {
    CHECK(noted(answer, name));
    return;
  }
  const auto at = [&](std::size_t i, const char* bound) {
    return output.at("quantiles").at(shares[i]).at(bound).get<double>();
  };
  for (std::size_t i = 0; i < shares.size(); ++i) {
    INFO("quantile " << shares[i]);
    const double low = at(i, "low"), estimate = at(i, "estimate"), high = at(i, "high");
    CHECK(low <= estimate);
    CHECK(estimate <= high);
    if (i > 0) CHECK(at(i - 1, "estimate") <= estimate);
    const bool lumped = (i > 0 && at(i - 1, "estimate") == estimate) ||  // many passes on one value: known exactly
                        (i + 1 < shares.size() && at(i + 1, "estimate") == estimate);
    if (!lumped) CHECK(low < high);
  }
  const json &coverage = output.at("coverage"), &tolerance = output.at("tolerance");
  CHECK((coverage.at("share") == 0.95 && tolerance.at("content") == 0.95 && tolerance.at("confidence") == 0.95));
  const auto span = [&](const char* kind) {
    return coverage.at(kind).at("high").get<double>() - coverage.at(kind).at("low").get<double>();
  };
  CHECK(0 <= span("shortest"));
  CHECK(span("shortest") <= span("symmetric"));
  CHECK(tolerance.at("low") <= output.at("quantiles").at("0.05").at("estimate"));
  CHECK(tolerance.at("high") >= output.at("quantiles").at("0.95").at("estimate"));
}

void check_limit(const json& answer, const json& limit) {
  INFO("limit " << limit.at("name"));
  const json& asks = limit.at("asks");
  CHECK(asks.size() == 2);
  CHECK(asks.contains("odds"));
  CHECK(asks.contains("margin") + asks.contains("at_least") + asks.contains("at_most") == 1);
  if (asks.contains("margin")) CHECK(asks.at("margin").is_number());
  CHECK(limit.at("has").at("value").is_number());
  CHECK(limit.at("has").contains("unit"));
  CHECK(limit.at("nominal_margin").is_number());
  const bool holds = limit.at("holds");
  CHECK((limit.at("spare").get<double>() >= 0) == holds);
  const json& odds = limit.at("odds");
  const double low = odds.at("low"), estimate = odds.at("estimate"), high = odds.at("high");
  CHECK((0 <= low && low <= estimate && estimate <= high && high <= 1));
  CHECK(low < high);
  CHECK(odds.at("passes") == answer.at("provenance").at("passes"));
  if (!asks.at("odds").is_null()) CHECK((estimate >= asks.at("odds").get<double>()) == holds);
}

/// The tightest is the limit with least to spare, and all holds when each holds.
void check_limits(const json& answer) {
  bool holds = true;
  double least = INFINITY;
  std::string tightest;
  for (const json& limit : answer.at("limits")) {
    check_limit(answer, limit);
    CHECK(answer.at("outputs").contains("margin." + limit.at("name").get<std::string>()));
    holds = holds && limit.at("holds").get<bool>();
    if (limit.at("spare") < least) tightest = limit.at("name"), least = limit.at("spare");
  }
  CHECK(answer.at("verdict").at("holds") == holds);
  if (!tightest.empty()) CHECK(answer.at("verdict").at("tightest") == tightest);
}

void check_neighbour(const json& it) {
  if (it.is_null()) return;
  check_keys(it, {"designation", "mass", "misses", "has", "needs"});
  CHECK(it.at("designation").is_string());
}

/// A change as it is typed: a value where one is, or how many times as strong.
void check_change(const json& it) {
  check_keys(it, {"change", "limit", "was", "to", "unit"});
  const std::set<std::string> kinds = {"limit", "free_length", "screw_strength", "nut_strength", "cap"};
  CHECK(kinds.count(it.at("change").get<std::string>()) == 1);
  CHECK(it.at("limit").is_string() == (it.at("change") == "limit" || it.at("change") == "cap"));
  CHECK(it.at("was").get<double>() > 0);
  CHECK(it.at("to").get<double>() > 0);
  CHECK(it.at("was") != it.at("to"));
  const bool strength = it.at("change") == "screw_strength" || it.at("change") == "nut_strength";
  if (strength) CHECK(it.at("unit").is_null());
  if (it.at("change") == "free_length") CHECK(it.at("unit") == "m");
}

void check_search(const json& answer) {
  const json& search = answer.at("search");
  for (const char* key : {"candidates", "examined", "ruled_out", "gap", "model_calls"}) {
    INFO(key);
    CHECK(search.at(key).is_number());
  }
  CHECK(search.at("proven").is_boolean());
  CHECK(search.at("examined") <= search.at("candidates"));
  for (const json& it : answer.at("lighter")) {
    check_neighbour(it);
    check_quantity(it.at("mass"), "kg");
    CHECK(it.at("mass").at("value") < answer.at("pick").at("mass").at("value"));
    CHECK(it.at("misses").is_string());
    REQUIRE(it.contains("admit"));
    if (!it.at("admit").is_null()) check_change(it.at("admit"));
  }
  check_neighbour(answer.at("next_size_down"));
  check_neighbour(answer.at("next_size_up"));
  for (const json& it : answer.at("relax")) {
    check_change(it);
    CHECK(it.at("admits").is_string());
  }
  if (answer.at("search").at("candidates") > 1) CHECK(answer.at("aims").size() == 1);
  for (const json& it : answer.at("aims")) {
    check_keys(it, {"of", "most", "value"});
    CHECK(it.at("value").at("value").is_number());
  }
  for (const json& it : answer.at("caps")) check_keys(it, {"of", "at_most", "has"});
  CHECK(answer.at("trade_off").is_array());
  const json& down = answer.at("next_size_down");
  CHECK(answer.at("verdict").at("governs") == (down.is_null() ? json(nullptr) : down.at("misses")));
}

bool in_order(const json& bounds, double least, double most) {
  const double low = bounds.at("low"), estimate = bounds.at("estimate"), high = bounds.at("high");
  return least <= low && low <= estimate && estimate <= high && high <= most;
}

const json* rare_of(const json& answer, const json& name) {
  for (const json& it : answer.at("rare"))
    if (it.at("name") == name) return &it;
  return nullptr;
}

/// Bounds in order; a limit that is judged by its rare odds shows them as its own.
void check_rare(const json& answer) {
  REQUIRE(answer.at("rare").is_array());
  for (const json& it : answer.at("rare")) {
    INFO("rare " << it.at("name"));
    check_keys(it, {"name", "judges", "shortfall", "trusted", "reason", "first_order", "importance", "subset", "calls",
                    "other_shape"});
    CHECK(in_order(it.at("shortfall"), 0, 1));
    CHECK(it.at("shortfall").at("low") < it.at("shortfall").at("high"));
    for (const char* method : {"importance", "subset"})
      CHECK((it.at(method).is_null() || in_order(it.at(method), 0, 1)));
    CHECK((it.at("trusted").get<bool>() || !it.at("judges").get<bool>()));
    CHECK(it.at("calls").get<std::uint64_t>() > 0);
    check_texts(it, {"name", "reason"});
    check_keys(it.at("first_order"), {"beta", "estimate", "points"});
    for (const json& point : it.at("first_order").at("points")) {
      CHECK(point.at("distance").is_number());
      for (const json& input : point.at("inputs")) check_keys(input, {"input", "value", "unit"});
    }
    const json& other = it.at("other_shape");
    if (!other.is_null()) check_keys(other, {"shape", "instead_of", "low", "estimate", "high", "trusted", "reason"});
    if (it.at("shortfall").at("estimate") > 0) CHECK(other.is_object());
    bool asked = false;
    for (const json& limit : answer.at("limits")) {
      if (limit.at("name") != it.at("name")) continue;
      asked = !limit.at("asks").at("odds").is_null();
      if (it.at("judges"))
        CHECK(limit.at("odds").at("estimate") == 1 - it.at("shortfall").at("estimate").get<double>());
    }
    CHECK(asked);
  }
}

/// By rising diameter; what holds misses nothing, and the next sizes are the entries beside the pick.
void check_window(const json& answer) {
  const json& window = answer.at("window");
  REQUIRE(window.is_array());
  double last = 0;
  bool pick = window.empty();
  for (const json& it : window) {
    check_keys(it, {"designation", "diameter", "mass", "holds", "misses", "why"});
    check_quantity(it.at("diameter"), "m");
    CHECK(it.at("diameter").at("value") > last);
    last = it.at("diameter").at("value");
    if (it.at("why").is_null()) CHECK(it.at("holds") == it.at("misses").empty());
    pick = pick || (it.at("designation") == answer.at("pick").at("designation") && it.at("holds"));
  }
  CHECK(pick);
  if (!answer.at("next_size_down").is_null()) {
    const auto down = std::find_if(window.begin(), window.end(), [&](const json& it) {
      return it.at("designation") == answer.at("next_size_down").at("designation");
    });
    REQUIRE(down != window.end());
    CHECK(down->at("misses") == answer.at("next_size_down").at("all_missed"));
  }
}

/// One other choice each; what helps on every pass changes the mean the same way.
void check_worth(const json& answer) {
  REQUIRE(answer.at("worth").is_array());
  std::set<std::string> seen;
  for (const json& it : answer.at("worth")) {
    check_keys(it, {"change", "from", "to", "designation", "offered", "of", "change_nominal", "change_mean", "share",
                    "mass", "helps", "misses", "why"});
    check_texts(it, {"change", "from", "to", "of"});
    INFO("worth " << it.at("change") << " " << it.at("to"));
    CHECK(seen.insert(it.at("change").get<std::string>() + it.at("to").get<std::string>()).second);
    CHECK(it.at("offered").is_boolean());
    const json& of = answer.at("outputs").at(it.at("of").get<std::string>());
    for (const char* key : {"change_nominal", "change_mean"}) CHECK(it.at(key).at("unit") == of.at("unit"));
    CHECK(it.at("mass").at("unit") == "kg");
    for (const json& name : it.at("misses")) CHECK(answer.at("outputs").contains("margin." + name.get<std::string>()));
    if (it.at("helps").is_null()) {
      CHECK((it.at("why").is_string() && it.at("offered") == true));
      continue;
    }
    CHECK(in_order(it.at("helps"), 0, 1));
    CHECK(it.at("helps").at("passes") == 65536);
    const json& mean = it.at("change_mean").at("value");
    const double sign = it.at("of") == "force" ? 1 : -1;
    if (it.at("helps").at("estimate") == 1 && mean.is_number()) CHECK(sign * mean.get<double>() > 0);
  }
}

/// What is named and not computed stands there as null, with its reason.
void check_not_computed(const json& answer) {
  for (const char* name : {"pv", "face_pv", "friction_power", "critical_speed", "wear_life"}) {
    INFO(name);
    CHECK(answer.at("outputs").at(name).at("nominal").is_null());
    CHECK(noted(answer, name));
  }
}

/// Shares lie in [0, 1]; halving starts from the shortfall of the limit judged, on the very same passes.
void check_matters(const json& answer) {
  const json& matters = answer.at("matters");
  if (matters.is_null()) return;
  check_keys(matters, {"judged", "limit", "shortfall", "by_input", "by_class"});
  CHECK(answer.at("outputs").contains(matters.at("judged").get<std::string>()));
  for (const char* by : {"by_input", "by_class"})
    for (const json& it : matters.at(by))
      for (const char* share : {"share", "total"})
        CHECK((it.at(share).at("estimate").is_null() || in_order(it.at(share), 0, 1)));
  for (const json& limit : answer.at("limits"))
    if (const json* rare = rare_of(answer, limit.at("name"));  // halving counts passes, whatever judges the limit
        limit.at("name") == matters.at("limit") && !(rare && rare->at("judges")))
      CHECK(matters.at("shortfall").at("estimate").get<double>() ==
            Approx(1 - limit.at("odds").at("estimate").get<double>()).margin(1e-12));
  for (const json& it : matters.at("by_input")) {
    CHECK(!it.at("inputs").empty());
    CHECK(it.at("swing").size() == it.at("inputs").size());
    if (matters.at("shortfall").is_null()) continue;
    const json& halved = it.at("halved");
    CHECK(in_order(halved.at("shortfall"), 0, 1));
    CHECK(in_order(halved.at("change"), -1, 1));
    CHECK(halved.at("shortfall").at("estimate").get<double>() - matters.at("shortfall").at("estimate").get<double>() ==
          Approx(halved.at("change").at("estimate").get<double>()).margin(1e-12));
  }
}

void check_lists(const json& answer) {
  for (const json& it : answer.at("scatter")) check_texts(it, {"name", "shape", "varies", "source"});
  const std::set<std::string> levels = {"DANGER", "WARNING", "CAUTION", "NOTICE"};
  for (const json& it : answer.at("cautions")) {
    check_texts(it, {"text", "why"});
    CHECK(levels.count(it.at("level").get<std::string>()) == 1);
  }
  CHECK(!answer.at("not_checked").empty());
  for (const json& it : answer.at("not_checked")) CHECK(it.is_string());
  for (const json& it : answer.at("notes")) check_texts(it, {"output", "reason"});
  const json& provenance = answer.at("provenance");
  check_texts(provenance, {"study_digest", "tables_digest", "plan"});
  CHECK(provenance.at("key").is_number_unsigned());
  CHECK(provenance.at("passes").is_number_unsigned());
}

}  // namespace

void check_contract(const json& answer, bool sized) {
  check_keys(answer, {"program", "version", "study", "title", "verdict", "pick", "outputs", "limits", "scatter", "rare",
                      "matters", "worth", "settling", "cautions", "not_checked", "notes", "provenance"});
  for (const char* key :
       {"search", "lighter", "next_size_down", "next_size_up", "relax", "aims", "caps", "trade_off", "window"}) {
    INFO(key);
    REQUIRE(answer.contains(key) == sized);
  }
  CHECK(answer.at("program") == "screwtiny");
  CHECK(answer.at("version") == SCREWTINY_VERSION);
  check_texts(answer, {"study", "title"});
  check_verdict(answer, sized);
  check_pick(answer.at("pick"));
  for (const auto& [name, output] : answer.at("outputs").items()) check_output(answer, name, output);
  check_limits(answer);
  if (sized) check_search(answer);
  if (sized) check_window(answer);
  check_worth(answer);
  check_rare(answer);
  check_not_computed(answer);
  check_matters(answer);
  check_lists(answer);
}

void check_terminal(const std::string& text) {
  static const std::regex no_number(R"((^|[^a-z])-?(nan|inf|infinity|null)([^a-z]|$))", std::regex::icase);
  for (const std::string& line : lines_of(text)) {
    INFO(line);
    CHECK(columns(line) <= 80);
    CHECK_FALSE(std::regex_search(line, no_number));
  }
}

}  // namespace tests
