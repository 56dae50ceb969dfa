/// Results files opened by other people's tools.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "tests/program/call.hpp"

namespace {

using namespace tests;
using nlohmann::json;

/// A press sized with its passes kept, and what was answered.
json sized(const Folder& folder) {
  folder.bring(fs::path(SCREWTINY_SOURCE) / "studies" / "gallery" / "orchard_press.toml");
  const Ran ran = run({"size", "orchard_press.toml", "--json", "--keep", "--passes", "16384"}, folder);
  REQUIRE(ran.code == 0);
  return json::parse(ran.out);
}

Ran python(const std::string& code, const Folder& folder) {
  return run({"-c", code}, folder.path(), "/usr/bin/python3");
}

}  // namespace

TEST_CASE("h5dump lists a results file", "[program]") {
  const Folder folder;
  sized(folder);
  const Ran ran = run({"-H", "results/orchard_press.h5"}, folder.path(), "/usr/bin/h5dump");
  INFO(ran.err);
  CHECK(ran.code == 0);
  for (const char* part : {"GROUP \"study\"", "GROUP \"candidates\"", "GROUP \"passes\"", "GROUP \"summary\""})
    CHECK(contains(ran.out, part));
}

TEST_CASE("h5py reads the designations of the candidates, and the one picked is the pick", "[program]") {
  const Folder folder;
  const json answer = sized(folder);
  const Ran ran = python(R"(
import h5py
with h5py.File("results/orchard_press.h5") as file:
    names = [name.decode() for name in file["candidates/designation"][()]]
    picked = list(file["candidates/picked"][()])
    assert sum(picked) == 1 and len(names) == len(picked)
    print(names[picked.index(1)])
    print(len(names))
)",
                         folder);
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  const std::vector<std::string> lines = lines_of(ran.out);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0] == answer.at("pick").at("designation"));
  const json& search = answer.at("search");
  CHECK(std::stoi(lines[1]) == search.at("examined").get<int>() + search.at("ruled_out").get<int>());
}

TEST_CASE("xarray opens every group, and its numbers are those of the answer", "[program]") {
  const Folder folder;
  const json answer = sized(folder);
  const Ran ran = python(R"(
import h5py, json, xarray
path = "results/orchard_press.h5"
groups = []
with h5py.File(path) as file:
    file.visititems(lambda name, it: groups.append(name) if isinstance(it, h5py.Group) else None)
assert len(groups) >= 7, groups
for group in groups:
    with xarray.open_dataset(path, engine="h5netcdf", group=group) as data:
        for name, variable in data.variables.items():
            assert variable.attrs.get("units") and variable.attrs.get("long_name"), (group, name)
            variable.values
with xarray.open_dataset(path, engine="h5netcdf", group="summary/rated/quantiles") as quantiles:
    force = quantiles["force"].sel(quantile=0.05)
    print(json.dumps({bound: float(force.sel(bound=bound)) for bound in ("low", "estimate", "high")}))
with xarray.open_dataset(path, engine="h5netcdf", group="passes/rated") as passes:
    print(passes.sizes["pass"])
    print(float(passes["force"].mean()))
)",
                         folder);
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  const std::vector<std::string> lines = lines_of(ran.out);
  REQUIRE(lines.size() == 3);
  const json& force = answer.at("outputs").at("force");
  CHECK(json::parse(lines[0]) == force.at("quantiles").at("0.05"));
  CHECK(std::stoull(lines[1]) == answer.at("provenance").at("passes").get<std::uint64_t>());
  CHECK(std::stod(lines[2]) == Approx(force.at("mean").get<double>()).epsilon(1e-12));
}

TEST_CASE("The answer in the file is the answer that was printed", "[program]") {
  const Folder folder;
  const json answer = sized(folder);
  const Ran ran = python(R"(
import h5py, sys
with h5py.File("results/orchard_press.h5") as file:
    sys.stdout.write(file["study/answer_json"][()].decode())
)",
                         folder);
  REQUIRE(ran.code == 0);
  CHECK(json::parse(ran.out) == answer);
}

TEST_CASE("vet checks a results file, and tells one that was changed", "[program]") {
  const Folder folder;
  sized(folder);
  const std::string results = "results/orchard_press.h5";
  const Ran whole = run({"vet", results}, folder);
  INFO(whole.err);
  CHECK(whole.code == 0);
  std::string bytes = folder.read(results);
  bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] ^ 1);
  folder.write(results, bytes);
  CHECK(run({"vet", results}, folder).code == 5);
}
