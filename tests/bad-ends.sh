#!/usr/bin/env bash
# What happens when there is no network, no root, no room, a package is gone, or somebody stops it: one line that says
# which and what to do, and nothing left. tests/bad-ends.sh list names the cases, tests/bad-ends.sh CASE tries one.
# Run as root.
set -uo pipefail
cd "$(dirname "$0")/.."
work=$(mktemp -d)
chmod 755 "$work"
trap 'umount -q "$work/small" 2>/dev/null; rm -rf --one-file-system "$work"' EXIT

nobody=(setpriv --reuid=65534 --regid=65534 --clear-groups)

# an_install_sh: a copy of install.sh that also wants a package nobody has.
an_install_sh() {
    sed 's/^build=(/build=(battwright-no-such-package/' third_party/install.sh >"$work/install.sh"
    chmod 755 "$work/install.sh"
}

# ends CODE WORDS COMMAND...: the command must end with CODE, and the line of install.sh, bare-machine or the like that
# says why, one line, must hold WORDS.
ends() {
    local code=$1 words=$2 got
    shift 2
    "$@" >"$work/said" 2>&1 </dev/null
    got=$?
    cat "$work/said"
    [ "$got" -eq "$code" ] || { echo "ended with $got, not $code"; return 1; }
    [ "$(grep -c -E '^(install\.sh|bare-machine): ' "$work/said")" -eq 1 ] || { echo "not one line"; return 1; }
    grep -E '^(install\.sh|bare-machine): ' "$work/said" | grep >/dev/null -F -- "$words" || { echo "no word of: $words"; return 1; }
}

nothing_left() {
    [ -z "$(ls -A "$work/place")" ] || { echo "left behind: $(ls -A "$work/place")"; return 1; }
    ! grep -F "$work/place" /proc/mounts || { echo "still mounted"; return 1; }
}

install_of_nothing_known() { ends 1 "say nothing, package, tests, bare or wasm" third_party/install.sh nonsense; }
install_without_root() {
    an_install_sh
    ends 1 "as root run third_party/install.sh, which installs: battwright-no-such-package" "${nobody[@]}" "$work/install.sh"
}
install_without_network() {
    an_install_sh
    ends 1 "cannot be fetched; see to the network" unshare --net "$work/install.sh"
}
install_of_a_package_that_is_gone() {
    an_install_sh
    ends 1 "Debian has no package battwright-no-such-package" "$work/install.sh"
}
install_on_a_full_disk() {
    # A stand-in for df: what apt would unpack is real, the room is not.
    mkdir "$work/bin"
    printf '#!/bin/sh\necho Avail\necho 7MB\n' >"$work/bin/df"
    chmod 755 "$work/bin/df"
    local missing
    missing=$(for name in hello sl cowsay figlet; do dpkg-query -W "$name" >/dev/null 2>&1 || { echo "$name"; break; }; done)
    sed "s/^build=(/build=($missing/" third_party/install.sh >"$work/install.sh"
    chmod 755 "$work/install.sh"
    ends 1 "the disk has 7 MB free" env PATH="$work/bin:$PATH" "$work/install.sh" &&
        ! dpkg-query -W "$missing" 2>/dev/null
}
bare_machine_asked_for_nothing() { ends 2 "main, tests or package DEB" tests/bare-machine.sh; }
bare_machine_without_root() {
    mkdir -m 1777 "$work/place"
    cp -r tests README.md "$work/" && chmod -R a+rX "$work"
    ends 3 "run it as root" env TMPDIR="$work/place" "${nobody[@]}" "$work/tests/bare-machine.sh" main && nothing_left
}
bare_machine_without_mmdebstrap() {
    mkdir "$work/bin" "$work/place"
    local tool
    for tool in bash env realpath dirname id awk sed; do ln -s "$(command -v "$tool")" "$work/bin/"; done
    ends 3 "mmdebstrap is missing; third_party/install.sh bare brings it" env PATH="$work/bin" TMPDIR="$work/place" tests/bare-machine.sh main &&
        nothing_left
}
bare_machine_without_network() {
    mkdir "$work/place"
    ends 3 "mmdebstrap stopped" unshare --net env TMPDIR="$work/place" tests/bare-machine.sh package README.md && nothing_left
}
bare_machine_on_a_full_disk() {
    mkdir "$work/small"
    mount -t tmpfs -o size=20m tmpfs "$work/small"
    ln -s small "$work/place"
    ends 3 "make room or set TMPDIR" env TMPDIR="$work/small" tests/bare-machine.sh package README.md && nothing_left
}
bare_machine_stopped_halfway() {
    mkdir "$work/place"
    TMPDIR="$work/place" tests/bare-machine.sh package README.md >"$work/said" 2>&1 &
    local running=$!
    for _ in $(seq 100); do
        compgen -G "$work/place/*/root/*" >/dev/null && break
        sleep 0.3
    done
    kill -TERM "$running"
    wait "$running"
    local code=$?
    cat "$work/said"
    [ "$code" -eq 130 ] || { echo "ended with $code, not 130"; return 1; }
    nothing_left
}
# .ci/run where no root can be made: in place, said loudly just before the counted line, which is the last.
ci_in_place() {
    mkdir -p "$work/tree/.ci" "$work/tree/tests" "$work/tree/third_party"
    cp .ci/run "$work/tree/.ci/"
    printf '#!/bin/sh\nexit 0\n' >"$work/tree/third_party/install.sh"
    printf '#!/bin/sh\nexit 3\n' >"$work/tree/tests/bare-machine.sh"
    # The end of the real run.sh, with figures given.
    { echo 'passed=7 failed=0 skipped='; tail -n 3 tests/run.sh; } >"$work/tree/tests/run.sh"
    chmod 755 "$work"/tree/*/*.sh
    sed -i '1i #!/usr/bin/env bash' "$work/tree/tests/run.sh"
    local said
    said=$(env -u BATTWRIGHT_NOTICE bash "$work/tree/.ci/run" </dev/null) || { echo "$said"; return 1; }
    echo "$said"
    [ "$(tail -n 1 <<<"$said")" = "7 passed, 0 failed" ] &&
        tail -n 4 <<<"$said" | grep >/dev/null '^\*\*\* NOT ON A BARE MACHINE.*\*\*\*$'
}
# .ci/run where the tests of the bare root fail: it fails, and does not try again in place.
ci_that_fails() {
    mkdir -p "$work/tree/.ci" "$work/tree/tests" "$work/tree/third_party"
    cp .ci/run "$work/tree/.ci/"
    printf '#!/bin/sh\nexit 0\n' >"$work/tree/third_party/install.sh"
    printf '#!/bin/sh\necho "6 passed, 1 failed"\nexit 1\n' >"$work/tree/tests/bare-machine.sh"
    printf '#!/bin/sh\necho "7 passed, 0 failed"\n' >"$work/tree/tests/run.sh"
    chmod 755 "$work"/tree/*/*.sh
    local said
    said=$(bash "$work/tree/.ci/run" </dev/null) && return 1
    [ "$said" = "6 passed, 1 failed" ]
}

cases=$(sed -n 's/^\([a-z_]*\)() {.*/\1/p' "$0" | grep -v -x -E 'an_install_sh|ends|nothing_left')
if [ "${1:-}" = list ]; then
    echo "$cases"
elif grep -q -x -F -- "${1:-}" <<<"$cases"; then
    "$1"
else
    echo "bad-ends: say list, or one of: ${cases//$'\n'/ }" >&2
    exit 2
fi
