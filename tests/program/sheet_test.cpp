/// The verb sheet as a user calls it: what it writes and where, and what it refuses without harm.
#include <catch2/catch.hpp>

#include <cstdlib>
#include <nlohmann/json.hpp>

#include "tests/program/call.hpp"

namespace {

using namespace tests;
using nlohmann::json;

/// A folder with the results of two gallery studies.
void with_results(const Folder& folder) {
  for (const char* name : {"panel_clamp", "wagon_jack"}) {
    folder.bring(fs::path(SCREWTINY_SOURCE) / "studies/gallery" / (std::string(name) + ".toml"));
    REQUIRE(run({"size", std::string(name) + ".toml", "--passes", "65536", "--quiet"}, folder).code == 0);
  }
}

bool has_node() { return std::system("node --version >/dev/null 2>&1") == 0; }

/// Whether this program can draw at all: a machine without npm builds it without.
bool draws(const Folder& folder) {
  return run({"sheet", "results/panel_clamp.h5", "--out", "tried", "--quiet"}, folder).code == 0;
}

}  // namespace

TEST_CASE("A sheet is one file beside its results, the same whenever it is made, and small enough to mail",
          "[program]") {
  const Folder folder;
  with_results(folder);
  if (!draws(folder)) {
    WARN("built without sheets: not tried");
    return;
  }
  const Ran ran = run({"sheet", "results/panel_clamp.h5"}, folder);
  CHECK(ran.code == 0);
  CHECK(ran.out == "results/panel_clamp.html\n");
  const std::string page = folder.read("results/panel_clamp.html");
  CHECK(page.size() < 3'000'000);
  CHECK(contains(page, "Every limit holds"));
  const Ran again = run({"sheet", "results/panel_clamp.h5", "--quiet"}, folder);
  CHECK(again.code == 0);
  CHECK(again.out.empty());
  CHECK(folder.read("results/panel_clamp.html") == page);
}

TEST_CASE("What the title block is told stands in it, and several results get a page of their own", "[program]") {
  const Folder folder;
  with_results(folder);
  if (!draws(folder)) {
    WARN("built without sheets: not tried");
    return;
  }
  const Ran ran = run(
      {"sheet", "results/panel_clamp.h5", "results/wagon_jack.h5", "--out", "sheets", "--summary", "sheets/all.html",
       "--owner", "Shop & Co", "--number", "A-7", "--revision", "B", "--made-by", "me", "--json"},
      folder);
  CHECK(ran.code == 0);
  REQUIRE(lines_of(ran.out).size() == 2);
  CHECK(json::parse(lines_of(ran.out)[0]).at("sheet") == "sheets/panel_clamp.html");
  const std::string page = folder.read("sheets/wagon_jack.html"), all = folder.read("sheets/all.html");
  for (const char* words : {"Shop &amp; Co", "A-7", ">B<", ">me<"}) CHECK(contains(page, words));
  CHECK(contains(all, "All 2 hold."));
  CHECK(contains(all, "href=\"./wagon_jack.html\""));
}

TEST_CASE("Two results of one name do not write over each other's sheet", "[program]") {
  const Folder folder;
  with_results(folder);
  if (!draws(folder)) {
    WARN("built without sheets: not tried");
    return;
  }
  fs::create_directories(folder.path() / "other");
  fs::copy_file(folder.path() / "results/wagon_jack.h5", folder.path() / "other/panel_clamp.h5");
  const Ran ran = run({"sheet", "results/panel_clamp.h5", "other/panel_clamp.h5", "--out", "sheets"}, folder);
  CHECK(ran.code == 5);
  CHECK(contains(ran.err, "sheets/panel_clamp.html: two files of this call would have this name"));
  CHECK(contains(folder.read("sheets/panel_clamp.html"), "Panel"));
}

TEST_CASE("Every figure can be had as SVG and its numbers as CSV", "[program]") {
  const Folder folder;
  with_results(folder);
  if (!draws(folder) || !has_node()) {
    WARN("no sheets or no Node.js: not tried");
    return;
  }
  const Ran ran = run({"sheet", "results/panel_clamp.h5", "--figures", "figures", "--json"}, folder);
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  const auto files = json::parse(ran.out).at("figures");
  REQUIRE(files.size() >= 20);
  for (const auto& file : files) {
    const std::string name = file, text = folder.read(name);
    INFO(name);
    if (name.ends_with(".svg")) {
      CHECK(text.starts_with("<svg"));
      CHECK(contains(text, "xmlns=\"http://www.w3.org/2000/svg\""));
      CHECK(contains(text, "<title"));
    } else {
      CHECK(lines_of(text).size() >= 2);
    }
  }
}

TEST_CASE("Without Node.js figures as files are refused by name, and the sheet is written all the same", "[program]") {
  const Folder folder;
  with_results(folder);
  if (!draws(folder)) {
    WARN("built without sheets: not tried");
    return;
  }
  const std::string path = std::getenv("PATH") ? std::getenv("PATH") : "";
  setenv("PATH", folder.path().c_str(), 1);
  const Ran ran = run({"sheet", "results/panel_clamp.h5", "--figures", "figures"}, folder);
  setenv("PATH", path.c_str(), 1);
  CHECK(ran.code == 2);
  CHECK(contains(ran.err, "there is no 'node' here"));
  CHECK(contains(ran.err, "nodejs"));
  CHECK(folder.has("results/panel_clamp.html"));
}

TEST_CASE("A file that is no sheet is not written over, and what is no results file is refused", "[program]") {
  const Folder folder;
  with_results(folder);
  if (!draws(folder)) {
    WARN("built without sheets: not tried");
    return;
  }
  folder.write("results/panel_clamp.html", "<p>my own page</p>");
  const Ran ran =
      run({"sheet", "results/panel_clamp.h5", "results/wagon_jack.h5", "panel_clamp.toml", "none.h5"}, folder);
  CHECK(ran.code == 5);
  CHECK(contains(ran.err, "results/panel_clamp.html: another file has this name"));
  CHECK(contains(ran.err, "none.h5"));
  CHECK(contains(ran.err, "panel_clamp.toml"));
  CHECK(folder.read("results/panel_clamp.html") == "<p>my own page</p>");
  CHECK(folder.has("results/wagon_jack.html"));  // goes on past those that cannot be
}
