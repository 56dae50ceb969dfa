#include <fmt/format.h>

#include "studies/keep/schema.hpp"

namespace studies {
namespace {

constexpr const char* opening = R"(# Results

Each study leaves one file here, `<study>.h5`: HDF5, laid out so that xarray, h5py and netCDF tools open it as it is.
This page is made from the table that the program writes by; git ignores everything else in this folder.

```python
import xarray
quantiles = xarray.open_dataset("press.h5", engine="h5netcdf", group="summary/rated/quantiles")
print(quantiles["force"].sel(quantile=0.05, bound="estimate"))     # in quantiles["force"].units
candidates = xarray.open_dataset("press.h5", engine="h5netcdf", group="candidates")
```

- A file appears under its name only when it is complete; before that it is `<study>.h5.part`, which may be deleted when no
  program is running. What stood under the name before stays until then.
- The same study with the same key gives the same file, byte for byte: no times, no threads, no machine in it.
- Numbers carry HDF5's own checksums (Fletcher32; few ones that of their header). The last line of the file, behind what
  HDF5 readers look at, is the CRC-32 of every byte before it; `screwtiny vet press.h5` checks both. A file that another
  program has changed is no longer sealed.
- Every variable has `units` (SI, as UDUNITS spells them; `1` for bare numbers, flags and texts) and `long_name`. Numbers that
  do not exist are NaN, which is also their `_FillValue`; an output's `reason` then says why, `missing` on how many passes.
)";

void attribute_rows(std::string& page) {
  page +=
      fmt::format("\n## The root: format {}, version {}\n\n| attribute | type | meaning | when |\n|---|---|---|---|\n",
                  results_format, results_version);
  for (const auto& row : results_attributes())
    page += fmt::format("| `{}` | {} | {} | {} |\n", row.name, engine::name(row.type), row.meaning, row.when);
}

std::string joined(const std::vector<std::string>& dims) {
  std::string words;
  for (const auto& dim : dims) words += (words.empty() ? "" : ", ") + dim;
  return words;
}

void variable_rows(std::string& page) {
  std::string group;
  for (const auto& row : results_table()) {
    if (row.group != group) {
      group = row.group;
      page += fmt::format(
          "\n## `{}`\n\n| variable | type | dimensions | units | long name | when |\n|---|---|---|---|---|---|\n",
          group);
    }
    page += fmt::format("| `{}` | {} | {} | {} | {} | {} |\n", row.name, engine::name(row.type), joined(row.dims),
                        row.units, row.long_name, row.when);
  }
}

constexpr const char* closing = R"(
`<input>`, `<output>` and `<limit>` stand for one variable each: the scattered inputs, the outputs (`force`, `torque`, …,
`margin.yield`, …; in `/worth` the force of a clamp or the torque of a lift) and the limits asked. A lift without a drive has no input `drive`. The dimensions `candidate`, `pass`,
`point`, `size`, `choice`, `bin` and `edge` have no coordinate values. An output with fewer bins than another has zeros and NaN behind its own.
)";

}  // namespace

std::string schema_page() {
  std::string page = opening;
  attribute_rows(page);
  variable_rows(page);
  return page + closing;
}

}  // namespace studies
