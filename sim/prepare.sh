# What sim/run and tests/run share: finding missing packages, and building without noise.
# Sourced, not run. `root` is the top of the project.

set -euo pipefail
unset CDPATH

say() { printf '%s\n' "$*" >&2; }
refuse() { say "$*"; exit 1; }

programPackages=(g++ cmake ninja-build pkg-config libeigen3-dev libyaml-cpp-dev libcli11-dev
    nlohmann-json3-dev libcairo2-dev libpango1.0-dev fonts-inter)
deskPackages=(libsfml-dev libgl1-mesa-dri)

# missing PACKAGE... prints those that are not installed, one a line.
missing() {
    local installed package
    installed=$(dpkg-query -W -f='${Package} ${db:Status-Status}\n' "$@" 2>/dev/null || true)
    for package in "$@"; do
        grep -qxF "$package installed" <<<"$installed" || printf '%s\n' "$package"
    done
}

# needPackages FOLDER PURPOSE PACKAGE... installs what is missing, as root or through sudo.
needPackages() {
    local folder=$1 purpose=$2 wanted
    shift 2
    command -v apt-get >/dev/null && command -v dpkg-query >/dev/null ||
        refuse "Cistern is built on Debian or a relative of it; this system has no apt-get, so install these by other means and build with cmake: $*."
    mapfile -t wanted < <(missing "$@")
    [ ${#wanted[@]} -gt 0 ] || return 0
    local asRoot=()
    if [ "$(id -u)" -ne 0 ]; then
        asRoot=(sudo)
        [ -t 0 ] || asRoot=(sudo -n) # nobody is there to type a password
        command -v sudo >/dev/null && "${asRoot[@]}" true ||
            refuse "To $purpose these packages are missing, and installing them needs root or sudo: ${wanted[*]}."
    fi
    say "Installing what is missing to $purpose: ${wanted[*]}"
    local log=$folder/packages.log
    local install=("${asRoot[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${wanted[@]}")
    "${install[@]}" >"$log" 2>&1 </dev/null ||
        { "${asRoot[@]}" apt-get update && "${install[@]}"; } >"$log" 2>&1 </dev/null ||
        { tail -n 15 "$log" >&2; refuse "The packages could not be installed; all that apt-get said is in $log."; }
}

# buildFolder NAME makes a folder at the top of the project and prints its path.
buildFolder() {
    mkdir -p "$root/$1" 2>/dev/null && [ -w "$root/$1" ] ||
        refuse "The folder $root/$1 cannot be written to, and the program is built there."
    printf '%s\n' "$root/$1"
}

# One compiler for each processor, as far as memory allows: the largest files take about 1 GB.
jobs() {
    local processors memory
    processors=$(nproc)
    memory=$(awk '/^MemAvailable:/ { print int($2 / 1000000) }' /proc/meminfo 2>/dev/null || true)
    [ -n "$memory" ] && [ "$memory" -lt "$processors" ] && processors=$memory
    [ "$processors" -ge 1 ] && printf '%s\n' "$processors" || printf '1\n'
}

# quietly LOG COMMAND... runs a command, and shows the end of its output only if it fails.
quietly() {
    local log=$1
    shift
    "$@" >>"$log" 2>&1 </dev/null || {
        tail -n 40 "$log" >&2
        refuse "The build failed; all of its output is in $log."
    }
}

# configure FOLDER OPTION... prepares a build folder. One that was copied from elsewhere starts anew.
configure() {
    local folder=$1
    shift
    if [ -f "$folder/CMakeCache.txt" ] &&
        ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$root" "$folder/CMakeCache.txt"; then
        rm -rf "$folder/CMakeCache.txt" "$folder/CMakeFiles" "$folder/build.ninja"
    fi
    quietly "$folder/build.log" cmake -G Ninja -S "$root" -B "$folder" "$@"
}

# build FOLDER [TARGET]...
build() {
    local folder=$1
    shift
    quietly "$folder/build.log" ninja --quiet -C "$folder" -j "$(jobs)" "$@"
}

# alone FOLDER waits until no other run builds in the folder, and keeps others waiting until `doneBuilding`.
alone() {
    exec 9>"$1/lock"
    flock -n 9 || {
        say "Another run is building in $1; waiting for it."
        flock 9
    }
    : >"$1/build.log"
}
doneBuilding() { exec 9>&-; }
