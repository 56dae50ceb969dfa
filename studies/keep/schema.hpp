#pragma once
/// The one table of the results file: what is written, how it is checked and what its page says come from here.
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/units.hpp"
#include "engine/store/schema.hpp"

namespace studies {

inline constexpr const char* results_format = "screwtiny-results";
/// Raised whenever an older program could misread a newer file.
inline constexpr std::int64_t results_version = 1;

/// Every variable, in the order written. A row whose name holds `<input>`, `<output>` or `<limit>` stands for one
/// variable for each of them, its `<unit>` and `<meaning>` filled in alike.
const std::vector<engine::StoredVariable>& results_table();
/// Every attribute of the root, in the order written.
const std::vector<engine::StoredAttribute>& results_attributes();

/// The row with this path: "/candidates/mass", "/summary/rated/quantiles/<output>".
/// @throws std::logic_error when there is none
const engine::StoredVariable& results_row(std::string_view path);
/// The variable that a row with a `<…>` in its name stands for.
engine::StoredVariable spelled(const engine::StoredVariable& row, const std::string& name, engine::Dimension dimension,
                               const std::string& meaning);

/// The SI unit as UDUNITS and CF readers take it: "N m", "Pa m/s"; "1" for none.
std::string file_unit(engine::Dimension dimension);

/// The page of the results folder, in Markdown, made of the tables above.
std::string schema_page();

}  // namespace studies
