#!/usr/bin/env bash
# Installs what Battwright needs on Debian 12, from Debian's own packages. Run as root.
#   install.sh          what it takes to build and run
#   install.sh tests    and what the tests need besides
set -euo pipefail

build=(
    g++ cmake ninja-build pkg-config
    libimgui-dev libstb-dev libglfw3-dev libepoxy-dev libgl1-mesa-dri libegl1
    libglm-dev libeigen3-dev libtomlplusplus-dev nlohmann-json3-dev libcli11-dev libexpected-dev
    libpango1.0-dev libqrencode-dev fonts-lato
    libsqlite3-dev libnlopt-dev libnlopt-cxx-dev coinor-libclp-dev
)
tests=(
    doctest-dev liblcms2-dev colord-data libbenchmark-dev
    xvfb xauth xdotool imagemagick poppler-utils zbar-tools
    clang clang-format clang-tidy libclang-rt-14-dev
)

packages=("${build[@]}")
[ "${1:-}" = tests ] && packages+=("${tests[@]}")

export DEBIAN_FRONTEND=noninteractive
missing=()
for package in "${packages[@]}"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
done
if [ "${#missing[@]}" -gt 0 ]; then
    apt-get update -q
    apt-get install -y -q --no-install-recommends "${missing[@]}"
fi
