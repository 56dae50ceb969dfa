#include <catch2/catch.hpp>

#include <unistd.h>

#include <cmath>
#include <cstdlib>
#include <map>
#include <set>

#include "engine/base/error.hpp"
#include "engine/store/reader.hpp"
#include "engine/store/writer.hpp"
#include "sample_answer.hpp"
#include "studies/keep/schema.hpp"

using engine::StoredVariable;
using engine::StoreReader;

namespace {

void write(const std::string& path, const sample::Sample& made) {
  studies::write_results(path, made.answer, made.run,
                         {made.json, made.sentence, "in words", "holds", "5.89 kg", "yield 3 %"});
}

void add_spelled(std::map<std::string, StoredVariable>& all, const StoredVariable& row, const sample::Sample& made) {
  const auto add = [&](const std::string& name, engine::Dimension dimension, std::string_view meaning) {
    const StoredVariable variable = studies::spelled(row, name, dimension, std::string(meaning));
    all[variable.path()] = variable;
  };
  const bool of_passes = row.group == "/passes/rated";
  const bool of_worth = row.group == "/worth";  // of what the duty turns on alone
  const bool of_histograms = row.group == "/summary/rated/histograms";
  if (row.name.find("<input>") != std::string::npos) {
    for (std::size_t i = 0; i < models::input_count; ++i) {
      const models::NameRow& name = models::row(static_cast<models::Input>(i));
      add(std::string(name.name), i == 0 ? engine::Dimension::force : name.dimension, name.meaning);
    }
  } else if (row.name.find("<limit>") != std::string::npos) {
    for (const auto& limit : made.answer.limits)
      add(limit.name, limit.dimension, models::row(limit.limit.must).meaning);
  } else {
    for (const auto& output : made.answer.outputs)
      if (!(of_passes && output.name.rfind("margin.", 0) == 0) && !(of_worth && output.name != "force") &&
          !(of_histograms && output.histogram.empty()))
        add(output.name, output.dimension, output.meaning);
  }
}

std::map<std::string, StoredVariable> expected(const sample::Sample& made) {
  std::map<std::string, StoredVariable> all;
  for (const StoredVariable& row : studies::results_table()) {
    if (row.name.find('<') == std::string::npos) {
      all[row.path()] = row;
    } else {
      add_spelled(all, row, made);
    }
  }
  return all;
}

int shell(const std::string& command) { return std::system(command.c_str()); }

}  // namespace

TEST_CASE("What is written equals the table of the results file, both ways") {
  const sample::Folder folder;
  const auto made = sample::full();
  write(folder / "press.h5", made);
  const StoreReader file(folder / "press.h5");
  auto wanted = expected(made);
  for (const StoredVariable& found : file.variables()) {
    INFO(found.path());
    const auto row = wanted.find(found.path());
    REQUIRE(row != wanted.end());
    CHECK(found.type == row->second.type);
    CHECK(found.dims == row->second.dims);
    CHECK(found.units == row->second.units);
    CHECK(found.long_name == row->second.long_name);
    wanted.erase(row);
  }
  for (const auto& [path, row] : wanted) FAIL_CHECK(path << " is in the table and not in the file");
  std::set<std::string> names;
  for (const auto& row : studies::results_attributes()) names.insert(row.name);
  const auto found = file.attribute_names("/");
  CHECK(std::set<std::string>(found.begin(), found.end()) == names);
}

TEST_CASE("A results file keeps values, units and the study itself") {
  const sample::Folder folder;
  const auto made = sample::full();
  write(folder / "press.h5", made);
  const StoreReader file(folder / "press.h5");
  CHECK(file.require_format("screwtiny-results", 1) == 1);
  CHECK(file.text("/study/text") == made.study->text);
  CHECK(file.text("/study/answer_json") == made.json);
  CHECK(file.texts("/candidates/misses") == std::vector<std::string>{"buckling", "", ""});
  CHECK(file.numbers("/candidates/has")[0] == 2.47);
  CHECK(file.numbers("/candidates/needs")[0] == 3.0);
  CHECK(std::isnan(file.numbers("/candidates/needs")[1]));
  CHECK(file.whole_numbers("/candidates/picked") == std::vector<std::int64_t>{0, 1, 0});
  CHECK(file.numbers("/passes/rated/torque")[7] == 1.007);
  CHECK(file.numbers("/summary/rated/limits/force.has") == std::vector<double>{22.8e3});
  CHECK(file.numbers("/summary/rated/quantiles/force")[3 * 4 + 1] == 0.5);
  CHECK(file.texts("/sensitivity/rated/inputs") ==
        std::vector<std::string>{"thread_friction + face_friction", "hand_force"});
  CHECK(file.numbers("/sensitivity/rated/halved_shortfall")[1] == 0.0028);
  CHECK(file.numbers("/sensitivity/rated/drive.swing") == std::vector<double>{1.1, 1.2});
  CHECK(file.texts("/rare/rated/limit") == std::vector<std::string>{"force", "yield"});
  CHECK(file.whole_numbers("/rare/rated/judges") == std::vector<std::int64_t>{0, 1});
  CHECK(file.numbers("/rare/rated/shortfall")[3 + 1] == 3.2e-6);
  CHECK(std::isnan(file.numbers("/rare/rated/beta")[0]));
  CHECK(file.texts("/rare/rated/other_shape") == std::vector<std::string>{"", "normal"});
  CHECK(file.texts("/rare/rated/of") == std::vector<std::string>{"yield", "yield"});
  CHECK(file.numbers("/rare/rated/distance") == std::vector<double>{4.51, 5.25});
  CHECK(file.numbers("/rare/rated/thread_friction") == std::vector<double>{0.25, 0.5});
  CHECK(file.numbers("/worth/force.mean")[0] == -6.1e3);
  CHECK(std::isnan(file.numbers("/worth/force.mean")[1]));
  CHECK(file.whole_numbers("/worth/missed") == std::vector<std::int64_t>{1, 1, 0, 0, 0, 0});
  CHECK(file.numbers("/worth/helps")[2] == 5.6e-5);
  CHECK(file.whole_numbers("/window/holds") == std::vector<std::int64_t>{0, 0, 1});
  CHECK(file.whole_numbers("/window/missed") == std::vector<std::int64_t>{0, 0, 0, 0, 0, 1, 0, 0, 0});
  CHECK(file.texts("/trade_off/aim") == std::vector<std::string>{"mass", "torque"});
  CHECK(file.texts("/trade_off/unit") == std::vector<std::string>{"kg", "N m"});
  CHECK(file.numbers("/trade_off/value") == std::vector<double>{0.65, 31, 0.72, 28});
  CHECK(file.texts("/window/why") == std::vector<std::string>{"fewer than one engaged turn", "", ""});
  CHECK(file.text_attribute("/summary/rated/outputs/stroke_time", "reason") == "no speed is given");
}

TEST_CASE("The same answer gives the same bytes at any time") {
  const sample::Folder folder;
  write(folder / "a.h5", sample::full());
  ::sleep(2);  // times, where kept, are whole seconds
  write(folder / "b.h5", sample::full());
  CHECK((sample::bytes_of(folder / "a.h5") ==
         sample::bytes_of(folder / "b.h5")));  // in brackets: bytes are not to be printed
}

TEST_CASE("An answer without a pick is kept too") {
  const sample::Folder folder;
  const auto made = sample::without_pick();
  write(folder / "press.h5", made);
  const auto run = studies::finished(folder / "press.h5", made.run);
  REQUIRE(run);
  CHECK(run->exit_code == 1);
  CHECK(run->pick.empty());
  CHECK_FALSE(run->mass);
  CHECK_FALSE(StoreReader(folder / "press.h5").has("/summary"));
}

TEST_CASE("A rated screw stands in its file although nothing was searched") {
  const sample::Folder folder;
  auto made = sample::full();
  made.answer.candidates.clear();
  write(folder / "press.h5", made);
  CHECK(StoreReader(folder / "press.h5").texts("/candidates/designation") == std::vector<std::string>{"Tr 40x7"});
}

TEST_CASE("A finished run is known by all that makes it the same run") {
  const sample::Folder folder;
  const auto made = sample::full();
  const std::string path = folder / "press.h5";
  CHECK_FALSE(studies::finished(path, made.run));
  write(path, made);
  const auto run = studies::finished(path, made.run);
  REQUIRE(run);
  CHECK(run->exit_code == 0);
  CHECK(run->sentence == made.sentence);
  CHECK(run->answer_json == made.json);
  CHECK(run->pick == "Tr 40x7");
  CHECK(run->mass == made.answer.pick->mass);
  CHECK(run->tightest == "force");
  CHECK(run->governs == "buckling");
  const auto differs = [&](auto change) {
    auto other = made.run;
    change(other);
    return !studies::finished(path, other);
  };
  CHECK(differs([](auto& other) { other.study_digest = "0"; }));
  CHECK(differs([](auto& other) { other.tables_digest = "0"; }));
  CHECK(differs([](auto& other) { other.verb = "rate"; }));
  CHECK(differs([](auto& other) { other.plan = "plain"; }));
  CHECK(differs([](auto& other) { other.key -= 1; }));
  CHECK(differs([](auto& other) { other.passes += 1; }));
  CHECK(differs([](auto& other) { other.settle_digits = 1; }));
  CHECK(differs([](auto& other) { other.scan = true; }));
  CHECK(differs([](auto& other) { other.program_version = "0.1.1"; }));
  CHECK_FALSE(differs([](auto& other) { other.keep = false; }));
}

TEST_CASE("A file without the passes is not finished for one who wants them kept") {
  const sample::Folder folder;
  auto made = sample::without_pick();
  write(folder / "press.h5", made);
  made.run.keep = true;
  CHECK_FALSE(studies::finished(folder / "press.h5", made.run));
}

TEST_CASE("A damaged file is not finished, and says so when read") {
  const sample::Folder folder;
  const auto made = sample::full();
  write(folder / "press.h5", made);
  std::string bytes = sample::bytes_of(folder / "press.h5");
  const auto at = bytes.find(made.json);
  REQUIRE(at != std::string::npos);
  bytes[at + 5] = '?';
  sample::put_bytes(folder / "press.h5", bytes);
  CHECK_FALSE(studies::finished(folder / "press.h5", made.run));
  CHECK_THROWS_WITH(studies::read_results(folder / "press.h5"), Catch::Contains("checksum does not fit"));
}

TEST_CASE("A results file is named after its study") {
  CHECK(studies::results_path("results", "studies/press.toml") == "results/press.h5");
  CHECK(studies::results_path("out/", "a.b.toml") == "out/a.b.h5");
}

TEST_CASE("A foreign HDF5 file is never overwritten by a result") {
  const sample::Folder folder;
  const std::string path = folder / "press.h5";
  CHECK_NOTHROW(studies::check_results_path(path));
  CHECK(folder.names().empty());
  {
    engine::StoreWriter file(path);
    file.attribute("/", "format", std::string("readings"));
    file.commit();
  }
  CHECK_THROWS_WITH(studies::check_results_path(path), Catch::Contains("would be lost"));
  write(path, sample::full());
  CHECK_NOTHROW(studies::check_results_path(path));
}

TEST_CASE("xarray, h5py and h5dump open a results file as it is") {
  const sample::Folder folder;
  write(folder / "press.h5", sample::full());
  const std::string script = sample::source_root() + "/tests/store/open_results.py";
  CHECK(shell("/usr/bin/python3 " + script + " " + (folder / "press.h5")) == 0);
  CHECK(shell("h5dump -H " + (folder / "press.h5") + " > " + (folder / "header.txt")) == 0);
  CHECK_THAT(sample::bytes_of(folder / "header.txt"), Catch::Contains("DATASET \"torque\""));
}

TEST_CASE("The page of the results folder is the one that the table makes") {
  CHECK(sample::bytes_of(sample::source_root() + "/results/README.md") == studies::schema_page());
}

TEST_CASE("Write the page of the results folder anew", "[.write]") {
  sample::put_bytes(sample::source_root() + "/results/README.md", studies::schema_page());
}
