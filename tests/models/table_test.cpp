#include "models/tables/table.hpp"

#include <catch2/catch.hpp>

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <string>

#include "engine/base/error.hpp"

using namespace models;

namespace {

constexpr double MPa = 1e6;
const std::string own_folder = SCREWTINY_SOURCE "/models/tables";

const Tables& shipped() {
  static const Tables tables = read_tables(own_folder, {});
  return tables;
}

/// A file of the user, gone with the object.
class UserFile {
public:
  explicit UserFile(const std::string& text, const std::string& name = "own.toml")
      : path_(std::filesystem::temp_directory_path() / ("screwtiny-" + std::to_string(::getpid()) + "-" + name)) {
    std::ofstream(path_) << text;
  }
  ~UserFile() { std::filesystem::remove(path_); }
  UserFile(const UserFile&) = delete;
  UserFile& operator=(const UserFile&) = delete;
  std::string path() const { return path_.string(); }

private:
  std::filesystem::path path_;
};

std::vector<engine::Problem> problems_of(const std::string& text) {
  const UserFile file(text);
  try {
    read_tables(own_folder, {file.path()});
  } catch (const engine::Refusal& refused) {
    CHECK(refused.code() == engine::ExitCode::study);
    for (const engine::Problem& problem : refused.problems()) CHECK(problem.file == file.path());
    return refused.problems();
  }
  return {};
}

/// The one problem of a text, as it is printed without its place.
std::string problem_of(const std::string& text) {
  const std::vector<engine::Problem> problems = problems_of(text);
  INFO(text);
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].line > 0);
  CHECK(problems[0].column > 0);
  CHECK_FALSE(problems[0].fix.empty());
  return problems[0].problem + ". " + problems[0].reason + ". " + problems[0].fix;
}

void has(const std::string& text, const std::string& part) {
  INFO(text);
  CHECK(text.find(part) != std::string::npos);
}

std::string with(std::string row, const std::string& from, const std::string& to) {
  const auto at = row.find(from);
  REQUIRE(at != std::string::npos);
  return row.replace(at, from.size(), to);
}

const std::string material_row = R"([[material]]
name = "steel of my own"
family = "steel"
yield = "300 MPa"
ultimate = "500 MPa"
modulus = "207 GPa"
density = "7800 kg/m3"
kind = "minimum"
source = "mill sheet"
)";
const std::string thread_row = R"([[thread_friction]]
screw = "steel"
nut = "bronze"
lubrication = "grease"
low = 0.06
high = 0.12
source = "own trials"
)";
const std::string face_row = R"([[face_friction]]
kind = "pad"
on = "steel"
running = 0.12
starting = 0.16
source = "own trials"
)";
const std::string pressure_row = R"([[bearing_pressure]]
screw = "steel"
nut = "plastic"
speed = "hand"
pressure = "9 MPa"
source = "maker's sheet"
)";

Material of_family(const std::string& family) {
  Material material;
  material.family = family;
  return material;
}

double pressure(const char* nut, double speed) {
  const BearingPressure* row = find_bearing_pressure(shipped(), of_family("steel"), of_family(nut), speed);
  return row ? row->pressure / MPa : -1;
}

}  // namespace

TEST_CASE("The shipped steels have the strengths of their sources", "[published]") {
  // Shigley 9th ed. Tables A-20 and A-21, seen.
  const Material* hot = find_material(shipped(), "steel 1045 hot rolled");
  REQUIRE(hot);
  CHECK(hot->yield == Approx(310 * MPa));
  CHECK(hot->ultimate == Approx(570 * MPa));
  CHECK(hot->modulus == Approx(207e9));
  CHECK(hot->density == Approx(7800));
  CHECK(hot->kind == "minimum");
  CHECK(hot->up_to == 0);
  const Material* quenched = find_material(shipped(), "steel 4140 quenched 540 C");
  REQUIRE(quenched);
  CHECK(quenched->yield == Approx(834 * MPa));
  CHECK(quenched->ultimate == Approx(951 * MPa));
  CHECK(quenched->kind == "typical");
  CHECK(quenched->up_to == Approx(0.025));
}

TEST_CASE("The shipped bronzes and irons have the strengths of their sources", "[published]") {
  // ASTM B505 (20/35 ksi, 32/85 ksi) and ASTM A536 (45/65 ksi), seen; grey iron class 30: 30 ksi.
  CHECK(find_material(shipped(), "bearing bronze C93200")->yield == Approx(138 * MPa));
  CHECK(find_material(shipped(), "aluminium bronze C95400")->ultimate == Approx(586 * MPa));
  CHECK(find_material(shipped(), "ductile iron 65-45-12")->yield == Approx(310 * MPa));
  const Material* grey = find_material(shipped(), "grey iron class 30");
  REQUIRE(grey);
  CHECK(grey->brittle);
  CHECK(grey->yield == 0);
  CHECK(grey->ultimate == Approx(207 * MPa));
  CHECK(grey->family == "cast iron");
}

TEST_CASE("Every material that studies name is there, each with a source") {
  const std::set<std::string> named{"steel 1018 cold drawn",
                                    "steel 1018 hot rolled",
                                    "steel 1045 cold drawn",
                                    "steel 1045 hot rolled",
                                    "steel 4140 annealed",
                                    "steel 4140 normalized",
                                    "steel 4140 quenched 425 C",
                                    "steel 4140 quenched 540 C",
                                    "steel 4140 quenched 650 C",
                                    "steel A193 B7",
                                    "bearing bronze C93200",
                                    "aluminium bronze C95400",
                                    "grey iron class 30",
                                    "ductile iron 65-45-12",
                                    "brass C36000",
                                    "acetal"};
  std::set<std::string> shipped_names;
  for (const Material& material : shipped().materials) {
    shipped_names.insert(material.name);
    CHECK(material.source.size() > 10);
    CHECK(material.brittle == (material.yield == 0));
  }
  CHECK(shipped_names == named);
  CHECK(shipped().materials.size() == 18);
  CHECK(find_material(shipped(), "unobtainium") == nullptr);
}

TEST_CASE("A193 B7 grows weaker with the bar, and beyond the largest there is no row", "[published]") {
  // ASTM A193: 105, 95 and 75 ksi to 2-1/2, 4 and 7 in; three reprints agree.
  const auto yield = [](double diameter) {
    const Material* row = find_material_for(shipped(), "steel A193 B7", diameter);
    return row ? row->yield / MPa : 0;
  };
  CHECK(yield(0.040) == Approx(724));
  CHECK(yield(0.064) == Approx(724));
  CHECK(yield(0.065) == Approx(655));
  CHECK(yield(0.150) == Approx(517));
  CHECK(yield(0.179) == 0);
  CHECK(find_material(shipped(), "steel A193 B7")->yield == Approx(724 * MPa));
}

TEST_CASE("4140 is known up to 25 mm only, and a material without sizes for every bar") {
  CHECK(find_material_for(shipped(), "steel 4140 annealed", 0.025));
  CHECK(find_material_for(shipped(), "steel 4140 annealed", 0.0254) == nullptr);
  CHECK(find_material_for(shipped(), "steel 1045 hot rolled", 0.3));
  CHECK(find_material_for(shipped(), "unobtainium", 0.01) == nullptr);
}

TEST_CASE("Thread friction is that of the textbook table by families", "[published]") {
  // Shigley 9th ed. Table 8-5 (Rothbart and Brown), seen.
  const Material* steel = find_material(shipped(), "steel 1045 hot rolled");
  const auto range = [&](const char* nut, const char* lubrication) {
    const ThreadFriction* row = find_thread_friction(shipped(), *steel, *find_material(shipped(), nut), lubrication);
    REQUIRE(row);
    CHECK_FALSE(row->source.empty());
    return std::pair(row->low, row->high);
  };
  CHECK(range("bearing bronze C93200", "dry") == std::pair(0.15, 0.23));
  CHECK(range("aluminium bronze C95400", "oil") == std::pair(0.10, 0.16));
  CHECK(range("ductile iron 65-45-12", "oil") == std::pair(0.11, 0.17));
  CHECK(range("brass C36000", "dry") == std::pair(0.15, 0.19));
  CHECK(shipped().thread_friction.size() == 11);
}

TEST_CASE("A bronze screw has friction oiled but not dry, and on brass none") {
  // The bronze row of Table 8-5 does not say how it was lubricated; its values are those of lubricated pairs.
  const Material bronze = of_family("bronze");
  const ThreadFriction* oiled = find_thread_friction(shipped(), bronze, of_family("bronze"), "oil");
  REQUIRE(oiled);
  CHECK(oiled->low == 0.04);
  CHECK(oiled->source.find("lubrication not stated") != std::string::npos);
  CHECK(find_thread_friction(shipped(), bronze, of_family("bronze"), "dry") == nullptr);
  CHECK(find_thread_friction(shipped(), bronze, of_family("brass"), "oil") == nullptr);
}

TEST_CASE("What no source gives has no friction: grease, acetal") {
  CHECK(find_thread_friction(shipped(), of_family("steel"), of_family("bronze"), "grease") == nullptr);
  CHECK(find_thread_friction(shipped(), of_family("steel"), *find_material(shipped(), "acetal"), "oil") == nullptr);
}

TEST_CASE("Face friction is that of the textbook table", "[published]") {
  // Shigley 9th ed. Table 8-6, running and starting, seen.
  const FaceFriction* soft = find_face_friction(shipped(), "pad", "bronze", false);
  const FaceFriction* hard = find_face_friction(shipped(), "pad", "cast iron", true);
  REQUIRE(soft);
  REQUIRE(hard);
  CHECK(soft->running == 0.08);
  CHECK(soft->starting == 0.10);
  CHECK(hard->running == 0.09);
  CHECK(hard->starting == 0.15);
  CHECK(find_face_friction(shipped(), "point", "bronze", false) == soft);
  CHECK(find_face_friction(shipped(), "pad", "steel", false) == nullptr);
  CHECK(find_face_friction(shipped(), "sledge", "bronze", false) == nullptr);
}

TEST_CASE("A rolling bearing has one range of friction whatever it stands on") {
  const FaceFriction* row = find_face_friction(shipped(), "rolling", "", false);
  REQUIRE(row);
  CHECK(row->low == 0.002);
  CHECK(row->high == 0.005);
  CHECK(row->running == 0);
  CHECK(find_face_friction(shipped(), "rolling", "bronze", true) == row);
}

TEST_CASE("Safe bearing pressure falls with the sliding speed", "[published]") {
  // Shigley 9th ed. Table 8-4, lower ends, from memory.
  CHECK(pressure("bronze", 0) == Approx(17.2));
  CHECK(pressure("bronze", 0.001) == Approx(11.0));
  CHECK(pressure("bronze", 0.0508) == Approx(11.0));
  CHECK(pressure("bronze", 0.051) == Approx(5.5));
  CHECK(pressure("bronze", 0.2032) == Approx(5.5));
  CHECK(pressure("bronze", 0.3) == Approx(1.0));
}

TEST_CASE("Steel on cast iron has no pressure above its fastest row, and the slowest serves by hand", "[published]") {
  // Shigley 9th ed. Table 8-4, from memory.
  CHECK(pressure("cast iron", 0) == Approx(12.4));
  CHECK(pressure("cast iron", 0.04) == Approx(12.4));
  CHECK(pressure("cast iron", 0.2) == Approx(4.1));
  CHECK(pressure("cast iron", 0.21) == -1);
  CHECK(pressure("plastic", 0) == -1);
}

TEST_CASE("A row of the user replaces all shipped rows of the same thing and adds the rest") {
  const UserFile file(with(material_row, "steel of my own", "steel A193 B7") + thread_row + face_row +
                      with(pressure_row, "plastic", "bronze"));
  const Tables tables = read_tables(own_folder, {file.path()});
  const Material* b7 = find_material_for(tables, "steel A193 B7", 0.5);
  REQUIRE(b7);
  CHECK(b7->source == "mill sheet");
  CHECK(tables.materials.size() == 16);
  CHECK(find_thread_friction(tables, of_family("steel"), of_family("bronze"), "grease")->high == 0.12);
  CHECK(find_thread_friction(tables, of_family("steel"), of_family("bronze"), "oil")->high == 0.16);
  CHECK(find_face_friction(tables, "pad", "steel", false)->starting == 0.16);
  CHECK(find_bearing_pressure(tables, of_family("steel"), of_family("bronze"), 0)->pressure == Approx(9 * MPa));
  CHECK(find_bearing_pressure(tables, of_family("steel"), of_family("bronze"), 0.3) == nullptr);
}

TEST_CASE("Of two user files the later holds") {
  const UserFile first(thread_row, "first.toml"), second(with(thread_row, "0.06", "0.07"), "second.toml");
  const Tables tables = read_tables(own_folder, {first.path(), second.path()});
  CHECK(find_thread_friction(tables, of_family("steel"), of_family("bronze"), "grease")->low == 0.07);
  CHECK(tables.thread_friction.size() == 12);
}

TEST_CASE("The text of every file read is kept") {
  const UserFile file(thread_row);
  const Tables tables = read_tables(own_folder, {file.path()});
  CHECK(tables.text.find("bearing bronze C93200") < tables.text.find("[[bearing_pressure]]"));
  CHECK(tables.text.find("own trials") > tables.text.rfind("[[bearing_pressure]]"));
}

TEST_CASE("The rows of these tests are without problems") {
  CHECK(problems_of(material_row + thread_row + face_row + pressure_row).empty());
}

TEST_CASE("An unknown key or table is refused with the nearest known one and its place") {
  const std::vector<engine::Problem> problems = problems_of(with(material_row, "density", "densty"));
  REQUIRE(problems.size() == 2);
  has(problems[0].problem, "has no 'density'");
  CHECK(problems[0].line == 1);
  CHECK(problems[1].line == 7);
  CHECK(problems[1].column == 1);
  has(problems[1].problem, "unknown key 'densty' in [[material]]");
  has(problems[1].fix, "'density'");
  has(problem_of(with(thread_row, "thread_friction", "thread_frction")), "did you mean 'thread_friction'?");
  has(problem_of("title = \"mine\"\n"), "unknown key 'title' in a tables file");
  has(problem_of("[material]\nname = \"x\"\n"), "head each row with [[material]]");
}

TEST_CASE("A missing key is refused, the source too") {
  has(problem_of(with(material_row, "source = \"mill sheet\"\n", "")), "has no 'source'");
  has(problem_of(with(material_row, "\"mill sheet\"", "\" \"")), "'source' in [[material]] is empty");
  has(problem_of(with(material_row, "yield = \"300 MPa\"\n", "")), "has no 'yield'");
  has(problem_of(with(thread_row, "high = 0.12\n", "")), "has no 'high'");
  has(problem_of(with(face_row, "running = 0.12\n", "")), "has no 'running'");
  has(problem_of(with(face_row, "on = \"steel\"\n", "")), "has no 'on'");
  has(problem_of(with(pressure_row, "speed = \"hand\"\n", "")), "'up_to_speed' in [[bearing_pressure]] is missing");
}

TEST_CASE("A wrong unit or kind of value is refused") {
  has(problem_of(with(material_row, "300 MPa", "300 mm")), "'yield' in [[material]]");
  has(problem_of(with(material_row, "\"300 MPa\"", "300")), "write yield = \"310 MPa\"");
  has(problem_of(with(material_row, "7800 kg/m3", "7800")), "'density' in [[material]]");
  has(problem_of(with(thread_row, "0.06", "\"0.06\"")), "'low' in [[thread_friction]]");
  has(problem_of(with(face_row, "running", "hard = 1\nrunning")), "Due is true or false");
  has(problem_of(with(material_row, "\"steel of my own\"", "3")), "'name' in [[material]]");
}

TEST_CASE("An implausible value is refused") {
  has(problem_of(with(material_row, "300 MPa", "600 MPa")), "is above 'ultimate'");
  has(problem_of(with(material_row, "300 MPa", "-300 MPa")), "must be above zero");
  has(problem_of(with(material_row, "7800 kg/m3", "0 kg/m3")), "must be above zero");
  has(problem_of(with(material_row, "kind", "brittle = true\nkind")), "stands beside brittle = true");
  has(problem_of(with(thread_row, "0.12", "1.2")), "not above 0 and at most 1");
  has(problem_of(with(thread_row, "0.06", "-0.06")), "not above 0 and at most 1");
  has(problem_of(with(thread_row, "0.06", "0.13")), "is above 'high'");
  has(problem_of(with(face_row, "0.16", "0.10")), "is below 'running'");
  has(problem_of(with(face_row, "running", "low = 0.1\nhigh = 0.2\nrunning")), "one value or a range");
  has(problem_of(with(pressure_row, "speed", "up_to_speed = \"1 m/s\"\nspeed")), "stands beside 'up_to_speed'");
  has(problem_of(with(face_row, "\"pad\"", "\"rolling\"")), "stands in a rolling row");
}

TEST_CASE("A word close to a known one is taken for a slip, a word of one's own is kept") {
  has(problem_of(with(material_row, "family = \"steel\"", "family = \"stele\"")), "did you mean 'steel'?");
  has(problem_of(with(material_row, "\"minimum\"", "\"minimun\"")), "did you mean 'minimum'?");
  CHECK(problems_of(with(material_row, "family = \"steel\"", "family = \"titanium\"")).empty());
}

TEST_CASE("A row twice in one file, or hidden by an earlier one, is refused") {
  has(problem_of(thread_row + thread_row), "stands twice");
  has(problem_of(material_row + material_row), "stands twice");
  has(problem_of(material_row + material_row + "up_to = \"50 mm\"\n"), "holds for every size");
  CHECK(problems_of(material_row + "up_to = \"50 mm\"\n" + material_row + "up_to = \"90 mm\"\n").empty());
}

TEST_CASE("All problems of a file are told at once, in its order") {
  const std::vector<engine::Problem> problems = problems_of(
      with(material_row, "300 MPa", "300 mm") + with(thread_row, "0.12", "1.2") + with(face_row, "source", "sorce"));
  // The wrong unit, the friction above 1, the face without a source (at its head) and the misspelt source.
  REQUIRE(problems.size() == 4);
  CHECK(problems[0].line == 4);
  CHECK(problems[1].line == 15);
  CHECK(problems[2].line == 17);
  CHECK(problems[3].line == 22);
}

TEST_CASE("A tables file that is not there is a trouble of files, one that is no TOML of the study") {
  try {
    read_tables(own_folder, {"/nowhere/own.toml"});
    FAIL("read a file that is not there");
  } catch (const engine::Refusal& refused) {
    CHECK(refused.code() == engine::ExitCode::files);
  }
  CHECK(problems_of("[[material]\nname = 1\n").size() == 1);
  CHECK_THROWS_AS(read_tables("/nowhere", {}), engine::Refusal);
}
