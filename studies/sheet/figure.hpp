#pragma once
/// One figure of a sheet: the sentence above it, the numbers behind it, and what the script draws it from.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "studies/sheet/scene.hpp"

namespace studies::sheet {

using Json = nlohmann::ordered_json;
using Points = std::vector<std::pair<double, double>>;

/// Numbers as a table: cells are texts ready to print.
struct Table {
  std::vector<std::string> head;
  std::vector<std::vector<std::string>> rows;
};

struct Figure {
  std::string id;     ///< "chance": of the page's element, and of the files of `--figures`
  bool wide = false;  ///< two modules of the page
  std::string says;   ///< the sentence above it, made of the numbers
  std::string alt;    ///< what one who does not see it is told
  std::string note;   ///< below it; may be empty
  Table numbers;
  Json data;  ///< as draw/data.ts says
};

/// A unit of his for values of one size, and that of the other system.
struct Unit {
  std::string own, other;  ///< `other` is empty where both are the same
  double scale = 1;        ///< SI × scale = own
  double factor = 1;       ///< own × factor = other
  Json json() const;
};
/// @param si  a value of the size that is shown, not 0
Unit unit_for(const say::HisUnits& his, double si, engine::Dimension dimension);

/// @param unit  null: bare numbers
Json axis(const std::string& name, const Unit* unit, double from, double to, bool log = false);
/// A line of data; points in units of the axes.
Json line(const std::string& label, const char* pen, const Points& points);
/// @param side  where nothing may stand: 1 above or to the right, −1 below or to the left
Json wall(const char* on, double at, int side, const std::string& label);

/// A thin line that tells where things stand.
Json here(double at, const std::string& label);

/// The data of a figure of lines.
struct LinesData {
  bool wide = false;
  int height = 0;
  Json x = {}, y = {};  ///< axes
  Json lines = Json::array(), walls = Json::array(), bars = Json::array(), marks = Json::array(), here = Json::array();
  Json spare = {};  ///< a dimension between two heights; null where there is none
  Json names = {};  ///< of the things that x counts; null where x is a number
  Json json() const;
};

/// What a limit has over what is asked, from its margin: 1 or more holds.
inline double over_asked(const models::Limit& limit, double margin) { return margin / limit.least_margin(); }

/// The value that a share of them lies at or below.
/// @param values  not empty
double quantile(std::vector<double> values, double share);
/// The least power of ten times 1, 2 or 5, or a fraction of it in fifths, that is no less.
double rounded_up(double value);
/// Three figures, as tables and labels print a number.
std::string figures(double value);
/// "22 kN [4950 lbf]".
std::string both(const say::HisUnits& his, double si, engine::Dimension dimension);
/// The same of a value that was typed or is standard: all its figures.
std::string both_given(const say::HisUnits& his, double si, engine::Dimension dimension);

}  // namespace studies::sheet
