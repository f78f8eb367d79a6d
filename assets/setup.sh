# Shared by ./start and ./check: packages and builds. Sourced, with the repository as current folder.

# install_packages <purpose>...: what is missing of the lists in assets/packages.txt.
install_packages() {
    local wanted missing="" purpose package
    for purpose in "$@"; do
        wanted="$wanted $(sed -n "s/^$purpose //p" assets/packages.txt | tr '\n' ' ')"
    done
    for package in $wanted; do
        dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' ||
            missing="$missing $package"
    done
    [ -n "$missing" ] || return 0
    local as_root=""
    if [ "$(id -u)" != 0 ]; then
        if ! command -v sudo >/dev/null; then
            echo "packages are missing; as root: apt-get install --no-install-recommends$missing" >&2
            return 1
        fi
        as_root=sudo
    fi
    echo "installing:$missing"
    quietly $as_root apt-get update -q &&
        quietly $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends $missing
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

# build <folder> <target> <cmake option>...: configures once, builds what changed.
build() {
    local folder=$1 target=$2
    shift 2
    if [ ! -f "$folder/build.ninja" ]; then
        quietly cmake -G Ninja -S . -B "$folder" "$@" || return 1
    fi
    quietly cmake --build "$folder" --target "$target" --parallel "$(nproc)"
}
