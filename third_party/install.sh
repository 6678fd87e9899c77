#!/usr/bin/env bash
# Installs what Battwright needs on Debian 12, from Debian's own packages. Run as root.
#   install.sh          what it takes to build and run
#   install.sh package  and what it takes to make a Debian package of it
#   install.sh tests    and what the tests need besides
#   install.sh bare     only what tests/bare-machine.sh needs to make a bare Debian
#   install.sh wasm     what tests/wasm.sh needs besides: the engine for node and the browser
#   install.sh --list [package|tests|bare|wasm]   names the packages and installs nothing
# One line says what is wrong when it cannot; apt's own words stand above it.
set -euo pipefail

build=(
    g++ cmake ninja-build pkg-config
    libimgui-dev libstb-dev libglfw3-dev libepoxy-dev libgl1-mesa-dri libegl1
    libglm-dev libeigen3-dev libtomlplusplus-dev nlohmann-json3-dev libcli11-dev libexpected-dev libfmt-dev
    libpango1.0-dev libfontconfig-dev libqrencode-dev libzbar-dev fonts-lato
    libpng-dev libturbojpeg0-dev libexif-dev
    libsqlite3-dev libnlopt-dev libnlopt-cxx-dev coinor-libclp-dev
)
package=(
    dpkg-dev file
)
bare=(
    mmdebstrap debian-archive-keyring git
)
wasm=(
    emscripten
)
tests=(
    doctest-dev liblcms2-dev colord-data libbenchmark-dev python3 python3-jsonschema
    fonts-droid-fallback xvfb xauth xdotool imagemagick poppler-utils zbar-tools
    clang clang-format clang-tidy libclang-rt-14-dev
    lintian desktop-file-utils appstream man-db bsdextrautils shared-mime-info libglib2.0-bin librsvg2-bin
)

stop() {
    echo "install.sh: $1" >&2
    exit 1
}

# wanted COMMAND: the packages that install.sh COMMAND installs.
wanted() {
    case $1 in
        build) printf '%s\n' "${build[@]}" ;;
        package) printf '%s\n' "${build[@]}" "${package[@]}" ;;
        tests) printf '%s\n' "${build[@]}" "${package[@]}" "${bare[@]}" "${tests[@]}" ;;
        bare) printf '%s\n' "${bare[@]}" ;;
        wasm) printf '%s\n' "${build[@]}" python3 "${wasm[@]}" ;;
        *) stop "nothing is called '$1'; say nothing, package, tests, bare or wasm" ;;
    esac
}

if [ "${1:-}" = --list ]; then
    wanted "${2:-build}"
    exit
fi
names=$(wanted "${1:-build}")

export DEBIAN_FRONTEND=noninteractive LC_ALL=C
command -v apt-get >/dev/null || stop "there is no apt-get here: this script is for Debian 12; install by hand: ${names//$'\n'/ }"
missing=()
for name in $names; do
    dpkg-query -W -f='${Status}' "$name" 2>/dev/null | grep -q 'ok installed' || missing+=("$name")
done
[ "${#missing[@]}" -gt 0 ] || exit 0
[ "$(id -u)" = 0 ] || stop "only root can install packages; as root run third_party/install.sh${1:+ $1}, which installs: ${missing[*]}"

fetched=yes
apt-get update -q -o APT::Update::Error-Mode=any || fetched=no
plan=(apt-get install -q --no-install-recommends)
if ! planned=$("${plan[@]}" -y --simulate "${missing[@]}" 2>&1); then
    [ "$fetched" = yes ] || stop "Debian's lists of packages cannot be fetched; see to the network or /etc/apt/sources.list and run this again"
    gone=$(sed -n 's/^E: Unable to locate package //p; s/^E: Package .\(.*\). has no installation candidate/\1/p' <<<"$planned" | xargs)
    [ -z "$gone" ] || stop "Debian has no package $gone here; this script is for Debian 12 (bookworm) with its main section"
    echo "$planned" >&2
    stop "apt-get cannot install ${missing[*]}: mend what it says above and run this again"
fi

# What it takes on the disk: each package to be, as it is fetched (bytes) and as it lies (kilobytes).
new=$(sed -n 's/^Inst \([^ ]*\) .*/\1/p' <<<"$planned")
need=$(apt-cache show --no-all-versions $new |
    awk '/^Installed-Size: / { k += $2 } /^Size: / { b += $2 } END { printf "%d", k / 1000 + b / 1e6 + 100 }')
free=$(df --output=avail -BMB /usr | tr -dc '0-9\n' | tail -n 1)
[ "$free" -gt "$need" ] || stop "the disk has $free MB free and the packages need $need MB; make room and run this again"

"${plan[@]}" -y "${missing[@]}" || stop "apt-get stopped (its reason is above); see to it and run this again, nothing is lost"
