# Sourced by the two set-up scripts: installs what is missing from Debian's packages.

build_packages="g++ cmake make pkg-config libnlopt-cxx-dev libeigen3-dev libboost-random-dev libboost-math-dev
  libhdf5-dev libtomlplusplus-dev libcli11-dev libfmt-dev libudunits2-dev nlohmann-json3-dev libssl-dev zlib1g-dev"
# The calculation sheet's script; a node from elsewhere does as well.
command -v node >/dev/null && command -v npm >/dev/null || build_packages="$build_packages nodejs npm"
test_packages="catch2 chromium fonts-liberation mandoc librandom123-dev hdf5-tools python3 python3-numpy python3-xarray python3-h5netcdf python3-h5py"

need() {  # need PACKAGE…
  local missing=""
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q "install ok installed" || missing="$missing $package"
  done
  [ -z "$missing" ] && return 0
  local as_root=""
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || { echo "These Debian packages are missing:$missing. Install them as root, then try again." >&2; return 1; }
    as_root=sudo
  fi
  echo "Installing from Debian's packages:$missing"
  $as_root apt-get update -qq
  # shellcheck disable=SC2086
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null
}
