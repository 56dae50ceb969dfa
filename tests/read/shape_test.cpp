/// Shapes, ends, draws and correlations as a study types them.
#include <catch2/catch.hpp>
#include <cmath>

#include "studies/read/vet.hpp"
#include "tests/read/study_texts.hpp"

using namespace studies;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using engine::Shape;
using models::Input;

namespace {

constexpr const char* draws_text = R"(# three columns, one of them without unit
mu, torque [lbf.ft], note
0.12, 40, 1
0.14, 44, 1
# a pause
0.16, 48, 1
)";

std::string with_scatter(const std::string& lines) { return with(clamp_text, {{"[scatter]", "[scatter]\n" + lines}}); }

/// The clamp with these lines in [scatter], and every file holding the same draws.
Study read(const std::string& lines, const std::string& file = draws_text) {
  return read_study_text(
      with_scatter(lines), "shop/study.toml",
      [](const std::vector<std::string>&) { return models::read_tables(SCREWTINY_SOURCE "/models/tables", {}); },
      Verb::vet,
      [file](const std::string& path) {
        CHECK(path == "shop/a.csv");
        return file;
      });
}

const ScatterPart& part(const Study& study, Input input) {
  return study.scatter[static_cast<std::size_t>(input)].parts.at(0);
}

ScatterPart torque(const std::string& typed) { return part(read("torque = " + typed), Input::drive); }

/// What is said of these lines, the first line alone.
std::string said(const std::string& lines, const std::string& file = draws_text) {
  try {
    read(lines, file);
  } catch (const engine::Refusal& refusal) {
    CHECK(refusal.problems().size() == 1);
    CHECK(refusal.code() == engine::ExitCode::study);
    return engine::text(refusal.problems().front());
  }
  return "";
}

}  // namespace

TEST_CASE("Every shape is read by mean and spread, with what else it needs") {
  const ScatterPart beta = torque("{ shape = \"beta\", spread = \"5 %\", low = \"50 N.m\", high = \"75 N.m\" }");
  CHECK(beta.marginal.shape == Shape::beta);
  CHECK(beta.marginal.mean() == Approx(60));
  CHECK(beta.marginal.spread() == Approx(3));
  CHECK((beta.marginal.a == 50 && beta.marginal.b == 75));
  CHECK(beta.said == "as in [duty], spread 5 %, beta from 50 N.m to 75 N.m");
  const ScatterPart weibull = torque("{ shape = \"weibull\", spread = \"3 N.m\", low = \"40 N.m\" }");
  CHECK((weibull.marginal.shape == Shape::weibull && weibull.marginal.a == 40));
  CHECK(weibull.marginal.mean() == Approx(60));
  CHECK(torque("{ shape = \"weibull\", spread = \"5 %\" }").role == ScatterPart::Role::factor);
  CHECK(torque("{ shape = \"weibull\", mean = \"60 N.m\", spread = \"3 N.m\" }").marginal.a == 0);
  const ScatterPart gumbel = torque("{ shape = \"gumbel\", spread = \"3 N.m\" }");
  CHECK((gumbel.marginal.shape == Shape::gumbel && gumbel.role == ScatterPart::Role::added));
  CHECK(gumbel.marginal.mean() == Approx(0).margin(1e-12));
  const ScatterPart student = torque("{ shape = \"student\", spread = \"3 N.m\", dof = 5 }");
  CHECK(student.marginal.spread() == Approx(3));
  CHECK(student.marginal.b == Approx(3 * std::sqrt(0.6)));
  CHECK_THAT(student.said, Contains("with 5 degrees of freedom"));
}

TEST_CASE("'above' and 'below' cut any shape") {
  const ScatterPart cut = torque("{ spread = \"5 %\", above = \"55 N.m\", below = \"70 N.m\" }");
  CHECK(cut.role == ScatterPart::Role::value);
  CHECK((cut.marginal.window.least == 55 && cut.marginal.window.most == 70));
  CHECK(cut.marginal.distribution(60) < 0.5);
  CHECK_THAT(cut.said, Contains(", above 55 N.m, below 70 N.m"));
  CHECK(torque("{ within = \"10 %\", above = \"57 N.m\" }").marginal.quantile(1e-9) == Approx(57));
  CHECK(torque("{ low = \"55 N.m\", high = \"66 N.m\", above = \"50 N.m\" }").marginal.window.least == 50);
  const Study friction = read("thread_friction = { readings = [0.11, 0.12, 0.13, 0.15, 0.18], above = 0 }");
  CHECK(part(friction, Input::thread_friction).marginal.quantile(1e-12) > 0);
  // Later parts are deviations, and so are their ends; of the diameters every part is.
  const Study second = read("torque = [{ within = \"4 %\" }, { spread = \"1 N.m\", above = \"-2 N.m\" }]");
  CHECK(second.scatter[static_cast<std::size_t>(Input::drive)].parts.at(1).marginal.window.least == -2);
  const ScatterPart diameters =
      part(read("diameters = { spread = \"0.02 mm\", above = \"-0.05 mm\", below = \"0.05 mm\" }"), Input::diameters);
  CHECK((diameters.role == ScatterPart::Role::added && diameters.marginal.window.least == Approx(-5e-5)));
}

TEST_CASE("Shapes that lack something, or have too much, are refused") {
  const auto check = [](const std::string& typed, const std::string& start, const std::string& problem,
                        const std::string& fix) {
    const std::string all = said("torque = " + typed);
    CAPTURE(typed, all);
    CHECK_THAT(all,
               StartsWith("shop/study.toml:15:" + start) && Contains(problem) && Contains("Fix: ") && Contains(fix));
  };
  check("{ shape = \"beta\", spread = \"5 %\", high = \"75 N.m\" }", "12: ", "'scatter.torque.low' is missing",
        "write low");
  check("{ shape = \"beta\", low = \"50 N.m\", high = \"75 N.m\" }", "12: ", "make no beta", "mean and spread");
  check("{ shape = \"beta\", spread = \"5 %\", low = \"61 N.m\", high = \"75 N.m\" }",
        "10: ", "must lie between low and high", "check");
  check("{ shape = \"beta\", spread = \"40 %\", low = \"50 N.m\", high = \"75 N.m\" }",
        "10: ", "too large for its mean", "check");
  check("{ shape = \"weibull\", spread = \"5 %\", low = \"60 N.m\" }", "10: ", "above its low end", "check");
  check("{ shape = \"weibull\", spread = \"5 %\", high = \"70 N.m\" }", "47: ", "'scatter.torque.high' has no say here",
        "take it out");
  check("{ spread = \"5 %\", low = \"50 N.m\" }", "28: ", "'scatter.torque.low' has no say here", "take it out");
  check("{ shape = \"student\", spread = \"5 %\" }", "12: ", "'scatter.torque.dof' is missing", "write dof");
  check("{ shape = \"student\", spread = \"5 %\", dof = 2 }", "47: ", "no finite spread", "more than 2");
  check("{ shape = \"student\", spread = \"5 %\", dof = 0 }", "53: ", "out of range", "above 0");
  check("{ spread = \"5 %\", dof = 5 }", "28: ", "'scatter.torque.dof' has no say here", "take it out");
  check("{ within = \"5 %\", dof = 5 }", "28: ", "both 'within' and 'dof'", "take");
  check("{ spread = \"5 %\", above = \"61 N.m\" }", "28: ", "the mean lies outside what is kept", "check mean");
  check("{ spread = \"5 %\", above = 50 }", "36: ", "no unit", "N.m");
  check("{ low = \"55 N.m\", high = \"65 N.m\", above = \"200 N.m\" }", "10: ", "nothing to speak of lies between",
        "check");
  check("{ spread = \"5 %\", above = \"-1 N.m\" }", "36: ", "out of range", "0 or more");
  check("{ mean = \"60 N.m\", above = \"50 N.m\" }", "29: ", "both 'mean' and 'above'", "take");
  check("[{ within = \"4 %\" }, { spread = \"1 N.m\", shape = \"lognormal\" }]", "33: ", "needs its mean",
        "spread in %");
  check("[{ within = \"4 %\" }, { spread = \"1 %\", above = \"-2 N.m\" }]", "33: ", "needs its mean",
        "an amount with its unit");
}

TEST_CASE("Draws are read by column, in the unit of the header, and share their rows") {
  const Study study = read(
      "torque = { draws = \"a.csv\", column = \"torque\" }\nthread_friction = { draws = \"a.csv\", column = \"mu\" }");
  const ScatterPart& drive = part(study, Input::drive);
  CHECK(drive.marginal.shape == Shape::draws);
  CHECK(drive.marginal.column->values.at(2) == Approx(48 * 1.3558179483314004));
  CHECK(part(study, Input::thread_friction).marginal.column->values == std::vector<double>{0.12, 0.14, 0.16});
  CHECK(drive.marginal.column->table == part(study, Input::thread_friction).marginal.column->table);
  CHECK(drive.source == "draws (3)");
  CHECK(drive.said == "3 draws of a.csv, column torque");
  CHECK(*study.scatter[static_cast<std::size_t>(Input::thread_friction)].base == 0.14);
  CHECK_THAT(study.cautions.at(0).text, Contains("Only 3 draws"));
  // The draws are part of the study: their text stands with its tables, once.
  const std::string& tables = study.tables.text;
  CHECK(tables.find("0.14, 44, 1") != std::string::npos);
  CHECK(tables.find("0.14, 44, 1") == tables.rfind("0.14, 44, 1"));
  CHECK_THAT(vet_text(study), Contains("scatter.torque.column: torque, typed in line 15"));
}

TEST_CASE("Draws that cannot be used are refused where they stand") {
  const std::string torque = "torque = { draws = \"a.csv\", column = \"torque\" }";
  CHECK_THAT(said("torque = { draws = \"a.csv\" }"),
             StartsWith("shop/study.toml:15:12: ") && Contains("'scatter.torque.column' is missing"));
  CHECK_THAT(said("torque = { column = \"torque\" }"),
             StartsWith("shop/study.toml:15:12: ") && Contains("'scatter.torque.draws' is missing"));
  CHECK_THAT(said("torque = { draws = \"a.csv\", column = \"torqe\" }"),
             StartsWith("shop/study.toml:15:29: ") && Contains("no column 'torqe'") && Contains("write 'torque'"));
  CHECK_THAT(said("torque = { draws = \"a.csv\", column = \"torque\", above = \"50 N.m\" }"),
             Contains("both 'draws' and 'above'"));
  CHECK_THAT(said("torque = { draws = \"a.csv\", column = \"mu\" }"),
             StartsWith("shop/a.csv:2:1: the column 'mu' has no unit") && Contains("mu [N.m]"));
  CHECK_THAT(said("thread_friction = { draws = \"a.csv\", column = \"torque\" }"), StartsWith("shop/a.csv:2:5: "));
  CHECK_THAT(said(torque, ""), StartsWith("shop/a.csv: the file of draws is empty"));
  CHECK_THAT(said(torque, "torque [kg]\n1\n2\n"), StartsWith("shop/a.csv:1:1: "));
  CHECK_THAT(said(torque, "torque [N.m]\n1\n"), StartsWith("shop/a.csv:1:1: the file holds 1 draws"));
  CHECK_THAT(said(torque, "torque [N.m],torque [N.m]\n1,2\n"),
             StartsWith("shop/a.csv:1:1: two columns are called 'torque'"));
  CHECK_THAT(said(torque, "a,torque [N.m]\n1,2\n3\n"), StartsWith("shop/a.csv:3:1: 1 columns where the header has 2"));
  for (const char* bad : {"60,5", "x", "", "nan", "inf", "1e999", "60 N.m"}) {
    INFO(bad);
    CHECK_THAT(said(torque, std::string("torque [N.m], b\n60, 1\n") + (std::string(bad) == "60,5" ? "\"60,5\"" : bad) +
                                ", 1\n"),
               StartsWith("shop/a.csv:3:1: '") && Contains("is no number"));
  }
  CHECK_THAT(said("thread_friction = { draws = \"a.csv\", column = \"mu\" }", "mu\n12\n14\n"),
             Contains("out of range"));
  CHECK(said("thread_friction = { draws = \"a.csv\", column = \"mu\" }", "mu [%]\n12\n14\n").empty());
}

TEST_CASE("Correlations are read, echoed and checked") {
  const std::string two = "torque = { spread = \"5 %\" }\ndrag = { mean = \"1 N.m\", spread = \"20 %\" }\n";
  const Study study =
      read(two + "correlation = [[\"drag\", \"torque\", 0.3], [\"thread_friction\", \"face_friction\", \"50 %\"]]");
  REQUIRE(study.correlations.size() == 2);
  CHECK((study.correlations[0].one == Input::drag && study.correlations[0].other == Input::drive));
  CHECK(study.correlations[0].correlation == 0.3);
  CHECK(study.correlations[1].correlation == 0.5);
  CHECK_THAT(vet_text(study), Contains("scatter.correlation[0]: [\"drag\", \"torque\", 0.3], typed in line 17"));
  const auto check = [&](const std::string& typed, const std::string& start, const std::string& problem,
                         const std::string& fix) {
    const std::string all = said(two + "correlation = " + typed);
    CAPTURE(typed, all);
    CHECK_THAT(all,
               StartsWith("shop/study.toml:17:" + start) && Contains(problem) && Contains("Fix: ") && Contains(fix));
  };
  check("0.3", "15: ", "no list of pairs", "write [[");
  check("[]", "15: ", "no list of pairs", "write [[");
  check("[\"drag\", \"torque\", 0.3]", "15: ", "no list of pairs", "write [[");
  check("[[\"drag\", \"torque\"]]", "16: ", "no pair", "two inputs");
  check("[[\"drag\", \"torqe\", 0.3]]", "25: ", "unknown input 'torqe'", "write 'torque'");
  check("[[\"drag\", \"modulus\", 0.3]]", "25: ", "modulus does not scatter", "how modulus scatters");
  check("[[\"drag\", \"drag\", 0.3]]", "25: ", "with itself", "two inputs");
  check("[[\"drag\", \"torque\", 1]]", "35: ", "out of range", "between -1 and 1");
  check("[[\"drag\", \"torque\", 0.3], [\"torque\", \"drag\", 0.3]]", "41: ", "paired twice", "keep one");
  check("[[\"thread_friction\", \"face_friction\", 0.3]]\nshared_friction = 0.2", "16: ", "given twice", "keep");
}

TEST_CASE("Correlations that cannot be are refused with those that can") {
  const auto check = [&](const std::string& lines, const std::string& problem, const std::string& fix) {
    const std::string all = said(lines);
    CAPTURE(lines, all);
    CHECK_THAT(all, StartsWith("shop/study.toml:1") && Contains(problem) && Contains("Fix: ") && Contains(fix));
  };
  check(
      "torque = { spread = \"5 %\" }\nscrew_yield = { spread = \"5 %\" }\ncorrelation = [[\"torque\", \"screw_yield\", "
      "0.3]]",
      "no part of torque varies as one of screw_yield does", "the same 'varies'");
  check(
      "torque = { spread = \"5 %\" }\ndrag = { readings = [\"1 N.m\", \"2 N.m\", \"4 N.m\"] }\ncorrelation = "
      "[[\"torque\", \"drag\", 0.3]]",
      "drag has no finite spread", "four readings");
  check(
      "torque = { spread = \"5 %\" }\ndrag = { shape = \"weibull\", mean = \"1 N.m\", spread = \"200 %\" "
      "}\ncorrelation = [[\"torque\", \"drag\", 0.97]]",
      "With their shapes it can be from -0.", "keep to that range");
  check(
      "torque = { draws = \"a.csv\", column = \"torque\" }\ndrag = { mean = \"1 N.m\", spread = \"20 %\" "
      "}\ncorrelation = [[\"torque\", \"drag\", 0.3]]",
      "no part of torque", "take the pair out");
}

TEST_CASE("Correlations that contradict each other are refused, and the nearest that are offered are taken") {
  const std::string scatter =
      "torque = { spread = \"5 %\" }\ndrag = { mean = \"1 N.m\", spread = \"40 %\", shape = \"lognormal\" }\n";
  const std::string all = said(scatter +
                               "correlation = [[\"drag\", \"torque\", 0.9], [\"drag\", \"thread_friction\", 0.8], "
                               "[\"torque\", \"thread_friction\", -0.9]]");
  CHECK_THAT(all, StartsWith("shop/study.toml:17:16: the correlations contradict each other: the smallest eigenvalue "
                             "of their matrix is -") &&
                      Contains("Fix: type the nearest that fit together: shared_friction = 0.") &&
                      Contains("[\"torque\", \"drag\", 0."));
  std::string offered = all.substr(all.find("together: ") + 10);
  offered.replace(offered.find(", correlation"), 2, "\n");
  offered.pop_back();  // the full stop of the sentence
  CAPTURE(offered);
  CHECK(said(scatter + offered).empty());
}
