#!/usr/bin/env bash
# Tries, on a bare Debian 12, what a stranger would do. Run as root, in a git checkout; it tries the committed tree.
#   tests/bare-machine.sh main          the README's first command: install, build, the forecast, a card, a strip
#   tests/bare-machine.sh tests         the README's second command, which ends with "N passed, N failed"
#   tests/bare-machine.sh package DEB   a package: install it where there is no compiler, use it, remove it
# Packages come from where this machine's apt takes Debian's. BATTWRIGHT_DEBS names a folder that keeps them for
# the next time; the root lies in TMPDIR, or /var/tmp. Ends with 0 when all went well, 1 when what was tried failed,
# 2 when it was asked wrongly, 3 when no bare root can be made here.
set -uo pipefail
self=$(realpath "$0")
top=$(dirname "$(dirname "$self")")
release=bookworm

stop() {  # CODE SENTENCE
    echo "bare-machine: $2" >&2
    exit "$1"
}

say() { echo "bare-machine: $*" >&2; }

# command_of N: the Nth of the README's commands.
command_of() {
    awk '/^```sh$/ { inside = 1; next } /^```$/ { inside = 0 } inside && /^third_party\/install\.sh/' "$top/README.md" |
        sed -n "$1p"
}

# sources: where this machine takes Debian 12 from, as lines of sources.list; nothing when it is another system.
sources() {
    apt-get indextargets --format 'deb $(REPO_URI) $(RELEASE) $(COMPONENT)' 'Created-By: Packages' 2>/dev/null |
        grep -E "^deb [^ ]+ $release(-updates|-security)? main$" | sort -u
}

# apt_settings: this machine's proxies and the like, as lines of apt.conf. A script that looks for a proxy stays behind.
apt_settings() {
    apt-config dump 2>/dev/null | grep -E '^Acquire::(Retries|https?::|ftp::)' | grep -v -i -E 'proxy-auto-detect|""'
}

# ---- inside a mount and process namespace of its own: what is mounted or started here ends with it ----

in_root() {  # COMMAND: as a fresh login of root would, with this machine's proxies
    local keep=() name
    for name in http_proxy https_proxy ftp_proxy no_proxy HTTP_PROXY HTTPS_PROXY NO_PROXY CI; do
        [ -z "${!name:-}" ] || keep+=("$name=${!name}")
    done
    env -i HOME=/root TERM=dumb PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin \
        ${keep[@]+"${keep[@]}"} chroot "$root" /bin/bash -o pipefail -c "$1" </dev/null
}

make_root() {
    local began=$SECONDS settings=() line include=()
    sources >"$place/sources.list"
    while IFS= read -r line; do settings+=("--aptopt=$line"); done < <(apt_settings)
    ! grep -q '^deb https' "$place/sources.list" || include=(--include=ca-certificates)
    local from=()
    [ ! -s "$place/sources.list" ] || from=("$place/sources.list")
    chmod 755 "$place"
    if ! TMPDIR="$place" mmdebstrap --mode=root --variant=minbase --format=directory ${settings[@]+"${settings[@]}"} \
        ${include[@]+"${include[@]}"} "$release" "$root" ${from[@]+"${from[@]}"} >"$place/log" 2>&1 </dev/null; then
        tail -n 15 "$place/log" >&2
        stop 3 "no bare Debian can be made here: mmdebstrap stopped (its words are above); see to the network, the space in $place, or the rights of this root"
    fi
    # A root that is a mount of its own can make such roots in turn.
    mount --bind "$root" "$root" &&
        mount -t proc proc "$root/proc" &&
        mount --bind /dev "$root/dev" &&
        { mount -t devpts -o newinstance,ptmxmode=0666,mode=620 devpts "$root/dev/pts" 2>/dev/null ||
            mount --bind /dev/pts "$root/dev/pts"; } &&
        mount -t tmpfs -o mode=1777 tmpfs "$root/dev/shm" ||
        stop 3 "no bare Debian can be made here: /proc and /dev cannot be mounted in it"
    cp -L /etc/resolv.conf /etc/hosts "$root/etc/" 2>/dev/null
    if [ -n "${BATTWRIGHT_DEBS:-}" ]; then
        mkdir -p "$BATTWRIGHT_DEBS" && mount --bind "$BATTWRIGHT_DEBS" "$root/var/cache/apt/archives" ||
            say "goes on without the packages kept in $BATTWRIGHT_DEBS"
    fi
    say "a bare Debian $(cat "$root/etc/debian_version") of $(in_root "dpkg-query -f '.\n' -W | wc -l") packages, made in $((SECONDS - began)) s"
}

failures=0
expect() {  # WHAT COMMAND: the command, run in the root, must succeed
    if in_root "$2" >"$place/log" 2>&1; then
        say "ok      $1"
    else
        say "FAILED  $1"
        tail -n 20 "$place/log" >&2
        failures=$((failures + 1))
    fi
}

copy_tree() {
    mkdir "$root/root/battwright" && tar -x -C "$root/root/battwright" -f "$place/tree.tar" ||
        stop 3 "the tree cannot be copied into the root: is the disk full?"
}

run_main() {
    copy_tree
    local command began=$SECONDS code
    command=$(command_of 1)
    say "runs: $command"
    in_root "cd /root/battwright && $command" 2>&1 | tee "$root/root/said"
    code=${PIPESTATUS[0]}
    say "the command ended with $code after $((SECONDS - began)) s"
    [ "$code" -eq 0 ] || stop 1 "the README's first command failed: its words are above"
    local here="cd /root/battwright"
    expect "the forecast is on the screen" "grep -q 'Kelp and Brass' ~/said && grep -q -E '[0-9] m\b' ~/said && grep -q 'No display: wrote' ~/said"
    expect "no test was built" "$here && ! ls build/test_* build/tests 2>/dev/null | grep ."
    expect "tools to open the files are there" "apt-get install -y -q --no-install-recommends poppler-utils imagemagick"
    expect "the card opens and names the batt" "$here && pdftotext kelp-and-brass-card.pdf - | grep >/dev/null 'Kelp and Brass'"
    expect "the strip opens and is no plain colour" "$here && identify -format '%w %k' kelp-and-brass-strip.png | awk '{ good = \$1 > 1000 && \$2 > 100 } END { exit !good }'"
    [ "$failures" -eq 0 ] || stop 1 "$failures of the things that must come of the first command did not"
    say "all well in $SECONDS s"
}

run_tests() {
    copy_tree
    local command began=$SECONDS code
    command=$(command_of 2)
    say "runs: $command"
    # The counted line is kept back, so that it is the last.
    in_root "cd /root/battwright && $command" 2>&1 | tee "$place/said" | grep --line-buffered -v -x -E "$counted"
    code=${PIPESTATUS[0]}
    say "the command ended with $code after $((SECONDS - began)) s, the root and all after $SECONDS s"
    local line
    line=$(grep -x -E "$counted" "$place/said" | tail -n 1)
    [ -n "$line" ] || stop 1 "the README's second command ended before it had counted its tests"
    echo "$line"
    exit "$((code != 0))"
}
counted='[0-9]+ passed, [0-9]+ failed(, [0-9]+ skipped)?'

inside() {  # PLACE WHAT [DEB]
    place=$1
    root=$place/root
    make_root
    case $2 in
        main) run_main ;;
        tests) run_tests ;;
        package) . "$top/tests/bare-package.sh" && run_package "$3" ;;
    esac
}

if [ "${1:-}" = inside ]; then
    shift
    inside "$@"
    exit
fi

# ---- outside: what is needed, the place, and its end ----

what=${1:-}
case $what in
    main | tests) [ $# = 1 ] ;;
    package) [ $# = 2 ] && [ -f "$2" ] || stop 2 "'package' wants the package's file: tests/bare-machine.sh package build/battwright_VERSION_amd64.deb" ;;
    *) false ;;
esac || stop 2 "say what to try: main, tests or package DEB"
[ "$(id -u)" = 0 ] || stop 3 "no bare Debian can be made here: only root can; run it as root"
for tool in mmdebstrap unshare git; do
    command -v "$tool" >/dev/null || stop 3 "no bare Debian can be made here: $tool is missing; third_party/install.sh bare brings it"
done
[ -n "$(command_of 2)" ] || stop 1 "README.md does not give two commands that begin with third_party/install.sh"
unshare --mount --pid --fork --mount-proc true 2>/dev/null ||
    stop 3 "no bare Debian can be made here: this machine lets nobody mount (a container without the right to?)"
place=$(mktemp -d "${TMPDIR:-/var/tmp}/battwright-bare.XXXXXX") || stop 3 "no bare Debian can be made here: no folder can be made in ${TMPDIR:-/var/tmp}"

running=
clean_up() {
    trap '' INT TERM HUP
    if [ -n "$running" ]; then
        # unshare lets other signals pass it by; with it ends all that runs in the root, and every mount.
        kill -KILL "$running" 2>/dev/null
        wait "$running" 2>/dev/null
    fi
    for _ in $(seq 50); do
        rm -rf --one-file-system "$place" 2>/dev/null && break
        sleep 0.1
    done
}
trap clean_up EXIT
trap 'exit 130' INT TERM HUP

declare -A megabytes=([main]=3000 [tests]=8000 [package]=1500)
free=$(df --output=avail -BMB "$place" | tr -dc '0-9\n' | tail -n 1)
[ "$free" -ge "${megabytes[$what]}" ] ||
    stop 3 "no bare Debian can be made here: ${TMPDIR:-/var/tmp} has $free MB free and '$what' needs ${megabytes[$what]} MB; make room or set TMPDIR"
if [ "$what" != package ]; then
    git -C "$top" archive --format=tar -o "$place/tree.tar" HEAD ||
        stop 3 "the committed tree cannot be read (git's words are above): run this in a git checkout"
else
    cp "$2" "$place/" || stop 3 "$2 cannot be copied to $place: is the disk full?"
    set -- package "$place/$(basename "$2")"
fi
unshare --mount --pid --fork --mount-proc --kill-child "$self" inside "$place" "$@" &
running=$!
wait "$running"
code=$?
running=
exit "$code"
