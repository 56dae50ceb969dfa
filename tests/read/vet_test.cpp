#include "studies/read/vet.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "studies/read/keys.hpp"
#include "studies/read/not_checked.hpp"
#include "tests/read/study_texts.hpp"

using namespace studies;
using Catch::Matchers::Contains;

TEST_CASE("vet says every quantity in both unit systems, with where it came from, in 80 columns") {
  const std::string page = vet_text(study_of(clamp_text));
  CHECK_THAT(page, Contains("duty.force: 10 kN (10 kN, 2250 lbf), typed in line 4"));
  CHECK_THAT(page, Contains("choose.nut_outside: 1.6 d, default: common practice"));
  CHECK_THAT(page, Contains("Held fixed, as no scatter is stated: torque, drag"));
  CHECK_THAT(page, Contains("Not checked: frame, welds"));
  std::istringstream lines(page);
  for (std::string line; std::getline(lines, line);) {
    std::size_t columns = 0;
    for (const char letter : line) columns += (static_cast<unsigned char>(letter) & 0xC0) != 0x80 ? 1 : 0;
    CHECK(columns <= 80);
  }
}

TEST_CASE("vet's object holds every quantity on one line") {
  const Study study = study_of(with(clamp_text, {{"travel", "people = true\ntravel"}}));
  const std::string line = vet_json(study);
  CHECK(line.find('\n') == std::string::npos);
  const nlohmann::json object = nlohmann::json::parse(line);
  CHECK(object["program"] == "screwtiny");
  CHECK(object["study"] == "study.toml");
  CHECK(object["title"] == "A clamp");
  CHECK(object["cautions"][0]["level"] == "DANGER");
  CHECK(object["not_checked"].size() == not_checked(study).size());
  bool found = false;
  for (const auto& quantity : object["quantities"]) {
    for (const char* key : {"path", "line", "given", "si", "unit", "inch", "inch_unit", "source"})
      CHECK(quantity.contains(key));
    if (quantity["path"] != "duty.force") continue;
    found = true;
    CHECK(quantity["line"] == 4);
    CHECK(quantity["given"] == "10 kN");
    CHECK(quantity["si"] == 10000.0);
    CHECK(quantity["unit"] == "N");
    CHECK(quantity["inch"].get<double>() == Approx(10000 / 4.4482216152605));
    CHECK(quantity["inch_unit"] == "lbf");
  }
  CHECK(found);
}

TEST_CASE("The table of keys holds each key once, with help, and every default can be read") {
  std::set<std::string_view> seen;
  for (const read::KeyRow& row : read::all_keys()) {
    INFO(row.path);
    CHECK(seen.insert(row.path).second);
    CHECK_FALSE(row.help.empty());
    CHECK(row.usual.empty() == row.why.empty());
    CHECK(read::find_key(row.path) == &row);
    if (!row.usual.empty() &&
        (row.kind == read::Kind::number || row.kind == read::Kind::quantity || row.kind == read::Kind::whole))
      CHECK_NOTHROW(engine::parse_quantity(row.usual, row.dimension));
  }
  CHECK(read::find_key("choose.face[2].outer") == read::find_key("choose.face.outer"));
  CHECK(read::find_key("scatter.torque[1].spread")->path == "scatter.*.spread");
  CHECK(read::find_key("scatter.nothing") == nullptr);
}
