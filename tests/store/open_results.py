"""Opens a results file as a user would and checks what stands in it: open_results.py FILE (made by keep_test.cpp)."""
import sys

import h5py
import numpy
import xarray

GROUPS = ["study", "candidates", "passes/rated", "summary/rated/outputs", "summary/rated/quantiles",
          "summary/rated/histograms", "summary/rated/limits", "rare/rated", "sensitivity/rated"]


def check_every_variable(path):
    for group in GROUPS:
        with xarray.open_dataset(path, engine="h5netcdf", group=group) as data:
            for name, variable in data.variables.items():
                assert variable.attrs.get("units"), (group, name, variable.attrs)
                assert isinstance(variable.attrs["units"], str), (group, name)
                assert variable.attrs.get("long_name"), (group, name)
                assert variable.dtype.kind in "fiuO", (group, name, variable.dtype)
                assert not any(dim.startswith("phony") for dim in variable.dims), (group, name)


def check_values(path):
    with xarray.open_dataset(path, engine="h5netcdf") as root:
        assert root.attrs["format"] == "screwtiny-results", root.attrs
        assert root.attrs["title"] == "Rack press — µ unsure"
        assert root.attrs["key"] == 18446744073709551615
    with xarray.open_dataset(path, engine="h5netcdf", group="summary/rated/quantiles") as quantiles:
        force = quantiles["force"]
        assert force.attrs["units"] == "N" and quantiles["torque"].attrs["units"] == "N m"
        assert force.sel(quantile=0.5, bound="estimate") == 0.5
        assert quantiles["stroke_time"].dtype == numpy.float64 and quantiles["stroke_time"].attrs["units"] == "s"
        assert quantiles["stroke_time"].isnull().all()
    with xarray.open_dataset(path, engine="h5netcdf", group="summary/rated/outputs") as outputs:
        assert outputs["force"].sel(statistic="mean") == 1
    with xarray.open_dataset(path, engine="h5netcdf", group="summary/rated/limits") as limits:
        assert list(limits["limit"].values) == ["force", "yield", "buckling"]
        assert limits["odds"].sel(limit="yield", bound="high") == 0.972
        assert limits["force.has"] == 22.8e3 and limits["force.has"].attrs["units"] == "N"
    with xarray.open_dataset(path, engine="h5netcdf", group="candidates") as candidates:
        assert candidates.sizes == {"candidate": 3, "limit": 3}, candidates.sizes
        assert list(candidates["designation"].values) == ["Tr 38x7", "Tr 40x7", "Tr 36x6"]
        assert candidates["margins"].sel(limit="buckling").values[1] == 3.31
    with xarray.open_dataset(path, engine="h5netcdf", group="passes/rated") as passes:
        assert passes["drive"].attrs["units"] == "N" and passes["torque"].values[7] == 1.007
        assert "pass" in passes.sizes and "pass" not in passes.variables


def check_h5py(path):
    with h5py.File(path) as file:
        mass = file["candidates/mass"]
        assert file["passes/rated/torque"].fletcher32 and mass.dims[0][0].name == "/candidates/candidate"
        assert file["study/text"][()].decode() == 'title = "Rack press — µ unsure"\n'
        assert numpy.isnan(mass.attrs["_FillValue"])


for check in (check_every_variable, check_values, check_h5py):
    check(sys.argv[1])
