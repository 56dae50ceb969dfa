#include "studies/keep/schema.hpp"

#include <algorithm>
#include <stdexcept>

namespace studies {
namespace {

using engine::Stored;
using engine::StoredAttribute;
using engine::StoredVariable;

constexpr const char* always = "always";
constexpr const char* tried = "a screw was tried";
constexpr const char* tried_and_asked = "a screw was tried and something must hold";
constexpr const char* kept = "the passes are kept";
constexpr const char* picked = "there is a pick";
constexpr const char* judged = "there is a pick and something must hold";
constexpr const char* settling = "settling was asked and there is a pick";
constexpr const char* scattered = "there is a pick and something scatters";
constexpr const char* valued = "that limit was asked and is judged";

std::string filled(std::string text, std::string_view mark, const std::string& with) {
  if (const auto at = text.find(mark); at != std::string::npos) text.replace(at, mark.size(), with);
  return text;
}

}  // namespace

const std::vector<StoredVariable>& results_table() {
  static const std::vector<StoredVariable> table = {
      {"/study", "text", Stored::text, {}, "1", "the study file, word for word", always},
      {"/study",
       "tables",
       Stored::text,
       {},
       "1",
       "the data tables used, files of draws included, word for word",
       always},
      {"/study", "answer_json", Stored::text, {}, "1", "the whole answer as --json prints it", always},
      {"/study", "answer_text", Stored::text, {}, "1", "the whole answer as the terminal shows it", always},

      {"/candidates", "limit", Stored::text, {"limit"}, "1", "what must hold", tried_and_asked},
      {"/candidates", "designation", Stored::text, {"candidate"}, "1", "thread designation", tried},
      {"/candidates", "form", Stored::text, {"candidate"}, "1", "thread form", tried},
      {"/candidates", "diameter", Stored::f64, {"candidate"}, "m", "nominal diameter", tried},
      {"/candidates", "pitch", Stored::f64, {"candidate"}, "m", "pitch", tried},
      {"/candidates", "starts", Stored::i64, {"candidate"}, "1", "thread starts", tried},
      {"/candidates", "pitch_diameter", Stored::f64, {"candidate"}, "m", "pitch diameter", tried},
      {"/candidates", "root_diameter", Stored::f64, {"candidate"}, "m", "root diameter of the screw", tried},
      {"/candidates", "nut_length", Stored::f64, {"candidate"}, "m", "length of the nut", tried},
      {"/candidates", "nut_outside", Stored::f64, {"candidate"}, "m", "outside diameter of the nut", tried},
      {"/candidates", "lubrication", Stored::text, {"candidate"}, "1", "lubrication; empty where not needed", tried},
      {"/candidates", "screw", Stored::text, {"candidate"}, "1", "material of the screw", tried},
      {"/candidates", "nut", Stored::text, {"candidate"}, "1", "material of the nut", tried},
      {"/candidates", "face", Stored::text, {"candidate"}, "1", "thrust face", tried},
      {"/candidates", "mass", Stored::f64, {"candidate"}, "kg", "mass of screw and nut, nominal", tried},
      {"/candidates", "torque", Stored::f64, {"candidate"}, "N m", "torque at the duty's force, nominal", tried},
      {"/candidates", "picked", Stored::u8, {"candidate"}, "1", "1: the pick", tried},
      {"/candidates",
       "examined",
       Stored::u8,
       {"candidate"},
       "1",
       "1: its limits were judged on the shared passes",
       tried},
      {"/candidates", "ruled_out", Stored::u8, {"candidate"}, "1", "1: cannot be built or used at all", tried},
      {"/candidates", "passes", Stored::u8, {"candidate"}, "1", "1: every limit holds on the shared passes", tried},
      {"/candidates",
       "fresh_failed",
       Stored::u8,
       {"candidate"},
       "1",
       "1: held on the shared passes and missed on fresh ones",
       tried},
      {"/candidates", "misses", Stored::text, {"candidate"}, "1", "first limit missed; empty where none is", tried},
      {"/candidates", "has", Stored::f64, {"candidate"}, "1", "margin judged of the first limit missed", tried},
      {"/candidates", "needs", Stored::f64, {"candidate"}, "1", "margin asked of the first limit missed", tried},
      {"/candidates", "why", Stored::text, {"candidate"}, "1", "why it is ruled out, in words", tried},
      {"/candidates",
       "margins",
       Stored::f64,
       {"candidate", "limit"},
       "1",
       "margin of each limit, nominal",
       tried_and_asked},
      {"/candidates",
       "at_odds",
       Stored::f64,
       {"candidate", "limit"},
       "1",
       "margin of each limit as judged: at its odds, else nominal",
       tried_and_asked},

      {"/passes/rated", "<input>", Stored::f64, {"pass"}, "<unit>", "<meaning>", kept},
      {"/passes/rated", "<output>", Stored::f64, {"pass"}, "<unit>", "<meaning>", kept},

      {"/summary/rated/outputs",
       "statistic",
       Stored::text,
       {"statistic"},
       "1",
       "nominal, mean, spread, least, most",
       picked},
      {"/summary/rated/outputs", "<output>", Stored::f64, {"statistic"}, "<unit>", "<meaning>", picked},
      {"/summary/rated/quantiles", "quantile", Stored::f64, {"quantile"}, "1", "share of the passes below", picked},
      {"/summary/rated/quantiles", "bound", Stored::text, {"bound"}, "1", "95 % bounds: low, estimate, high", picked},
      {"/summary/rated/quantiles", "<output>", Stored::f64, {"quantile", "bound"}, "<unit>", "<meaning>", picked},
      {"/summary/rated/coverage",
       "interval",
       Stored::text,
       {"interval"},
       "1",
       "symmetric, shortest: cover 95 % of the passes; tolerance: two bounds, each 95 % sure by itself that 95 % of "
       "all lie "
       "at or above low, at or below high",
       picked},
      {"/summary/rated/coverage", "end", Stored::text, {"end"}, "1", "low, high", picked},
      {"/summary/rated/coverage", "<output>", Stored::f64, {"interval", "end"}, "<unit>", "<meaning>", picked},
      {"/summary/rated/settling",
       "estimate",
       Stored::text,
       {"estimate"},
       "1",
       "what was to settle: mean, spread, ends of the symmetric 95 % interval, odds",
       settling},
      {"/summary/rated/settling",
       "tolerance",
       Stored::f64,
       {"estimate"},
       "1",
       "twice the standard deviation of the mean over the batches, in the SI unit of the estimate",
       settling},
      {"/summary/rated/settling",
       "allowed",
       Stored::f64,
       {"estimate"},
       "1",
       "tolerance that the digits allow, in the same unit",
       settling},
      {"/summary/rated/settling", "settled", Stored::u8, {"estimate"}, "1", "1: it settled", settling},
      {"/summary/rated/histograms",
       "<output>",
       Stored::i64,
       {"bin"},
       "1",
       "passes in each bin: <meaning>",
       "the output varies"},
      {"/summary/rated/histograms",
       "<output>.edges",
       Stored::f64,
       {"edge"},
       "<unit>",
       "edges of the bins: <meaning>",
       "the output varies"},

      {"/summary/rated/limits", "limit", Stored::text, {"limit"}, "1", "what must hold", judged},
      {"/summary/rated/limits", "bound", Stored::text, {"bound"}, "1", "95 % bounds: low, estimate, high", judged},
      {"/summary/rated/limits", "kind", Stored::text, {"limit"}, "1", "margin, at_least or at_most", judged},
      {"/summary/rated/limits",
       "asked_odds",
       Stored::f64,
       {"limit"},
       "1",
       "share of the passes asked; none: judged at nominal",
       judged},
      {"/summary/rated/limits",
       "odds",
       Stored::f64,
       {"limit", "bound"},
       "1",
       "share of the passes on which it holds",
       judged},
      {"/summary/rated/limits", "misses", Stored::i64, {"limit"}, "1", "passes on which it does not hold", judged},
      {"/summary/rated/limits", "needed_margin", Stored::f64, {"limit"}, "1", "least margin that holds", judged},
      {"/summary/rated/limits", "nominal_margin", Stored::f64, {"limit"}, "1", "margin at nominal", judged},
      {"/summary/rated/limits",
       "spare",
       Stored::f64,
       {"limit"},
       "1",
       "to spare: has/asked - 1, or 1 - has/asked for at_most",
       judged},
      {"/summary/rated/limits", "holds", Stored::u8, {"limit"}, "1", "1: it holds", judged},
      {"/summary/rated/limits",
       "bounds_straddle",
       Stored::u8,
       {"limit"},
       "1",
       "1: the bounds of its odds contain the odds asked",
       judged},
      {"/summary/rated/limits", "<limit>.asked", Stored::f64, {}, "<unit>", "what is asked: <meaning>", valued},
      {"/summary/rated/limits",
       "<limit>.has",
       Stored::f64,
       {},
       "<unit>",
       "the value judged, nominal or the one that the asked share reaches: <meaning>",
       valued},

      {"/sensitivity/rated", "judged", Stored::text, {}, "1", "the output of which all this is said", scattered},
      {"/sensitivity/rated", "bound", Stored::text, {"bound"}, "1", "95 % bounds: low, estimate, high", scattered},
      {"/sensitivity/rated", "shortfall", Stored::f64, {"bound"}, "1", "share of the passes that miss it", scattered},
      {"/sensitivity/rated",
       "inputs",
       Stored::text,
       {"inputs"},
       "1",
       "scattered inputs; those whose scatter is tied stand together, with + between them",
       scattered},
      {"/sensitivity/rated",
       "share",
       Stored::f64,
       {"inputs", "bound"},
       "1",
       "share of the variance that knowing the inputs would take away on average (first-order Sobol' index)",
       scattered},
      {"/sensitivity/rated",
       "total",
       Stored::f64,
       {"inputs", "bound"},
       "1",
       "share of the variance left if all else were known (total Sobol' index)",
       scattered},
      {"/sensitivity/rated",
       "halved_shortfall",
       Stored::f64,
       {"inputs", "bound"},
       "1",
       "share of the passes that miss it with the inputs' scatter halved",
       scattered},
      {"/sensitivity/rated",
       "halved_change",
       Stored::f64,
       {"inputs", "bound"},
       "1",
       "change of the shortfall by that, on the same passes",
       scattered},
      {"/sensitivity/rated",
       "varies",
       Stored::text,
       {"varies"},
       "1",
       "classes of scatter: every pull, every screw, fixed",
       scattered},
      {"/sensitivity/rated",
       "class_share",
       Stored::f64,
       {"varies", "bound"},
       "1",
       "share of the variance by class (first-order Sobol' index)",
       scattered},
      {"/sensitivity/rated",
       "class_total",
       Stored::f64,
       {"varies", "bound"},
       "1",
       "share of the variance by class (total Sobol' index)",
       scattered},
      {"/sensitivity/rated", "end", Stored::text, {"end"}, "1", "ends of a swing: quantiles 0.05, 0.95", scattered},
      {"/sensitivity/rated", "<input>", Stored::f64, {"end"}, "<unit>", "ends of the swing: <meaning>", scattered},
      {"/sensitivity/rated",
       "<input>.swing",
       Stored::f64,
       {"end"},
       "1",
       "what is judged at the ends of the swing, all else at nominal",
       scattered},
  };
  return table;
}

const std::vector<StoredAttribute>& results_attributes() {
  static const std::vector<StoredAttribute> table = {
      {"Conventions", Stored::text, "how units and names are to be read: CF-1.8", always},
      {"format", Stored::text, "name of this format", always},
      {"format_version", Stored::i64, "its version; a program refuses what is newer than it knows", always},
      {"program", Stored::text, "what wrote the file", always},
      {"program_version", Stored::text, "its version", always},
      {"title", Stored::text, "title of the study", always},
      {"verb", Stored::text, "size or rate", always},
      {"study_digest", Stored::text, "SHA-256 of the study file", always},
      {"tables_digest", Stored::text, "SHA-256 of the data tables, files of draws included", always},
      {"answer_digest", Stored::text, "SHA-256 of /study/answer_json", always},
      {"plan", Stored::text, "plan of the passes: plain, sobol or latin", always},
      {"key", Stored::i64, "the random key (unsigned)", always},
      {"passes_asked", Stored::i64, "passes asked for; at most, where they are to settle (unsigned)", always},
      {"settle_digits", Stored::i64, "digits that are to stand; 0: a number of passes was asked", always},
      {"passes", Stored::i64, "passes made (unsigned)", always},
      {"kept", Stored::i64, "1: the passes are in /passes", always},
      {"scan", Stored::i64, "1: every candidate was examined", always},
      {"exit_code", Stored::i64, "0: every limit holds, 1: some limit does not or nothing passes, 4: not settled",
       always},
      {"verdict", Stored::text, "the verdict in a sentence", always},
      {"pick", Stored::text, "designation of the screw chosen or rated; empty where nothing passes", always},
      {"mass", Stored::f64, "its mass in kg", picked},
      {"governs", Stored::text, "the limit that the next size down first misses; empty where none", always},
      {"tightest", Stored::text, "the limit with least to spare; empty where none", always},
      {"line_answer", Stored::text, "the answer in few words, for a table of several studies", always},
      {"line_mass", Stored::text, "the mass in the user's unit, for the same", always},
      {"line_tightest", Stored::text, "the tightest limit and what it has to spare, for the same", always},
      {"settled", Stored::i64, "1: everything settled; 0: the passes reached their most first", settling},
      {"batches", Stored::i64, "batches of passes made (unsigned)", settling},
  };
  return table;
}

const StoredVariable& results_row(std::string_view path) {
  const auto& table = results_table();
  const auto row = std::find_if(table.begin(), table.end(), [&](const auto& each) { return each.path() == path; });
  if (row == table.end()) throw std::logic_error(std::string(path) + " has no row in the table of the results file");
  return *row;
}

StoredVariable spelled(const StoredVariable& row, const std::string& name, engine::Dimension dimension,
                       const std::string& meaning) {
  StoredVariable variable = row;
  for (const char* mark : {"<input>", "<output>", "<limit>"}) variable.name = filled(variable.name, mark, name);
  variable.units = filled(variable.units, "<unit>", file_unit(dimension));
  variable.long_name = filled(variable.long_name, "<meaning>", meaning);
  return variable;
}

std::string file_unit(engine::Dimension dimension) {
  std::string unit = engine::si_unit(dimension);
  std::replace(unit.begin(), unit.end(), '.', ' ');
  return unit.empty() ? "1" : unit;
}

}  // namespace studies
