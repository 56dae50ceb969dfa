#include "sample_answer.hpp"

#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <limits>
#include <sstream>

#include "studies/keep/digest.hpp"

namespace sample {
namespace {

using models::Limit;
using models::Must;
using models::Output;

models::Design design(double diameter) {
  models::Design made;
  made.thread.diameter = diameter;
  made.thread.pitch = 0.007;
  made.thread.pitch_diameter = diameter - 0.0035;
  made.thread.root_diameter = diameter - 0.008;
  made.nut_length = 1.5 * diameter;
  made.nut_outside = 1.6 * diameter;
  made.screw.name = "steel 1045 hot rolled";
  made.nut.name = "bearing bronze C93200";
  made.lubrication = "oil";
  made.face.mean_radius = 0.0035;
  made.face.on = "bronze";
  return made;
}

studies::CandidateVerdict candidate(std::size_t index, const std::string& designation, double diameter, bool passes) {
  studies::CandidateVerdict made;
  made.index = index;
  made.design = design(diameter);
  made.designation = designation;
  made.mass = 150 * diameter;
  made.torque = 120 + 1000 * diameter;
  made.examined = true;
  made.passes = passes;
  if (!passes) made.misses = Must::buckling;
  made.margins = {1.05, 2.0, passes ? 3.31 : 2.47};
  made.at_odds = {1.03, 1.9, passes ? 3.31 : 2.47};
  return made;
}

studies::OutputSummary output(const std::string& name, engine::Dimension dimension, std::string_view meaning,
                              double at) {
  studies::OutputSummary made;
  made.name = name;
  made.dimension = dimension;
  made.meaning = meaning;
  made.nominal = at;
  made.mean = at + 1;
  made.spread = 0.5;
  made.least = at - 2;
  made.most = at + 2;
  for (std::size_t i = 0; i < made.quantiles.size(); ++i) {
    const double q = at + studies::quantile_points[i];
    made.quantiles[i] = {q - 0.01, q, q + 0.01};
  }
  made.symmetric = {at - 0.9, at + 1.1};
  made.shortest = {at - 1, at + 0.9};
  made.tolerance = {at - 0.8, at + 0.8};
  made.histogram = {1, 20, 300, 20};
  made.histogram_low = at - 2;
  made.histogram_high = at + 2;
  return made;
}

studies::LimitVerdict verdict(const Limit& limit, engine::Dimension dimension, double asked, double has) {
  studies::LimitVerdict made;
  made.limit = limit;
  made.name = models::row(limit.must).name;
  made.dimension = dimension;
  made.asked_value = asked;
  made.has = has;
  made.spare = has / asked - 1;
  made.nominal_margin = 1.1;
  made.odds = {0.968, 0.97, 0.972};
  made.misses = 30;
  made.holds = true;
  return made;
}

Sample bare() {
  Sample made;
  made.study = std::make_unique<studies::Study>();
  studies::Study& study = *made.study;
  study.path = "press.toml";
  study.text = "title = \"Rack press — µ unsure\"\n";
  study.digest = studies::sha256_hex(study.text);
  study.tables.text = "[[material]]\n";
  study.tables_digest = studies::sha256_hex(study.tables.text);
  study.title = "Rack press — µ unsure";
  study.duty.drive = models::Drive::hand_force;
  study.limits = {{Must::force, Limit::Kind::at_least, 22e3, 0.95, {}},
                  {Must::yield, Limit::Kind::margin, 1.5, 0.999, {}},
                  {Must::buckling, Limit::Kind::margin, 3.0, std::nullopt, {}}};
  study.passes.settle = {2, 1000};
  study.passes.key = 18446744073709551615u;
  made.answer.study = made.study.get();
  made.answer.sized = made.answer.searched = true;
  made.answer.passes = 1000;
  return made;
}

void keep(Sample& made, std::size_t passes) {
  made.study->passes.keep = true;
  made.answer.passes = passes;
  const auto rows = [&](std::size_t count) {
    std::vector<std::vector<double>> all(count, std::vector<double>(passes));
    for (std::size_t i = 0; i < count; ++i)
      for (std::size_t p = 0; p < passes; ++p) all[i][p] = static_cast<double>(i) + static_cast<double>(p) / 1000;
    return all;
  };
  made.answer.kept_inputs = rows(models::input_count);
  made.answer.kept_outputs = rows(models::output_count);
}

/// Two tied inputs and one alone, two classes, and a swing of every input.
studies::Matter matter() {
  studies::Matter made;
  made.must = Must::force;
  made.judged = "margin.force";
  made.before = studies::Bounded{0.0308, 0.0312, 0.0315};
  const studies::Bounded most = {0.7, 0.71, 0.72}, rest = {0.28, 0.29, 0.3};
  made.inputs = {
      {{"thread_friction", "face_friction"}, most, most, {{0.0025, 0.0028, 0.003}}, {{-0.03, -0.028, -0.027}}},
      {{"hand_force"}, rest, rest, {{0.018, 0.019, 0.02}}, {{-0.013, -0.012, -0.011}}}};
  made.classes = {{{"every pull"}, most, most}, {{"fixed"}, rest, rest}};
  for (std::size_t i = 0; i < models::input_count; ++i) {
    const models::NameRow& row = models::row(static_cast<models::Input>(i));
    const auto dimension = i == 0 ? engine::Dimension::force : row.dimension;
    made.swings.push_back({static_cast<models::Input>(i), std::string(row.name), dimension, 1, 2, 1.1, 1.2});
  }
  return made;
}

/// One limit judged by its rare odds, with two points of failure, and one with nothing but a bound.
std::vector<studies::RareVerdict> rare() {
  const double none = std::numeric_limits<double>::quiet_NaN();
  studies::RareVerdict judged, bounded;
  judged.must = Must::yield;
  judged.name = "yield";
  judged.judges = judged.trusted = true;
  judged.reason = "two methods agree";
  judged.shortfall = judged.importance = {2.9e-6, 3.2e-6, 3.5e-6};
  judged.subset = {2e-6, 3e-6, 4.5e-6};
  judged.beta = 4.51;
  judged.first_order = 3.24e-6;
  judged.points = {{4.51, std::vector<double>(models::input_count, 0.25)},
                   {5.25, std::vector<double>(models::input_count, 0.5)}};
  judged.calls = 400000;
  judged.other = {"normal", "lognormal", "two methods agree", {1.1e-5, 1.2e-5, 1.3e-5}, true};
  bounded.must = Must::force;
  bounded.name = "force";
  bounded.reason = "no run came to failure";
  bounded.shortfall = {0, 0, 1e-9};
  bounded.beta = bounded.first_order = none;
  bounded.importance = bounded.subset = {none, none, none};
  bounded.calls = 500000;
  return {bounded, judged};
}

/// Two sizes beside the pick, one of which cannot be used.
std::vector<studies::Neighbour> window(const std::vector<studies::CandidateVerdict>& all) {
  return {{all[2], {}}, {all[0], {Must::buckling}}, {all[1], {}}};
}

/// A choice that was compared and one that cannot be built.
std::vector<studies::Worth> worth() {
  const double none = std::numeric_limits<double>::quiet_NaN();
  studies::Worth dry, coarse;
  dry.change = "lubrication", dry.from = "oil", dry.to = "dry";
  dry.designation = "Tr 40x7";
  dry.nominal = -6.2e3, dry.mean = -6.1e3, dry.share = -0.24, dry.mass = 0;
  dry.helps = {0, 0, 5.6e-5};
  dry.passes = 65536;
  dry.misses = {Must::force, Must::yield};
  coarse.change = "pitch", coarse.from = "7 mm", coarse.to = "12 mm";
  coarse.offered = true;
  coarse.nominal = coarse.mean = coarse.share = coarse.mass = none;
  coarse.helps = {none, none, none};
  coarse.why = "0.9 engaged turns, where at least 1 is needed";
  return {dry, coarse};
}

}  // namespace

Sample full(std::size_t passes) {
  Sample made = bare();
  studies::Answer& answer = made.answer;
  answer.candidates = {candidate(0, "Tr 38x7", 0.038, false), candidate(1, "Tr 40x7", 0.040, true)};
  answer.candidates.push_back(candidate(2, "Tr 36x6", 0.036, false));
  answer.candidates[2].misses.reset();
  answer.candidates[2].ruled_out = true;
  answer.candidates[2].examined = false;
  answer.candidates[2].margins.clear();
  answer.candidates[2].at_odds.clear();
  answer.candidates[2].why = "fewer than one engaged turn";
  answer.pick = answer.candidates[1];
  answer.window = window(answer.candidates);
  answer.worth = worth();
  made.study->aims = {{}, {{studies::Quantity::What::output, models::Output::torque}, false}};
  answer.trade_off = {{answer.candidates[0], {0.65, 31}}, {answer.candidates[1], {0.72, 28}}};
  for (std::size_t i = 0; i < models::output_count; ++i) {
    const models::NameRow& row = models::row(static_cast<Output>(i));
    answer.outputs.push_back(output(std::string(row.name), row.dimension, row.meaning, 10.0 * static_cast<double>(i)));
  }
  for (const Limit& limit : made.study->limits) {
    const models::NameRow& row = models::row(limit.must);
    answer.outputs.push_back(output("margin." + std::string(row.name), engine::Dimension::none, row.meaning, 2));
  }
  studies::OutputSummary& stroke_time = answer.outputs[static_cast<std::size_t>(Output::stroke_time)];
  const double none = std::numeric_limits<double>::quiet_NaN();
  stroke_time.nominal = stroke_time.mean = stroke_time.spread = stroke_time.least = stroke_time.most = none;
  stroke_time.quantiles.fill({none, none, none});
  stroke_time.histogram.clear();
  stroke_time.missing = passes;
  stroke_time.reason = "no speed is given";
  answer.limits = {verdict(made.study->limits[0], engine::Dimension::force, 22e3, 22.8e3),
                   verdict(made.study->limits[1], engine::Dimension::none, 1.5, 1.9),
                   verdict(made.study->limits[2], engine::Dimension::none, 3.0, 3.31)};
  answer.rare = rare();
  answer.matter = matter();
  answer.governs = Must::buckling;
  answer.tightest = Must::force;
  answer.settling = {true, 2, 10, 100, 1000, {}};
  answer.settling->estimates = {{"force", "mean", engine::Dimension::force, 20, 50, true},
                                {"margin.yield", "odds", engine::Dimension::none, 1e-5, 5e-5, true}};
  keep(made, passes);
  made.run = studies::run_id(*made.study, "size", false, "0.1.0");
  return made;
}

Sample without_pick() {
  Sample made = bare();
  made.answer.candidates = {candidate(0, "Tr 38x7", 0.038, false)};
  made.sentence = "Nothing passes.";
  made.run = studies::run_id(*made.study, "size", false, "0.1.0");
  return made;
}

Folder::Folder() {
  std::string pattern = (std::filesystem::temp_directory_path() / "screwtiny-store-XXXXXX").string();
  if (!::mkdtemp(pattern.data())) throw std::runtime_error("no folder for the test");
  path_ = pattern;
}

Folder::~Folder() {
  std::error_code error;
  std::filesystem::remove_all(path_, error);
}

std::vector<std::string> Folder::names() const {
  std::vector<std::string> all;
  for (const auto& entry : std::filesystem::directory_iterator(path_)) all.push_back(entry.path().filename().string());
  std::sort(all.begin(), all.end());
  return all;
}

std::string bytes_of(const std::string& path) {
  std::ostringstream bytes;
  bytes << std::ifstream(path, std::ios::binary).rdbuf();
  return bytes.str();
}

void put_bytes(const std::string& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary).write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

std::string source_root() { return std::filesystem::path(__FILE__).parent_path().parent_path().parent_path().string(); }

}  // namespace sample
