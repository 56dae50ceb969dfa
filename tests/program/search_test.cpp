/// The search against a look at every candidate, and the verbs against each other.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "tests/program/call.hpp"
#include "tests/program/contract.hpp"
#include "tests/program/texts.hpp"

namespace {

using namespace tests;
using nlohmann::json;

json answered(const std::vector<std::string>& arguments, const Folder& folder, int code = 0) {
  const Ran ran = run(arguments, folder);
  INFO(ran.err);
  REQUIRE(ran.code == code);
  return json::parse(ran.out);
}

/// The answer without the keys that only `size` has.
json judged(json answer) {
  for (const char* key :
       {"search", "lighter", "relax", "next_size_down", "next_size_up", "aims", "caps", "trade_off", "window"})
    answer.erase(key);
  return answer;
}

}  // namespace

TEST_CASE("Looking at every candidate picks the same screw as the search, on every gallery study",
          "[program][plain-build]") {
  for (const fs::path& study : gallery()) {
    INFO(study.filename());
    const Folder folder;
    const std::vector<std::string> call = {"size", study.string(), "--json", "--passes", "65536"};
    const json searched = answered(call, folder);
    std::vector<std::string> all = call;
    all.push_back("--scan");
    const json scanned = answered(all, folder);
    CHECK(searched.at("pick") == scanned.at("pick"));
    CHECK(searched.at("outputs").at("torque") == scanned.at("outputs").at("torque"));
    CHECK(searched.at("limits") == scanned.at("limits"));
    CHECK(searched.at("verdict") == scanned.at("verdict"));
    const json& search = scanned.at("search");
    CHECK(search.at("examined").get<int>() + search.at("ruled_out").get<int>() == search.at("candidates").get<int>());
    if (search.at("candidates") > 1) CHECK(searched.at("search").at("examined") < search.at("examined"));
  }
}

TEST_CASE("A size with nothing to choose is answered as rate answers it", "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  const json rated = answered({"rate", "screw.toml", "--json"}, folder);
  const json sized = answered({"size", "screw.toml", "--json"}, folder);
  check_contract(rated, false);
  check_contract(sized, true);
  CHECK(judged(sized) == rated);
  CHECK(sized.at("search").at("candidates") == 1);
  CHECK(sized.at("search").at("model_calls") >= 65536);
  CHECK(sized.at("lighter") == json::array());
  CHECK(sized.at("relax") == json::array());
  CHECK(sized.at("window") == json::array());
  CHECK(sized.at("next_size_down").is_null());
  CHECK(sized.at("next_size_up").is_null());
}

TEST_CASE("Rate refuses every list and range, each named at its place", "[program]") {
  const Folder folder;
  folder.bring(fs::path(SCREWTINY_SOURCE) / "studies" / "gallery" / "orchard_press.toml");
  const Ran ran = run({"rate", "orchard_press.toml"}, folder);
  CHECK(ran.code == 3);
  CHECK(ran.out.empty());
  for (const char* key :
       {":17:15: choose.thread", ":18:15: choose.starts", ":20:15: choose.lubrication", ":23:15: choose.face"})
    CHECK(contains(ran.err, std::string("orchard_press.toml") + key));
  CHECK(folder.files().size() == 1);
}

TEST_CASE("Rate without limits is answered, and size without limits is an error", "[program]") {
  const Folder folder;
  std::string study = one_screw.substr(0, one_screw.find("[must]")) + one_screw.substr(one_screw.find("[passes]"));
  folder.write("screw.toml", replaced(study, "force  = \"9 kN\"\n", ""));
  const json rated = answered({"rate", "screw.toml", "--json"}, folder);
  CHECK(rated.at("limits") == json::array());
  CHECK(rated.at("verdict").at("holds") == true);
  CHECK(rated.at("verdict").at("governs").is_null());
  CHECK(rated.at("verdict").at("tightest").is_null());
  CHECK(rated.at("outputs").at("force").at("mean").is_number());
  CHECK(run({"size", "screw.toml"}, folder).code == 3);
}

TEST_CASE("Rate says that it does not use an aim", "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw + "\n[aim]\nleast = \"mass\"\n");
  const json rated = answered({"rate", "screw.toml", "--json"}, folder);
  bool said = false;
  for (const json& note : rated.at("notes")) said = said || note.at("output") == "aim";
  CHECK(said);
}
