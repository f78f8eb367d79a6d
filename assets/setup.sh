# shellcheck shell=bash
# Shared by ./start and ./check: packages and builds. Sourced, with the repository as current folder.
# Progress goes to standard error: what the program prints may be read by another one.

# install_packages <purpose>...: what is missing of the lists in assets/packages.txt.
install_packages() {
    local purpose package missing=() as_root=()
    for purpose in "$@"; do
        for package in $(sed -n "s/^$purpose //p" assets/packages.txt); do
            dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' ||
                missing+=("$package")
        done
    done
    [ ${#missing[@]} -gt 0 ] || return 0
    if [ "$(id -u)" != 0 ]; then
        if ! command -v sudo >/dev/null; then
            echo "packages are missing; run this as root, then try again:" >&2
            echo "apt-get update && apt-get install --no-install-recommends ${missing[*]}" >&2
            return 1
        fi
        as_root=(sudo)
    fi
    echo "installing: ${missing[*]}" >&2
    quietly "${as_root[@]}" apt-get update -q &&
        quietly "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
            apt-get install -y -q --no-install-recommends "${missing[@]}"
}

# quietly <command>...: no output unless it fails; then the end of it.
quietly() {
    local log
    log=$(mktemp)
    if "$@" >"$log" 2>&1 </dev/null; then
        rm -f "$log"
        return 0
    fi
    echo "failed: $*" >&2
    tail -n 60 "$log" >&2
    rm -f "$log"
    return 1
}

# build <folder> <target> <compiler> <cmake option>...: configures once, builds what changed.
build() {
    local folder=$1 target=$2 compiler=$3
    shift 3
    if [ ! -f "$folder/build.ninja" ]; then
        quietly cmake -G Ninja -S . -B "$folder" -DCMAKE_CXX_COMPILER="$compiler" "$@" || return 1
    fi
    quietly cmake --build "$folder" --target "$target" --parallel "$(nproc)"
}
